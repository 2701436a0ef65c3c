"""Rackside: tags, history and an honest fit check for a shop that sells live coral frags."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask

    from webapp.config import Config
    from webapp.storage.database import Database


def create_app(config: Config, database: Database | None = None) -> Flask:
    """The application, for every listener. The database must have been migrated (`storage.migrating.upgrade`)."""
    # Imported here so that the pure rooms can be used without loading the web.
    from flask import Flask

    from webapp import security
    from webapp.services.memory import Memory
    from webapp.storage.database import Database
    from webapp.views import blueprints, cookies, error_pages, rendering, saving

    app = Flask("webapp", template_folder=str(beside("templates")), static_folder=None)
    app.config.update(
        SECRET_KEY=config.secret_key,
        STAFF_ON_PUBLIC_DOOR=config.staff_on_public_door,
        TESTING=config.testing,
        MAX_CONTENT_LENGTH=12 * 1024 * 1024,
        MAX_FORM_MEMORY_SIZE=1024 * 1024,
        SESSION_COOKIE_NAME="rackside_staff",
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        SESSION_REFRESH_EACH_REQUEST=False,  # why: views/cookies.py
        PERMANENT_SESSION_LIFETIME=cookies.LONGEST_S,
        WTF_CSRF_TIME_LIMIT=None,
    )
    app.session_interface = cookies.DoorSessions()
    saving.init_app(app, database or Database(config.database_url), Memory())
    security.init_app(app)
    error_pages.init_app(app)
    rendering.init_app(app)
    blueprints.init_app(app)
    return app


def beside(folder: str) -> Path:
    """`templates` or `static`: inside the package when installed, beside it in a checkout."""
    inside = Path(__file__).parent / folder
    return inside if inside.is_dir() else Path(__file__).parent.parent / folder
