"""The migrations make what the models say, in one line of revisions."""

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from webapp.storage import migrating
from webapp.storage.base import Base
from webapp.storage.database import open_engine


def test_there_is_one_newest_revision():
    assert len(migrating.heads()) == 1


def test_the_migrations_make_what_the_models_say(tmp_path):
    url = f"sqlite:///{tmp_path / 'fresh.sqlite'}"
    migrating.upgrade(url)
    engine = open_engine(url)
    with engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), Base.metadata) == []
    engine.dispose()
