"""Takes events in and keeps the present in step with them.

Taking the same event twice changes nothing; the order in which events are taken makes no difference to the present.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

from sqlalchemy import bindparam, delete, select, update
from sqlalchemy.orm import Session

from webapp.storage.base import Base
from webapp.storage.care import PestRow, ShipmentRow, TendingRow
from webapp.storage.event import Event
from webapp.storage.folding import Happened
from webapp.storage.place import RackRow, ReadingRow, TankRow
from webapp.storage.present_care import present_pest, present_shipment, present_tending
from webapp.storage.present_place import present_rack, present_reading, present_tag, present_tank
from webapp.storage.present_sale import present_sale
from webapp.storage.present_specimen import present_specimen
from webapp.storage.present_story import present_story
from webapp.storage.sale import SaleRow
from webapp.storage.specimen import SpecimenRow, StoryRow, TagRow


class Present(NamedTuple):
    """One present of a subject: its table, the name of its key, its fold (None: there is no such row)."""

    table: type[Base]
    key: str
    fold: Callable[[Iterable[Happened]], dict[str, Any] | None]


#: subject kind -> what is made of its events; the first is the subject itself.
PRESENT: dict[str, tuple[Present, ...]] = {
    "specimen": (Present(SpecimenRow, "id", present_specimen), Present(StoryRow, "id", present_story)),
    "tank": (Present(TankRow, "id", present_tank),),
    "rack": (Present(RackRow, "id", present_rack),),
    "reading": (Present(ReadingRow, "id", present_reading),),
    "tending": (Present(TendingRow, "id", present_tending),),
    "pest": (Present(PestRow, "id", present_pest),),
    "shipment": (Present(ShipmentRow, "id", present_shipment),),
    "sale": (Present(SaleRow, "id", present_sale),),
    "tag": (Present(TagRow, "code", present_tag),),
}
_CODED: dict[str, type[SpecimenRow] | type[TankRow] | type[RackRow]] = {
    "specimen": SpecimenRow,
    "tank": TankRow,
    "rack": RackRow,
}


_HAPPENED = (  # on the connection: it is read for every card, and has no objects to keep track of
    select(Event.id, Event.kind, Event.occurred_at, Event.payload, Event.author_name, Event.deed_id)
    .where(Event.subject_id == bindparam("subject_id"))
    .order_by(Event.occurred_at, Event.id)
)


def known(session: Session, ids: Iterable[str]) -> dict[str, Event]:
    """Those of the event ids that are here already."""
    wanted = list(ids)
    return {row.id: row for row in session.scalars(select(Event).where(Event.id.in_(wanted)))}


def take(session: Session, events: Sequence[Event]) -> None:
    """Add events that are not here yet (see `known`) and bring the present of their subjects up to date."""
    session.add_all(events)
    session.flush()
    project(session, events)


def project(session: Session, events: Iterable[Event]) -> None:
    """Make the present of the subjects of `events` again."""
    subjects = {(event.subject_kind, event.subject_id): None for event in events}
    for kind in PRESENT:  # tags last: they write their code on what they stand for
        for subject_kind, subject_id in subjects:
            if subject_kind == kind:
                _project_one(session, kind, subject_id)
    session.flush()


def happened(session: Session, subject_id: str) -> list[Happened]:
    """Every event of a subject, as the folds see it."""
    rows = session.connection().execute(_HAPPENED, {"subject_id": subject_id})
    return [Happened(*row) for row in rows]


def _project_one(session: Session, kind: str, subject_id: str) -> None:
    events = happened(session, subject_id)
    itself, *beside = PRESENT[kind]
    before = session.get(itself.table, subject_id)
    target = before.target_id if isinstance(before, TagRow) else None
    now = itself.fold(events)
    for present in beside:
        _keep(session, present, subject_id, present.fold(events))
    _keep(session, itself, subject_id, now)
    if before is not None and now is not None and kind != "tag":  # its code stays: only the events of tags change that
        return
    session.flush()
    if kind == "tag":
        _write_codes(session, {target, now["target_id"] if now else None})
    elif kind in _CODED and now is not None:
        _write_codes(session, {subject_id})


def _keep(session: Session, present: Present, subject_id: str, values: dict[str, Any] | None) -> None:
    row = session.get(present.table, subject_id)
    if values is None:
        if row is not None:
            session.delete(row)
    elif row is None:
        session.add(present.table(**{present.key: subject_id}, **values))
    else:
        for name, value in values.items():
            setattr(row, name, value)


def _write_codes(session: Session, targets: Iterable[str | None]) -> None:
    """Put the live code on each target: the least one where several tags claim it, so that the choice never wavers."""
    for target in targets:
        if target is None:
            continue
        code = session.scalar(
            select(TagRow.code)
            .where(TagRow.target_id == target, TagRow.state.in_(("live", "retired")))
            .order_by(TagRow.state, TagRow.code)
            .limit(1)
        )
        for table in _CODED.values():
            session.execute(update(table).where(table.id == target).values(code=code))


def rebuild(session: Session, progress: Callable[[int, int], None] = lambda done, total: None) -> int:
    """Make every present again from the history alone. Returns the number of subjects."""
    for presents in PRESENT.values():
        for present in presents:
            session.execute(delete(present.table))
    session.expire_all()
    total = 0
    for kind in PRESENT:
        ids = list(session.scalars(select(Event.subject_id).where(Event.subject_kind == kind).distinct()))
        for done, subject_id in enumerate(ids, 1):
            _project_one(session, kind, subject_id)
            if done % 200 == 0:
                session.expunge_all()
                progress(total + done, total + len(ids))
        total += len(ids)
    return total
