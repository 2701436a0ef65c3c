"""Care profiles: the newest revision of each kind, and adding a revision."""

from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import NotFound
from webapp.fit.profile import Profile
from webapp.schemas.profiles import load_profiles, profile_from_json, profile_to_json
from webapp.services.memory import Memory
from webapp.storage.shop import ProfileRow


def install_profiles(session: Session, now: datetime) -> int:
    """Put the packaged profiles in as revision 1, those that are not there yet. Returns how many were new."""
    there = set(session.scalars(select(ProfileRow.key)))
    new = [profile for key, profile in load_profiles().items() if key not in there]
    for profile in new:
        session.add(
            ProfileRow(
                key=profile.key, revision=1, data=profile_to_json(profile), reason="as it came with the program",
                author_name="", created_at=now,
            )
        )  # fmt: skip
    return len(new)


def newest_profiles(session: Session, memory: Memory, revision: int) -> dict[str, Profile]:
    """Every kind at its newest revision, by key; made once per revision of the profiles, not of the database."""
    stamp = memory.get(revision, "profile stamp", lambda: session.scalar(select(func.max(ProfileRow.id))))
    return memory.lasting(("profiles", stamp), lambda: _load(session))


def get_profile(session: Session, key: str, profile_revision: int) -> Profile:
    """One kind at one revision. Raises NotFound."""
    data = session.scalar(select(ProfileRow.data).where(ProfileRow.key == key, ProfileRow.revision == profile_revision))
    if data is None:
        raise NotFound(f"There is no profile '{key}' at revision {profile_revision}.")
    return profile_from_json(data)


def _load(session: Session) -> dict[str, Profile]:
    newest = select(ProfileRow.key, func.max(ProfileRow.revision).label("revision")).group_by(ProfileRow.key).subquery()
    rows = session.scalars(
        select(ProfileRow.data)
        .join(newest, (ProfileRow.key == newest.c.key) & (ProfileRow.revision == newest.c.revision))
        .order_by(ProfileRow.key)
    )
    profiles = (profile_from_json(data) for data in rows)
    return {profile.key: profile for profile in profiles}
