"""QR symbols of ISO/IEC 18004: the version, level and modules for a text, never Micro QR.

An address is written in two segments, 'http' in bytes and the rest in alphanumeric mode. That keeps a short label
address at version 2 level Q; the lower-case scheme is there because some cameras do not open an all-capital one.
"""

import re
from dataclasses import dataclass
from functools import lru_cache
from xml.sax.saxutils import quoteattr

import qrcode
from qrcode import constants
from qrcode.exceptions import DataOverflowError
from qrcode.util import MODE_8BIT_BYTE, MODE_ALPHA_NUM, QRData

from webapp.errors import CannotPrint

QUIET_MODULES = 4
_LEVELS = {"Q": constants.ERROR_CORRECT_Q, "M": constants.ERROR_CORRECT_M}
# Level Q first; a larger symbol before a weaker one at version 2, because a tag under water gathers algae.
_CHOICES = [(2, "Q"), *((version, level) for version in range(3, 16) for level in "QM")]
_SCHEME_THEN_ALPHANUMERIC = re.compile(r"([a-z]+)([0-9A-Z $%*+\-./:]+)")


@dataclass(frozen=True)
class Symbol:
    """A QR symbol. `modules[row][column]` is True where dark; the quiet zone is not part of it."""

    text: str
    version: int
    level: str
    modules: tuple[tuple[bool, ...], ...]

    @property
    def size(self) -> int:
        """Modules along one side, without the quiet zone (ISO/IEC 18004: 17 + 4 x version)."""
        return len(self.modules)


@lru_cache(maxsize=2048)
def make_symbol(text: str) -> Symbol:
    """The smallest symbol of `_CHOICES` that holds `text`. CannotPrint when the text is empty or too long."""
    if not text:
        raise CannotPrint("There is nothing to write in this symbol.")
    for version, level in _CHOICES:
        code = qrcode.QRCode(version=version, error_correction=_LEVELS[level], border=0)
        for segment in _segments(text):
            code.add_data(segment)
        try:
            code.make(fit=False)
        except DataOverflowError:
            continue
        return Symbol(text, version, level, tuple(tuple(map(bool, row)) for row in code.modules))
    raise CannotPrint(f"This text is too long for a tag ({len(text)} characters). Use a shorter address.")


def symbol_svg(symbol: Symbol, module_px: int = 4, label: str = "QR code") -> str:
    """An inline SVG of the symbol with its quiet zone: presentation attributes only, so that a strict CSP allows it.

    `label` is its name for those who do not see it.
    """
    side = symbol.size + 2 * QUIET_MODULES
    path = "".join(
        f"M{start + QUIET_MODULES} {y + QUIET_MODULES}h{length}v1h-{length}z"
        for y, row in enumerate(symbol.modules)
        for start, length in _dark_runs(row)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{side * module_px}" height="{side * module_px}" '
        f'viewBox="0 0 {side} {side}" role="img" aria-label={quoteattr(label)} shape-rendering="crispEdges">'
        f'<rect width="{side}" height="{side}" fill="#fff"/><path d="{path}" fill="#000"/></svg>'
    )


def _segments(text: str) -> list[QRData]:
    split = _SCHEME_THEN_ALPHANUMERIC.fullmatch(text)
    if split:
        return [QRData(split[1], MODE_8BIT_BYTE), QRData(split[2], MODE_ALPHA_NUM)]
    return [QRData(text)]


def _dark_runs(row: tuple[bool, ...]) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    for x, dark in enumerate(row):
        if dark and runs and sum(runs[-1]) == x:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        elif dark:
            runs.append((x, 1))
    return runs
