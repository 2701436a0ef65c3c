"""Answers for the counter: one page for one animal, to be read while the customer stands there."""

from flask import Blueprint, render_template

from webapp.services.answers import answers
from webapp.services.panel import panel
from webapp.views.identity import staff_only
from webapp.views.saving import memory, now, reading
from webapp.words.answers import QUESTION, answer_sentences

bp = Blueprint("answers", __name__)


@bp.get("/s/<string(length=32):specimen_id>/answers")
@staff_only
def show(specimen_id: str) -> str:
    """Every usual question about this one."""
    shown = panel(reading(), memory(), specimen_id, now())
    asked = answers(reading(), shown, now())
    return render_template("answers/show.html", panel=shown, asked=asked, questions=QUESTION, told=answer_sentences)
