"""The shop's own settings, and whether it has been set up."""

import os
from dataclasses import asdict, dataclass, field, fields, replace
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo, available_timezones

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.science.units import QUANTITIES
from webapp.storage.shop import Clock, Person, Setting
from webapp.tags.address import LabelAddress

#: ISO 4217 code -> sign and decimals.
CURRENCIES = {"EUR": ("€", 2), "GBP": ("£", 2), "USD": ("$", 2), "AUD": ("A$", 2), "CAD": ("C$", 2), "JPY": ("¥", 0),
              "CHF": ("Fr", 2), "SEK": ("kr", 2), "NOK": ("kr", 2), "DKK": ("kr", 2), "PLN": ("zł", 2), "NZD": ("NZ$",
              2)}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Shop:
    """host: the address on labels, chosen once; former_hosts still resolve. sold_tag_days: how long a sold
    plug's tag still tells its buyer what it is, 0 for as long as the shop keeps its history. units: quantity -> the
    unit staff usually type."""

    name: str = ""
    host: str = ""
    port: int = 80
    former_hosts: tuple[str, ...] = ()
    currency: str = "EUR"
    time_zone: str = "UTC"
    units: dict[str, str] = field(default_factory=dict)
    terms: str = ""
    poisons_line: str = ""
    wifi_name: str = ""
    wifi_secret: str = ""
    sold_tag_days: int = 0

    @property
    def zone(self) -> ZoneInfo:
        """The shop's time zone."""
        return ZoneInfo(self.time_zone)

    @property
    def address(self) -> LabelAddress:
        """The address labels are printed with."""
        return LabelAddress(self.host, None if self.port == 80 else self.port)

    @property
    def hosts(self) -> tuple[str, ...]:
        """Every host that is or was ours."""
        return (self.host, *self.former_hosts)

    def unit(self, quantity: str) -> str:
        """The unit in which staff usually type this quantity."""
        return self.units.get(quantity, QUANTITIES[quantity].canonical_unit)

    def local(self, moment: datetime) -> datetime:
        """A moment on the shop's own clock."""
        return moment.astimezone(self.zone)


def computer_zone() -> str:
    """The name of this computer's time zone, 'UTC' where it does not tell: TZ (POSIX) or /etc/localtime (tzfile)."""
    linked = os.path.realpath("/etc/localtime").partition("zoneinfo/")[2]
    told = (os.environ.get("TZ", "").lstrip(":"), linked)
    return next((name for name in told if name in available_timezones()), "UTC")


def load_shop(session: Session) -> Shop:
    """The settings as they are; a shop not set up yet has an empty name."""
    kept = {row.key: row.value for row in session.scalars(select(Setting))}
    known = {item.name for item in fields(Shop)}
    given = {key: tuple(value) if key == "former_hosts" else value for key, value in kept.items() if key in known}
    return Shop(**given)


def is_set_up(session: Session) -> bool:
    """Whether somebody owns this shop yet."""
    return session.scalar(select(Person.id).where(Person.role == "owner").limit(1)) is not None


def save_shop(session: Session, shop: Shop, **changes: Any) -> Shop:
    """Keep changed settings. Raises BadInput for a host, time zone, currency or unit that cannot be used.

    A new host goes on labels printed from now; the one before joins `former_hosts`, so labels on plugs still open.
    """
    new = replace(shop, **changes)
    if not new.name.strip():
        raise BadInput("Give the shop a name.", "name")
    if new.time_zone not in available_timezones():
        raise BadInput(f"'{new.time_zone}' is not a time zone. Choose one from the list.", "time_zone")
    if new.currency not in CURRENCIES:
        raise BadInput("Choose a currency from the list.", "currency")
    for quantity, unit in new.units.items():
        if quantity not in QUANTITIES or unit not in QUANTITIES[quantity].units:
            raise BadInput(f"'{unit}' is not a unit of {quantity}.", "units")
    checked = LabelAddress(new.host, None if new.port == 80 else new.port)
    new = replace(new, host=checked.host)
    if shop.host and new.host != shop.host:
        former = (shop.host, *[host for host in shop.former_hosts if host not in (shop.host, new.host)])
        new = replace(new, former_hosts=former)
    for key, value in asdict(new).items():
        session.merge(Setting(key=key, value=list(value) if isinstance(value, tuple) else value))
    return new


def revision(session: Session) -> int:
    """A number that grows with every commit; what was made at one revision is still right while it lasts."""
    return session.scalar(select(Clock.revision).where(Clock.id == 1)) or 0
