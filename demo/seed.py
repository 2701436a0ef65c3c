"""Fills an empty database with the invented shop: 120 days of it, told through the same services that staff use."""

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from demo.deliveries import plan_deliveries
from demo.diary import Diary, chance
from demo.incidents import plan_incidents
from demo.lives import Lives
from demo.pests import plan_pests
from demo.photos import photo_webp
from demo.portraits import Draw, Portraits
from demo.scenario import DAYS, PEOPLE, RACKS, SHOP, TANKS, THRESHOLDS
from demo.strains import BOUGHT, COLONIES
from demo.tending import plan_round
from demo.till import plan_sales
from demo.water import readings_of
from webapp.services import people, places, profiles, readings, recording
from webapp.services.recording import Author
from webapp.services.shop import Shop, save_shop
from webapp.services.thresholds import save_thresholds
from webapp.storage.specimen import SpecimenRow

__all__ = ["PEOPLE", "seed"]


def seed(
    session: Session, progress: Callable[[str], None], draw: Draw = photo_webp, now: datetime | None = None
) -> None:
    """The whole shop, in the caller's transaction. `progress` hears sentences; `draw` makes the pictures."""
    now = now or recording.now()
    zone = ZoneInfo(SHOP["time_zone"])
    profiles.install_profiles(session, now - timedelta(days=DAYS))
    authors = _people(session, now - timedelta(days=DAYS))
    save_shop(session, Shop(), **SHOP)
    save_thresholds(session, THRESHOLDS)
    diary = Diary(session, now, zone, authors)
    lives = Lives(diary, *_places(diary), Portraits(draw))
    for strain in (*COLONIES, *BOUGHT):
        lives.plan(strain)
    _plan_readings(diary, lives.tanks, lives.racks)
    for story in (plan_deliveries, plan_incidents, plan_pests, plan_sales, plan_round):
        story(lives)
    diary.run(_tell(session, now, progress))


def _people(session: Session, at: datetime) -> dict[str, Author]:
    return {name: Author(people.add_person(session, name, pin, role, at), name, role) for name, pin, role in PEOPLE}


def _places(diary: Diary) -> tuple[dict[str, str], dict[str, str]]:
    """The tanks and racks of the first morning: ids by name."""
    at, tanks, racks = diary.moment(DAYS, 8.5), {}, {}
    owner = diary.authors["Ilva"]
    for tank in TANKS:
        tanks[tank.name] = places.add_tank(diary.session, owner, diary.deed(tank.name), tank.payload, at)
    for rack in RACKS:
        given = {
            "tank_id": tanks[rack.tank], "name": rack.name, "rows": rack.rows, "columns": rack.columns,
            "depth_cm": rack.depth_cm,
        }  # fmt: skip
        racks[rack.name] = places.add_rack(diary.session, owner, diary.deed(rack.name), given, at)
    return tanks, racks


def _plan_readings(diary: Diary, tanks: dict[str, str], racks: dict[str, str]) -> None:
    def log(tank_id: str, set_of: list[dict[str, Any]], who: str) -> Callable[[datetime, str], None]:
        return lambda at, deed: _log(diary, tank_id, set_of, who, at, deed)

    for tank in TANKS:
        random = chance("water", tank.name)
        for days_ago, hour, set_of in readings_of(tank.name, random):
            who = "Ilva" if random.random() < 0.3 else "Joss"
            diary.plan(diary.moment(days_ago, hour), log(tanks[tank.name], set_of, who))
    for rack in RACKS:
        random = chance("light", rack.name)
        for days_ago in (118, 89, 59, 29, 1):
            read = [
                ("par", rack.par * random.gauss(1, 0.05), "umol", 0),
                ("flow_speed", rack.flow_cm_s * random.gauss(1, 0.1), "cm_s", 1),
            ]
            set_of = [
                {"quantity": name, "value": round(value, digits), "unit": unit, "rack_id": racks[rack.name]}
                for name, value, unit, digits in read
            ]
            diary.plan(diary.moment(days_ago, 17 + random.random() / 2), log(tanks[rack.tank], set_of, "Ilva"))


def _log(diary: Diary, tank_id: str, set_of: list[dict[str, Any]], who: str, at: datetime, deed: str) -> None:
    readings.log_readings(diary.session, diary.authors[who], deed, tank_id, set_of, at)


def _tell(session: Session, now: datetime, progress: Callable[[str], None]) -> Callable[[datetime, int, int], None]:
    """Says how far it is, every ten days of the shop's life."""
    told = 0

    def each(at: datetime, done: int, known: int) -> None:
        nonlocal told
        day = min(DAYS, DAYS - (now - at).days)
        if day >= told + 10 or done == known:
            told = day
            animals = session.scalar(select(func.count()).select_from(SpecimenRow))
            progress(f"day {day} of {DAYS}, {animals} specimens, {done} of {known} deeds")

    return each
