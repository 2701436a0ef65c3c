"""Programs that pip does not bring: installed, named, and never passed over in CI."""

from dataclasses import replace

import pytest

from tests import system_packages


def computer_that(has, monkeypatch):
    """A computer with all of the programs or none; returns what is asked of its package manager."""
    made = []
    needs = tuple(replace(need, is_there=lambda: has) for need in system_packages.NEEDS)
    monkeypatch.setattr(system_packages, "NEEDS", needs)
    monkeypatch.setattr(system_packages, "_install", made.append)
    monkeypatch.setattr(system_packages, "_is_debian_root", lambda: False)
    monkeypatch.setenv("CI", "")
    return made


def test_missing_programs_are_named_and_their_tests_left_out(capsys, monkeypatch):
    made = computer_that(False, monkeypatch)
    left_out = system_packages.provide(browser=True)
    references = [f"--ignore=tests/reference/test_tags_{name}.py" for name in ("page_geometry", "second_decoder")]
    assert left_out == [*references, "-m", "not browser"]
    assert "apt install chromium libatomic1 poppler-utils zbar-tools" in capsys.readouterr().out
    assert made == []


def test_in_ci_a_missing_program_ends_the_run(monkeypatch):
    computer_that(False, monkeypatch)
    monkeypatch.setenv("CI", "true")
    with pytest.raises(SystemExit, match="leaves nothing out"):
        system_packages.provide(browser=True)


def test_without_the_browser_nothing_is_installed_for_it(monkeypatch):
    made = computer_that(False, monkeypatch)
    monkeypatch.setattr(system_packages, "_is_debian_root", lambda: True)
    system_packages.provide(browser=False)
    assert made == [["fonts-dejavu-core", "fonts-liberation", "poppler-utils", "zbar-tools"]]


@pytest.mark.parametrize(("browser", "left_out"), [(True, []), (False, ["-m", "not browser"])])
def test_with_everything_there_only_what_is_not_wanted_is_left_out(monkeypatch, browser, left_out):
    computer_that(True, monkeypatch)
    assert system_packages.provide(browser) == left_out
