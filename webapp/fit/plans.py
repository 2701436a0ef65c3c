"""A plan for every factor that can be mended, all out of one schedule that counts what each does to the others."""

from collections.abc import Iterable
from dataclasses import dataclass

from webapp.fit import cautions
from webapp.fit.aims import MOVABLE
from webapp.fit.deeds import strong_water_ppt
from webapp.fit.doses import DISPLACED_SHARE, NewWater, Water, net_volume_l
from webapp.fit.findings import Note, Plan, Step
from webapp.fit.profile import Band
from webapp.fit.schedule import Schedule, build

#: What is planned for; beyond it the water is started afresh, not mended. Also the range of the equations.
PLANNABLE = {
    "temp": (15.0, 34.0),
    "salinity": (20.0, 42.0),
    "alk": (1.0, 20.0),
    "ca": (100.0, 700.0),
    "mg": (300.0, 2000.0),
    "no3": (0.0, 300.0),
    "po4": (0.0, 10.0),
}
USUAL_NEW_WATER = NewWater()


@dataclass(frozen=True, slots=True)
class Plans:
    """`by_factor`: a Plan for each factor that can be mended; `schedule`: all steps by day; `notes`: what else."""

    by_factor: dict[str, Plan]
    schedule: tuple[Step, ...] = ()
    notes: tuple[Note, ...] = ()


def plan_all(
    water: Water,
    bands: dict[str, Band],
    mend: Iterable[str],
    stated_volume_l: float | None,
    *,
    new: NewWater = USUAL_NEW_WATER,
    displaced_share: float = DISPLACED_SHARE,
) -> Plans:
    """Plans that bring the factors of `mend` to a quarter inside their ideal bands, within safe daily rates.

    water: best estimates of what is known (temp C, salinity ppt, alk dKH, ca, mg, no3, po4 mg/L, ph), also of factors
    that are not to be mended: they are kept as good as they are. stated_volume_l: the tank's litres, from which
    `displaced_share` is taken off for rock and sand. Factors of `mend` that no plan moves (light, age) are passed over.
    """
    wanted = set(mend)
    notes = [Note("never_dose_ph")] if "ph" in wanted else []
    beyond = {n: water[n] for n, (low, high) in PLANNABLE.items() if n in water and not low <= water[n] <= high}
    notes += [Note("cannot_be_planned", {"quantity": name, "value": value}) for name, value in beyond.items()]
    known = {name: water[name] for name in MOVABLE if name in water and name not in beyond}
    wanted &= known.keys() & bands.keys()
    if "salinity" in beyond:  # every dose and swap hangs on it
        wanted &= {"temp"}
    if not wanted:
        return Plans({}, (), tuple(notes))
    if stated_volume_l is None:
        if wanted != {"temp"}:
            notes.append(Note("no_volume"))
        known, stated_volume_l = {name: known[name] for name in known if name == "temp"}, 1.0
        wanted &= {"temp"}
    net_l = net_volume_l(stated_volume_l, displaced_share)
    schedule = build(known, bands, wanted, net_l, new)
    if any(step.action in ("water_change", "salt_water_swap") for step in schedule.steps):
        notes.append(Note("new_water_taken_as", {"alk_dkh": new.alk, "ca_mg_l": new.ca, "mg_mg_l": new.mg}))
    volume_note = Note("net_volume", {"volume_l": net_l, "displaced_share": displaced_share})
    served = {name for serves in schedule.serves for name in serves}
    given_up = {note.values.get("quantity") for note in schedule.left if note.code != "falls_along"}
    by_factor = {
        name: _plan(name, aim, schedule, net_l, volume_note, water.get("ph"))
        for name, aim in schedule.aims.items()
        if name in served or name not in given_up
    }
    return Plans(by_factor, tuple(schedule.steps), (*notes, *schedule.left))


def _plan(name: str, aim: float, schedule: Schedule, net_l: float, volume_note: Note, ph: float | None) -> Plan:
    steps = [step for step, serves in zip(schedule.steps, schedule.serves, strict=True) if name in serves]
    if not steps:
        return Plan("comes_along", 0.0, "", schedule.steps[-1].day + 1 if schedule.steps else 0, aim)
    main = [step for step in steps if step.action == steps[0].action]
    action, unit, total = steps[0].action, steps[0].unit, sum(step.amount for step in main)
    days = steps[-1].day + 1
    if unit == "c":
        said = cautions.for_temperature(total, days)
    elif unit == "g":
        said = [volume_note, *cautions.for_dose(name, total, net_l, aim, ph)]
    else:
        salinity = steps[0].expect.get("salinity")
        if action == "salt_water_swap":
            salinity = strong_water_ppt(schedule.aims["salinity"])
        said = [volume_note, *cautions.for_water(name, main, net_l, aim, salinity)]
    return Plan(action, total, unit, days, aim, tuple(steps), tuple(said))
