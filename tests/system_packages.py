"""Programs that the tests need and pip does not bring: installed on Debian as root, named elsewhere."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from playwright._impl._driver import compute_driver_executable

BROWSER = ("-m", "not browser")
#: What pages and labels are drawn with here.
FONTS = {"fonts-dejavu-core", "fonts-liberation"}
SYMBOLS = ("--ignore=tests/reference/test_tags_second_decoder.py",)
PAPER = ("--ignore=tests/reference/test_tags_page_geometry.py", *SYMBOLS)


@dataclass(frozen=True, slots=True)
class Need:
    """A program, whether it is there, its Debian package, and the pytest arguments that leave out what it is for."""

    program: str
    is_there: Callable[[], bool]
    package: str
    without: tuple[str, ...]


def _on_path(name: str) -> bool:
    return shutil.which(name) is not None


def _driver_starts() -> bool:
    """The program with which playwright drives the browser comes with pip, but needs a library of the system."""
    driver = compute_driver_executable()[0]
    return subprocess.call([driver, "--version"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) == 0


NEEDS = (
    Need("chromium", partial(_on_path, "chromium"), "chromium", BROWSER),
    Need("libatomic", _driver_starts, "libatomic1", BROWSER),
    Need("pdftoppm", partial(_on_path, "pdftoppm"), "poppler-utils", PAPER),
    Need("zbarimg", partial(_on_path, "zbarimg"), "zbar-tools", SYMBOLS),
)


def provide(browser: bool) -> list[str]:
    """Have the programs, or say what is missing. Returns pytest arguments that leave out what cannot run here; in CI a
    missing program ends the run instead. browser: whether the tests in a real browser are wanted."""
    missing = _missing(browser)
    if missing and _is_debian_root():
        _install(sorted({need.package for need in missing} | FONTS))
        missing = _missing(browser)
    if missing:
        packages = sorted({need.package for need in missing})
        print(f"Missing: {', '.join(need.program for need in missing)}. On Debian: apt install {' '.join(packages)}")
        if os.environ.get("CI", "").lower() == "true":
            sys.exit("CI leaves nothing out.")
    left_out = {need.without for need in missing} | (set() if browser else {BROWSER})
    return list(dict.fromkeys(argument for arguments in sorted(left_out) for argument in arguments))


def _missing(browser: bool) -> list[Need]:
    return [need for need in NEEDS if (browser or need.without != BROWSER) and not need.is_there()]


def _is_debian_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get") is not None


def _install(packages: list[str]) -> None:
    print(f"Installing {', '.join(packages)} from Debian", flush=True)
    quietly = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
        subprocess.call(["apt-get", *command], env=quietly, stdout=subprocess.DEVNULL)
