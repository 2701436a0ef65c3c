"""All fixes as one schedule: simulated day by day on the whole water, at most one deed with the water a day.

Each day the first deed that is due and harms nothing is done: salinity, then a water change, then magnesium (without
it carbonate will not stay dissolved), alkalinity, calcium. A deed that would take another quantity over a limit waits
until that one has been moved. Temperature moves beside them. Daily use by the animals is not in it: tests show it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

from webapp.fit.aims import MOVABLE, NUTRIENTS, Keep, aim, first_harmed, inner_edge, keep
from webapp.fit.deeds import Deed, change_water, dose, swap_for_salinity, temperature_today, undo_salinity
from webapp.fit.doses import SALT_FOR, NewWater, Water
from webapp.fit.findings import Note, Step
from webapp.fit.profile import Band

LONGEST_DAYS = 365
DAYS_BETWEEN_CHANGES = 3  # common practice: test between two large changes
SMALL_CHANGE = 0.07  # a change of up to this share of the water may be daily (common practice)
CLOSE_ENOUGH = 0.02  # of the ideal band's width: nearer to its aim a quantity needs no spoon or cup more
DOSE_ORDER = ("mg", "alk", "ca")
LAST_RESORT = 0.03  # of a value beyond its limit: how far a day may thin it when nothing else is left


@dataclass(slots=True)
class Schedule:
    """Steps in order of days, and what each serves; `aims`: where each mended quantity is brought; `water`: how it
    ends; `left`: what it cannot mend, as Notes of plan_codes.NOTES."""

    steps: list[Step] = field(default_factory=list)
    serves: list[tuple[str, ...]] = field(default_factory=list)
    aims: dict[str, float] = field(default_factory=dict)
    water: Water = field(default_factory=dict)
    left: list[Note] = field(default_factory=list)


def build(water: Water, bands: dict[str, Band], mend: set[str], volume_l: float, new: NewWater) -> Schedule:
    """The schedule that brings the quantities of `mend` into their ideal bands; all others stay as good as they are.

    water: what is known, canonical units; volume_l: net litres. Raises ValueError outside the ranges of the equations.
    Source: mass balance, day by day; common practice (daily rates, a fifth of the water at once, days between).
    """
    return _Run(water, bands, mend, volume_l, new).finish()


class _Run:
    def __init__(self, water: Water, bands: dict[str, Band], mend: set[str], volume_l: float, new: NewWater):
        self.bands = {name: bands[name] for name in MOVABLE if name in bands and name in water}
        self.start = {name: water[name] for name in MOVABLE if name in water}
        self.keeps = {name: keep(name, band, water[name], name in mend) for name, band in self.bands.items()}
        self.volume_l, self.new = volume_l, new
        self.goals: dict[str, float] = {}
        self.begun_at: dict[str, float] = {}
        self.given_up: set[str] = set()
        self.next_change = 0
        self.plan = Schedule(water=dict(self.start))

    def finish(self) -> Schedule:
        for day in range(LONGEST_DAYS):
            self._look()
            if not self.goals:
                break
            moved = self._set_temperature(day)
            if not self._do_one(day) and not moved and day >= self.next_change:
                for name in list(self.goals):
                    self._give_up(name, Note("cannot_be_planned", {"quantity": name, "value": self.plan.water[name]}))
        else:
            self.plan.left.append(Note("takes_too_long", {"days": LONGEST_DAYS}))
        for name in NUTRIENTS:
            if name in self.bands and self.plan.water[name] < self.bands[name].ideal_low <= self.start[name]:
                self.plan.left.append(Note("falls_along", {"quantity": name, "value": self.plan.water[name]}))
        return self.plan

    def _look(self) -> None:
        """Which quantities have to move, and whereto. One that has arrived rests until it leaves its range again."""
        for name, kept in self.keeps.items():
            value = self.plan.water[name]
            if name in self.goals:
                near = CLOSE_ENOUGH * (self.bands[name].ideal_high - self.bands[name].ideal_low)
                if abs(value - self.goals[name]) < near or (value > self.goals[name]) != self.begun_at[name]:
                    del self.goals[name]
            if (
                name not in self.goals
                and name not in self.given_up
                and not kept.low - 1e-9 <= value <= kept.high + 1e-9
            ):
                self._begin(name, kept)

    def _begin(self, name: str, kept: Keep) -> None:
        value, band = self.plan.water[name], self.bands[name]
        goal, home = aim(name, band, value), kept.home
        if home is not None and (value < home < band.ideal_low or band.ideal_high < home < value):
            goal = home
        if goal is None:
            goal = inner_edge(band, low=value < (band.limit_low + band.limit_high) / 2)
        if name in NUTRIENTS and value < goal:
            self.given_up.add(name)
            if value == self.start[name]:
                self.plan.left.append(Note("raise_by_feeding", {"quantity": name, "value": value, "target": goal}))
            return
        self.goals[name] = self.plan.aims[name] = goal
        self.begun_at[name] = value > goal

    def _set_temperature(self, day: int) -> bool:
        if "temp" not in self.goals:
            return False
        before = self.plan.water["temp"]
        after = {**self.plan.water, "temp": temperature_today(self.plan.water, self.goals["temp"])}
        self._record(day, Deed("set_temperature", after["temp"] - before, "c", after, ("temp",)))
        return True

    def _do_one(self, day: int) -> bool:
        """Do the first deed that is due and leaves nothing over a limit at the day's end; whether there was one.

        Where every deed would take something farther beyond a limit that it is beyond already, powders go first and
        may thin the others by a little, for only they bring them back.
        """
        for order, slack_share in (
            (("salinity", "change", *DOSE_ORDER), 0.0),
            ((*DOSE_ORDER, "salinity"), LAST_RESORT),
        ):
            for name in order:
                for deeds in self._ways(self._deed(name, day), day):
                    if first_harmed(self.plan.water, deeds[-1].after, self.bands, slack_share) is None:
                        for deed in deeds:
                            self._record(day, deed)
                        return True
        return False

    def _ways(self, deed: Deed | None, day: int) -> Iterator[tuple[Deed, ...]]:
        """Ways on: the deed itself; its powder in fresh water that is swapped in; what stands in its way first."""
        if deed is None:
            return
        yield (deed,)
        harmed = first_harmed(self.plan.water, deed.after, self.bands)
        for one in (deed, self._deed_for(harmed, day)):
            if one is not None:
                yield (one,)
                if one.unit == "g" and "salinity" in one.after:
                    yield one, undo_salinity(self.plan.water, one, self.volume_l, self.new)

    def _deed(self, name: str, day: int) -> Deed | None:
        water = self.plan.water
        if name == "change":
            return self._change() if day >= self.next_change else None
        if name not in self.goals or abs(water[name] - self.goals[name]) < 1e-6:
            return None
        if name == "salinity":
            return swap_for_salinity(water, self.goals[name], self.volume_l, self.new)
        return dose(water, name, self.goals[name], self.volume_l) if water[name] < self.goals[name] else None

    def _deed_for(self, harmed: str, day: int) -> Deed | None:
        """The deed that moves a quantity which stands in the way of another."""
        if harmed not in self.goals:
            self._begin(harmed, self.keeps[harmed])
        below = self.plan.water[harmed] < self.goals.get(harmed, 0.0)
        return self._deed(harmed if harmed == "salinity" or (harmed in SALT_FOR and below) else "change", day)

    def _change(self) -> Deed | None:
        goals = self._lowered_by_new_water()
        if not goals:
            return None
        floors = {}
        if goals.keys() == {"po4"} and "no3" in self.bands:  # phosphate alone can be bound instead: spare the nitrate
            floors = {"no3": self.bands["no3"].ideal_low}
        floors = {name: floor for name, floor in floors.items() if self.plan.water[name] >= floor}
        deed = change_water(self.plan.water, goals, self.volume_l, self.new, floors)
        if deed is None:
            values = {"quantity": "po4", "value": self.plan.water["po4"], "other": "no3"}
            self._give_up("po4", Note("rest_by_media", values))
        return deed

    def _lowered_by_new_water(self) -> dict[str, float]:
        water = self.plan.water
        salinity = water.get("salinity", 35.0)
        new, later = self.new.at(salinity), self.new.at(self.goals.get("salinity", salinity))
        goals = {}
        for name in [n for n in self.goals if n in new and n != "salinity" and water[n] > self.goals[n] + 1e-6]:
            edge = self.bands[name].ideal_high
            if new[name] >= min(edge, water[name]) - 1e-9:
                if later[name] < min(edge, water[name]) - 1e-9:
                    continue  # it helps once the salinity has moved
                values = {"quantity": name, "value": water[name]}
                self._give_up(name, Note("new_water_no_help", values))
                continue
            reach = new[name] + (edge - new[name]) / 2
            self.goals[name] = self.plan.aims[name] = max(self.goals[name], min(reach, edge))
            if water[name] > self.goals[name] + 1e-6:
                goals[name] = self.goals[name]
            else:  # other deeds have thinned it enough: no powder brings it up again
                del self.goals[name]
        return goals

    def _give_up(self, name: str, why: Note) -> None:
        self.goals.pop(name, None)
        self.given_up.add(name)
        self.plan.left.append(why)

    def _record(self, day: int, deed: Deed) -> None:
        if deed.action == "water_change":
            self.next_change = day + (1 if deed.amount <= SMALL_CHANGE * self.volume_l else DAYS_BETWEEN_CHANGES)
        self.plan.water = deed.after
        self.plan.steps.append(Step(day, deed.action, deed.amount, deed.unit, dict(deed.after)))
        self.plan.serves.append(deed.serves)
