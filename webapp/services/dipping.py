"""Several specimens dipped together: one deed over those that may be, and why each of the others was left out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.fit.profile import Profile
from webapp.services.quarantine import dip_cautions
from webapp.services.recording import Author, NewEvent, record
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow

MOST = 100
UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Candidate:
    """One that may be dipped. reasons: why not, '' free: codes of `dip_cautions`, or how it left the shop."""

    id: str
    name: str
    code: str
    kind_name: str
    reasons: tuple[str, ...]


def candidates(
    session: Session, ids: Sequence[str], kinds: Mapping[str, Profile], limits: Mapping[str, float], now: datetime
) -> list[Candidate]:
    """These specimens, each once, with what speaks against dipping it now. An id that is not known says so."""
    wanted = list(dict.fromkeys(ids))[:MOST]
    rows = {row.id: row for row in session.scalars(select(SpecimenRow).where(SpecimenRow.id.in_(wanted)))}
    return [_candidate(one, rows.get(one), kinds, limits, now) for one in wanted]


def dip_several(
    session: Session, author: Author, deed_id: str, wanted: Sequence[Candidate], payload: Mapping[str, Any]
) -> tuple[list[Candidate], list[Candidate]]:
    """Dip those that nothing speaks against, as one deed. Returns (dipped, left out). Raises BadInput for none at all.

    One that has to be dipped all the same is dipped on its own page, where its caution stands beside the form.
    """
    done, left = [one for one in wanted if not one.reasons], [one for one in wanted if one.reasons]
    if not done:
        raise BadInput("None of those chosen may be dipped now. The reason stands beside each.", "chosen")
    record(session, author, [NewEvent("dipped", one.id, dict(payload)) for one in done], deed_id)
    return done, left


def _candidate(
    specimen_id: str, row: SpecimenRow | None, kinds: Mapping[str, Profile], limits: Mapping[str, float], now: datetime
) -> Candidate:
    if row is None:
        return Candidate(specimen_id, "Not known here", "", "", (UNKNOWN,))
    kind = kinds[row.profile_key]
    reasons = (row.status,) if row.status in GONE else tuple(dip_cautions(row, kind, limits, now))
    return Candidate(row.id, row.name, row.code or "", kind.trade_name, reasons)
