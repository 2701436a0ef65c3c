"""What to change in the buyer's water, by deed: each deed once, with all its days and amounts."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from itertools import groupby

from webapp.fit.findings import Step
from webapp.words.dates import day_of_month
from webapp.words.language import later
from webapp.words.speaker import Speaker

#: Headings of deeds.
DEEDS = {
    "water_change": later("Change water"),
    "fresh_water_swap": later("Pure water for tank water"),
    "salt_water_swap": later("Stronger salt water for tank water"),
    "warmer": later("Thermostat up"),
    "cooler": later("Cooler"),
    "sodium_bicarbonate": later("Sodium bicarbonate"),
    "calcium_chloride_dihydrate": later("Calcium chloride dihydrate"),
    "magnesium_chloride_hexahydrate": later("Magnesium chloride hexahydrate"),
}
#: Cold, as calcium chloride heats the water it dissolves in; apart, as together they fall out as chalk.
POWDERS = later("Dissolve each powder alone in cold fresh water; add it slowly.")
_FEWEST_IN_A_ROW = 4


def changes_by_deed(steps: Sequence[Step], start: datetime, speaker: Speaker) -> list[tuple[str, str]]:
    """(deed, its amounts with their days) in the order in which each begins. `start`: day 0 on the reader's clock."""
    by_deed: dict[str, list[tuple[int, str]]] = {}
    for step in steps:
        by_deed.setdefault(deed_of(step), []).append((step.day, _amount(step, speaker)))
    return [(speaker.translate(DEEDS[deed]), _told(given, start, speaker)) for deed, given in by_deed.items()]


def deed_of(step: Step) -> str:
    """Its key in DEEDS."""
    return ("warmer" if step.amount > 0 else "cooler") if step.unit == "c" else step.action


def hints(steps: Sequence[Step], speaker: Speaker) -> list[str]:
    """How changes of the water are done, whatever they are: nothing where there are none."""
    told = [later("Test before each step; stop at the ideal.")] if steps else []
    if any(step.unit == "g" for step in steps):
        told.append(POWDERS)
    return [speaker.translate(one) for one in told]


def _told(given: list[tuple[int, str]], start: datetime, speaker: Speaker) -> str:
    doses = []
    for amount, days in groupby(given, key=lambda pair: pair[1]):
        told = days_told([day for day, _ in days], start, speaker)
        doses.append(speaker.say(later("%(amount)s: %(days)s"), amount=amount, days=told))
    told = "; ".join(doses).removesuffix(".")  # where a month ends in a full stop there is one already
    return speaker.say(later("%(doses)s."), doses=told)


def _amount(step: Step, speaker: Speaker) -> str:
    if step.unit == "c":
        return speaker.difference("temp", step.amount, 25.0)
    if step.unit == "l":
        if speaker.unit("volume") == "l":  # what the form calls litres, as short as mg/L
            return speaker.say(later("%(amount)s L"), amount=speaker.amount(step.amount))
        return speaker.litres(step.amount)
    return speaker.say(later("%(amount)s g"), amount=speaker.amount(step.amount))


def days_told(days: Sequence[int], start: datetime, speaker: Speaker) -> str:
    """'3 Nov', '3 to 7 Nov, each day', '3 Nov, then every 3 days to 24 Nov': days counted from `start`, in order."""
    told: list[str] = []
    at = 0
    while at < len(days):
        gap = days[at + 1] - days[at] if at + 1 < len(days) else 0
        last = at
        while last + 1 < len(days) and days[last + 1] - days[last] == gap:
            last += 1
        if gap and (last - at + 1 >= _FEWEST_IN_A_ROW or (gap == 1 and last > at + 1)):
            told.append(_run(days[at], days[last], gap, start, speaker))
            at = last + 1
        else:
            told.append(_date(days[at], start, speaker))
            at += 1
    return ", ".join(told)


def _run(first: int, last: int, gap: int, start: datetime, speaker: Speaker) -> str:
    ends = {"begins": _date(first, start, speaker), "ends": _date(last, start, speaker)}
    if gap == 1:
        return speaker.say(later("daily %(begins)s to %(ends)s"), **ends)
    return speaker.say(later("%(begins)s, then every %(days)s days to %(ends)s"), days=gap, **ends)


def _date(day: int, start: datetime, speaker: Speaker) -> str:
    return day_of_month(speaker.translate, start + timedelta(days=day))
