"""Plans and the schedule in sentences; days that ask for the same are told once."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from webapp.fit.findings import Plan, Step
from webapp.words.factors import factor_inside
from webapp.words.language import later
from webapp.words.notes import note_sentence
from webapp.words.places import SALTS
from webapp.words.speaker import Speaker

#: What to do on one day, and on each of several days in a row.
DEEDS = {
    "sodium_bicarbonate": later("Dissolve %(amount)s g of sodium bicarbonate in fresh water and add it slowly."),
    "calcium_chloride_dihydrate": later(
        "Dissolve %(amount)s g of calcium chloride dihydrate in cold fresh water and add it slowly."
    ),
    "magnesium_chloride_hexahydrate": later(
        "Dissolve %(amount)s g of magnesium chloride hexahydrate in fresh water and add it slowly."
    ),
    "fresh_water_swap": later("Take out %(amount)s of tank water and put in as much pure water."),
    "salt_water_swap": later("Take out %(amount)s of tank water and put in as much of the stronger salt water."),
    "water_change": later("Change %(amount)s of water."),
    "warmer": later("Set the thermostat %(amount)s higher."),
    "cooler": later("Bring the temperature down by %(amount)s."),
}
TITLES = {
    "fresh_water_swap": later("Bring %(quantity)s to %(target)s: %(total)s of pure water in place of tank water"),
    "salt_water_swap": later(
        "Bring %(quantity)s to %(target)s: %(total)s of stronger salt water in place of tank water"
    ),
    "water_change": later("Bring %(quantity)s to %(target)s: water changes, %(total)s in all"),
    "set_temperature": later("Bring %(quantity)s to %(target)s, a little each day"),
    "comes_along": later("Bring %(quantity)s to %(target)s: the other steps do it"),
}
DOSE_TITLE = later("Bring %(quantity)s to %(target)s: %(total)s g of %(salt)s in all")


@dataclass(frozen=True, slots=True)
class ToldPlan:
    """One factor's plan: a heading, (when, what to do), and what to mind."""

    title: str
    steps: list[tuple[str, str]]
    cautions: list[str]


@dataclass(frozen=True, slots=True)
class ToldStep:
    """Days of the schedule that ask for the same: '3' or '3 to 7', what to do, what to expect after the last."""

    day: str
    text: str
    expect: str
    first_day: int
    last_day: int


def tell_plan(plan: Plan, factor: str, start: float | None, speaker: Speaker) -> ToldPlan:
    """The plan of `factor`, whose reading is `start` (canonical unit)."""
    known = {} if start is None else {factor: start}
    told = tell_schedule(plan.steps, known, speaker)
    when = later("Day %(day)s"), later("Days %(day)s, each day")
    steps = [
        (speaker.say(when[one.first_day != one.last_day], day=one.day), f"{one.text} {one.expect}".strip())
        for one in told
    ]
    return ToldPlan(_title(plan, factor, speaker), steps, [note_sentence(note, speaker) for note in plan.cautions])


def tell_schedule(steps: Sequence[Step], start: dict[str, float], speaker: Speaker) -> list[ToldStep]:
    """All steps by day. `start`: the quantities whose way is told, as they are now (canonical units)."""
    days = [(day, list(deeds)) for day, deeds in groupby(steps, key=lambda step: step.day)]
    runs: list[tuple[int, int, str, Step]] = []
    for day, deeds in days:
        text = " ".join(_deed(step, speaker) for step in deeds)
        if runs and runs[-1][1] == day - 1 and runs[-1][2] == text:
            runs[-1] = (runs[-1][0], day, text, deeds[-1])
        else:
            runs.append((day, day, text, deeds[-1]))
    told, now = [], dict(start)
    for first, last, text, step in runs:
        expect = _expect(step.expect, now, speaker)
        now |= {name: step.expect[name] for name in now if name in step.expect}
        told.append(ToldStep(_days(first, last, speaker), text, expect, first, last))
    return told


def _days(first: int, last: int, speaker: Speaker) -> str:
    if first == last:
        return str(first + 1)
    return speaker.say(later("%(low)s to %(high)s"), low=str(first + 1), high=str(last + 1))


def _deed(step: Step, speaker: Speaker) -> str:
    if step.unit == "c":
        amount = speaker.difference("temp", step.amount, 25.0)
        return speaker.say(DEEDS["warmer" if step.amount > 0 else "cooler"], amount=amount)
    amount = speaker.litres(step.amount) if step.unit == "l" else speaker.amount(step.amount)
    return speaker.say(DEEDS[step.action], amount=amount)


def _expect(after: dict[str, float], before: dict[str, float], speaker: Speaker) -> str:
    """Readings that differ from before as they are shown; '' where none does."""
    moved = [
        speaker.say(
            later("%(name)s %(reading)s"),
            name=factor_inside(name, speaker.translate),
            reading=speaker.reading(name, after[name], rough=True),
        )
        for name, was in before.items()
        if name in after and speaker.reading(name, after[name], rough=True) != speaker.reading(name, was, rough=True)
    ]
    return speaker.say(later("Then expect about: %(readings)s."), readings=speaker.listed(moved)) if moved else ""


def _title(plan: Plan, factor: str, speaker: Speaker) -> str:
    places = {
        "quantity": factor_inside(factor, speaker.translate),
        "target": speaker.reading(factor, plan.target, rough=True),
    }
    if plan.unit == "g":
        salt = speaker.translate(SALTS[plan.action])
        return speaker.say(DOSE_TITLE, total=speaker.amount(plan.total), salt=salt, **places)
    total = speaker.litres(plan.total) if plan.unit == "l" else ""
    return speaker.say(TITLES[plan.action], total=total, **places)


def planned(factors: Iterable[str], readings: dict[str, float]) -> dict[str, float]:
    """Of `readings` those that a plan moves."""
    return {name: readings[name] for name in factors if name in readings}
