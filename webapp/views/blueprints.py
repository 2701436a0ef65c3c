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
    rack_photos,
    racks,
    scanning,
    setup,
    sheet,
    specimens,
    stock,
    stocktake,
    style,
    tags,
    tank_card,
    tanks,
    thresholds,
    uploads,
)

SURFACES = (
    assets.bp,
    binding.bp,
    card.bp,
    fit.bp,
    fragging.bp,
    people.bp,
    rack_photos.bp,
    racks.bp,
    scanning.bp,
    setup.bp,
    sheet.bp,
    specimens.bp,
    stock.bp,
    stocktake.bp,
    style.bp,
    tags.bp,
    tank_card.bp,
    tanks.bp,
    thresholds.bp,
)

csrf = CSRFProtect()


def init_app(app: Flask) -> None:
    """Protect every form and register every surface."""
    uploads.init_app(app)
    csrf.init_app(app)
    csrf.exempt(scanning.bp)  # walk-ins have no cookie, and reading a photo changes nothing
    for surface in SURFACES:
        app.register_blueprint(surface)
