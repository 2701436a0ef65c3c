"""Why a pH is low: carbon dioxide in the room's air, low alkalinity, or the probe. Nobody is told to dose pH."""

from dataclasses import dataclass

from webapp.fit.findings import Note
from webapp.fit.readings import Readings
from webapp.science.carbonate import PhShortfall, ph_shortfall

LOOKED_AT_BELOW = 8.2
COUNTS = 0.05
"""Half of a usual electrode's error: a smaller part is not named as a cause."""
SALINITY_PPT, TEMP_C = 35.0, 25.0
"""Taken where they were not read: they move the answer by about 1 % each."""


@dataclass(frozen=True, slots=True)
class PhCause:
    """The notes that explain it and what to do."""

    reasons: tuple[Note, ...]
    advice: tuple[Note, ...]


def cause_of(readings: Readings) -> PhCause | None:
    """The cause of a pH under 8.2, from pH and alkalinity; None where there is nothing to explain."""
    ph, alk = readings.middle("ph"), readings.middle("alk")
    if ph is None or ph >= LOOKED_AT_BELOW:
        return None
    do_not = Note("do_not_dose_ph")
    if alk is None:
        return PhCause((Note("ph_low_cause_unknown", {"ph": ph}), Note("ph_daily")), (do_not,))
    salinity, temp = readings.middle("salinity") or SALINITY_PPT, readings.middle("temp") or TEMP_C
    try:
        short = ph_shortfall(alk, ph, salinity, temp)
    except ValueError:
        return PhCause((Note("ph_low_cause_unknown", {"ph": ph}), Note("ph_daily")), (do_not,))
    return _explain(ph, alk, short, do_not)


def _explain(ph: float, alk: float, short: PhShortfall, do_not: Note) -> PhCause:
    reasons, advice = [], [do_not]
    values = {"ph": ph, "alk_dkh": alk, "ph_outdoor_air": short.expected_ph_nbs}
    if short.from_co2 > COUNTS:
        reasons.append(Note("ph_low_room_air", {**values, "pco2_uatm": short.pco2_uatm}))
        advice.append(Note("fresh_air"))
    if short.from_alkalinity > COUNTS:
        reasons.append(Note("ph_low_alkalinity", values))
        advice.append(Note("raise_alkalinity"))
    if not reasons:
        reasons.append(Note("ph_probe", {"ph": ph, "pco2_uatm": short.pco2_uatm}))
        advice.append(Note("calibrate_probe"))
    return PhCause((*reasons, Note("ph_daily")), tuple(advice))
