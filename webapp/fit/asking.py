"""Values that look typed in another unit: asked about, never converted behind the buyer's back, never judged.

A value that is usual in its unit passes. One that is not, but is usual in another unit of its quantity, becomes a
question with that unit as an offer; so does one that is impossible in every unit, without an offer. 'Really meant'
(BuyerTank.answers) lets a value pass that can be true in nature.
"""

import math

from webapp.fit.findings import Question
from webapp.fit.tank import Measured
from webapp.science.units import QUANTITIES, to_canonical

Offer = tuple[str, float, float]

#: Asked about outside these, canonical unit; elsewhere outside `possible`. Alkalinity from 2.8 to 4.6 and above 13 is
#: usual in meq/L and French degrees, salinity from 41 is the range of conductivity, phosphate above 1 that of ppb.
ASK_OUTSIDE = {"alk": QUANTITIES["alk"].plausible, "salinity": (20.0, 41.0), "po4": (0.0, 1.0)}
#: An offer may lie within these where none is plausible; elsewhere within `possible`.
OFFER_WITHIN = {"alk": (2.5, 20.0)}
#: 'Really meant' is believed within these.
IN_NATURE = {
    "temp": (0.0, 45.0), "salinity": (1.0, 45.0), "alk": (0.2, 30.0), "ca": (20.0, 1500.0), "mg": (50.0, 3500.0),
    "no3": (0.0, 1000.0), "po4": (0.0, 50.0), "ph": (6.5, 9.5), "ammonia": (0.0, 50.0), "nitrite": (0.0, 100.0),
    "volume": (2.0, 100000.0), "length": (3.0, 2000.0),
}  # fmt: skip
FORM_UNKNOWN = "mg_l_unsure"
"""Unit of nitrate, phosphate, ammonia or nitrite of a kit that does not say which it counts, ion or element."""
FORMS = {"no3": ("mg_l", "mg_l_n"), "po4": ("mg_l", "mg_l_p"), "nitrite": ("mg_l", "mg_l_n"),
         "ammonia": ("mg_l_n", "mg_l")}  # fmt: skip
FRENCH_FROM_DKH = 11.0
_SG_UNITS = ("sg_25", "sg_20", "sg_60f")
_GRAVITIES = (*_SG_UNITS, "sg_4")


def answer_for(quantity: str, measured: Measured) -> str:
    """The string that says 'really meant' for this very value."""
    return f"{quantity}:{measured.value:g}:{measured.unit}"


def canonical(quantity: str, value: float, unit: str, temp_c: float | None, salinity_ppt: float) -> float | None:
    """The value in the canonical unit; None where it is beyond the equation or not a number."""
    try:
        return to_canonical(quantity, value, unit, temp_c=temp_c, salinity_ppt=salinity_ppt)
    except ValueError:
        return None


def ask(
    quantity: str,
    measured: Measured,
    answers: frozenset[str] = frozenset(),
    *,
    temp_c: float | None = None,
    salinity_ppt: float = 35.0,
    name: str = "",
) -> Question | None:
    """A question about `measured`, or None where it may be judged. `name`: what it is about, if not `quantity`.

    temp_c (°C) and salinity_ppt are the tank's, for conversions that need them.
    """
    asked = name or quantity
    value, unit = measured.value, measured.unit
    if unit == "gal" and quantity == "volume":
        return _question(asked, "which_gallon", measured, _offers(quantity, ("gal_us", "gal_imp"), value, None, 35.0))
    unit_known = unit in QUANTITIES[quantity].units or (unit == FORM_UNKNOWN and quantity in FORMS)
    if not unit_known or not isinstance(value, int | float) or not math.isfinite(value):
        return _question(asked, "not_a_number", measured, ())
    first = FORMS[quantity][0] if unit == FORM_UNKNOWN else unit
    at = canonical(quantity, value, first, temp_c, salinity_ppt)
    if at is not None and _usual(quantity, value, unit, at):
        return None
    in_nature = at is not None and IN_NATURE[quantity][0] <= at <= IN_NATURE[quantity][1]
    answer = answer_for(asked, measured)
    if in_nature and answer in answers:
        return None
    special = _gravity(quantity, value)
    if special:
        return _question(asked, special[0], measured, special[1])
    others = tuple(key for key in QUANTITIES[quantity].units if key != unit)
    offers = _likely(quantity, _offers(quantity, others, value, temp_c, salinity_ppt))
    values = {"answer": answer} if in_nature else {}
    if offers:
        if at is not None and _possible(quantity, at) and not _any_plausible(quantity, offers):
            return None
        return _question(asked, "other_unit", measured, offers, values)
    if at is not None and _possible(quantity, at):
        return None
    low, high = QUANTITIES[quantity].plausible
    values |= {"usual_low": low, "usual_high": high, "usual_unit": QUANTITIES[quantity].canonical_unit}
    return _question(asked, "impossible", measured, (), values)


def french_twin(quantity: str, measured: Measured) -> float | None:
    """dKH of an alkalinity that is plausible as typed and as plausible in French degrees; else None."""
    if quantity != "alk" or measured.unit != "dkh" or measured.value < FRENCH_FROM_DKH:
        return None
    return canonical("alk", measured.value, "fdh", None, 35.0)


def _usual(quantity: str, value: float, unit: str, at: float) -> bool:
    if unit in ("ppb_p", "ppb_po4") and 0 < value < 1:
        return False  # a hundredth of a ppb: mg/L typed into the wrong box
    low, high = ASK_OUTSIDE.get(quantity, QUANTITIES[quantity].possible)
    return low <= at <= high


def _possible(quantity: str, at: float) -> bool:
    return QUANTITIES[quantity].possible[0] <= at <= QUANTITIES[quantity].possible[1]


def _offers(
    quantity: str, units: tuple[str, ...], value: float, temp_c: float | None, salinity_ppt: float
) -> tuple[Offer, ...]:
    found = ((unit, value, canonical(quantity, value, unit, temp_c, salinity_ppt)) for unit in units)
    return tuple((unit, typed, at) for unit, typed, at in found if at is not None)


def _likely(quantity: str, offers: tuple[Offer, ...]) -> tuple[Offer, ...]:
    """The plausible offers; where there is none, the possible ones.

    One gravity means waters 4 ppt apart by what it is read against: with one of them all are offered, since the one
    that comes out as usual would be the kind answer and not the likely one.
    """
    low, high = QUANTITIES[quantity].plausible
    plausible = tuple(offer for offer in offers if low <= offer[2] <= high)
    low, high = OFFER_WITHIN.get(quantity, QUANTITIES[quantity].possible)
    possible = tuple(offer for offer in offers if low <= offer[2] <= high)
    if any(offer[0] in _GRAVITIES for offer in plausible):
        return tuple(offer for offer in possible if offer[0] in _GRAVITIES or offer in plausible)
    return plausible or possible


def _any_plausible(quantity: str, offers: tuple[Offer, ...]) -> bool:
    if quantity == "salinity":
        return True  # asked from 41 up, where a conductivity need not come out as usual water
    low, high = QUANTITIES[quantity].plausible
    return any(low <= offer[2] <= high for offer in offers)


def _gravity(quantity: str, value: float) -> tuple[str, tuple[Offer, ...]] | None:
    if quantity != "salinity":
        return None
    if 1.1 <= value <= 1.4:
        moved = round(1 + (value - 1) / 10, 6)
        return "dropped_zero", (
            *_offers("salinity", _SG_UNITS[:1], moved, None, 35.0),
            *_likely_index(value),
        )
    if 1005 <= value <= 1045:
        return "sg_times_1000", _offers("salinity", _GRAVITIES, round(value / 1000, 7), None, 35.0)
    return None


def _likely_index(value: float) -> tuple[Offer, ...]:
    offers = _offers("salinity", ("n_d",), value, None, 35.0)
    return tuple(offer for offer in offers if _possible("salinity", offer[2]))


def _question(
    name: str, code: str, measured: Measured, offers: tuple[Offer, ...], values: dict | None = None
) -> Question:
    return Question(name, code, measured.value, measured.unit, offers, values or {})
