"""How to handle a kind that can hurt a person: a page of its own, before any talk of a sale."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import NotFound
from webapp.fit.profile import Profile
from webapp.services import cards
from webapp.tags.codes import normalise
from webapp.views.saving import memory, now, reading
from webapp.words.handling import PLANS
from webapp.words.language import later

bp = Blueprint("handling", __name__)


@bp.get("/<string(length=7):code>/handling")
def show(code: str) -> str | Response:
    """What can hurt, what never to do, what to do when ill. `rock`: what the buyer said to do with the rock."""
    found = cards.find(reading(), normalise(code))
    card = cards.card(reading(), memory(), found, now()) if found.kind == "specimen" else None
    if card is None:
        raise NotFound(
            later("No animal here carries this code. Look at the tag again, or type the code on the start page.")
        )
    if not must_be_read(card.profile):
        return redirect(url_for("card.show", code=card.code))
    back = request.args.to_dict(flat=False) | {"read": ["yes"]}
    plan = PLANS.get(request.args.get("rock", ""))
    return render_template(
        "handling/show.html", card=card, plan=plan, onward=url_for("fit.answer", code=card.code, **back),
        asked="rock" in request.args,
    )  # fmt: skip


def must_be_read(profile: Profile) -> bool:
    """Whether this kind has a handling page."""
    return profile.toxic or profile.stings


def stands_before(profile: Profile) -> bool:
    """Whether the handling page comes before the answer: a plan for the rock that can hurt, and it was not read yet."""
    return profile.toxic and request.args.get("rock", "") in PLANS and request.args.get("read") != "yes"
