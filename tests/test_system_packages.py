"""Programs that pip does not bring: installed, named, and never passed over in CI."""

import pytest

from tests import system_packages


@pytest.fixture
def computer(monkeypatch):
    """A computer without any of the programs; `made` holds what was asked of its package manager."""
    made = []
    monkeypatch.setattr(system_packages.shutil, "which", lambda name: None)
    monkeypatch.setattr(system_packages, "_install", made.append)
    monkeypatch.setattr(system_packages, "_is_debian_root", lambda: False)
    monkeypatch.setenv("CI", "")
    return made


def test_missing_programs_are_named_and_their_tests_left_out(computer, capsys):
    assert "tests/browser" in system_packages.provide()
    assert "apt install chromium poppler-utils" in capsys.readouterr().out
    assert computer == []


def test_in_ci_a_missing_program_ends_the_run(computer, monkeypatch):
    monkeypatch.setenv("CI", "true")
    with pytest.raises(SystemExit, match="leaves nothing out"):
        system_packages.provide()


def test_what_is_not_wanted_is_not_installed(computer, monkeypatch):
    monkeypatch.setattr(system_packages, "_is_debian_root", lambda: True)
    system_packages.provide(without=("tests/browser",))
    assert computer == [["fonts-dejavu-core", "poppler-utils"]]


def test_with_everything_there_nothing_is_left_out(computer, monkeypatch):
    monkeypatch.setattr(system_packages.shutil, "which", lambda name: f"/usr/bin/{name}")
    assert system_packages.provide() == []
