"""The diary of the invented shop: deeds are planned for a moment and done in the order of time, so that each finds the
shop as it was then. What would be in the future does not happen."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from heapq import heappop, heappush
from random import Random
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from webapp.services.recording import Author, happening_at
from webapp.storage.base import derived_id

#: The root of every deed's id, so that each run makes the same ids and codes.
ROOT = "8d5e1c0a37f24b6c9a1e40f2b7c6d913"
#: Another letter gives another shop.
SEED = "c"
#: Hours of the shop's day in which anything is written down.
OPENS, CLOSES = 8.5, 19.0


class Diary:
    """Plans and does. `now` is the moment the shop is shown at, `zone` its clock; nothing is recorded after it."""

    def __init__(self, session: Session, now: datetime, zone: ZoneInfo, authors: dict[str, Author]):
        self.session = session
        self.now = now
        self.authors = authors
        self.zone = zone
        self._planned: list[tuple[datetime, int, Callable[[datetime, str], None]]] = []
        self._count = 0

    def moment(self, days_ago: float, hour: float) -> datetime:
        """A time of day on the shop's clock, so many days ago."""
        return self._on_day_of(self.now.astimezone(self.zone) - timedelta(days=int(days_ago)), hour)

    def deed(self, *about: object) -> str:
        """The id of a deed done at once."""
        return derived_id(ROOT, *about)

    def plan(self, at: datetime, deed: Callable[[datetime, str], None]) -> None:
        """Do `deed(moment, deed id)` then, or in the shop's hours next to it, unless that is still to come."""
        at = self._in_hours(at)
        self._count += 1
        if at <= self.now:
            heappush(self._planned, (at, self._count, deed))

    def _in_hours(self, at: datetime) -> datetime:
        """Before the shop opens: soon after it does; after it closes: shortly before."""
        local = at.astimezone(self.zone)
        hour = local.hour + local.minute / 60
        if hour < OPENS:
            return self._on_day_of(local, OPENS + 0.4 * hour / OPENS)
        if hour > CLOSES:
            return self._on_day_of(local, CLOSES - 0.4 * (24 - hour) / (24 - CLOSES))
        return at

    def _on_day_of(self, local: datetime, hour: float) -> datetime:
        midnight = datetime(local.year, local.month, local.day, tzinfo=self.zone)
        return (midnight + timedelta(hours=hour)).astimezone(UTC)

    def run(self, each: Callable[[datetime, int, int], None]) -> None:
        """Do everything planned, and what that plans in turn.

        `each` hears after each deed its moment, how many deeds are done and how many are known of.
        """
        done = 0
        while self._planned:
            at, number, deed = heappop(self._planned)
            with happening_at(at):
                deed(at, derived_id(ROOT, number))
            done += 1
            each(at, done, done + len(self._planned))


def chance(*about: object) -> Random:
    """The dice of one life: what happens in it does not depend on any other's."""
    return Random("/".join(str(part) for part in (SEED, *about)))
