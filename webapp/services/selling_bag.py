"""Packing for the buyer's journey: for how long it is safe, and whether to carry it at all."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.fit.profile import Profile
from webapp.services.recording import Author, NewEvent, record
from webapp.services.selling_after import get_sale
from webapp.services.thresholds import load_thresholds
from webapp.storage.care import TendingRow
from webapp.storage.specimen import SpecimenRow

#: How it is packed -> the threshold that says for how many hours, from the shortest on.
CASES = {
    "air": "bag_air_h",
    "insulated_air": "bag_insulated_air_h",
    "insulated_oxygen": "bag_insulated_oxygen_h",
    "freight": "bag_freight_h",
}
HARDY = 2
"""The hardiness (1 easy to 5) up to which a kind counts as hardy on a long journey."""
UNINSULATED = ("air",)


@dataclass(frozen=True, slots=True)
class Bagging:
    """The answer for one packing and journey. `reasons`: codes with their values, why not or what to mind.

    safe_h: hours from the moment of packing; safe_until: that moment. better: a case that would do, or ''.
    """

    carry: bool
    safe_h: float
    safe_until: datetime
    reasons: tuple[tuple[str, dict[str, float | str]], ...] = ()
    better: str = ""


def judge_bag(
    case: str,
    journey_h: float,
    outside_temp_c: float | None,
    kinds: Sequence[Profile],
    limits: dict[str, float],
    bagged_at: datetime,
) -> Bagging:
    """Carry it or not. Pure: `limits` are the shop's thresholds.

    Within the case's hours: carry. A freight box beyond its hours is carried up to `bag_hardy_h` with a warning, beyond
    that only where every kind is hardy. An uninsulated bag is refused where it is colder or hotter outside than the box
    may be and the journey is longer than a quarter of an hour.
    """
    safe_h = limits[CASES[case]]
    reasons: list[tuple[str, dict[str, float | str]]] = []
    carry = journey_h <= safe_h
    if not carry and case == "freight":
        tender = [kind.trade_name for kind in kinds if kind.hardiness > HARDY]
        carry = journey_h <= limits["bag_hardy_h"] or not tender
        code = "longer_than_usual" if carry else "only_hardy"
        reasons.append((code, {"safe_h": safe_h, "hardy_h": limits["bag_hardy_h"], "names": ", ".join(tender)}))
    elif not carry:
        reasons.append(("too_long", {"safe_h": safe_h, "journey_h": journey_h}))
    if outside_temp_c is not None and not limits["box_cold_c"] <= outside_temp_c <= limits["box_hot_c"]:
        values = {"outside_c": outside_temp_c, "cold_c": limits["box_cold_c"], "hot_c": limits["box_hot_c"]}
        if case in UNINSULATED and journey_h > 0.25:
            carry = False
            reasons.append(("insulate", values))
        else:
            reasons.append(("keep_box", values))
    better = "" if carry else next((one for one in CASES if limits[CASES[one]] >= journey_h and one != case
                                    and one not in UNINSULATED), "")  # fmt: skip
    return Bagging(carry, safe_h, bagged_at + timedelta(hours=safe_h), tuple(reasons), better)


def unready(session: Session, rows: Sequence[SpecimenRow], kinds: dict[str, Profile], now: datetime) -> list[str]:
    """Sentences about animals that were fed or cut too lately to be packed at a moment."""
    limits = load_thresholds(session)
    cut_since = now - timedelta(hours=limits["uncut_before_bag_h"])
    fed_since = now - timedelta(hours=limits["unfed_before_bag_h"])
    said = [
        f"{row.name} was cut less than {limits['uncut_before_bag_h']:g} hours ago. Let it heal before it travels."
        for row in rows
        if row.cut_at and cut_since < row.cut_at <= now
    ]
    fed = set(
        session.scalars(
            select(TendingRow.tank_id).where(
                TendingRow.kind == "fed", TendingRow.done_at > fed_since, TendingRow.done_at <= now,
                TendingRow.tank_id.in_({row.tank_id for row in rows}),
            )
        )
    )  # fmt: skip
    said += [
        f"{row.name} was fed less than {limits['unfed_before_bag_h']:g} hours ago and may foul its bag."
        for row in rows
        if row.tank_id in fed and kinds[row.profile_key].group == "lps"
    ]
    return said


def bag(
    session: Session,
    author: Author,
    deed_id: str,
    number: int,
    case: str,
    journey_h: float,
    outside_temp_c: float | None,
    kinds: dict[str, Profile],
    now: datetime,
) -> Bagging:
    """Keep with the sale how it was packed and until when that is safe. Returns the answer."""
    if case not in CASES:
        raise BadInput("Choose how it is packed.", "case")
    sale = get_sale(session, number)
    rows = session.scalars(select(SpecimenRow).where(SpecimenRow.id.in_([line["specimen_id"] for line in sale.lines])))
    answer = judge_bag(
        case, journey_h, outside_temp_c, [kinds[row.profile_key] for row in rows], load_thresholds(session), now
    )
    payload = {"case": case, "journey_h": journey_h, "safe_h": answer.safe_h, "outside_temp_c": outside_temp_c,
               "carry": answer.carry}  # fmt: skip
    record(session, author, [NewEvent("sale_bagged", sale.id, payload)], deed_id)
    return answer
