"""Insight: survival, growth, drift, what sells and what stands; each a picture with its table beside it."""

from datetime import timedelta
from typing import Any

from flask import Blueprint, render_template, request

from webapp.science.units import QUANTITIES
from webapp.services import insight
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.thresholds import load_thresholds
from webapp.views.drawn import sparkline
from webapp.views.drawn_bars import Bars, bars
from webapp.views.drawn_survival import survival_drawing
from webapp.views.identity import staff_only
from webapp.views.rendering import money
from webapp.views.saving import memory, now, reading
from webapp.words.quantities import unit_label
from webapp.words.terms import METHOD

bp = Blueprint("insight", __name__)
SPANS = {"90": "90 days", "365": "a year", "1095": "three years"}
BY_NAMES = {"kind": "kind", "method": "method of cutting", "mother": "mother"}
CHECKED_DAYS = (30, 90, 180)
MOST_BARS = 10
FEW = 4
"""So many pictures of a sort are seen at once."""


@bp.get("/insight")
@staff_only
def show() -> str:
    """Survival by kind, method or mother; what sells and what stands."""
    by, span, since = _asked()
    at, kinds = revision(reading()), newest_profiles(reading(), memory(), revision(reading()))
    hour = now().replace(minute=0, second=0, microsecond=0)
    curves = memory().get(at, ("survival", by, span, hour), lambda: insight.survival(reading(), by, since, now()))
    sold = memory().get(at, ("turnover", span, hour), lambda: insight.turnover(reading(), kinds, since, now()))
    return render_template(
        "insight/show.html", **_apart(curves), most=insight.MOST_CURVES, drawn=survival_drawing, sold=sold,
        name=lambda key: _name(by, key, kinds), checked=CHECKED_DAYS, takings=_takings(sold),
        standing=_standing(sold), **_form(by, span),
    )  # fmt: skip


@bp.get("/insight/growth")
@staff_only
def growth() -> str:
    """Growth by kind, and the drift of the water."""
    _by, span, since = _asked()
    at, kinds = revision(reading()), newest_profiles(reading(), memory(), revision(reading()))
    limits = load_thresholds(reading())
    grown = memory().get(at, ("growth by kind", now().date()), lambda: insight.growth_by_kind(reading(), limits, now()))
    drift = memory().get(at, ("drift", span, now().date()), lambda: insight.water_drift(reading(), since))
    rates = [(kinds[one.key].trade_name, one.percent, f"{one.percent:+.0f} %") for one in grown[:MOST_BARS]]
    return render_template(
        "insight/growth.html", grown=grown, drift=drift, kinds=kinds, rates=bars(rates), line=sparkline,
        most=MOST_BARS, few=FEW, unit=lambda key: unit_label(key, QUANTITIES[key].canonical_unit),
        **_form("kind", span),
    )  # fmt: skip


def _apart(curves: list[insight.Survival]) -> dict[str, list[insight.Survival]]:
    """The few of which the smallest share lives, and the others, which are behind a tap."""
    worst = sorted((one for one in curves if one.curve.died), key=lambda one: one.curve.shares[-1])[:FEW]
    return {"curves": worst, "others": [one for one in curves if one not in worst]}


def _takings(sold: list[insight.Turnover]) -> Bars | None:
    most = [one for one in sold if one.takings_cents][:MOST_BARS]
    return bars([(one.name, one.takings_cents, money(one.takings_cents)) for one in most])


def _standing(sold: list[insight.Turnover]) -> Bars | None:
    longest = sorted((one for one in sold if one.days_standing), key=lambda one: -(one.days_standing or 0))
    return bars([(one.name, one.days_standing or 0, f"{one.days_standing:.0f} d") for one in longest[:MOST_BARS]])


def _asked() -> tuple[str, str, Any]:
    by, span = request.args.get("by", "kind"), request.args.get("span", "365")
    by, span = by if by in BY_NAMES else "kind", span if span in SPANS else "365"
    return by, span, now() - timedelta(days=int(span))


def _form(by: str, span: str) -> dict[str, Any]:
    return {"by": by, "span": span, "spans": list(SPANS.items()), "by_names": list(BY_NAMES.items())}


def _name(by: str, key: str, kinds: dict[str, Any]) -> str:
    if by == "kind":
        return kinds[key].trade_name if key in kinds else key
    return METHOD.get(key, key) if by == "method" else key
