"""Pages drawn once with places left open, which are then filled for one animal after another.

Drawing a template costs more than everything else on a card together, and what it draws hangs on little: the kind, the
language, a few yes-or-noes. Whatever hangs on more is left open and put in afterwards.
"""

from collections.abc import Iterable, Mapping
from secrets import token_hex

from markupsafe import Markup, escape

#: Marks the places in what was drawn. Drawn anew at every start, so that no text typed by anybody can hold it.
_EDGE = token_hex(8)


class Place:
    """A place left open, for a template to print."""

    __slots__ = ("_name",)

    def __init__(self, name: str):
        self._name = name

    def __html__(self) -> str:
        return f"{_EDGE}{self._name}{_EDGE}"

    __str__ = __html__


class Places:
    """`at.name` or `at["name"]` in a template: the place of that name."""

    def __getattr__(self, name: str) -> Place:
        return Place(name)

    __getitem__ = __getattr__


class Frame:
    """What was drawn with its places open."""

    def __init__(self, drawn: str):
        pieces = drawn.split(_EDGE)
        self._form, self._names = "%s".join(piece.replace("%", "%%") for piece in pieces[::2]), pieces[1::2]

    def fill(self, values: Mapping[str, object]) -> Markup:
        """The whole with a value in each place; what is not markup is escaped. KeyError when a place stays open."""
        return Markup(self._filled(values))

    def fill_each(self, rows: Iterable[Mapping[str, object]]) -> Markup:
        """The whole once for each row, one after another."""
        return Markup("".join(map(self._filled, rows)))

    def _filled(self, values: Mapping[str, object]) -> str:
        found = [values[name] for name in self._names]
        return self._form % tuple([value if type(value) is Markup else escape(value) for value in found])
