"""Labels for specimens, tanks and racks, and the note that they were printed."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.recording import Author, NewEvent, record
from webapp.services.shop import Shop
from webapp.storage.place import RackRow, TankRow
from webapp.storage.specimen import SpecimenRow, TagRow
from webapp.tags.labels import label_warnings, to_pdf, to_png, to_png_zip
from webapp.tags.page import Label, place
from webapp.tags.sheets import Sheet


def labels_for(session: Session, shop: Shop, target_ids: Sequence[str]) -> list[Label]:
    """A label for each specimen, tank or rack, in the order given. Raises BadInput when one has no live code."""
    labels = []
    for target_id in target_ids:
        title, subtitle = _words_on(session, target_id)
        code = session.scalar(
            select(TagRow.code)
            .where(TagRow.target_id == target_id, TagRow.state == "live")
            .order_by(TagRow.code)
            .limit(1)
        )
        if code is None:
            raise BadInput(f"{title} has no live tag. Bind a tag to it first.")
        labels.append(Label(code, shop.address.url(code), title, subtitle))
    return labels


def untagged(session: Session, target_ids: Sequence[str]) -> list[str]:
    """Names of those that no tag in use stands for. Raises NotFound."""
    with_tag = select(TagRow.target_id).where(TagRow.target_id.in_(target_ids), TagRow.state == "live")
    tagged = set(session.scalars(with_tag))
    return [_words_on(session, one)[0] for one in target_ids if one not in tagged]


def are_plugs(session: Session, labels: Sequence[Label]) -> bool:
    """Whether the first of these is for a specimen, or blank: tanks and racks take other pieces."""
    row = session.get(TagRow, labels[0].code)
    return row is None or row.target_kind in (None, "", "specimen")


def labels_of_codes(session: Session, shop: Shop, codes: Sequence[str]) -> list[Label]:
    """A label for each tag: what it stands for, or only its code while it is blank. Raises NotFound."""
    labels = []
    for code in codes:
        row = session.get(TagRow, code)
        if row is None or row.state == "retired":
            raise NotFound(f"{code} is no tag in use here.")
        title, subtitle = _words_on(session, row.target_id) if row.target_id else ("", "")
        labels.append(Label(code, shop.address.url(code), title, subtitle))
    return labels


@dataclass(frozen=True, slots=True)
class OldLabel:
    """A tag in use whose label carries an address that is not the shop's any more. kind: specimen, tank, rack or
    blank."""

    code: str
    host: str
    kind: str
    name: str
    detail: str


def old_labels(session: Session, shop: Shop) -> list[OldLabel]:
    """Tags in use that were printed with another address than today's, by address and place."""
    rows = session.scalars(
        select(TagRow)
        .where(TagRow.state.in_(("live", "blank")), TagRow.printed_host.not_in(("", *shop.address.notes)))
        .order_by(TagRow.printed_host, TagRow.code)
    )
    found = []
    for row in rows:
        words = _words_on(session, row.target_id) if row.target_id else ("Blank", "")
        found.append(OldLabel(row.code, row.printed_host.removesuffix(":80"), row.target_kind or "blank", *words))
    return sorted(found, key=lambda one: (one.host, one.detail, one.name))


def labels_pdf(labels: Sequence[Label], sheet: Sheet, start_position: int) -> bytes:
    """The labels as a PDF of exact page size, read back from its pages: CannotPrint names one that fails."""
    return to_pdf(labels, sheet, start_position)


def labels_png(labels: Sequence[Label], sheet: Sheet) -> tuple[bytes, str]:
    """One PNG, or a zip of PNGs for several; and the media type. Read back like the PDF."""
    if len(labels) == 1:
        return to_png(labels[0], sheet.piece(), sheet.dpi), "image/png"
    return to_png_zip(labels, sheet.piece(), sheet.dpi), "application/zip"


def warnings_for(labels: Sequence[Label], sheet: Sheet, shop: Shop) -> list[str]:
    """What staff should know before printing."""
    return [*shop.address.warnings, *label_warnings(labels, sheet)]


def mark_printed(
    session: Session, author: Author, deed_id: str, shop: Shop, labels: Sequence[Label], sheet: Sheet
) -> None:
    """Keep the address on each label, so that a changed one can name the labels to replace; and its symbol's side, so
    that the tag can be used as a ruler."""
    one = place(labels[0], 0, sheet)
    printed = {"host": shop.address.carried, "side_mm": round(one.symbol.size * one.fit.module_mm, 4)}
    record(session, author, [NewEvent("printed", label.code, printed) for label in labels], deed_id)


def _words_on(session: Session, target_id: str) -> tuple[str, str]:
    specimen = session.get(SpecimenRow, target_id)
    if specimen is not None:
        rack = session.get(RackRow, specimen.rack_id) if specimen.rack_id else None
        return specimen.name, f"{rack.name} {specimen.slot}".strip() if rack else ""
    for table in (TankRow, RackRow):
        row = session.get(table, target_id)
        if isinstance(row, RackRow):
            return row.name, session.get_one(TankRow, row.tank_id).name
        if row is not None:
            return row.name, ""
    raise NotFound("There is nothing here to print a label for.")
