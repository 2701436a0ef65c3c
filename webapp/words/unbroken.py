"""A number and its unit stay on one line: no-break spaces between them, in sentences that still have open places.

Numbers and units by the rules of the International System of Units (the SI brochure, 9th edition, 5.4.3: a space stands
between them); that no line ends there is common practice of typesetters.
"""

import gettext
import re
from functools import lru_cache

NO_BREAK = "\N{NO-BREAK SPACE}"
_UNITS = (
    r"%%|%(?!\()|°C|°F|cm/s|µmol/m²/s|mol/m²|mS/cm|mm|cm|ml|mg/L|mg|kg|mA|dKH|ppt|ppm|lux|[mLlghW]"
    r"|%\((?:unit|strength)\)s"
)
_BETWEEN = re.compile(
    rf"(?<=\d) (?=(?:{_UNITS})(?!\w))"  # 30 mA
    rf"|(?<=\)s) (?=(?:{_UNITS})(?!\w))"  # %(size)s mm
    r"|(?<=\S) (?=%\(number\)s$)|(?<=pH) (?=%\(number\)s)"  # SG %(number)s
    r"|(?<=%\(day\)s) (?=%\(month\)s)|(?<=%\(day\)s\.) (?=%\(month\)s)"  # 3 Nov, 3. Nov.
)
_KEPT = 10_000  # sentences: far more than there are


def unbroken(sentence: str) -> str:
    """The sentence with no-break spaces where a number meets its unit, and a day its month."""
    return _BETWEEN.sub(NO_BREAK, sentence)


class Unbroken(gettext.NullTranslations):
    """A catalogue whose sentences are unbroken; each is worked out once."""

    def __init__(self, real: gettext.NullTranslations) -> None:
        super().__init__()
        self.gettext = lru_cache(_KEPT)(lambda message: unbroken(real.gettext(message)))  # type: ignore[method-assign]
        self.ngettext = lru_cache(_KEPT)(lambda *pair: unbroken(real.ngettext(*pair)))  # type: ignore[method-assign]
