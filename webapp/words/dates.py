"""Days and hours as a reader's language writes them. The hours are those of a day of 24."""

from datetime import date, datetime, time

from webapp.words.language import Translate, later, say

MONTHS = (
    later("Jan"), later("Feb"), later("Mar"), later("Apr"), later("May"), later("Jun"), later("Jul"), later("Aug"),
    later("Sep"), later("Oct"), later("Nov"), later("Dec"),
)  # fmt: skip
WEEKDAYS = (later("Mon"), later("Tue"), later("Wed"), later("Thu"), later("Fri"), later("Sat"), later("Sun"))


def long_day(translate: Translate, day: date) -> str:
    """3 Nov 2026."""
    return say(translate, later("%(day)s %(month)s %(year)s"), day=day.day, month=_month(translate, day), year=day.year)


def short_day(translate: Translate, day: date) -> str:
    """Tue 3 Nov."""
    named = translate(WEEKDAYS[day.weekday()])
    return say(
        translate, later("%(weekday)s %(day)s %(month)s"), weekday=named, day=day.day, month=_month(translate, day)
    )


def day_of_month(translate: Translate, day: date) -> str:
    """3 Nov."""
    return say(translate, later("%(day)s %(month)s"), day=day.day, month=_month(translate, day))


def clock(translate: Translate, moment: datetime | time) -> str:
    """14:05."""
    return say(translate, later("%(hour)s:%(minute)s"), hour=f"{moment.hour:02}", minute=f"{moment.minute:02}")


def _month(translate: Translate, day: date) -> str:
    return translate(MONTHS[day.month - 1])
