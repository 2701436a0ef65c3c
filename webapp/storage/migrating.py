"""Brings a database to the newest shape. Alembic is configured here, in code; there is no ini file."""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy.orm import Session

from webapp.storage.database import open_engine
from webapp.storage.history import rebuild

HERE = Path(__file__).parent / "migrations"


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(HERE))
    config.set_main_option("path_separator", "os")
    return config


def upgrade(url: str, revision: str = "head") -> None:
    """Run every migration that `url` has not had yet. Foreign keys rest meanwhile, since SQLite rebuilds tables.

    Where one of them gave the present new columns, the present is made again from the history, which may take minutes.
    """
    config = _config()
    engine = open_engine(url)
    try:
        with engine.connect() as connection:
            before = MigrationContext.configure(connection).get_current_revision()
            config.attributes["connection"] = connection
            command.upgrade(config, revision)
            connection.commit()
        if revision == "head" and before is not None and _fills_present(config, before):
            with Session(engine) as session:
                rebuild(session)
                session.commit()
    finally:
        engine.dispose()


def _fills_present(config: Config, before: str) -> bool:
    """Whether a migration after `before` says FILLS_PRESENT: its new columns hold what older events already tell."""
    newer = ScriptDirectory.from_config(config).iterate_revisions("head", before)
    return any(getattr(script.module, "FILLS_PRESENT", False) for script in newer)


def heads() -> list[str]:
    """The newest revisions; there must be exactly one."""
    return list(ScriptDirectory.from_config(_config()).get_heads())


def revisions() -> set[str]:
    """Every revision that this program knows."""
    return {script.revision for script in ScriptDirectory.from_config(_config()).walk_revisions()}
