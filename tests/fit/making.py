"""An invented kind, tank and specimen for tests of the rules; every part may be replaced."""

from dataclasses import replace

from webapp.fit.check import check_prepared
from webapp.fit.findings import Finding, Report
from webapp.fit.prepared import prepare
from webapp.fit.profile import Band, Basis, Profile
from webapp.fit.specimen import Specimen
from webapp.fit.tank import BuyerTank, FlowSaid, LightSaid, Measured

PRACTICE = Basis("common_practice")


def band(limit_low: float, ideal_low: float, ideal_high: float, limit_high: float) -> Band:
    return Band(limit_low, ideal_low, ideal_high, limit_high, PRACTICE)


BANDS = {
    "temp": band(22, 24, 26.5, 28),
    "salinity": band(31, 33, 36, 38),
    "alk": band(6.5, 7.5, 10, 11.5),
    "ca": band(370, 400, 450, 480),
    "mg": band(1150, 1250, 1400, 1500),
    "ph": band(7.6, 7.9, 8.4, 8.6),
    "no3": band(0, 2, 15, 25),
    "po4": band(0, 0.02, 0.1, 0.15),
    "par": band(50, 80, 200, 300),
    "flow": band(2, 5, 20, 40),
}


def kind(**changes) -> Profile:
    """A stony coral of middle demands that nothing eats and that reaches 5 cm."""
    plain = Profile(
        key="testacora", revision=1, scientific="Testacora ficta", trade_name="invented stony coral", group="lps",
        bands=BANDS, placement="middle", adult_cm=20, sting_reach_cm=5, aggression=1, stung_easily=1, skeleton=True,
        calcium_demand=2, feeding="light", feeding_days_per_week=0, hardiness=2, toxicity_note="low",
        cites="not listed", propagation_methods="cutting", attach_days=(7, 21), min_tank_age_months=4,
    )  # fmt: skip
    return replace(plain, **changes)


def with_band(factor: str, *edges: float, **changes) -> Profile:
    return kind(bands={**BANDS, factor: band(*edges)}, **changes)


GOOD = {
    "temp": Measured(25.2, "c", "digital_probe"),
    "salinity": Measured(34.5, "ppt", "refractometer"),
    "alk": Measured(8.6, "dkh", "drop_kit"),
    "ca": Measured(425, "mg_l", "drop_kit"),
    "mg": Measured(1325, "mg_l", "drop_kit"),
    "ph": Measured(8.15, "nbs", "electrode"),
    "no3": Measured(8, "mg_l", "colorimeter"),
    "po4": Measured(0.06, "mg_l", "low_range_colorimeter"),
}


def tank(**changes) -> BuyerTank:
    """A tank in which `kind()` suits in every factor."""
    plain = BuyerTank(
        readings={name: (value,) for name, value in GOOD.items()},
        volume=Measured(200, "l"), length=Measured(100, "cm"), width=Measured(45, "cm"), height=Measured(45, "cm"),
        light=LightSaid("meter", par=130, depth_cm=22, corrected_for_water=True, hours=9),
        flow=FlowSaid("meter", speed_cm_s=10), tankmates=(), neighbours=(), free_space_cm=25, age_months=18,
        feeding_days_per_week=3,
    )  # fmt: skip
    return replace(plain, **changes)


def reading(quantity: str, *values: Measured, **changes) -> BuyerTank:
    """The good tank with other readings of one quantity; none of it with no value."""
    readings = {**{name: (value,) for name, value in GOOD.items()}, quantity: values}
    return tank(readings={name: found for name, found in readings.items() if found}, **changes)


def report(
    buyer: BuyerTank | None = None, profile: Profile | None = None, kinds=None, *, plans: bool = False, **specimen
) -> Report:
    """The check, without plans unless asked for: they take their time."""
    prepared = prepare(buyer or tank(), kinds or {})
    return check_prepared(prepared, Specimen(profile or kind(), **specimen), with_plans=plans)


def finding(answer: Report, factor: str) -> Finding:
    return next(found for found in answer.findings if found.factor == factor)


def verdict(factor: str, buyer: BuyerTank | None = None, profile: Profile | None = None, kinds=None) -> str:
    return finding(report(buyer, profile, kinds), factor).verdict


def codes(answer: Report, factor: str) -> set[str]:
    """Codes of reasons and advice of one factor."""
    found = finding(answer, factor)
    return {note.code for note in (*found.reasons, *found.advice)}
