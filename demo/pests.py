"""Pests of the invented shop: one that is gone, one in quarantine that stops sale, one that was carried on."""

from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from webapp.services import pests, updating
from webapp.storage.specimen import SpecimenRow

if TYPE_CHECKING:
    from demo.lives import Lives


def plan_pests(lives: "Lives") -> None:
    """Put the findings, and what was done about them, into the diary."""
    _story(
        lives, 76, lambda: {"tank_id": lives.tanks["Frag Bench"], "pest": "glass_anemone", "stops_sale": False,
                            "note": "Two beside the return."},
        ((76, "pest_treated", {"treatment": "Plugs lifted out, paste, rinsed and put back"}),
         (67, "pest_looked", {"clean": True}), (59, "pest_looked", {"clean": True}), (59, "pest_cleared", {})),
    )  # fmt: skip
    _story(
        lives, 8, lambda: {"tank_id": lives.tanks["Quarantine"], "pest": "acropora_flatworm", "stops_sale": True,
                           "specimen_id": lives.ids["Tarn Steps"][-1],
                           "note": "Pale rings at the base, one patch of eggs on bare skeleton."},
        ((8, "pest_treated", {"treatment": "All four dipped and blown off over a white bowl; the eggs cut away"}),
         (1, "pest_looked", {"clean": True})),
    )  # fmt: skip
    _story(
        lives, 8, lambda: {"tank_id": lives.tanks["Dim Shelf"], "pest": "acoel_flatworm", "stops_sale": False,
                           "specimen_id": _for_sale_in(lives, "Dim Shelf")[0],
                           "note": "Rust spots on the flesh."},
        ((7, "pest_treated", {"treatment": "Siphoned off, carbon in the filter"}),),
    )  # fmt: skip
    lives.diary.plan(lives.diary.moment(8, 13), lambda at, deed: _off_sale(lives, at, deed))
    lives.diary.plan(lives.diary.moment(4, 13), lambda at, deed: _carried_on(lives, at, deed))
    lives.diary.plan(lives.diary.moment(1, 17), lambda at, deed: _bleached(lives, at, deed))


def _story(lives: "Lives", days_ago: int, given: Any, later: tuple[tuple[int, str, dict[str, Any]], ...]) -> None:
    """A finding at noon, and what was done on later days."""
    author = lives.diary.authors["Ilva"]

    def found(at: datetime, deed: str) -> None:
        pest_id = pests.report_pest(lives.diary.session, author, deed, given(), at)
        for number, (day, kind, payload) in enumerate(later):

            def done(when: datetime, one: str, kind: str = kind, payload: dict[str, Any] = payload) -> None:
                pests.tell(lives.diary.session, author, one, pest_id, kind, payload, when)

            lives.diary.plan(lives.diary.moment(day, 12.6 + 0.1 * number), done)

    lives.diary.plan(lives.diary.moment(days_ago, 12), found)


def _for_sale_in(lives: "Lives", tank: str) -> list[str]:
    """What is for sale in a tank just now, in the order in which it stands there."""
    query = select(SpecimenRow.id).where(SpecimenRow.tank_id == lives.tanks[tank], SpecimenRow.status == "for_sale")
    return list(lives.diary.session.scalars(query.order_by(SpecimenRow.rack_id, SpecimenRow.slot)))


def _off_sale(lives: "Lives", at: datetime, deed: str) -> None:
    """The one on which they were seen is kept back."""
    kept = {"status": "kept", "note": "rust spots"}
    lives.do(at, deed, "status_set", _for_sale_in(lives, "Dim Shelf")[0], kept, "Ilva")


def _carried_on(lives: "Lives", at: datetime, deed: str) -> None:
    """A plug goes from the shelf where the flatworms were to another tank: its water counts as exposed from then on."""
    author, plug = lives.diary.authors["Joss"], _for_sale_in(lives, "Dim Shelf")[-1]
    updating.move(lives.diary.session, author, deed, [plug], lives.place("F1"), at)


def _bleached(lives: "Lives", at: datetime, deed: str) -> None:
    seen = {"colour": "bleached", "open": False, "note": "White along one rim since the weekend."}
    lives.do(at, deed, "checked", lives.some("Custard Funnel", "for_sale"), seen)
