"""Every surface of the app, one blueprint each."""

from flask import Flask
from flask_wtf.csrf import CSRFProtect

from webapp.views import assets, style

SURFACES = (assets.bp, style.bp)

csrf = CSRFProtect()


def init_app(app: Flask) -> None:
    """Protect every form and register every surface."""
    csrf.init_app(app)
    for surface in SURFACES:
        app.register_blueprint(surface)
