"""What is not routine in the invented shop: a split, a merger, a wrong kind, an undone sale, a plug sold twice."""

from collections.abc import Callable
from datetime import datetime, timedelta
from random import Random

from sqlalchemy import select

from demo.lives import Lives
from demo.scenario import SHOP
from demo.strains import STRAIN
from webapp.services import readings, selling_after, updating
from webapp.services.places import change_tank
from webapp.services.recording import NewEvent, record
from webapp.storage.base import derived_id
from webapp.storage.event import Event
from webapp.storage.present_specimen import CREATING
from webapp.storage.specimen import TagRow
from webapp.tags.codes import new_code

BLANK_TAGS = 8


def plan_incidents(lives: Lives) -> None:
    """Put every incident into the diary."""
    for days_ago, hour, incident in (
        (71, 11, _dies_of_heat), (69, 12, _fan_over_the_water), (50, 14, _two_grow_together), (33, 10.5, _splits),
        (16, 17, _reading_mistyped), (12, 15, _was_another_kind), (8, 16, _wrong_plug_sold), (6, 13, _comes_back),
        (5, 12, _hold_released), (3, 17, _blank_tags), (2, 9, _hold_ends), (2, 11.2, _sold_twice), (1, 15, _holds),
    ):  # fmt: skip
        _plan(lives, days_ago, hour, incident)
    for days_ago in range(120, -1, -1):
        _plan(lives, days_ago, 17.6, _print_labels)


def _plan(lives: Lives, days_ago: float, hour: float, incident: Callable[[Lives, datetime, str], None]) -> None:
    lives.diary.plan(lives.diary.moment(days_ago, hour), lambda at, deed: incident(lives, at, deed))


def _dies_of_heat(lives: Lives, at: datetime, deed: str) -> None:
    payload = {"cause": "bleach_heat", "note": "28 °C in the hot week; the smallest did not make it."}
    lives.do(at, deed, "lost", lives.some("Loaf of Rye frags", "healing"), payload, "Ilva")


def _fan_over_the_water(lives: Lives, at: datetime, deed: str) -> None:
    note = "An hour of sun in the afternoon. A fan blows over the water since the hot week; top up every day."
    session, author = lives.diary.session, lives.diary.authors["Ilva"]
    change_tank(session, author, deed, lives.tanks["Window Garden"], {"note": note}, at)


def _two_grow_together(lives: Lives, at: datetime, deed: str) -> None:
    one, other = lives.all("Plum Kettle frags", "for_sale")[-2:]
    size = {"size_mm": 42, "heads": 17}
    updating.merge(lives.diary.session, lives.diary.authors["Joss"], deed, one, other, size, at)


def _splits(lives: Lives, at: datetime, deed: str) -> None:
    mother = lives.ids["Mossy Ledger"][0]
    piece = lives.place("D2") | {"size_mm": 28, "heads": 1, "status": "healing", "price_cents": 1800}
    left = {"size_mm": 52, "heads": 5}
    session, author = lives.diary.session, lives.diary.authors["Joss"]
    new_id = updating.split(session, author, deed, mother, piece, left, at)
    lives.ids["Mossy Ledger frags"].append(new_id)
    ready = at + timedelta(days=19)
    lives.later(ready, "status_set", new_id, {"status": "for_sale"})
    lives.portraits.take(lives.diary, STRAIN["Mossy Ledger"], 1, new_id, ready + timedelta(minutes=10))


def _reading_mistyped(lives: Lives, at: datetime, deed: str) -> None:
    tank_id, session = lives.tanks["Frag Bench"], lives.diary.session
    typed = {"quantity": "alk", "value": 9.8, "unit": "dkh", "method": "drop_kit"}
    readings.log_readings(session, lives.diary.authors["Joss"], deed, tank_id, [typed], at)
    _correct(lives, at + timedelta(minutes=8), derived_id(deed, 0), {"value": 8.9}, "digits swapped")


def _was_another_kind(lives: Lives, at: datetime, _deed: str) -> None:
    for specimen_id in lives.ids["Frost Crumb"] + lives.ids["Frost Crumb frags"]:
        birth = select(Event.id).where(Event.subject_id == specimen_id, Event.kind.in_(CREATING))
        reason = "flush cups under the magnifier: a leptastrea"
        _correct(lives, at, lives.diary.session.scalars(birth).one(), {"profile_key": "leptastrea"}, reason)


def _correct(lives: Lives, at: datetime, event_id: str, changes: dict[str, object], reason: str) -> None:
    payload = {"event_id": event_id, "changes": changes, "reason": reason}
    correction = NewEvent("corrected", "", payload, at)
    record(lives.diary.session, lives.diary.authors["Ilva"], [correction], derived_id(event_id, "correction"))


def _wrong_plug_sold(lives: Lives, at: datetime, deed: str) -> None:
    lives.do(at, deed, "sold", lives.some("Jam Cellar frags", "for_sale"), {"price_cents": 4200})
    undone = NewEvent("undone", "", {"event_id": derived_id(deed, 0)}, at + timedelta(minutes=6))
    record(lives.diary.session, lives.diary.authors["Joss"], [undone], derived_id(deed, "undo"))


def _comes_back(lives: Lives, at: datetime, deed: str) -> None:
    sold = [updating.get_row(lives.diary.session, one) for one in lives.all("Tall Chimney frags", "sold")]
    row = next(one for one in sold if one.sale_number)
    said = {"reason": "the buyer gives up the tank", "refund_cents": 2500}
    session, author = lives.diary.session, lives.diary.authors["Ilva"]
    selling_after.take_back(session, author, deed, row.sale_number or 0, row.id, said)


def _hold(lives: Lives, at: datetime, deed: str, name: str, word: str, days: float) -> str:
    specimen_id, author = lives.some(name, "for_sale"), lives.diary.authors["Joss"]
    deposit = 1000 if days > 3 else None  # a long hold is paid for in part
    until = at + timedelta(days=days)
    updating.hold(lives.diary.session, author, deed, specimen_id, word, until, at, at, deposit)
    return specimen_id


def _hold_released(lives: Lives, at: datetime, deed: str) -> None:
    specimen_id = _hold(lives, at, deed, "Saucer Stack frags", "teaspoon", 3)
    lives.later(at + timedelta(days=1), "released", specimen_id, {"note": "rang: will come next month"})


def _hold_ends(lives: Lives, at: datetime, deed: str) -> None:
    _hold(lives, at, deed, "Folded Letter", "north wind", 3)


def _holds(lives: Lives, at: datetime, deed: str) -> None:
    for number, (name, word, days) in enumerate(
        (("Brass Anchor frags", "pelican", 3), ("Torn Map frags", "umbrella", 7))
    ):
        _hold(lives, at + timedelta(minutes=50 * number), derived_id(deed, "hold", number), name, word, days)


def _sold_twice(lives: Lives, at: datetime, deed: str) -> None:
    specimen_id = lives.some("Copper Wren frags", "for_sale")
    lives.do(at, deed, "sold", specimen_id, {"price_cents": 2200}, "Ilva")
    lives.do(at + timedelta(minutes=19), derived_id(deed, "again"), "sold", specimen_id, {"price_cents": 2200}, "Joss")


def _blank_tags(lives: Lives, at: datetime, deed: str) -> None:
    random = Random(deed)
    made = [NewEvent("tag_made", new_code(random), {"note": "printed ahead"}, at) for _ in range(BLANK_TAGS)]
    labels = [NewEvent("printed", event.subject_id, {"host": SHOP["host"]}, at) for event in made]
    record(lives.diary.session, lives.diary.authors["Ilva"], [*made, *labels], deed)


def _print_labels(lives: Lives, at: datetime, deed: str) -> None:
    """What was bound today gets its label in the evening."""
    unprinted = select(TagRow.code).where(TagRow.state == "live", TagRow.printed_host == "").order_by(TagRow.code)
    codes = lives.diary.session.scalars(unprinted).all()
    if codes:
        labels = [NewEvent("printed", code, {"host": SHOP["host"]}, at) for code in codes]
        record(lives.diary.session, lives.diary.authors["Joss"], labels, deed)
