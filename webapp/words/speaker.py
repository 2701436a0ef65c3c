"""How one reader is spoken to: language, names of animals, and numbers in the units that the reader typed."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from webapp.science.units import QUANTITIES, from_canonical
from webapp.words.language import Translate, later

#: Canonical values by which units of salinity and pH are turned into each other where the water is not known.
USUAL_PPT = 35.0
_WRITTEN = {
    "sg_25": later("SG %(number)s"),
    "sg_20": later("SG %(number)s"),
    "sg_60f": later("SG %(number)s"),
    "sg_4": later("density %(number)s"),
    "n_d": later("refractive index %(number)s"),
    "ms_cm": later("%(number)s mS/cm"),
    "ms_cm_25": later("%(number)s mS/cm"),
    "nbs": later("pH %(number)s"),
    "total": later("pH %(number)s (total scale)"),
}
#: Units whose name stands before the number: a difference is told without it.
BEFORE = frozenset({"sg_25", "sg_20", "sg_60f", "sg_4", "n_d", "nbs", "total"})
_SPANS_DECADES = frozenset({"no3", "po4", "ammonia", "nitrite", "flow_speed", "length"})
_AT_LEAST_DECIMALS = {"sg_25": 3, "sg_20": 3, "sg_60f": 3, "sg_4": 3, "n_d": 4}


def one_or_many(one: str, many: str, n: int) -> str:
    """English plurals, where no catalogue is given."""
    return one if n == 1 else many


@dataclass(frozen=True)
class Speaker:
    """`kinds`: names by profile key; `tankmates`: names by group; `typed`: the unit the buyer typed, by quantity.

    decimal: the mark between units and tenths. temp_c, salinity_ppt: of the buyer's water, where a unit hangs on them;
    floats_in_tank: the salinity was read with a hydrometer in the tank's own water.
    """

    kinds: Mapping[str, str] = field(default_factory=dict)
    tankmates: Mapping[str, str] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)
    translate: Translate = str
    ngettext: Callable[[str, str, int], str] = one_or_many
    decimal: str = "."
    temp_c: float | None = None
    salinity_ppt: float = USUAL_PPT
    floats_in_tank: bool = False

    def say(self, sentence: str, /, **values: object) -> str:
        """The sentence in the reader's language, its places filled."""
        return self.translate(sentence) % values

    def count(self, one: str, many: str, number: int, /, **values: object) -> str:
        """A sentence whose form hangs on a number."""
        return self.ngettext(one, many, number) % values

    def number(self, value: float, decimals: int = 0, at_least: int = 0) -> str:
        """At most `decimals` behind the mark, no needless zeros."""
        text = f"{value:.{decimals}f}"
        if decimals:
            whole, _, part = text.partition(".")
            part = part.rstrip("0").ljust(at_least, "0")
            text = f"{whole}.{part}" if part else whole
        text = "0" if float(text) == 0 else text
        return text.replace(".", self.decimal).replace("-", "−")

    def amount(self, value: float) -> str:
        """An amount to weigh or pour, to two or three figures: what a kitchen scale or a jug can give."""
        return self.number(value, 0 if value >= 20 else 1 if value >= 1 else 2)

    def litres(self, value: float) -> str:
        """Water to take out or put in, in the unit of the tank's volume."""
        unit = self.unit("volume")
        return self.written("volume", unit, self.amount(from_canonical("volume", value, unit)))

    def percent(self, share: float) -> str:
        """A share (0..1) in percent."""
        return self.say(later("%(number)s%%"), number=self.number(100 * share, 1 if 0 < share < 0.01 else 0))

    def unit(self, quantity: str) -> str:
        """The unit this quantity is shown in: the one typed, where it is a unit."""
        typed = self.typed.get(quantity, "")
        return typed if typed in QUANTITIES[quantity].units else QUANTITIES[quantity].canonical_unit

    def converted(self, quantity: str, value: float) -> float:
        """A canonical value in the unit shown."""
        unit = self.unit(quantity)
        at_tank_warmth = not unit.startswith("sg_") or self.floats_in_tank
        temp_c = self.temp_c if at_tank_warmth and unit != "n_d" else None
        return from_canonical(quantity, value, unit, temp_c=temp_c, salinity_ppt=self.salinity_ppt)

    def bare(self, quantity: str, value: float, *, rough: bool = False) -> str:
        """The number of a reading without its unit, in the unit shown. `rough`: to two or three figures."""
        value, unit = self._shown(quantity, value)
        return self.number(value, self._decimals(quantity, unit, value, rough), _AT_LEAST_DECIMALS.get(unit, 0))

    def reading(self, quantity: str, value: float, *, rough: bool = False) -> str:
        """'7.2 dKH', 'SG 1.025', 'pH 8.1': a canonical value in the unit shown."""
        return self.written(quantity, self._shown(quantity, value)[1], self.bare(quantity, value, rough=rough))

    def span(self, quantity: str, low: float, high: float) -> str:
        """'8 to 12 dKH'."""
        ends = {"low": self.bare(quantity, low), "high": self.bare(quantity, high)}
        return self.written(quantity, self._shown(quantity, low)[1], self.say(later("%(low)s to %(high)s"), **ends))

    def unit_label(self, quantity: str) -> str:
        """The unit shown, as written; '' for pH."""
        return "" if quantity == "ph" else self.translate(QUANTITIES[quantity].units[self.unit(quantity)].label)

    def difference(self, quantity: str, change: float, at: float) -> str:
        """A canonical change from `at`, without sign, in the unit shown."""
        number, unit = self._changed(quantity, change, at)
        return number if unit in BEFORE else self.written(quantity, unit, number)

    def bare_difference(self, quantity: str, change: float, at: float) -> str:
        """As `difference`, without the unit."""
        return self._changed(quantity, change, at)[0]

    def written(self, quantity: str, unit: str, number: str) -> str:
        """A number with a unit of `quantity` as people write it."""
        label = self.translate(QUANTITIES[quantity].units[unit].label)
        return self.say(_WRITTEN.get(unit, later("%(number)s %(unit)s")), number=number, unit=label)

    def kind(self, key: str) -> str:
        """The name of a kind inside a sentence: without what stands in brackets."""
        name = self.translate(self.kinds.get(key, key.replace("_", " ")))
        return name.split(" (")[0]

    def tankmate(self, key: str) -> str:
        """The plain name of a group of tankmates."""
        return self.translate(self.tankmates.get(key, key.replace("_", " ")))

    def listed(self, words: Iterable[str]) -> str:
        """'a', 'a and b', 'a, b and c'."""
        words = list(words)
        if len(words) < 2:
            return "".join(words)
        return self.say(later("%(first)s and %(last)s"), first=", ".join(words[:-1]), last=words[-1])

    def _shown(self, quantity: str, value: float) -> tuple[float, str]:
        """Value and unit; the canonical ones where an equation does not reach that far."""
        try:
            return self.converted(quantity, value), self.unit(quantity)
        except ValueError:
            return value, QUANTITIES[quantity].canonical_unit

    def _changed(self, quantity: str, change: float, at: float) -> tuple[str, str]:
        try:
            shown = abs(self.converted(quantity, at + change) - self.converted(quantity, at))
            unit = self.unit(quantity)
        except ValueError:
            shown, unit = abs(change), QUANTITIES[quantity].canonical_unit
        return self.number(shown, self._decimals(quantity, unit, shown, rough=True)), unit

    @staticmethod
    def _decimals(quantity: str, unit: str, value: float, rough: bool) -> int:
        """Those of the unit; fewer where amounts span decades and more would only seem exact."""
        decimals = QUANTITIES[quantity].units[unit].decimals
        if quantity not in _SPANS_DECADES:
            return decimals
        figures = 2 if rough or quantity == "flow_speed" else 3
        for step in range(decimals):
            if value >= 10 ** (figures - 1 - step):
                return step
        return decimals
