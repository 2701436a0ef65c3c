"""The invented shop's till: sales under a number, advice that goes with them, packing, claims, what comes back."""

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from markupsafe import escape

from demo.diary import Diary
from demo.strains import STRAIN
from webapp.fit.acclimate import acclimate
from webapp.fit.beside import safety_of
from webapp.fit.tank import BuyerTank, FlowSaid, LightSaid, Measured
from webapp.services import cards, selling, selling_after, selling_bag, sheets, updating
from webapp.services.fitting import check_specimen
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import load_shop, revision
from webapp.words.report import tell
from webapp.words.speaker import Speaker
from webapp.words.take_home import Section, Told, sections

if TYPE_CHECKING:
    from demo.lives import Lives

#: The tank of an invented buyer, as it was typed at the counter.
BUYER = BuyerTank(
    readings={
        "temp": (Measured(25.5, "c"),), "salinity": (Measured(34.5, "ppt", "refractometer"),),
        "alk": (Measured(8.2, "dkh", "drop_kit"),), "no3": (Measured(8, "mg_l", "colorimeter"),),
        "po4": (Measured(0.06, "mg_l", "low_range_colorimeter"),), "ca": (Measured(415, "mg_l"),),
        "mg": (Measured(1300, "mg_l"),),
    },
    volume=Measured(220, "l"), length=Measured(100, "cm"), width=Measured(50, "cm"), height=Measured(50, "cm"),
    light=LightSaid("words", word="modest", hours=9), flow=FlowSaid("words", word="gentle_sway"), age_months=20,
    tankmates=("goby",), neighbours=(), free_space_cm=40, feeding_days_per_week=3,
)  # fmt: skip


class Till:
    """Sells in the diary's own time."""

    def __init__(self, diary: Diary):
        self.diary = diary
        self._kinds = newest_profiles(diary.session, Memory(), revision(diary.session))

    def sell(self, at: datetime, deed: str, ids: list[str], who: str, sheet: int | None = None) -> int:
        """Sell these together for the prices on their tags, the sheet with the first. Returns the sale's number."""
        rows = [updating.get_row(self.diary.session, one) for one in ids]
        lines = [
            selling.Line(row.id, row.price_cents, word=row.hold_word, sheet=sheet if row is rows[0] else None)
            for row in rows
        ]
        agreed = selling.Till(lines, talk=any(self._kinds[row.profile_key].toxic for row in rows))
        return selling.sell(self.diary.session, self.diary.authors[who], deed, agreed, self._kinds, at)

    def advise(self, at: datetime, specimen_id: str, who: str) -> int:
        """Check the buyer's tank and keep the advice; returns the number of the sheet."""
        session, memory = self.diary.session, Memory()
        found = cards.find(session, updating.get_row(session, specimen_id).code or "")
        card = cards.card(session, memory, found, at)
        assert card is not None
        report = check_specimen(session, memory, card.specimen, BUYER)
        says = Speaker(kinds={key: kind.trade_name for key, kind in self._kinds.items()})
        notes = report.acclimation or acclimate(card.specimen, 25.5, 34.5, None)
        safety, shop = report.safety or safety_of(card.profile, doses=False, work=False), load_shop(session)
        told = tell(report, says)
        source = Told(card.profile, report, told, notes, safety, (), shop.poisons_line, shop.terms, at, card.used_to)
        kept = (card.id, card.profile.key, card.profile.revision)
        (number,) = sheets.issue(session, self.diary.authors[who], [kept], at)
        verdict = " ".join([told.whole_word + ".", *told.whole_sentences])
        sheets.keep_text(session, [number], _page(card.name, verdict, sections(source, says)))
        return number

    def picture(self, at: datetime, deed: str, number: int, data: bytes, note: str) -> None:
        """Keep a picture of what was sold, as it leaves."""
        session, author = self.diary.session, self.diary.authors["Joss"]
        selling_after.picture(session, author, deed, number, updating.keep_photo(session, deed, data, at), note)

    def bag(self, at: datetime, deed: str, number: int, case: str, journey_h: float) -> None:
        """Keep how a sale was packed."""
        author = self.diary.authors["Joss"]
        selling_bag.bag(self.diary.session, author, deed, number, case, journey_h, 21.0, self._kinds, at)


def plan_sales(lives: "Lives") -> None:
    """Sales of several animals with advice and a bag; a claim that was settled, one that is open."""
    moment = lives.diary.moment
    lives.diary.plan(moment(20, 15), lambda at, deed: _settled_claim(lives, at, deed))
    lives.diary.plan(moment(9, 14), lambda at, deed: _saturday(lives, at, deed, ("Pantry Tile", "Plum Kettle")))
    lives.diary.plan(moment(2, 16), lambda at, deed: _open_claim(lives, at, deed))
    lives.diary.plan(moment(*parcel_sold(lives.diary.now.astimezone(lives.diary.zone))),
                     lambda at, deed: _posted(lives, at, deed))  # fmt: skip


def parcel_sold(now: datetime) -> tuple[int, float]:
    """Days ago and hour at which a parcel is sold that has just come by `now`, on the shop's clock: yesterday
    afternoon, or this morning once that is a day ago."""
    return (1, 15.5) if now.hour + now.minute / 60 < 16.5 else (0, 9.5)


def parcel_way_h(packed: datetime, now: datetime) -> float:
    """How long it is on the way, in half hours: it comes in the last half hour, and after a day at the latest."""
    return min(24, int(2 * ((now - packed) / timedelta(hours=1))) / 2)


def _saturday(lives: "Lives", at: datetime, deed: str, names: tuple[str, ...]) -> tuple[int, list[str]]:
    ids = [lives.some(f"{name} frags", "for_sale") for name in names]
    sheet = lives.till.advise(at - timedelta(minutes=12), ids[0], "Ilva")
    number = lives.till.sell(at, deed, ids, "Ilva", sheet)
    lives.till.bag(at + timedelta(minutes=6), lives.diary.deed(deed, "bag"), number, "insulated_air", 1.5)
    return number, ids


def _posted(lives: "Lives", at: datetime, deed: str) -> None:
    """Two hardy ones go by parcel, pictured before they are packed; the box should have come within the last hour."""
    ids = [lives.some(f"{name} frags", "for_sale") for name in ("Marmalade Post", "Mossy Ledger")]
    number = lives.till.sell(at, deed, ids, "Joss")
    packed = at + timedelta(hours=1)
    way_h = parcel_way_h(packed, lives.diary.now)

    def pictured(when: datetime, picture_deed: str) -> None:
        data = lives.portraits.draw(STRAIN[updating.get_row(lives.diary.session, ids[0]).name])
        lives.till.picture(when, picture_deed, number, data, "Both open, no damage; two bags, one heat pack.")

    lives.diary.plan(at + timedelta(minutes=25), pictured)
    lives.diary.plan(packed, lambda when, bag_deed: lives.till.bag(when, bag_deed, number, "freight", way_h))


def _claim(lives: "Lives", at: datetime, deed: str, number: int, said: dict[str, str]) -> str:
    session, author = lives.diary.session, lives.diary.authors["Joss"]
    return selling_after.claim(session, author, lives.diary.deed(deed, at), number, said)


def _settled_claim(lives: "Lives", at: datetime, deed: str) -> None:
    number, ids = _saturday(lives, at, deed, ("Quince Pudding", "Ink Thistle"))

    def claimed(when: datetime, claim_deed: str) -> None:
        said = {"specimen_id": ids[1], "trouble": "died", "readings": "34 ppt, 25 °C, 8 dKH, NO3 12",
                "note": "Found in the overflow the next morning; picture shown."}  # fmt: skip
        claim = _claim(lives, when, claim_deed, number, said)
        settled = {"outcome": "credit", "amount_cents": 1200, "note": "Credit for the next visit."}
        author, settle_deed = lives.diary.authors["Ilva"], lives.diary.deed(claim_deed, "settled")
        selling_after.settle(lives.diary.session, author, settle_deed, number, claim, settled)

    lives.diary.plan(at + timedelta(hours=22), claimed)


def _open_claim(lives: "Lives", at: datetime, deed: str) -> None:
    number, ids = _saturday(lives, at, deed, ("Straw Parade", "Copper Wren"))

    def claimed(when: datetime, claim_deed: str) -> None:
        said = {"specimen_id": ids[0], "trouble": "unwell", "readings": "36 ppt, 26.5 °C, 7 dKH",
                "note": "Shut since the first evening; a sample of the water is here."}  # fmt: skip
        _claim(lives, when, claim_deed, number, said)

    lives.diary.plan(at + timedelta(hours=20), claimed)


def _page(name: str, verdict: str, parts: tuple[Section, ...]) -> str:
    """The sheet as plain sections, as it was given."""
    made = [f'<article class="take-home"><h2>{escape(name)}</h2><p><b>{escape(verdict)}</b></p>']
    for part in parts:
        made.append(f"<h3>{escape(part.title)}</h3>")
        made += [f"<p>{escape(line)}</p>" for line in part.lines]
        made += [f"<p><b>{escape(when)}</b> {escape(what)}</p>" for when, what in part.steps]
        made += [f"<p>{escape(' · '.join(cells))}</p>" for cells in part.rows]
    return "".join(made) + "</article>"
