"""Answering a request of the JSON door: by a kind, or by the code of a tag."""

from datetime import datetime

from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.fit.check import check_prepared
from webapp.fit.findings import Report
from webapp.fit.prepared import prepare
from webapp.fit.specimen import Specimen
from webapp.schemas.fit_request import FitRequest
from webapp.services import cards
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.tags.codes import normalise


def answer(session: Session, memory: Memory, asked: FitRequest, now: datetime) -> Report:
    """The report, by the shop's newest profiles. Raises BadInput for an unknown kind, NotFound for an unknown code."""
    kinds = newest_profiles(session, memory, revision(session))
    if asked.code:
        specimen = _behind(session, memory, asked.code, now)
    elif asked.profile in kinds:
        specimen = Specimen(kinds[asked.profile], asked.size_cm, asked.conditions)
    else:
        raise BadInput(f"profile: {asked.profile!r} is not the key of a kind here.", "profile")
    return check_prepared(prepare(asked.tank, kinds), specimen)


def _behind(session: Session, memory: Memory, code: str, now: datetime) -> Specimen:
    found = cards.find(session, normalise(code))
    card = cards.card(session, memory, found, now) if found.kind == "specimen" else None
    if card is None:
        raise NotFound(f"code: no animal here carries {code!r}.")
    return card.specimen
