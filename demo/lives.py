"""What happens to each animal of the invented shop: arrival, quarantine, cuts, healing, growth, sale, loss."""

from datetime import datetime, timedelta
from random import Random
from typing import Any

from demo.diary import Diary, chance
from demo.looks import plan_healing, plan_quarantine
from demo.notes import LOSS_CAUSES, LOSS_NOTES, cut_note, note_for
from demo.portraits import Portraits
from demo.scenario import DAYS, RACK
from demo.strains import Strain
from demo.till import Till
from webapp.schemas.profiles import load_profiles
from webapp.services import fragging, intake, places, updating
from webapp.storage.present_specimen import GONE

GROUPS = {key: profile.group for key, profile in load_profiles().items()}
#: Growth across in a month, mm: stony branches about 3, others less or more, before crowding.
GROWTH_MM = {
    "sps": 2.6,
    "lps": 0.9,
    "soft": 4.0,
    "gorgonian": 4.0,
    "zoanthid": 2.0,
    "corallimorph": 1.5,
    "anemone": 2.0,
    "clam": 1.5,
}
HEADS_A_MONTH = {"zoanthid": 0.14, "corallimorph": 0.07, "lps": 0.035}


class Lives:
    """Plans the lives of strains in the diary. `tanks`, `racks`: ids by name; `ids`: of what lived, by strain."""

    def __init__(self, diary: Diary, tanks: dict[str, str], racks: dict[str, str], portraits: Portraits):
        self.diary, self.tanks, self.racks, self.portraits = diary, tanks, racks, portraits
        self.ids: dict[str, list[str]] = {}
        self.till = Till(diary)

    def plan(self, strain: Strain) -> None:
        """The whole story of a strain, from the day it came."""
        start = self.diary.moment(strain.since, 15.5 if strain.since < DAYS else 10)
        for number in range(strain.count):
            random = chance("animal", strain.name, number)
            self.diary.plan(start + timedelta(minutes=4 * number), self._arrival(strain, number, random))

    def place(self, rack: str, last: bool = False) -> dict[str, Any]:
        """The next free slot of a rack, from its end where `last`."""
        rack_id = self.racks[rack]
        free = places.free_slots(self.diary.session, places.get_rack(self.diary.session, rack_id))
        return {"tank_id": self.tanks[RACK[rack].tank], "rack_id": rack_id, "slot": free[-1 if last else 0]}

    def do(
        self, at: datetime, deed: str, kind: str, specimen_id: str, payload: dict[str, Any], who: str = "Joss"
    ) -> None:
        """Record one event of one specimen now."""
        updating.update(self.diary.session, self.diary.authors[who], deed, kind, [specimen_id], payload, at)

    def later(self, at: datetime, kind: str, specimen_id: str, payload: dict[str, Any], who: str = "Joss") -> None:
        """Plan one event of one specimen, for when it is still here."""

        def event(when: datetime, deed: str) -> None:
            if self.status(specimen_id) not in GONE:
                self.do(when, deed, kind, specimen_id, payload, who)

        self.diary.plan(at, event)

    def status(self, specimen_id: str) -> str:
        """How it is just now."""
        return updating.get_row(self.diary.session, specimen_id).status

    def all(self, name: str, status: str) -> list[str]:
        """Those of a strain (or of its frags: 'Name frags') that are so just now, oldest first."""
        return [specimen_id for specimen_id in self.ids[name] if self.status(specimen_id) == status]

    def some(self, name: str, status: str) -> str:
        """The youngest of them, or of all that are so where the strain has none."""
        every = [one for ids in self.ids.values() for one in ids if self.status(one) == status]
        return (self.all(name, status) or every)[-1]

    def _arrival(self, strain: Strain, number: int, random: Random) -> Any:
        def arrive(at: datetime, deed: str) -> None:
            waits = strain.quarantine_days > 0
            status = "quarantine" if waits else "mother"
            given = {
                "profile_key": strain.key, "name": strain.name, "origin": strain.origin, "supplier": strain.supplier,
                "papers": strain.papers, "cost_cents": round(strain.price * random.uniform(38, 52)) if strain.sale else
                round(strain.price * random.uniform(180, 260)), "status": status,
                "size_mm": strain.size_mm + random.randint(-4, 4) * strain.count // 2, "heads": strain.heads,
            }  # fmt: skip
            home = self.place("Q1" if waits else strain.rack, last=not waits)
            author = self.diary.authors["Ilva"]
            specimen_id = intake.take_in(self.diary.session, author, deed, given | home, at=at)[0]
            self.ids.setdefault(strain.name, []).append(specimen_id)
            self.portraits.take(self.diary, strain, number, specimen_id, at + timedelta(hours=1))
            if waits:
                self.quarantine(strain, specimen_id, at, random)
            else:
                self._settled(strain, specimen_id, at, random)

        return arrive

    def quarantine(self, strain: Strain, specimen_id: str, at: datetime, random: Random) -> None:
        """Dips, looks, and the day it leaves quarantine."""
        group = GROUPS[strain.key]
        plan_quarantine(self, strain, group, [specimen_id], at)
        out = at + timedelta(days=strain.quarantine_days, hours=random.uniform(-5, 1))

        def release(when: datetime, deed: str) -> None:
            if self.status(specimen_id) in GONE:
                return
            self.do(when, deed, "status_set", specimen_id, {"status": "for_sale" if strain.sale else "mother"}, "Ilva")
            self.diary.plan(when + timedelta(minutes=9), self._move(specimen_id, strain.rack, last=not strain.sale))
            if strain.sale:
                self.later(
                    when + timedelta(minutes=15), "priced", specimen_id, {"price_cents": strain.price * 100}, "Ilva"
                )
                self._on_sale(strain, specimen_id, when + timedelta(hours=1), random, 0.3)
            self._settled(strain, specimen_id, when, random)

        self.later(out - timedelta(days=1), "noted", specimen_id, note_for(strain.key, group, random))
        self.diary.plan(out, release)

    def _move(self, specimen_id: str, rack: str, last: bool = False) -> Any:
        def move(at: datetime, deed: str) -> None:
            if self.status(specimen_id) in GONE:
                return
            updating.move(
                self.diary.session, self.diary.authors["Joss"], deed, [specimen_id], self.place(rack, last), at
            )

        return move

    def _settled(self, strain: Strain, specimen_id: str, at: datetime, random: Random) -> None:
        """Growth, notes and the cuts of an animal in its home."""
        self._grows(strain, specimen_id, at, random, strain.size_mm, strain.heads)
        self.later(
            at + timedelta(days=random.uniform(6, 40)),
            "noted",
            specimen_id,
            note_for(strain.key, GROUPS[strain.key], random),
        )
        for days_ago, plugs in strain.sessions:
            when = self.diary.moment(days_ago, random.uniform(13, 16.5))
            self.diary.plan(when, self._session(strain, specimen_id, plugs, days_ago))

    def _grows(
        self, strain: Strain, specimen_id: str, at: datetime, random: Random, size: float, heads: int | None
    ) -> None:
        group, pace = GROUPS[strain.key], random.uniform(0.6, 1.25)
        for month in range(1, 5):
            when = at + timedelta(days=30 * month + random.uniform(-3, 3))
            payload: dict[str, Any] = {"size_mm": round(size + month * pace * GROWTH_MM[group])}
            if heads is not None and group in HEADS_A_MONTH and heads > 1:
                payload["heads"] = round(heads * (1 + HEADS_A_MONTH[group] * pace) ** month)
            self.later(when, "measured", specimen_id, payload)

    def _session(self, strain: Strain, mother_id: str, plugs: int, days_ago: int) -> Any:
        def cut(at: datetime, deed: str) -> None:
            if self.status(mother_id) in GONE:
                return
            rack = self.racks[strain.rack]
            size, heads = strain.frag
            said = fragging.FragSession(
                mother_id, strain.method, plugs, rack, size_mm=size, heads=heads, note=cut_note(GROUPS[strain.key]),
            )  # fmt: skip
            author = self.diary.authors["Joss" if days_ago % 2 else "Ilva"]
            born = fragging.frag(self.diary.session, author, deed, said, at)
            self.ids.setdefault(strain.name + " frags", []).extend(born)
            for number, specimen_id in enumerate(born):
                self._frag(strain, specimen_id, number, at, chance("frag", strain.name, days_ago, number))
            plan_healing(self, strain, GROUPS[strain.key], born, at)

        return cut

    def _frag(self, strain: Strain, specimen_id: str, number: int, at: datetime, random: Random) -> None:
        """A plug heals or is lost; then it is for sale and grows."""
        group = GROUPS[strain.key]
        if random.random() < (0.13 if group in ("corallimorph", "sps") else 0.08):
            cause = random.choice(LOSS_CAUSES[group])
            lost = at + timedelta(days=random.uniform(3, 0.7 * strain.heal_days + 3))
            self.later(lost, "lost", specimen_id, {"cause": cause, "note": LOSS_NOTES.get(cause, "")})
            return
        ready = at + timedelta(days=strain.heal_days + random.choice((0, 0, 0, 1, 2)), hours=random.uniform(-3, 2))
        self.portraits.take(self.diary, strain, number + 1, specimen_id, ready + timedelta(minutes=20))
        price = strain.price * 100 + (300 if number == 0 and strain.price > 20 else 0)
        self.later(ready, "status_set", specimen_id, {"status": "for_sale"})
        self.later(ready + timedelta(minutes=6), "priced", specimen_id, {"price_cents": price}, "Ilva")
        size, heads = strain.frag
        grown = size + random.uniform(-2, 3)
        self._grows(strain, specimen_id, at, random, grown, heads)
        if random.random() < 0.6:
            self.later(
                ready + timedelta(days=random.uniform(1, 9)), "noted", specimen_id, note_for(strain.key, group, random)
            )
        self._on_sale(strain, specimen_id, ready + timedelta(hours=2), random, 0.36)

    def _on_sale(self, strain: Strain, specimen_id: str, since: datetime, random: Random, sells: float) -> None:
        """It sells after some weeks, or waits; a slow one gets cheaper."""
        price = strain.price * 100
        if random.random() < sells:
            sold = since + timedelta(days=random.uniform(3, 45))
            self.diary.plan(sold, self._sale(specimen_id, random.choice(("Ilva", "Joss"))))
        elif random.random() < 0.3:
            cheaper = {"price_cents": round(price * 0.85 / 100) * 100, "reason": "slow to sell"}
            self.later(since + timedelta(days=random.uniform(28, 50)), "priced", specimen_id, cheaper, "Ilva")
        elif chance("price", specimen_id).random() < 0.7:
            stays = {"price_cents": price, "reason": "looked at, it stays"}
            self.later(since + timedelta(days=57), "priced", specimen_id, stays, "Ilva")

    def _sale(self, specimen_id: str, who: str) -> Any:
        def sold(at: datetime, deed: str) -> None:
            if self.status(specimen_id) == "for_sale":
                self.till.sell(at, deed, [specimen_id], who)

        return sold
