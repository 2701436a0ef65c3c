"""From a bare Python to the project's environment: what is told, and when installing happens again."""

import ast
import sys
from pathlib import Path

import pytest

from demo import bootstrap


@pytest.fixture
def place(tmp_path, monkeypatch):
    """A project of its own in a folder, with an environment that works, and the commands that would have been run."""
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    (tmp_path / ".venv").mkdir()
    commands = []
    monkeypatch.setattr(bootstrap, "ROOT", tmp_path)
    monkeypatch.setattr(bootstrap, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(bootstrap, "STAMP", tmp_path / ".venv" / "stamp")
    monkeypatch.setattr(bootstrap, "_works", lambda python: True)
    monkeypatch.setattr(bootstrap, "_with_progress", lambda command: commands.append(command[-1]) or 0)
    monkeypatch.setattr(bootstrap, "_start_again", lambda script: commands.append(str(script)))
    return tmp_path, commands


def test_an_old_python_is_told_which_one_is_needed(monkeypatch):
    monkeypatch.setattr(bootstrap.sys, "version_info", (3, 9, 2))
    with pytest.raises(SystemExit, match=r"needs Python 3\.11 or newer; this is 3\.9"):
        bootstrap.enter("demo")


def test_a_python_without_venv_is_told_the_package_to_install(place, monkeypatch):
    monkeypatch.setattr(bootstrap, "_works", lambda python: False)
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    version = ".".join(map(str, sys.version_info[:2]))
    with pytest.raises(SystemExit, match=f"apt install python{version}-venv"):
        bootstrap.enter("demo")


def test_installing_happens_once_and_again_when_pyproject_changes(place):
    folder, commands = place
    bootstrap.enter("demo")
    bootstrap.enter("demo")
    assert commands == [".", "demo", "demo"]
    (folder / "pyproject.toml").write_text("[project]\nname = 'other'\n")
    bootstrap.enter("demo")
    assert commands == [".", "demo", "demo", ".", "demo"]


def test_tests_install_more_and_the_demo_keeps_it(place):
    folder, commands = place
    bootstrap.enter("demo")
    bootstrap.enter("tests", test=True)
    bootstrap.enter("demo")
    assert commands == [".", "demo", ".[test]", "tests", "demo"]
    (folder / "pyproject.toml").write_text("[project]\nname = 'other'\n")
    bootstrap.enter("demo")
    assert commands[-2:] == [".[test]", "demo"]


def test_a_failed_install_stops_and_is_tried_again(place, monkeypatch):
    _folder, commands = place
    monkeypatch.setattr(bootstrap, "_with_progress", lambda command: commands.append("tried") or 1)
    for _ in range(2):
        with pytest.raises(SystemExit, match="did not work"):
            bootstrap.enter("demo")
    assert commands == ["tried", "tried"]


def test_inside_the_environment_it_goes_straight_on(place, monkeypatch):
    folder, commands = place
    monkeypatch.setattr(bootstrap.sys, "prefix", str(folder / ".venv"))
    bootstrap.enter("demo")
    assert commands == ["."]


@pytest.mark.parametrize("file", ["demo/bootstrap.py", "demo/__main__.py", "tests/__main__.py"])
def test_an_older_python_can_read_far_enough_to_complain(file):
    ast.parse((Path(__file__).parent.parent / file).read_text(), feature_version=(3, 7))
