"""Every surface of the app, one blueprint each."""

from flask import Flask
from flask_wtf.csrf import CSRFProtect

from webapp.views import (
    assets,
    binding,
    card,
    fit,
    fragging,
    people,
    racks,
    setup,
    sheet,
    specimens,
    stock,
    style,
    tags,
    tank_card,
    tanks,
    thresholds,
)

SURFACES = (
    assets.bp,
    binding.bp,
    card.bp,
    fit.bp,
    fragging.bp,
    people.bp,
    racks.bp,
    setup.bp,
    sheet.bp,
    specimens.bp,
    stock.bp,
    style.bp,
    tags.bp,
    tank_card.bp,
    tanks.bp,
    thresholds.bp,
)

csrf = CSRFProtect()


def init_app(app: Flask) -> None:
    """Protect every form and register every surface."""
    csrf.init_app(app)
    for surface in SURFACES:
        app.register_blueprint(surface)
