"""The command line: `python -m webapp COMMAND`, or `rackside COMMAND` when installed. Every command is a thin door."""

import logging
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import click

from webapp import config, doctoring, running
from webapp.errors import ShopError
from webapp.fit_command import fit
from webapp.services import people as staff
from webapp.storage import backup as backups
from webapp.storage import history, migrating
from webapp.storage.database import Database

_FILE = click.Path(path_type=Path, dir_okay=False, exists=True)


class _Commands(click.Group):
    """Turns an error that a person may be shown into a line and exit status 1."""

    def invoke(self, ctx: click.Context) -> object:
        try:
            return super().invoke(ctx)
        except ShopError as error:
            raise click.ClickException(str(error)) from error


@click.group(cls=_Commands)
def main() -> None:
    """Rackside: tags, history and an honest fit check for a shop that sells live coral frags."""
    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(message)s")
    logging.getLogger("alembic").setLevel(logging.WARNING)


@main.command()
@click.option("--host", default="0.0.0.0", show_default=True, help="Address of this computer to serve walk-ins on.")
@click.option("--port", default=80, show_default=True, help="Port for walk-ins; 8000 when the system refuses it.")
@click.option("--staff-host", default="127.0.0.1", show_default=True, help="Address for staff; best on this computer.")
@click.option("--staff-port", default=8001, show_default=True, help="Port for staff.")
@click.option("--staff-on-lan", is_flag=True, help="Staff may sign in over walk-ins' plain http (others can listen).")
@click.option("--https-port", default=8443, show_default=True, help="Port for staff phones; 0 for none.")
@click.option("--cert", type=_FILE, help="A certificate of your own (PEM, with its chain), in the place of ours.")
@click.option("--key", type=_FILE, help="Its key (PEM).")
@click.option("--name", "names", multiple=True, help="A further name of this computer, such as your own domain.")
@click.option("--behind-proxy", is_flag=True, help="A reverse proxy stands before this program: believe its headers.")
@click.option("--staff-address", default="", help="Where staff reach the proxy, as https://staff.example.")
@click.option("--no-announce", is_flag=True, help="Do not announce the shop's .local name.")
def serve(
    host: str, port: int, staff_host: str, staff_port: int, staff_on_lan: bool, https_port: int, cert: Path | None,
    key: Path | None, names: tuple[str, ...], behind_proxy: bool, staff_address: str, no_announce: bool,
) -> None:  # fmt: skip
    """Serve the shop until Ctrl-C: walk-ins over http, staff on this computer, staff phones over https."""
    settings = config.from_environment(staff_on_public_door=staff_on_lan)
    migrating.upgrade(settings.database_url)
    shop = running.Running(settings, click.echo, names)
    try:
        if behind_proxy:
            shop.behind_proxy(staff_address)
        shop.open_public(host, port)
        shop.open_staff(staff_host, staff_port)
        if https_port and not behind_proxy:
            shop.open_https(host, https_port, cert, key)
        if not no_announce:
            shop.announce()
        shop.serve()
    finally:
        shop.close()


@main.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
def backup(file: Path) -> None:
    """Write everything into the new FILE and check it. The shop may be open meanwhile."""
    counts = backups.backup(_url(), file)
    click.echo(f"{file}: whole and checked, {file.stat().st_size / 1e6:.1f} MB. {_told(counts)}")


@main.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False, exists=True))
def restore(file: Path) -> None:
    """Check the backup FILE and put it in the place of the database. Stop the shop first. Everybody signs in again."""
    counts, before = backups.restore(file, _url())
    click.echo(f"Restored. {_told(counts)}")
    if before is not None:
        click.echo(f"What was there before is kept at {before}.")


@main.command()
@click.option("--new", is_flag=True, help="Make a new authority; every staff phone must take it in again.")
def certificate(new: bool) -> None:
    """Show the shop's own authority for https, and make what is missing."""
    held = running.own_certificate(config.from_environment(), new)
    click.echo(f"Authority: {held.authority}")
    click.echo(f"SHA-256: {held.fingerprint}")
    click.echo(f"Certificate of this computer: {held.certificate}, good until {held.ends_at:%d %B %Y}.")
    for left_out in held.left_out:
        click.echo(f"Not covered: {left_out}. 'certificate --new' makes an authority that may vouch for it.")


@main.command()
def rebuild() -> None:
    """Make the present of every specimen, tank, rack, reading and tag again from the history alone."""
    with closing(_database()) as database, database.saving() as session:
        subjects = history.rebuild(session, lambda done, total: click.echo(f"  {done} of {total}"))
    click.echo(f"Made again from the history: {subjects} specimens, tanks, racks, readings and tags.")


@main.command()
def doctor() -> None:
    """Look at what the shop stands on, and say what needs looking after."""
    findings = doctoring.examine(_url())
    for finding in findings:
        click.echo(f"{'ok  ' if finding.well else 'LOOK'}  {finding.sentence}")
    if not all(finding.well for finding in findings):
        raise SystemExit(1)


main.add_command(fit)


@main.group()
def people() -> None:
    """Who works here: list, add, new PIN."""


@people.command("list")
def list_people() -> None:
    """Everybody, with role and whether they may sign in."""
    with closing(_database()) as database, database.reading() as session:
        for _id, name, role, active in staff.people(session):
            click.echo(f"{name}  {role}{'' if active else '  (may not sign in)'}")


@people.command()
@click.argument("name")
@click.option("--role", type=click.Choice(staff.ROLES), default="staff", show_default=True)
@click.password_option("--pin", help="Asked for when left out, so that it stays out of the shell's history.")
def add(name: str, role: str, pin: str) -> None:
    """Add somebody who works here."""
    with closing(_database()) as database, database.saving() as session:
        staff.add_person(session, name, pin, role, datetime.now(UTC))
    click.echo(f"{name} may sign in now.")


@people.command("reset-pin")
@click.argument("name")
@click.password_option("--pin", help="Asked for when left out, so that it stays out of the shell's history.")
def reset_pin(name: str, pin: str) -> None:
    """A new PIN or password for NAME; all their devices are signed out."""
    with closing(_database()) as database, database.saving() as session:
        staff.set_secret(session, name, pin)
    click.echo(f"{name} has a new PIN.")


def _url() -> str:
    return config.from_environment().database_url


def _database() -> Database:
    migrating.upgrade(_url())
    return Database(_url())


def _told(counts: backups.Counts) -> str:
    return f"{counts.get('event', 0)} events, {counts.get('specimen', 0)} specimens, {counts.get('photo', 0)} photos."
