"""The buyer's tank from the page's address: every box may be blank, nothing is guessed, what is no number is said."""

from collections.abc import Mapping
from typing import Any

from werkzeug.datastructures import MultiDict

from webapp.fit.methods import METHODS
from webapp.fit.tank import BuyerTank, FlowSaid, LightSaid, Measured, Neighbour, PumpSaid
from webapp.science.units import QUANTITIES
from webapp.views.language import translate
from webapp.words.language import later, local_number, say

#: The boxes of the form, in its order.
READINGS = ("temp", "salinity", "alk", "no3", "po4", "ca", "mg", "ph", "ammonia", "nitrite")
#: For a mistake in another language's keyboard: both commas and points are read.
MOST_NEIGHBOURS = 4
MOST_PUMPS = 3
_LONGEST = 24


class Asked:
    """What was typed. `tank` leaves out what could not be read; `errors` says why, by box."""

    def __init__(self, args: MultiDict[str, str], kinds: Mapping[str, Any], tankmates: Mapping[str, Any]):
        self._args = args
        self.errors: dict[str, str] = {}
        self.tank = BuyerTank(
            readings=self._readings(),
            volume=self._measured("volume", "volume"),
            length=self._measured("length", "length"),
            width=self._measured("width", "length", unit_box="length_unit"),
            height=self._measured("height", "length", unit_box="length_unit"),
            light=self._light(),
            flow=self._flow(),
            tankmates=self._tankmates(tankmates),
            neighbours=self._neighbours(kinds),
            free_space_cm=self._number("space", 0, 1000),
            age_months=self._number("age", 0, 1200),
            feeding_days_per_week=self._number("feeds", 0, 7),
            summer_high=self._measured("summer", "temp", unit_box="temp_unit"),
            carbon=self._yes_or_no("carbon"),
            open_pumps=self._yes_or_no("open_pumps"),
            swings=self._swings(),
            answers=frozenset(args.getlist("meant")),
        )

    def text(self, box: str) -> str:
        """What stands in a box."""
        return self._args.get(box, "").strip()

    @property
    def is_blank(self) -> bool:
        """Whether nothing at all was said of the tank."""
        return self.tank == BuyerTank()

    def _number(self, box: str, low: float, high: float) -> float | None:
        text = self.text(box).replace("\u202f", "").replace(" ", "").replace(",", ".")
        if not text:
            return None
        try:
            value = float(text) if len(text) <= _LONGEST else float("nan")
        except ValueError:
            value = float("nan")
        if value != value:
            no_number = later("'%(typed)s' is not a number. Type digits, as 8.2, or leave it blank.")
            self.errors[box] = say(translate, no_number, typed=self.text(box)[:_LONGEST])
            return None
        if not low <= value <= high:
            outside = later("Give a number from %(low)s to %(high)s, or leave it blank.")
            ends = {"low": f"{max(low, 0):.10g}", "high": f"{high:.10g}"}
            told = {name: local_number(translate, end) for name, end in ends.items()}
            self.errors[box] = say(translate, outside, **told)
            return None
        return value

    def _measured(self, box: str, quantity: str, unit_box: str = "", method: str = "") -> Measured | None:
        value = self._number(box, -1000, 10_000_000)
        if value is None:
            return None
        if value < 0:
            below = later("This cannot be less than zero. Check the number, or leave it blank.")
            self.errors[box] = translate(below)
            return None
        unit = self.text(unit_box or f"{box}_unit")
        units = QUANTITIES[quantity].units
        return Measured(value, unit if unit in units else QUANTITIES[quantity].canonical_unit, method)

    def _readings(self) -> dict[str, tuple[Measured, ...]]:
        found = {}
        for quantity in READINGS:
            method = self.text(f"{quantity}_by")
            known = {one.key for one in METHODS.get(quantity, ())}
            one = self._measured(quantity, quantity, method=method if method in known else "")
            if one is not None:
                found[quantity] = (one,)
        return found

    def _light(self) -> LightSaid | None:
        way, hours = self.text("light_way"), self._number("light_hours", 0, 24)
        if way == "meter" and (par := self._number("par", 0, 100_000)) is not None:
            corrected = {"yes": True, "no": False}.get(self.text("par_corrected"))
            return LightSaid("meter", par=par, depth_cm=self._depth(), corrected_for_water=corrected, hours=hours)
        if way == "lux" and (lux := self._number("lux", 0, 1_000_000)) is not None:
            return LightSaid(
                "lux", lux=lux, depth_cm=self._depth(), colour=self.text("lux_colour"), hours=hours,
                instrument=self.text("lux_instrument"),
            )  # fmt: skip
        if way == "fixture" and self.text("lamp"):
            return self._fixture(hours)
        if way == "words" and self.text("light_word"):
            return LightSaid("words", word=self.text("light_word"), hours=hours)
        return None

    def _fixture(self, hours: float | None) -> LightSaid | None:
        watts, count = self._number("watts", 0.1, 2000), self._number("lamps", 1, 24)
        if watts is None:
            missing = later("Give the watts of one lamp at the setting you use, or choose another way.")
            self.errors.setdefault("watts", translate(missing))
            return None
        return LightSaid(
            "fixture", kind=self.text("lamp"), count=int(count or 1), watts=watts, hours=hours,
            height_cm=self._number("lamp_height", 0, 200),
        )  # fmt: skip

    def _depth(self) -> float | None:
        return self._number("light_depth", 0, 200)

    def _flow(self) -> FlowSaid | None:
        way = self.text("flow_way")
        if way == "meter" and (speed := self._number("speed", 0.1, 200)) is not None:
            return FlowSaid("meter", speed_cm_s=speed)
        if way == "words" and self.text("flow_word"):
            return FlowSaid("words", word=self.text("flow_word"))
        if way == "pumps":
            pumps = []
            for number in range(1, MOST_PUMPS + 1):
                rated = self._number(f"pump{number}", 1, 100_000)
                if rated is not None:
                    kind = self.text(f"pump{number}_kind") or "wave_wide"
                    count = self._number(f"pump{number}_count", 1, 20)
                    pumps.append(PumpSaid(rated, kind, int(count or 1)))
            return FlowSaid("pumps", pumps=tuple(pumps)) if pumps else None
        return None

    def _tankmates(self, known: Mapping[str, Any]) -> tuple[str, ...] | None:
        chosen = tuple(key for key in self._args.getlist("mate") if key in known)
        self._not_both("no_mates", chosen)
        return chosen or (() if self.text("no_mates") else None)

    def _neighbours(self, kinds: Mapping[str, Any]) -> tuple[Neighbour, ...] | None:
        found = []
        for number in range(1, MOST_NEIGHBOURS + 1):
            key = self.text(f"near{number}")
            if key in kinds:
                found.append(Neighbour(key, self._number(f"near{number}_gap", 0, 500)))
        self._not_both("no_near", found)
        return tuple(found) or (() if self.text("no_near") else None)

    def _not_both(self, box: str, chosen: Any) -> None:
        if chosen and self.text(box):
            self.errors[box] = translate(later("You said both: none, and which. Take one of them back."))

    def _yes_or_no(self, box: str) -> bool | None:
        return {"yes": True, "no": False}.get(self.text(box))

    def _swings(self) -> dict[str, float]:
        ranges = {"temp": 15, "alk": 10, "salinity": 10}
        found = {quantity: self._number(f"swing_{quantity}", 0, most) for quantity, most in ranges.items()}
        return {quantity: value for quantity, value in found.items() if value is not None}
