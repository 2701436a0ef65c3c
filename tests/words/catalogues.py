"""The catalogues: `python -m tests.words.catalogues` takes new sentences into the .po files, packs them.

Sentences are those marked in the code (`later`, and pairs for one and many), in the templates that customers read, and
the texts of kinds and tankmates that ship with the program.
"""

import ast
import sys
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from jinja2.ext import babel_extract

from webapp.schemas.profiles import load_profiles
from webapp.schemas.tankmates import load_tankmates
from webapp.science.units import QUANTITIES
from webapp.words.language import CATALOGUES, LANGUAGES, SOURCE
from webapp.words.terms import is_latin

ROOT = Path(__file__).resolve().parents[2]
#: What customers read. Templates of staff pages are English and not marked.
TEMPLATES = ("base.html", "card", "error_pages", "fit", "handling", "sheet", "stock/public.html", "_parts")
TEMPLATE_OPTIONS = {"trimmed": "false", "trim_blocks": "true", "lstrip_blocks": "true", "newstyle_gettext": "true"}
#: Words that only staff read stay English.
STAFF_ONLY = ("answers", "conditions", "corrections", "profile_editing", "sales", "today")
FOR_STAFF = tuple(f"webapp/words/{name}.py" for name in STAFF_ONLY)
PAIRS = frozenset({"Plural", "count", "ngettext", "translate_count", "_counted"})
SOME_DAY = datetime(2026, 1, 1, tzinfo=UTC)
Message = str | tuple[str, str]


def in_code(text: str) -> Iterator[Message]:
    """Marked sentences of a module: `later("...")`, and pairs in Plural(...), .count(...)."""
    tree = ast.parse(text)
    paired: set[ast.AST] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and _called(node) in PAIRS and len(node.args) >= 2:
            pair = [_marked(arg) for arg in node.args[:2]]
            if any(isinstance(arg, ast.Constant) and isinstance(arg.value, str) for arg in node.args[:2]):
                raise ValueError(f"line {node.lineno}: a pair is marked with later(), or it stays English")
            if all(pair):
                paired.update(node.args[:2])
                yield pair[0], pair[1]  # type: ignore[misc]
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and _called(node) == "later" and node not in paired:
            sentence = _marked(node)
            if sentence is None:
                raise ValueError(f"line {node.lineno}: only a plain sentence can be marked")
            yield sentence


def _called(node: ast.Call) -> str:
    return node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")


def _marked(node: ast.AST) -> str | None:
    if isinstance(node, ast.Call) and _called(node) == "later" and len(node.args) == 1:
        node = node.args[0]
        return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None
    return None


def in_template(text: str) -> Iterator[Message]:
    """Sentences of a template."""
    found = babel_extract(BytesIO(text.encode()), ("_", "gettext", "ngettext"), (), TEMPLATE_OPTIONS)
    for _line, _function, message, _comments in found:
        if message is None:  # a variable, marked where it comes from
            continue
        if isinstance(message, str):
            yield message
            continue
        named = [part for part in message if part is not None]
        if len(named) == 2:
            yield named[0], named[1]
        elif named:  # `_('...', place=...)`
            yield named[0]


def in_data() -> Iterator[str]:
    """Texts of kinds and tankmates, and labels of units that are words."""
    for kind in load_profiles().values():
        yield from (kind.trade_name, kind.trade_name.split(" (")[0], kind.feeding, kind.toxicity_note, kind.cites)
        if not is_latin(kind.scientific):
            yield kind.scientific
    for mate in load_tankmates().values():
        yield mate.plain_name
    for quantity in QUANTITIES.values():
        yield from (unit.label for unit in quantity.units.values())


def sources() -> Iterator[tuple[str, Iterable[Message]]]:
    """(path, sentences) of all that customers read."""
    for path in sorted((ROOT / "webapp").rglob("*.py")):
        short = path.relative_to(ROOT).as_posix()
        if short not in FOR_STAFF:
            yield short, in_code(path.read_text("utf-8"))
    for name in TEMPLATES:
        place = ROOT / "templates" / name
        for path in sorted(place.glob("*.html")) if place.is_dir() else [place]:
            yield path.relative_to(ROOT).as_posix(), in_template(path.read_text("utf-8"))
    yield "webapp/schemas/data", in_data()


def template() -> Catalog:
    """Every sentence, not translated."""
    catalogue = Catalog(project="Rackside", charset="utf-8")
    for path, messages in sources():
        for message in messages:
            if message and message not in ("", ("", "")):
                catalogue.add(message, locations=[(path, 0)])
    return catalogue


def po_path(language: str) -> Path:
    """Where the sentences of a language are edited."""
    return CATALOGUES / language / "LC_MESSAGES" / "rackside.po"


def read(language: str) -> Catalog:
    """A catalogue as it stands in its file."""
    with po_path(language).open("rb") as file:
        return _steady(read_po(file, locale=language))


def _steady(catalogue: Catalog) -> Catalog:
    """The same with a head that says nothing of the day or the person, so that files change when sentences do."""
    catalogue.header_comment, catalogue.fuzzy = "# Rackside, sentences that customers read.", False
    catalogue.creation_date = catalogue.revision_date = SOME_DAY
    catalogue.version, catalogue.msgid_bugs_address = "", ""
    catalogue.last_translator, catalogue.language_team = "Rackside", "Rackside"
    return catalogue


def packed(catalogue: Catalog) -> bytes:
    """A catalogue as gettext reads it."""
    packed_file = BytesIO()
    write_mo(packed_file, catalogue)
    return packed_file.getvalue()


def update(language: str) -> list[str]:
    """Bring a language's files up to date; what is still to be translated."""
    path = po_path(language)
    path.parent.mkdir(parents=True, exist_ok=True)
    catalogue = read(language) if path.exists() else Catalog(locale=language, project="Rackside", charset="utf-8")
    catalogue.update(template(), no_fuzzy_matching=True)
    catalogue.obsolete.clear()
    _steady(catalogue)
    with path.open("wb") as file:
        write_po(file, catalogue, width=120, sort_output=True, omit_header=False, include_lineno=False)
    path.with_suffix(".mo").write_bytes(packed(catalogue))
    return missing(catalogue)


def missing(catalogue: Catalog) -> list[str]:
    """Sentences without a translation."""
    return [str(message.id) for message in catalogue if message.id and not all(_strings(message.string))]


def _strings(string: str | tuple[str, ...] | None) -> tuple[str, ...]:
    return string if isinstance(string, tuple) else (string or "",)


if __name__ == "__main__":
    empty = {language: update(language) for language in LANGUAGES if language != SOURCE}
    for name, sentences in empty.items():
        print(f"{name}: {len(sentences)} to translate", *sentences, sep="\n  ")
    sys.exit(any(empty.values()))
