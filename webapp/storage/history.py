"""Takes events in and keeps the present in step with them.

Taking the same event twice changes nothing; the order in which events are taken makes no difference to the present.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import Any

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
from webapp.storage.sale import SaleRow
from webapp.storage.specimen import SpecimenRow, TagRow

_Fold = Callable[[Iterable[Happened]], dict[str, Any] | None]

#: subject kind -> its table, the name of its key, its fold.
PRESENT: dict[str, tuple[type[Base], str, _Fold]] = {
    "specimen": (SpecimenRow, "id", present_specimen),
    "tank": (TankRow, "id", present_tank),
    "rack": (RackRow, "id", present_rack),
    "reading": (ReadingRow, "id", present_reading),
    "tending": (TendingRow, "id", present_tending),
    "pest": (PestRow, "id", present_pest),
    "shipment": (ShipmentRow, "id", present_shipment),
    "sale": (SaleRow, "id", present_sale),
    "tag": (TagRow, "code", present_tag),
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
    table, key, fold = PRESENT[kind]
    row = session.get(table, subject_id)
    present = fold(happened(session, subject_id))
    before = row.target_id if isinstance(row, TagRow) else None
    if present is None:
        if row is not None:
            session.delete(row)
    elif row is None:
        row = table(**{key: subject_id}, **present)
        session.add(row)
    else:
        for name, value in present.items():
            setattr(row, name, value)
        if kind != "tag":  # its code stays: only the events of tags change that
            return
    session.flush()
    if kind == "tag":
        _write_codes(session, {before, present["target_id"] if present else None})
    elif kind in _CODED and present is not None:
        _write_codes(session, {subject_id})


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
    for table, _key, _fold in PRESENT.values():
        session.execute(delete(table))
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
