"""The wheel holds all that a shop needs: it is built, installed elsewhere and serves a page from there."""

import http.client
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.house import project


def run(*command, **options):
    done = subprocess.run(command, capture_output=True, text=True, timeout=300, **options)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", folder, project.ROOT)
    [built] = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """The Python of a fresh environment with the wheel, and with the libraries of this one behind it."""
    folder = tmp_path_factory.mktemp("installed")
    run(sys.executable, "-m", "venv", "--without-pip", folder / "venv")
    python = folder / "venv" / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    run(sys.executable, "-m", "pip", "--python", python, "install", "--no-deps", "--no-index", "--quiet", wheel)
    libraries = {str(Path(place)) for place in sys.path if place.endswith("site-packages")}
    site = Path(run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))").strip())
    (site / "libraries_of_the_tests.pth").write_text("\n".join(sorted(libraries)) + "\n")
    return python


def test_the_wheel_holds_every_template_and_static_file_and_nothing_of_the_tests(wheel):
    names = set(zipfile.ZipFile(wheel).namelist())
    for folder in ("templates", "static"):
        wanted = {f"webapp/{project.short(path)}" for path in project.under(folder, "")}
        assert wanted
        assert wanted <= names
    assert {f"{project.short(path)}" for path in project.under("webapp", "")} <= names
    assert not [name for name in names if name.startswith(("tests/", "demo/"))]
    assert any(name.endswith("licenses/LICENSE") for name in names)


def test_an_installed_shop_serves_its_first_page_with_its_style(installed, tmp_path):
    """Started as a shop starts it, in an empty folder, with nothing of the checkout in reach."""
    alone = {name: value for name, value in os.environ.items() if not name.startswith(("RACKSIDE_", "PYTHON"))}
    ask = "import webapp; print(webapp.__file__, webapp.beside('templates'))"
    assert str(project.ROOT) not in run(installed, "-c", ask, cwd=tmp_path, env=alone)
    doors = ["--host", "127.0.0.1", "--port", "0", "--staff-port", "0", "--https-port", "0", "--no-announce"]
    command = [installed, "-u", "-m", "webapp", "serve", *doors]
    with subprocess.Popen(command, cwd=tmp_path, env=alone, stdout=subprocess.PIPE, text=True) as shop:
        try:
            port = next(int(found[1]) for line in shop.stdout if (found := re.search(r"Staff: \S+:(\d+)/", line)))
            page = get(port, "/")
            assert "<h1" in page
            for asset in re.findall(r'(?:href|src)="(/static/[^"]+)"', page):
                assert get(port, asset)
        finally:
            shop.terminate()
            shop.communicate(timeout=20)
    assert shop.returncode == 0


def get(port, path):
    """The page at the end of the redirects on one port of this computer."""
    for _ in range(4):
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
        connection.request("GET", path)
        answer = connection.getresponse()
        body, path = answer.read().decode(), answer.headers.get("Location")
        connection.close()
        if path is None:
            assert answer.status == 200
            return body
    raise AssertionError("redirected in circles")
