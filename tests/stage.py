"""A small invented shop for tests: a migrated database, two tanks, a rack each, an owner, a mother colony."""

import shutil
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from tempfile import mkdtemp

from webapp.services import intake, people, places, profiles
from webapp.services.memory import Memory
from webapp.services.recording import Author, new_deed
from webapp.services.shop import Shop, save_shop
from webapp.storage.database import Database
from webapp.storage.migrating import upgrade

NOW = datetime(2026, 5, 4, 10, 0, tzinfo=UTC)
PIN = "482913"


@lru_cache(maxsize=1)
def _template() -> Path:
    """A database made once a run by running the migrations."""
    path = Path(mkdtemp(prefix="rackside-tests-")) / "template.sqlite"
    upgrade(f"sqlite:///{path}")
    database = Database(f"sqlite:///{path}")
    with database.saving() as session:
        profiles.install_profiles(session, NOW)
    database.close()
    return path


class Stage:
    """An open shop. `url` is its database's; `owner` has the PIN above."""

    def __init__(self, folder: Path):
        path = folder / "shop.sqlite"
        shutil.copy(_template(), path)
        self.url = f"sqlite:///{path}"
        self.database = Database(self.url)
        self.memory = Memory()
        with self.database.saving() as session:
            owner_id = people.add_person(session, "Noor", PIN, "owner", NOW)
            self.owner = Author(owner_id, "Noor", "owner")
            save_shop(
                session, Shop(), name="The Wet Corner", host="SHOP.LOCAL", currency="EUR", time_zone="Europe/Berlin"
            )
            self.tank = places.add_tank(
                session, self.owner, new_deed(), {"name": "North", "volume_l": 400.0, "light_hours": 9.0}
            )
            self.other_tank = places.add_tank(session, self.owner, new_deed(), {"name": "South", "volume_l": 250.0})
            self.rack = places.add_rack(
                session,
                self.owner,
                new_deed(),
                {"tank_id": self.tank, "name": "N1", "rows": 4, "columns": 10, "depth_cm": 20.0},
            )
            self.other_rack = places.add_rack(
                session, self.owner, new_deed(), {"tank_id": self.other_tank, "name": "S1", "rows": 2, "columns": 3}
            )
            self.mother = intake.take_in(
                session, self.owner, new_deed(),
                {"profile_key": "zoanthus", "name": "Ember Ring", "origin": "bought_in", "status": "mother",
                 "supplier": "a farm far away", "cost_cents": 4200, "tank_id": self.tank, "rack_id": self.rack,
                 "slot": "A1"},
            )[0]  # fmt: skip

    def later(self, **span: float) -> datetime:
        """A moment after the real one at which the stage was set."""
        return datetime.now(UTC) + timedelta(**span)

    def close(self) -> None:
        """Let go of the file."""
        self.database.close()
