"""What a range rests on, in a word and in a letter."""

from webapp.fit.profile import Basis
from webapp.words.language import Translate, later, say

WORDS = {
    "common_practice": later("common practice"),
    "memory": later("from memory"),
    "this_shop": later("this shop's own"),
}
MARKS = {"published": "p", "common_practice": "c", "memory": "m", "this_shop": "s"}


def basis_word(basis: Basis, translate: Translate = str) -> str:
    """'published: Dai 1990', 'common practice', 'from memory' or "this shop's own"."""
    if basis.kind == "published":
        return say(translate, later("published: %(source)s"), source=cited(basis.source))
    return translate(WORDS[basis.kind])


def basis_mark(basis: Basis) -> str:
    """One letter for a table: p, c, m or s."""
    return MARKS[basis.kind]


def cited(source: str) -> str:
    """A citation key as a person writes it: 'guan_2015' is 'Guan 2015', 'bower_bidwell_1978' 'Bower & Bidwell 1978'."""
    parts = source.split("_")
    names = [part.capitalize() for part in parts if not part.isdigit()]
    years = [part for part in parts if part.isdigit()]
    return " ".join([" & ".join(filter(None, (", ".join(names[:-1]), *names[-1:]))), *years])
