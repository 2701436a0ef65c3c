"""Care profiles: the newest revision of each kind, and adding a revision."""

from dataclasses import replace
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import NotFound
from webapp.fit.profile import Profile
from webapp.schemas.profiles import load_profiles, profile_from_json, profile_to_json
from webapp.services.memory import Memory
from webapp.storage.shop import ProfileRow


def install_profiles(session: Session, now: datetime) -> int:
    """Put the packaged profiles in: those that are not there yet as revision 1, and what a newer program brings.

    A kind of which the shop has changed a range itself stays as it is. Returns how many rows were written.
    """
    newest = {row.key: row for row in session.scalars(select(ProfileRow).order_by(ProfileRow.revision))}
    written = 0
    for key, profile in load_profiles().items():
        row = newest.get(key)
        if row is not None and (row.author_name or _same(row.data, profile)):
            continue
        number = row.revision + 1 if row else 1
        reason = "as it comes with a newer program" if row else "as it came with the program"
        session.add(
            ProfileRow(
                key=key, revision=number, data=profile_to_json(replace(profile, revision=number)), reason=reason,
                author_name="", created_at=now,
            )
        )  # fmt: skip
        written += 1
    return written


def _same(kept: dict[str, Any], profile: Profile) -> bool:
    return kept == profile_to_json(replace(profile, revision=kept["revision"]))


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
