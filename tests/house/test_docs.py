"""What the documents say exists: paths, commands, options, settings."""

import argparse
import re
import shlex

import click
import pytest

from tests.house import project
from webapp import cli

DOCUMENTS = ("README.md", "DEVELOPERS.md")
LINK = re.compile(r"\[[^\]]*\]\(([^)#\s]+)[^)]*\)")
CODE = re.compile(r"`([^`\n]+)`")
BLOCK = re.compile(r"```[a-z]*\n(.*?)```", re.DOTALL)
FOLDERS = ("webapp/", "templates/", "static/", "tests/", "demo/", ".ci/")


def documents():
    return {project.short(path): path.read_text("utf-8") for path in project.files() if path.suffix == ".md"}


def commands(text):
    """Command lines in code blocks and in back quotes."""
    lines = [line.strip() for block in BLOCK.findall(text) for line in block.splitlines()]
    lines += CODE.findall(BLOCK.sub("", text))
    return [line.split("#")[0].strip() for line in lines]


def known_commands(group=cli.main, before=()):
    """Every command of the command line, as its words."""
    found = {}
    for name, command in group.commands.items():
        words = (*before, name)
        found[words] = command
        if isinstance(command, click.Group):
            found |= known_commands(command, words)
    return found


def test_every_link_leads_to_a_file_that_exists():
    dead = [
        f"{name}: {target}"
        for name, text in documents().items()
        for target in LINK.findall(text)
        if not target.startswith(("http://", "https://", "mailto:"))
        and not (project.ROOT / name).parent.joinpath(target).exists()
    ]
    assert not dead


def test_every_path_in_back_quotes_exists():
    dead = [
        f"{name}: {word}"
        for name in DOCUMENTS
        for word in CODE.findall(project.read(name))
        if word.startswith(FOLDERS) and not re.search(r"[ *<{]", word) and not (project.ROOT / word).exists()
    ]
    assert not dead


def test_every_command_of_the_program_is_documented():
    texts = "\n".join(project.read(name) for name in DOCUMENTS)
    missing = [" ".join(words) for words in known_commands() if f"python -m webapp {' '.join(words)}" not in texts]
    assert not missing


def test_every_documented_command_of_the_program_exists_with_its_options():
    known, wrong = known_commands(), []
    for name in DOCUMENTS:
        for line in commands(project.read(name)):
            if not line.startswith("python -m webapp "):
                continue
            words = shlex.split(line)[3:]
            plain = [word for word in words if not word.startswith("-")]
            command = known.get(tuple(plain[:2])) or known.get(tuple(plain[:1]))
            options = {option for parameter in command.params for option in parameter.opts} if command else set()
            given = {word.split("=")[0] for word in words if word.startswith("--")}
            if command is None or not given <= options | {"--help"}:
                wrong.append(f"{name}: {line}")
    assert not wrong


@pytest.mark.parametrize("script", ["demo", "tests"])
def test_every_documented_option_of_the_two_commands_exists(script, monkeypatch):
    options = _options_of(script, monkeypatch)
    wrong = [
        f"{name}: {line}"
        for name in DOCUMENTS
        for line in commands(project.read(name))
        if re.match(rf"python3? {script}( |$)", line)
        and not {word for word in line.replace("[", " ").replace("]", " ").split() if word.startswith("--")} <= options
    ]
    assert not wrong
    texts = "\n".join(project.read(name) for name in DOCUMENTS)
    assert not [option for option in options - {"--help", "-h"} if option not in texts]


def _options_of(script, monkeypatch):
    """The options that the script's parser takes, seen when it is asked to parse."""
    seen = []

    def stop(self, *_args, **_kwargs):
        seen.extend(option for action in self._actions for option in action.option_strings)
        raise SystemExit

    monkeypatch.setattr(argparse.ArgumentParser, "parse_args", stop)
    monkeypatch.setattr(argparse.ArgumentParser, "parse_known_args", stop)
    module = __import__(f"{script}.__main__", fromlist=["main"])
    with pytest.raises(SystemExit):
        module.main()
    return set(seen)


def test_every_setting_is_documented_and_every_documented_setting_exists():
    name = re.compile(r"\bRACKSIDE_[A-Z_]+\b")
    used = {found for path in project.under("webapp", ".py") for found in name.findall(path.read_text("utf-8"))}
    told = {found for document in DOCUMENTS for found in name.findall(project.read(document))}
    assert used
    assert used == told


def test_the_readme_says_the_job_in_its_first_paragraph_then_the_two_commands():
    title, job, *_rest = project.read("README.md").split("\n\n")
    assert title == "# Rackside"
    assert 200 < len(job) < 900
    lines = [line.split()[:2] for block in BLOCK.findall(project.read("README.md")) for line in block.splitlines()]
    assert ["python3", "demo"] in lines
    assert ["python3", "tests"] in lines
