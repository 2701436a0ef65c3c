"""Nothing is so long that a newcomer would not read it."""

import ast

from tests.house import project

LONGEST = {
    ("webapp", ".py"): 300,
    ("demo", ".py"): 300,
    ("tests", ".py"): 300,
    ("templates", ".html"): 150,
    ("static", ".js"): 150,
    ("static", ".css"): 300,
}
LONGEST_VIEW = 30


def test_no_file_is_too_long():
    too_long = [
        f"{project.short(path)} has {lines} lines, {limit} at most"
        for (folder, ending), limit in LONGEST.items()
        for path in project.under(folder, ending)
        if (lines := len(path.read_text("utf-8").splitlines())) > limit
    ]
    assert not too_long


def test_no_view_does_more_than_parse_call_and_render():
    too_long = [
        f"{project.short(path)}: {node.name} has {lines} lines, {LONGEST_VIEW} at most"
        for path in project.under("webapp/views", ".py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.FunctionDef) and (lines := node.end_lineno - node.lineno + 1) > LONGEST_VIEW
    ]
    assert not too_long


def test_every_module_says_what_it_is_for():
    silent = [
        project.short(path)
        for path in project.python_files()
        if not path.name.startswith("test_")  # the name of a test file says it
        and path.read_text("utf-8").strip()
        and not ast.get_docstring(ast.parse(path.read_text("utf-8")))
    ]
    assert not silent
