"""Brings a database to the newest shape. Alembic is configured here, in code; there is no ini file."""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory

from webapp.storage.database import open_engine

HERE = Path(__file__).parent / "migrations"


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(HERE))
    config.set_main_option("path_separator", "os")
    return config


def upgrade(url: str, revision: str = "head") -> None:
    """Run every migration that `url` has not had yet. Foreign keys rest meanwhile, since SQLite rebuilds tables."""
    config = _config()
    engine = open_engine(url)
    try:
        with engine.connect() as connection:
            config.attributes["connection"] = connection
            command.upgrade(config, revision)
            connection.commit()
    finally:
        engine.dispose()


def heads() -> list[str]:
    """The newest revisions; there must be exactly one."""
    return list(ScriptDirectory.from_config(_config()).get_heads())


def revisions() -> set[str]:
    """Every revision that this program knows."""
    return {script.revision for script in ScriptDirectory.from_config(_config()).walk_revisions()}
