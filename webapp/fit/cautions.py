"""What must be said beside an amount: rates, the water it is for, how not to be hurt. Codes of plan_codes.CAUTIONS."""

from webapp.fit.doses import DAILY, SALT_FOR
from webapp.fit.findings import Note, Step
from webapp.science.dosing import SALTS, dose_g, rise_from_dose

ADD_OVER_MINUTES = 60  # common practice
HOURS_APART = 1  # common practice
HIGHEST_PH_FOR_CARBONATE = 8.3  # common practice
DRAWS_WATER = ("calcium_chloride_dihydrate", "magnesium_chloride_hexahydrate")


def for_dose(quantity: str, total_g: float, volume_l: float, target: float, ph: float | None) -> list[Note]:
    """Cautions of a powder; for alkalinity also the same rise in sodium carbonate, unless pH is high already."""
    salt = SALT_FOR[quantity]
    said = SALTS[salt].cautions
    notes = [Note("rate", {"quantity": quantity, "per_day": DAILY[quantity]})]
    if quantity == "alk" and (ph is None or ph <= HIGHEST_PH_FOR_CARBONATE):
        rise = rise_from_dose(salt, volume_l, total_g)
        notes.append(Note("or_sodium_carbonate", {"total_g": dose_g("sodium_carbonate", volume_l, rise)}))
    notes += [
        Note("test_again", {"quantity": quantity, "target": target}),
        Note("daily_use_comes_on_top", {"quantity": quantity}),
        Note("add_slowly", {"minutes": ADD_OVER_MINUTES}),
        Note("one_thing_at_a_time"),
    ]
    if any(code.startswith("apart_from") for code in said):
        notes.append(Note("apart_from", {"salt": salt, "hours": HOURS_APART}))
    notes.append(Note("pure_and_labelled", {"salt": salt}))
    notes.append(Note("goggles_and_gloves", {"salt": salt}))
    if "heats_when_dissolved" in said:
        notes.append(Note("heats_up", {"salt": salt}))
    if salt in DRAWS_WATER:
        notes.append(Note("keep_dry", {"salt": salt}))
    return [*notes, Note("keep_from_children", {"salt": salt})]


def for_water(quantity: str, steps: list[Step], volume_l: float, target: float, salinity: float | None) -> list[Note]:
    """Cautions of water taken out and put back; `salinity` is that of the water put in (0: pure), None if not known."""
    share = max(step.amount for step in steps) / volume_l
    notes = [Note("changes", {"count": len(steps), "share": share})]
    if quantity in DAILY:
        notes.append(Note("rate", {"quantity": quantity, "per_day": DAILY[quantity]}))
    action = steps[0].action
    if action == "fresh_water_swap":
        notes.append(Note("pure_water"))
    elif action == "salt_water_swap":
        notes.append(Note("strong_water", {"salinity_ppt": salinity}))
    else:
        notes.append(Note("match_new_water", {"salinity_ppt": salinity}))
    if quantity in SALT_FOR and action == "water_change":
        notes.append(Note("stop_dosing", {"quantity": quantity}))
    if quantity == "po4":
        notes.append(Note("given_back"))
    return [*notes, Note("electricity_off"), Note("test_again", {"quantity": quantity, "target": target})]


def for_temperature(total_c: float, days: int) -> list[Note]:
    """Cautions of a thermostat moved by `total_c` (signed) in `days`."""
    notes = [
        Note("rate", {"quantity": "temp", "per_day": DAILY["temp"]}),
        Note("heater_slowly", {"c_per_day": abs(total_c) / days}),
    ]
    return notes if total_c > 0 else [*notes, Note("cooling")]
