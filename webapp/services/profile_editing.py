"""The shop's own ranges: what a change would mean for today's stock, a new revision with its reason, the way back."""

from collections import Counter
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Literal

from marshmallow import ValidationError
from sqlalchemy import func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.fit.check import check
from webapp.fit.findings import Verdict
from webapp.fit.profile import Band, Basis, Profile
from webapp.fit.specimen import Specimen
from webapp.fit.tank import BuyerTank, FlowSaid, LightSaid, Measured
from webapp.schemas.messages import flatten
from webapp.schemas.profiles import profile_from_json, profile_to_json
from webapp.services.memory import Memory
from webapp.services.profiles import get_profile
from webapp.services.recording import Author
from webapp.services.used_to import used_to
from webapp.storage.place import RackRow, TankRow
from webapp.storage.shop import ProfileRow
from webapp.storage.specimen import SpecimenRow

LOOK_BACK = timedelta(days=30)
LONGEST_REASON = 300
In = Literal["ideal", "borne", "beyond"]
FACTOR_OF = {"par": "light"}
SAMPLE_TANK = BuyerTank(
    readings={
        name: (Measured(value, unit),)
        for name, value, unit in (
            ("temp", 25.5, "c"), ("salinity", 35.0, "ppt"), ("alk", 8.5, "dkh"), ("ca", 425.0, "mg_l"),
            ("mg", 1320.0, "mg_l"), ("ph", 8.1, "nbs"), ("no3", 6.0, "mg_l"), ("po4", 0.05, "mg_l"),
        )
    },
    volume=Measured(250, "l"), length=Measured(100, "cm"), width=Measured(50, "cm"), height=Measured(50, "cm"),
    light=LightSaid("words", word="modest"), flow=FlowSaid("words", word="waves_steadily"), tankmates=(),
    neighbours=(), age_months=18, free_space_cm=40, feeding_days_per_week=3,
)  # fmt: skip
"""An ordinary mixed tank of 250 litres, to see what a change does to the answer a buyer gets."""


@dataclass(frozen=True, slots=True)
class Revision:
    """One revision of a profile as it was kept."""

    number: int
    reason: str
    author: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Place:
    """Animals of the kind on one rack, the median they live in, and how that lies in the range now and then."""

    tank: str
    rack: str
    count: int
    median: float | None
    now: In | None
    then: In | None


@dataclass(frozen=True, slots=True)
class Preview:
    """What a change of one range would change. sample: (factor's verdict, whole) in SAMPLE_TANK, now and then."""

    places: tuple[Place, ...]
    sample_now: tuple[Verdict, Verdict]
    sample_then: tuple[Verdict, Verdict]

    def animals(self, lies: In, *, then: bool) -> int:
        """How many animals live where the median lies so."""
        return sum(one.count for one in self.places if (one.then if then else one.now) == lies)


def stock_by_kind(session: Session) -> Counter[str]:
    """How many animals of each kind are here."""
    here = select(SpecimenRow.profile_key, func.count()).where(SpecimenRow.ended_at.is_(None))
    return Counter({row[0]: row[1] for row in session.execute(here.group_by(SpecimenRow.profile_key))})


def revisions(session: Session, key: str) -> list[Revision]:
    """Every revision of a kind, the newest first."""
    rows = session.execute(
        select(ProfileRow.revision, ProfileRow.reason, ProfileRow.author_name, ProfileRow.created_at)
        .where(ProfileRow.key == key)
        .order_by(ProfileRow.revision.desc())
    )
    return [Revision(*row) for row in rows]


def with_range(profile: Profile, factor: str, edges: tuple[float, float, float, float], reason: str) -> Profile:
    """The next revision with one range changed, on the shop's own authority.

    edges: lower limit, ideal low, ideal high, upper limit, canonical unit. Raises BadInput where they do not rise,
    where nothing changes, for a factor without a range, or without a reason.
    """
    if factor not in profile.bands:
        raise BadInput(f"{profile.trade_name} has no range of this.")
    if not reason.strip():
        raise BadInput("Say why: what did you see here?", "reason")
    if len(reason) > LONGEST_REASON:
        raise BadInput(f"Keep the reason under {LONGEST_REASON} characters.", "reason")
    band = Band(*edges, Basis("this_shop", note=reason.strip()))
    if edges == _edges(profile.bands[factor]):
        raise BadInput("This is the range as it stands. Change a number first.", "limit_low")
    changed = replace(profile, revision=profile.revision + 1, bands={**profile.bands, factor: band})
    try:
        return profile_from_json(profile_to_json(changed))
    except ValidationError as error:
        raise BadInput(flatten(error.messages)[0][1], "limit_low") from error


def preview(
    session: Session, memory: Memory, at: int, old: Profile, new: Profile, factor: str, now: datetime
) -> Preview:
    """What the change from `old` to `new` does to the animals here and to a sample tank; `at`: database's revision."""
    rows = session.execute(
        select(SpecimenRow.tank_id, SpecimenRow.rack_id, TankRow.name, RackRow.name, func.count())
        .where(SpecimenRow.profile_key == old.key, SpecimenRow.ended_at.is_(None))
        .outerjoin(TankRow, TankRow.id == SpecimenRow.tank_id)
        .outerjoin(RackRow, RackRow.id == SpecimenRow.rack_id)
        .group_by(SpecimenRow.tank_id, SpecimenRow.rack_id, TankRow.name, RackRow.name)
        .order_by(TankRow.name, RackRow.name)
    )
    since, places = (now - LOOK_BACK).isoformat(), []
    for tank_id, rack_id, tank, rack, count in rows:
        lived = used_to(session, memory, at, [(tank_id, rack_id or "", since, None)], now) if tank_id else {}
        median = lived[factor].median if factor in lived else None
        before, after = (None if median is None else lies(median, kind.bands[factor]) for kind in (old, new))
        places.append(Place(tank or "", rack or "", count, median, before, after))
    return Preview(tuple(places), _sample(old, factor), _sample(new, factor))


def lies(value: float, band: Band) -> In:
    """How a median lies in a range."""
    if band.ideal_low <= value <= band.ideal_high:
        return "ideal"
    return "borne" if band.limit_low <= value <= band.limit_high else "beyond"


def add_revision(session: Session, author: Author, profile: Profile, reason: str, now: datetime) -> None:
    """Keep the next revision. Raises BadInput when somebody else was quicker."""
    row = ProfileRow(
        key=profile.key, revision=profile.revision, data=profile_to_json(profile), reason=reason.strip(),
        author_name=author.name, created_at=now,
    )  # fmt: skip
    session.add(row)
    try:
        session.flush()
    except IntegrityError as error:
        session.rollback()
        raise BadInput("Somebody else has just changed this kind. Look at it again.") from error


def go_back(session: Session, author: Author, key: str, number: int, now: datetime) -> Profile:
    """An earlier revision as the newest one; nothing is taken away. Raises NotFound, BadInput."""
    newest = revisions(session, key)
    earlier = get_profile(session, key, number)
    if number == newest[0].number:
        raise BadInput(f"Revision {number} is the one that holds now.")
    again = replace(earlier, revision=newest[0].number + 1)
    add_revision(session, author, again, f"back to revision {number}", now)
    return again


def _edges(band: Band) -> tuple[float, float, float, float]:
    return band.limit_low, band.ideal_low, band.ideal_high, band.limit_high


def _sample(profile: Profile, factor: str) -> tuple[Verdict, Verdict]:
    report = check(SAMPLE_TANK, Specimen(profile), {profile.key: profile})
    of = next(found.verdict for found in report.findings if found.factor == FACTOR_OF.get(factor, factor))
    return of, report.whole
