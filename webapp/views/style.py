"""The style page: every part in every state, with invented data. It is the look's own documentation."""

from dataclasses import dataclass

from flask import Blueprint, abort, render_template
from markupsafe import Markup

from webapp.fit.findings import ORDER, Spot, Verdict
from webapp.fit.profile import Band, Basis
from webapp.pictures.draw import draw_kind
from webapp.science.interval import Interval
from webapp.views.drawn import FactorLine, factor_line, sparkline, tank_view
from webapp.views.identity import staff_door

bp = Blueprint("style", __name__)

_BASIS = Basis("common_practice")
_ALK = Band(6.5, 7.5, 9.5, 12, _BASIS)
_NITRATE = Band(0, 2, 20, 40, _BASIS)
_LIGHT = Band(40, 80, 180, 350, _BASIS)
_SALINITY = Band(31, 33.5, 36, 38, _BASIS)
_CALCIUM = Band(350, 390, 460, 500, _BASIS)


@dataclass(frozen=True, slots=True)
class Sample:
    """One factor as the fit check would show it."""

    name: str
    verdict: Verdict
    line: FactorLine | None
    unit: str
    reading: str
    of: str
    reason: str
    fix: str = ""


_LINES = {
    "alk": factor_line(_ALK, Interval(8.1, 8.6, 9.1), 8.2),
    "no3": factor_line(_NITRATE, Interval(22, 27.5, 33), 8),
    "par": factor_line(_LIGHT, Interval(150, 300, 600), 160, log=True),
    "salinity": factor_line(_SALINITY, Interval(24, 24.5, 25)),
    "ca": factor_line(_CALCIUM, None, 425),
}
_HALF = "Half of that range is above 350. A light meter at the spot would settle it."
_NIPS = "It would eat this coral. No change of water mends that."
SAMPLES = (
    Sample(
        "Alkalinity", "suits", _LINES["alk"], "dKH", "8.6 dKH", "give or take 0.5",
        "8.6 dKH lies in the ideal, 7.5 to 9.5.",
    ),
    Sample(
        "Nitrate", "close", _LINES["no3"], "mg/l", "27.5 mg/l", "give or take 5.5",
        "7.5 mg/l above the ideal, inside what it bears.", "Change 40 l of the water over 10 days.",
    ),
    Sample("Light", "not_known", _LINES["par"], "µmol", "300 µmol", "somewhere from 150 to 600", _HALF),
    Sample(
        "Salinity", "change_first", _LINES["salinity"], "ppt", "24.5 ppt", "give or take 0.5",
        "6.5 ppt below what it bears.", "Raise it by 1 ppt a day for 9 days: 1.2 kg of salt in all.",
    ),
    Sample("Calcium", "not_known", _LINES["ca"], "mg/l", "", "", "No reading. This kind builds a skeleton."),
    Sample("Fish that nip", "not_here", None, "", "1 butterflyfish", "", _NIPS),
)  # fmt: skip

SPOT = Spot("lower", 31, (22, 38), Interval(60, 110, 190), Interval(6, 12, 20))
SHALLOW = Spot("upper", None, None, None, Interval(20, 30, 45))
HISTORY = tuple((day, 7.4 + 0.9 * (day % 7) / 7 + 0.02 * day) for day in range(0, 30, 2))


@bp.get("/style")
def gallery() -> str:
    """The page; walk-ins have no use for it."""
    if not staff_door():
        abort(404)
    errors = {"error_alk": "7,2,1 is not a number. Type it as 7.2", "error_light": "Choose how you know your light"}
    return render_template(
        "style/gallery.html",
        samples=SAMPLES,
        errors=errors,
        tanks=(tank_view(90, 50, SPOT), tank_view(40, 40, SPOT), tank_view(None, None, SHALLOW)),
        history=sparkline(HISTORY, _ALK),
        picture=Markup(draw_kind("briareum", title="Drawing of green star polyps")),
        verdicts=ORDER,
    )
