"""Every page has a title and one heading; nothing in a page needs what the content security policy forbids."""

import re
from itertools import product

import pytest
from jinja2 import Environment, nodes

from tests.house import project

PARSER = Environment(extensions=["jinja2.ext.i18n"], autoescape=True)
COMMENT = re.compile(r"\{#.*?#\}", re.DOTALL)
FORBIDDEN = {
    "a script in the page": re.compile(r"<script(?![^>]*(\bsrc=|type=\"application/json\"))", re.IGNORECASE),
    "a style sheet in the page": re.compile(r"<style\b", re.IGNORECASE),
    "a style attribute": re.compile(r"<[^>]*\sstyle\s*=", re.IGNORECASE),
    "a handler in an attribute": re.compile(r"<[^>]*\son[a-z]+\s*=", re.IGNORECASE),
    "an address of another host": re.compile(r"""(src|href|action)\s*=\s*["'](https?:)?//""", re.IGNORECASE),
    "an address that runs": re.compile(r"javascript:", re.IGNORECASE),
    "autoescape switched off": re.compile(r"autoescape\s+false", re.IGNORECASE),
}


def templates():
    files = project.under("templates", ".html")
    return {project.short(path): COMMENT.sub("", path.read_text("utf-8")) for path in files}


def pages():
    """Templates that are answered as a whole page: they stand on another and are not stood on themselves."""
    texts = templates()
    bases = {name for text in texts.values() for name in re.findall(r"""\{%-?\s*extends\s+["']([^"']+)""", text)}
    return {
        name: text
        for name, text in texts.items()
        if re.search(r"\{%-?\s*extends\b", text) and name.removeprefix("templates/") not in bases
    }


@pytest.mark.parametrize("what", FORBIDDEN)
def test_the_policy_finds_nothing_to_forbid(what):
    rule = FORBIDDEN[what]
    assert not [f"{name}: {match[0][:80]}" for name, text in templates().items() for match in rule.finditer(text)]


@pytest.mark.parametrize(
    ("what", "text"),
    [
        ("a script in the page", "<script>go()</script>"),
        ("a style sheet in the page", "<style>p{}</style>"),
        ("a style attribute", '<p class="a" style="color:red">'),
        ("a handler in an attribute", '<button onclick="go()">'),
        ("an address of another host", '<img src="//elsewhere.example/a.png">'),
        ("an address that runs", '<a href="javascript:go()">'),
        ("autoescape switched off", "{% autoescape false %}"),
    ],
)
def test_each_of_these_rules_bites(what, text):
    assert FORBIDDEN[what].search(text)


def test_there_are_pages():
    assert len(pages()) > 5


def test_every_page_has_a_title_of_its_own():
    assert not [name for name, text in pages().items() if not re.search(r"\{%-?\s*block\s+title\b", text)]


def test_every_page_has_exactly_one_main_heading():
    """WCAG 2.2, technique H42: whichever way its conditions go."""
    assert not {name: counts for name, text in pages().items() if (counts := headings(PARSER.parse(text))) != {1}}


def headings(node):
    """Every number of main headings that this piece of a template can come to."""
    if isinstance(node, nodes.TemplateData):
        return {len(re.findall(r"<h1\b", node.data))}
    if isinstance(node, nodes.If):
        branches = [node.body, *(case.body for case in node.elif_), node.else_]
        return set().union(*(total(branch) for branch in branches))
    if isinstance(node, nodes.Include) and isinstance(node.template, nodes.Const):
        return headings(PARSER.parse(templates().get(f"templates/{node.template.value}", "")))
    return total(node.iter_child_nodes())


def total(pieces):
    """Every sum of one count from each piece."""
    return {sum(counts) for counts in product(*(headings(piece) for piece in pieces))}


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("<h1>a</h1>", {1}),
        ("{% if a %}<h1>a</h1>{% elif b %}<h1>b</h1>{% else %}<h1>c</h1>{% endif %}", {1}),
        ("{% if a %}<h1>a</h1>{% endif %}", {0, 1}),
        ("<h1>a</h1>{% block b %}<h1>b</h1>{% endblock %}", {2}),
    ],
)
def test_headings_are_counted_over_every_way_through_a_page(text, counts):
    assert headings(PARSER.parse(text)) == counts


def test_text_is_passed_unescaped_only_with_a_reason_beside_it():
    """A reason is a comment on the same line or the one before."""
    bare = []
    for path in project.under("templates", ".html"):
        lines = path.read_text("utf-8").splitlines()
        for number, line in enumerate(lines):
            before = lines[number - 1] if number else ""
            if re.search(r"\|\s*safe\b", line) and "{#" not in line and "{#" not in before:
                bare.append(f"{project.short(path)}:{number + 1}")
    assert not bare
