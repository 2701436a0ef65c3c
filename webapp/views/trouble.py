"""Trouble: power cut and heat. A page that needs nothing else to work; to be printed and hung up."""

from flask import Blueprint, render_template

from webapp.services.thresholds import load_thresholds
from webapp.views.saving import reading

bp = Blueprint("trouble", __name__)


@bp.get("/trouble")
def show() -> str:
    """The plans. No sign-in: in trouble nobody should have to look for a PIN, and nothing here is a secret."""
    return render_template("trouble/show.html", limits=load_thresholds(reading()))
