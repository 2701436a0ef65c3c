"""Losses: what died, where on its way and of what; by kind, mother, method, supplier, tank and day of work."""

from datetime import timedelta

from flask import Blueprint, render_template, request

from webapp.services.losses import BY, FEWEST, losses
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.thresholds import load_thresholds
from webapp.views.identity import staff_only
from webapp.views.saving import memory, now, reading
from webapp.words.sales import STAGE
from webapp.words.terms import CAUSE, METHOD

bp = Blueprint("losses", __name__)
SPANS = {"30": "30 days", "90": "90 days", "365": "a year"}
BY_TITLES = {
    "kind": "By kind", "mother": "By mother", "method": "By method", "supplier": "By supplier", "tank": "By tank",
}  # fmt: skip


@bp.get("/losses")
@staff_only
def show() -> str:
    """The losses of a span of days."""
    span = request.args.get("span", "90")
    span = span if span in SPANS else "90"
    limits = load_thresholds(reading())
    found = losses(reading(), limits, now() - timedelta(days=int(span)), now())
    kinds = newest_profiles(reading(), memory(), revision(reading()))
    named = {"kind": {key: kind.trade_name for key, kind in kinds.items()}, "method": METHOD}
    return render_template(
        "losses/show.html", found=found, span=span, spans=list(SPANS.items()), limits=limits, stages=STAGE,
        causes=CAUSE, titles=BY_TITLES, order=BY, fewest=FEWEST, few=5,
        name=lambda by, group: named.get(by, {}).get(group.key, group.name),
    )  # fmt: skip
