"""A look at what a shop stands on: one finding a line, each with what to do when it is not well."""

import os
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from importlib.metadata import PackageNotFoundError, version

from webapp import beside
from webapp.addresses import lan_addresses
from webapp.certificates import LEAF_DAYS, RENEW_DAYS, Held, held_in
from webapp.errors import BadInput
from webapp.running import authority_folder, hosts_of
from webapp.services.shop import load_shop
from webapp.storage import backup, migrating
from webapp.storage.database import Database


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing looked at. well: nothing to do."""

    well: bool
    sentence: str


def examine(url: str) -> list[Finding]:
    """Everything that can be told without changing anything."""
    found = [*_program(), *_network()]
    try:
        for look in (_database, _shop, _https):
            found.extend(look(url))
    except BadInput as error:
        found.append(Finding(False, str(error)))
    return found


def _program() -> Iterator[Finding]:
    try:
        python = sys.version.split()[0]
        yield Finding(True, f"Rackside {version('rackside')} on Python {python}, SQLite {sqlite3.sqlite_version}.")
    except PackageNotFoundError:
        yield Finding(False, "Rackside is not installed in this Python. Run 'pip install .' in its folder.")
    for folder in ("templates", "static"):
        files = sum(path.is_file() for path in beside(folder).rglob("*"))
        yield Finding(files > 0, f"{folder}: {files} files in {beside(folder)}.")


def _database(url: str) -> Iterator[Finding]:
    file = backup.database_file(url)
    if not file.is_file():
        yield Finding(False, f"There is no database at {file} yet. 'serve' makes one.")
        return
    counts = backup.check(file)
    yield Finding(True, f"{file} is sound: {counts['event']} events, {counts['specimen']} specimens.")
    with closing(sqlite3.connect(f"{file.as_uri()}?mode=ro", uri=True)) as connection:
        [revision] = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    current = [revision] == migrating.heads()
    yield Finding(current, f"Its shape is {revision}" + ("." if current else "; 'serve' brings it up to date."))


def _shop(url: str) -> Iterator[Finding]:
    if not backup.database_file(url).is_file():
        return
    database = Database(url)
    try:
        with database.reading() as session:
            shop = load_shop(session)
    finally:
        database.close()
    if not shop.host:
        yield Finding(False, "The shop is not set up yet: start 'serve' and open the staff address.")
        return
    for warning in shop.address.warnings:
        yield Finding(False, warning)
    yield Finding(True, f"Labels lead to {shop.address.url('…')}.")
    if shop.address.is_numeric and shop.host not in lan_addresses():
        yield Finding(False, f"Labels lead to {shop.host}, no longer this computer. Reserve the address in the router.")


def _https(url: str) -> Iterator[Finding]:
    """The shop's own certificate: how long it lasts, whether it names what phones ask for."""
    if not backup.database_file(url).is_file():
        return
    database = Database(url)
    try:
        with database.reading() as session:
            hosts = hosts_of(load_shop(session))
    finally:
        database.close()
    held = held_in(authority_folder(), hosts)
    if held is None:
        yield Finding(True, "There is no certificate for staff phones yet; 'serve' makes one.")
        return
    yield from _lifetimes(held, datetime.now(UTC))
    missing = sorted(hosts - set(held.names) - set(held.left_out))
    if missing:
        yield Finding(False, f"The certificate does not name {', '.join(missing)}. 'serve' renews it by itself.")
    for host in held.left_out:
        yield Finding(False, f"The authority may not vouch for {host}. See 'certificate --new'.")
    if not held.belongs_together:
        yield Finding(False, "Certificate, key and authority do not belong together. 'serve' makes a new certificate.")
    for key in (held.key, held.authority.with_suffix(".key")):
        if os.name == "posix" and key.stat().st_mode & 0o077:
            yield Finding(False, f"Others on this computer can read {key}. Run: chmod 600 {key}")


def _lifetimes(held: Held, now: datetime) -> Iterator[Finding]:
    days = (held.ends_at - now).days
    good = days >= RENEW_DAYS
    told = f"The certificate for staff phones names {len(held.names)} hosts and lasts {days} more days"
    yield Finding(good, f"{told}." if good else f"{told}: start 'serve', which renews it.")
    left = (held.authority_ends_at - now).days
    enough = left > LEAF_DAYS
    told = f"Its authority, which phones trust, lasts {left} more days"
    yield Finding(enough, f"{told}." if enough else f"{told}. 'certificate --new' makes another for all staff phones.")


def _network() -> Iterator[Finding]:
    addresses = lan_addresses()
    told = ", ".join(addresses) or "none; join the shop's network"
    yield Finding(bool(addresses), f"Addresses on the network: {told}.")
