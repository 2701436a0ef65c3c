"""The project's own files, as the house checks read them."""

import subprocess
from functools import lru_cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent


@lru_cache(maxsize=1)
def files() -> list[Path]:
    """Every file that git knows or would add."""
    command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    listed = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    return sorted(path for name in listed.split("\0") if name and (path := ROOT / name).is_file())


def under(folder: str, ending: str) -> list[Path]:
    """Files below `folder` whose names end so."""
    return [path for path in files() if path.is_relative_to(ROOT / folder) and path.name.endswith(ending)]


def python_files() -> list[Path]:
    """Every module of the app, the demo and the tests."""
    return [path for folder in ("webapp", "demo", "tests") for path in under(folder, ".py")]


def short(path: Path) -> str:
    """The path from the project's folder."""
    return path.relative_to(ROOT).as_posix()


def read(name: str) -> str:
    """The text of a file, by its path from the project's folder."""
    return (ROOT / name).read_text("utf-8")
