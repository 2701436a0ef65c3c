"""The daily round of the invented shop: feeding, water changes, dosing, equipment, counting the racks."""

from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from demo.diary import chance
from demo.water import HOLIDAY
from webapp.services import stocktaking, tending, updating
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow

if TYPE_CHECKING:
    from demo.lives import Lives

ROUND_DAYS = 62
#: tank -> food, how many days between two feedings, the last of them so many days ago.
FED = {
    "Long Bay": ("meaty", 4, 1), "Frag Bench": ("meaty", 4, 2), "Bright Bench": ("plankton", 5, 3),
    "Dim Shelf": ("fine", 4, 3), "Window Garden": ("meaty", 6, 2), "Quarantine": ("fine", 5, 8),
}  # fmt: skip
CHANGED_L = {"Long Bay": 70, "Frag Bench": 30, "Bright Bench": 35, "Dim Shelf": 20, "Window Garden": 35,
             "Quarantine": 25}  # fmt: skip
#: (tank, days ago, kind, what is said)
ONCE: tuple[tuple[str, int, str, dict[str, Any]], ...] = (
    ("Bright Bench", 34, "serviced", {"what": "Thermometer probe failed, read by hand until a new one is here"}),
    ("Bright Bench", 23, "serviced", {"what": "New thermometer probe, compared in ice water"}),
    ("Window Garden", 71, "serviced", {"what": "Fan over the water"}),
    ("Long Bay", 28, "serviced", {"what": "Return pump cleaned"}),
    ("Frag Bench", 12, "serviced", {"what": "Carbon changed"}),
    ("Dim Shelf", 6, "serviced", {"what": "Lamp hung 4 cm lower"}),
    ("Quarantine", 17, "tank_noted", {"text": "Tongs and net boiled out; nothing of this tank goes to another."}),
)
#: animal -> food, how many days between two feedings by hand, the last of them so many days ago, what it did then.
BY_HAND = {
    "Lamp Oil": ("meaty", 2, 1, "ate"), "Clock Face": ("meaty", 4, 2, "ate"), "Cold Jelly": ("meaty", 5, 1, "spat"),
}  # fmt: skip
HAND_FED_DAYS = 14
FULL_COUNT, LAST_COUNT = 24, 4
COUNTED_LAST = ("L1", "F1", "B1", "D1", "G1")


def plan_round(lives: "Lives") -> None:
    """Everything of the round that has happened by now."""
    for tank, (food, every, last) in FED.items():
        for days_ago in range(ROUND_DAYS, last - 1, -1):
            if (days_ago - last) % every == 0 and days_ago not in HOLIDAY:
                _tend(lives, tank, days_ago, 18.2, "fed", {"food": food})
    for tank, litres in CHANGED_L.items():
        for days_ago in range(ROUND_DAYS, -1, -1):
            if days_ago % 14 == 3 and days_ago not in HOLIDAY:
                _tend(lives, tank, days_ago, 10.8, "water_changed", {"litres": litres})
    for days_ago in range(ROUND_DAYS, -1, -3):
        if days_ago not in HOLIDAY:
            dose = {"what": "buffer for alkalinity", "amount": 22, "unit": "g"}
            _tend(lives, "Bright Bench", days_ago, 18.6, "dosed", dose)
    for animal, (food, every, last, did) in BY_HAND.items():
        for days_ago in range(last, HAND_FED_DAYS, every):
            note = "Let go of it after a minute; half of that next time." if did == "spat" and days_ago == last else ""
            _feed(lives, animal, days_ago, {"food": food, "response": did if days_ago == last else "ate", "note": note})
    for tank, days_ago, kind, said in ONCE:
        _tend(lives, tank, days_ago, 12.5, kind, said)
    for days_ago, racks, unseen in ((FULL_COUNT, tuple(lives.racks), ""), (LAST_COUNT, COUNTED_LAST, "Pantry Tile")):
        for number, rack in enumerate(racks):
            at = lives.diary.moment(days_ago, 9) + timedelta(minutes=7 * number)
            lives.diary.plan(at, _count(lives, rack, unseen, lives.diary.deed("count", days_ago)))


def _tend(lives: "Lives", tank: str, days_ago: int, hour: float, kind: str, said: dict[str, Any]) -> None:
    who = "Ilva" if chance("tends", tank, days_ago, kind).random() < 0.3 else "Joss"

    def done(at: datetime, deed: str) -> None:
        tending.tend(lives.diary.session, lives.diary.authors[who], deed, kind, lives.tanks[tank], said, at)

    lives.diary.plan(lives.diary.moment(days_ago, hour), done)


def _feed(lives: "Lives", animal: str, days_ago: int, said: dict[str, Any]) -> None:
    def fed(_at: datetime, deed: str) -> None:
        specimen_id = lives.ids[animal][0]
        if lives.status(specimen_id) not in GONE:
            updating.feed(lives.diary.session, lives.diary.authors["Joss"], deed, specimen_id, said)

    lives.diary.plan(lives.diary.moment(days_ago, 18.4), fed)


def _count(lives: "Lives", rack: str, unseen: str, count_id: str) -> Any:
    """Every tag of a rack is seen but one of a strain, where one is named."""

    def counted(_at: datetime, deed: str) -> None:
        session = lives.diary.session
        place = stocktaking.find_place(session, f"rack:{lives.racks[rack]}")
        rows = session.execute(
            select(SpecimenRow.code, SpecimenRow.name).where(
                SpecimenRow.rack_id == place.rack_id, SpecimenRow.status.not_in(("sold", "lost", "merged"))
            ).order_by(SpecimenRow.slot)
        ).all()  # fmt: skip
        gone = [code for code, name in rows if name == unseen][-1:]
        codes = [code for code, _name in rows if code and code not in gone]
        stocktaking.confirm(session, lives.diary.authors["Joss"], deed, count_id, place, codes)

    return counted
