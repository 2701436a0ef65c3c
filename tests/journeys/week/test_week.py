"""A week of the shop through its pages, every figure worked out by hand in the comments.

Monday a shipment, Tuesday a frag session, Wednesday a pest, Thursday the plugs are tried, Friday one is dead, Saturday
sales, Sunday a claim. Sixty days after the stage was set, so that its mother colony has rested.
"""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from tests.journeys.week import days, reports
from tests.shop_client import Visitor
from tests.stage import PIN
from webapp.services import recording
from webapp.views import saving

BERLIN = ZoneInfo("Europe/Berlin")


class Clock(datetime):
    """What the app takes for the present moment."""

    at = datetime.now(UTC)

    @classmethod
    def now(cls, tz=None):
        """The moment of the story."""
        return cls.at.astimezone(tz)


class GoTo:
    """Moves the clock: go_to(day of the week from 0 = Monday, hour, minute) on the shop's own time.

    In a week at whose end the clocks are changed, 24 hours after two it is not two: the next one is played.
    """

    def __init__(self):
        start = datetime.now(BERLIN) + timedelta(days=60)
        monday = (start - timedelta(days=start.weekday())).replace(hour=0, minute=0, second=0, microsecond=0)
        changes = monday.utcoffset() != (monday + timedelta(days=10)).utcoffset()
        self._monday = monday + timedelta(days=7 if changes else 0)

    def __call__(self, day: int, hour: int, minute: int = 0) -> datetime:
        Clock.at = (self._monday + timedelta(days=day)).replace(hour=hour, minute=minute)
        return Clock.at

    def days_after(self, moment: tuple[int, int], later: int) -> None:
        """So many times 24 hours after a (day, hour)."""
        Clock.at = self(*moment).astimezone(UTC) + timedelta(days=later)


@pytest.fixture
def go_to(monkeypatch):
    for module in (saving, recording):
        monkeypatch.setattr(module, "datetime", Clock)
    return GoTo()


def test_a_week_of_the_shop(stage, go_to):
    go_to(-28, 8)
    discs = days.before(Visitor(stage).sign_in(), stage, go_to)
    go_to(0, 8)
    staff = Visitor(stage).open("/sign-in").send("/sign-in", person="Noor", secret=PIN)
    assert staff.path == "/today"
    quiet = days.monday(staff, go_to)
    days.water(staff, stage, go_to, 0, alk="8.3", temp="25.0")
    frags = days.tuesday(staff, stage, go_to)
    days.water(staff, stage, go_to, 1, alk="8.1", temp="25.4")
    finding = days.wednesday(staff, stage, go_to, frags, quiet)
    days.water(staff, stage, go_to, 2, alk="8.0", temp="25.0")
    days.thursday(staff, go_to, frags)
    days.water(staff, stage, go_to, 3, alk="7.6", temp="25.4")
    days.friday(staff, go_to, frags, discs)
    days.saturday(staff, go_to, frags, discs)
    days.sunday(staff, go_to, discs)
    reports.today(staff)
    reports.exposed(staff, finding)
    reports.losses(staff)
    reports.survival(staff)
    reports.sold(staff)
    reports.growth(staff)
    reports.grown(staff, discs[3])
    reports.drift(staff)
    reports.card(staff, frags[3])
    reports.session(staff, stage)
