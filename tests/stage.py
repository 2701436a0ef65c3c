"""A small invented shop for tests: a migrated database, two tanks, a rack each, an owner, a mother colony."""

import atexit
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from tempfile import mkdtemp

from sqlalchemy import func, select

from webapp.fit.profile import Profile
from webapp.services import intake, people, places, profiles
from webapp.services.memory import Memory
from webapp.services.recording import Author, new_deed
from webapp.services.shop import Shop, revision, save_shop
from webapp.storage.database import Database
from webapp.storage.migrating import upgrade
from webapp.storage.shop import ProfileRow

NOW = datetime(2026, 5, 4, 10, 0, tzinfo=UTC)
PIN = "482913"


@dataclass(frozen=True)
class SetUp:
    """The closed shop that every stage is a copy of: its database, and the ids of what stands in it."""

    path: Path
    owner: Author
    tank: str
    other_tank: str
    rack: str
    other_rack: str
    mother: str
    kinds: dict[str, Profile]
    newest_profile: int


@lru_cache(maxsize=1)
def set_up() -> SetUp:
    """The shop, made once a run by running the migrations and doing what a shop does on its first day."""
    path = Path(mkdtemp(prefix="rackside-tests-")) / "set-up.sqlite"
    atexit.register(shutil.rmtree, path.parent, ignore_errors=True)
    upgrade(f"sqlite:///{path}")
    database = Database(f"sqlite:///{path}")
    with database.saving() as session:
        profiles.install_profiles(session, NOW)
        owner = Author(people.add_person(session, "Noor", PIN, "owner", NOW), "Noor", "owner")
        save_shop(session, Shop(), name="The Wet Corner", host="SHOP.LOCAL", currency="EUR", time_zone="Europe/Berlin")
        tank = places.add_tank(session, owner, new_deed(), {"name": "North", "volume_l": 400.0, "light_hours": 9.0})
        other_tank = places.add_tank(session, owner, new_deed(), {"name": "South", "volume_l": 250.0})
        rack = places.add_rack(
            session, owner, new_deed(), {"tank_id": tank, "name": "N1", "rows": 4, "columns": 10, "depth_cm": 20.0}
        )
        other_rack = places.add_rack(
            session, owner, new_deed(), {"tank_id": other_tank, "name": "S1", "rows": 2, "columns": 3}
        )
        mother = intake.take_in(
            session, owner, new_deed(),
            {"profile_key": "zoanthus", "name": "Ember Ring", "origin": "bought_in", "status": "mother",
             "supplier": "a farm far away", "cost_cents": 4200, "tank_id": tank, "rack_id": rack, "slot": "A1"},
        )[0]  # fmt: skip
    with database.reading() as session:
        kinds = profiles.newest_profiles(session, Memory(), revision(session))
        newest_profile = session.scalar(select(func.max(ProfileRow.id)))
    database.close()
    return SetUp(path, owner, tank, other_tank, rack, other_rack, mother, kinds, newest_profile)


def new_memory() -> Memory:
    """The memory of an app that has just been started, but that it knows the profiles as they were set up: to read them
    takes longer than most tests. A profile that is changed later is read like any other."""
    made, memory = set_up(), Memory()
    memory.lasting(("profiles", made.newest_profile), lambda: made.kinds)
    return memory


class Stage:
    """An open shop. `url` is its database's; `owner` has the PIN above."""

    def __init__(self, folder: Path):
        made = set_up()
        path = folder / "shop.sqlite"
        shutil.copy(made.path, path)
        self.url = f"sqlite:///{path}"
        self.database = Database(self.url)
        self.memory = new_memory()
        self.owner, self.mother = made.owner, made.mother
        self.tank, self.other_tank = made.tank, made.other_tank
        self.rack, self.other_rack = made.rack, made.other_rack
        self.at_close: list[Callable[[], None]] = []

    def later(self, **span: float) -> datetime:
        """A moment after the real one at which the stage was set."""
        return datetime.now(UTC) + timedelta(**span)

    def close(self) -> None:
        """Let go of the file, and of what was lent."""
        while self.at_close:
            self.at_close.pop()()
        self.database.close()
