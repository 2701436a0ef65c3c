"""What every template may use: the shop, the person signed in, money, moments, lengths, translations."""

from datetime import datetime
from typing import Any

from flask import Flask
from markupsafe import Markup

from webapp.services.recording import new_deed
from webapp.services.shop import CURRENCIES
from webapp.views import language, wording
from webapp.views.identity import shop, staff, staff_door
from webapp.views.language import translate
from webapp.views.offline_forms import typed
from webapp.views.own_address import own_address
from webapp.views.saving import now
from webapp.views.secure_origin import staff_link
from webapp.views.signing import handle
from webapp.views.waited import waited_fields
from webapp.words import dates
from webapp.words.language import later, local_number, say


def init_app(app: Flask) -> None:
    """Register filters and globals."""
    app.jinja_env.add_extension("jinja2.ext.i18n")
    language.init_app(app)
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.jinja_env.filters.update(money=money, svg=Markup, day=day, moment=moment, number=number, ago=ago,
    when=datetime.fromisoformat)
    app.jinja_env.globals.update(shop=shop, staff=staff, staff_door=staff_door, new_deed=new_deed, now=now,
    tr=translate)
    app.jinja_env.globals.update(staff_link=staff_link, session_handle=handle, typed=typed, waited_fields=waited_fields,
    own_address=own_address)
    wording.init_app(app)


def money(cents: int | None, currency: str | None = None) -> str:
    """An amount with its sign, '' when there is none: € 12.50."""
    if cents is None:
        return ""
    sign, decimals = CURRENCIES[currency or shop().currency]
    amount = local_number(translate, f"{cents / 100:.{decimals}f}")
    return say(translate, later("%(sign)s\N{NO-BREAK SPACE}%(amount)s"), sign=sign, amount=amount)


def day(when: datetime) -> str:
    """A day on the shop's clock: 3 Nov 2026."""
    return dates.long_day(translate, shop().local(when))


def moment(when: datetime) -> str:
    """A moment on the shop's clock: 3 Nov 2026, 14:05."""
    return say(translate, later("%(day)s, %(clock)s"), day=day(when), clock=dates.clock(translate, shop().local(when)))


def ago(when: datetime) -> str:
    """How long ago, in the largest unit that fits."""
    seconds = max(0.0, (now() - when).total_seconds())
    for size, one, many in ((86400, "day", "days"), (3600, "hour", "hours"), (60, "minute", "minutes")):
        count = int(seconds // size)
        if count:
            return f"{count} {one if count == 1 else many} ago"
    return "just now"


def number(value: Any, decimals: int = 1) -> str:
    """A number with at most `decimals` places and no trailing zeros."""
    if value is None:
        return ""
    text = f"{value:.{decimals}f}"
    return local_number(translate, text.rstrip("0").rstrip(".") if "." in text else text)
