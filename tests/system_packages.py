"""Programs that the tests need and pip does not bring: installed on Debian as root, named elsewhere."""

import os
import shutil
import subprocess
import sys
from collections.abc import Collection

#: program -> (Debian package, what is left out without it)
PROGRAMS = {
    "chromium": ("chromium", "tests/browser"),
    "pdftoppm": ("poppler-utils", "tests/reference/test_tags_page_geometry.py"),
    "pdfinfo": ("poppler-utils", "tests/reference/test_tags_page_geometry.py"),
}


def provide(without: Collection[str] = ()) -> list[str]:
    """Have the programs, or say what is missing. Returns the tests that cannot run here; in CI a missing program ends
    the run instead. without: tests that are not wanted anyway."""
    missing = _missing(without)
    if missing and _is_debian_root():
        _install(sorted({PROGRAMS[name][0] for name in missing} | {"fonts-dejavu-core"}))
        missing = _missing(without)
    if not missing:
        return []
    packages = sorted({PROGRAMS[name][0] for name in missing})
    print(f"Missing: {', '.join(missing)}. On Debian: apt install {' '.join(packages)}", flush=True)
    if os.environ.get("CI", "").lower() == "true":
        sys.exit("CI leaves nothing out.")
    return sorted({PROGRAMS[name][1] for name in missing})


def _missing(without: Collection[str]) -> list[str]:
    return [name for name, (_package, tests) in PROGRAMS.items() if tests not in without and shutil.which(name) is None]


def _is_debian_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get") is not None


def _install(packages: list[str]) -> None:
    print(f"Installing {', '.join(packages)} from Debian", flush=True)
    quietly = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
        subprocess.call(["apt-get", *command], env=quietly, stdout=subprocess.DEVNULL)
