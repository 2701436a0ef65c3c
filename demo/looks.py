"""Looks and dips in the invented shop: what heals is looked at until it is ready, what came in until it may leave."""

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

from demo.diary import chance
from demo.strains import Strain
from webapp.services import updating

if TYPE_CHECKING:
    from demo.lives import Lives

#: Cut longer ago than this, only the looks that decided are written down.
DETAIL_DAYS = 45
DAYS_OPEN = 5
NEVER_DIPPED = ("clam", "anemone")
#: Eggs of flatworms hatch and their young are dipped again, in days at 25 °C.
DIPPED_AGAIN = (17.2, 34.3)


def plan_healing(lives: "Lives", strain: Strain, group: str, born: list[str], at: datetime) -> None:
    """The looks at one frag session's plugs, each look one deed over those that are left."""
    random, heal = chance("healing", strain.name, at.date()), strain.heal_days
    left = lives.diary.now - at

    def look(days: float, seen: dict[str, Any]) -> None:
        _look(lives, at + timedelta(days=days), born, seen)

    if left > timedelta(days=3.5):
        look(2.2, {"holds": True})
        if random.random() < 0.25:
            loose, again = born[-1:], at + timedelta(days=2.21)
            _look(lives, again, loose, {"holds": False, "note": "Loose: glued again."})
            _look(lives, again + timedelta(days=1), loose, {"holds": True})
        look(max(2.4, min(0.5 * heal, heal - 9.6)), {"edge_closed": True, "pest_free": True, "holds": True})
    last: dict[str, Any] = {"open": True, "pest_free": True, "bitten": False}
    last |= {"lps": {"ate": True}, "sps": {"new_tissue_mm": 1.5}}.get(group, {})
    if left < timedelta(days=DETAIL_DAYS):
        for days in range(DAYS_OPEN, 0, -1):
            look(heal - 2.2 - days, {"open": True})
    look(heal - 2.2, last)


def plan_quarantine(lives: "Lives", strain: Strain, group: str, ids: list[str], at: datetime) -> None:
    """A dip at the door, again as eggs hatch for small-polyp stony corals, and two clean inspections."""
    stay = strain.quarantine_days
    if group not in NEVER_DIPPED:
        _dip(lives, at + timedelta(hours=1.2), ids, group == "sps")
        for days in DIPPED_AGAIN if group == "sps" else ():
            if days < stay - 1 and lives.diary.now - at > timedelta(days=days + 2):
                _dip(lives, at + timedelta(days=days), ids, True)
    first = {"pest_free": True, "bitten": False, "slime": False, "note": "No eggs, no bite marks."}
    began = min(0.42 * stay, 9)
    _look(lives, at + timedelta(days=began), ids, first)
    _look(lives, at + timedelta(days=max(began + 7.1, 0.88 * stay)), ids, first | {"open": True, "colour": "good"})


def _look(lives: "Lives", at: datetime, ids: list[str], seen: dict[str, Any]) -> None:
    lives.diary.plan(at, _of_those_here(lives, "checked", ids, seen))


def _dip(lives: "Lives", at: datetime, ids: list[str], repeat: bool) -> None:
    given = {"dip": "iodine", "strength": "as the label says", "minutes": 8, "temp_c": 25.0, "eggs_seen": False,
             "fell_off": "", "repeat": repeat}  # fmt: skip
    lives.diary.plan(at, _of_those_here(lives, "dipped", ids, given))


def _of_those_here(
    lives: "Lives", kind: str, ids: list[str], payload: dict[str, Any]
) -> Callable[[datetime, str], None]:
    """One deed over those that heal or are in quarantine at that moment."""

    def deed_of_all(when: datetime, deed: str) -> None:
        left = [one for one in ids if lives.status(one) in ("healing", "quarantine")]
        if left:
            author = lives.diary.authors["Joss" if when.day % 3 else "Ilva"]
            updating.update(lives.diary.session, author, deed, kind, left, payload, when)

    return deed_of_all
