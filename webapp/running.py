"""A running shop: the app, its open doors, the announced name, and what the person at the keyboard is told."""

from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from pathlib import Path

from werkzeug.middleware.proxy_fix import ProxyFix

from webapp import announce as announcing
from webapp import certificates, create_app, doors, serving
from webapp.addresses import lan_addresses, own_names
from webapp.config import Config, instance_folder
from webapp.services.profiles import install_profiles
from webapp.services.shop import Shop, is_set_up, load_shop
from webapp.storage.database import Database
from webapp.views.tags import JOBS

OPEN_TO_ALL = ("0.0.0.0", "::", "")


class Running:
    """One shop between start and stop. `say` gets one line at a time for the person at the keyboard."""

    def __init__(self, settings: Config, say: Callable[[str], None], names: Iterable[str] = ()):
        """names: further names under which this computer is reached, such as a domain of the shop's own."""
        self._say = say
        self._names = {name.lower() for name in names}
        self.database = Database(settings.database_url)
        with self.database.saving() as session:
            if is_set_up(session):
                install_profiles(session, datetime.now(UTC))
        self._app = create_app(settings, self.database)
        self._app.config["OWN_NAMES"] = self._names
        self._secured: serving.Listener | None = None
        self._listeners: list[serving.Listener] = []
        self._announcement: announcing.Announcement | None = None
        self.public_port = 0
        self.public_host = ""

    def open_public(self, host: str, port: int) -> None:
        """Open the walk-ins' door and say where it is. Raises serving.CannotListen."""
        listener = serving.open_public_door(self._app, host, port, self._say)
        self._listeners.append(listener)
        self.public_host, self.public_port = host, listener.port
        for address in self.public_addresses():
            self._say(f"Walk-ins: {address}")
        shop = self.shop()
        if shop.host and shop.port != self.public_port:
            self._say(
                f"Labels lead to {shop.address.url('…')}, but walk-ins are served on port {self.public_port} now: "
                f"printed labels will not open. Serve on port {shop.port} again."
            )

    def open_staff(self, host: str, port: int) -> None:
        """Open the staff's door and say where it is. Raises serving.CannotListen."""
        listener = serving.open_door(self._app, doors.STAFF, host, port)
        self._listeners.append(listener)
        self._say(f"Staff: {web_address('localhost' if host == '127.0.0.1' else host, listener.port)} on this computer")
        with self.database.reading() as session:
            if not is_set_up(session):
                self._say("This shop is not set up yet: open the staff address to begin.")

    def open_https(self, host: str, port: int, certificate: Path | None = None, key: Path | None = None) -> None:
        """Open the staff's https door: with a certificate of the shop's own, or with one that is made here.

        Raises serving.CannotListen.
        """
        own = self._own_certificate() if certificate is None else None
        shown = (own.certificate, own.key) if own else (certificate, key)
        listener = serving.open_door(self._app, doors.STAFF, host, port, *shown)
        self._listeners.append(listener)
        self._app.config["HTTPS_PORT"] = listener.port
        named = self.shop().host.lower() or next(iter(lan_addresses()), "localhost")
        self._say(f"Staff phones: {web_address(named, listener.port, secure=True)}")
        if own:
            self._secured, self._app.config["AUTHORITY"] = listener, own
            for left_out in own.left_out:
                self._say(f"https does not cover {left_out}: the authority was made before. See 'certificate --new'.")

    def behind_proxy(self, address: str = "") -> None:
        """Believe the scheme, host and peer that a reverse proxy forwards, on every door that is opened after this.

        address: where staff reach the proxy ('https://staff.example'), for the link on the cards.
        """
        self._app.wsgi_app = ProxyFix(self._app.wsgi_app, x_for=1, x_proto=1, x_host=1)  # type: ignore[method-assign]
        self._app.config["STAFF_ADDRESS"] = address.rstrip("/")

    def _own_certificate(self) -> certificates.Held:
        return certificates.hold(authority_folder(), hosts_of(self.shop(), self._names))

    def _look_after(self) -> None:
        """Renew the certificate when it runs out soon or this computer has a new address."""
        if self._secured is not None:
            held = self._own_certificate()
            self._secured.renew(held.certificate, held.key)

    def public_addresses(self) -> list[str]:
        """Addresses of the walk-ins' door, the best first."""
        hosts = lan_addresses() if self.public_host in OPEN_TO_ALL else [self.public_host]
        return [web_address(host, self.public_port) for host in hosts or ["localhost"]]

    def shop(self) -> Shop:
        """The shop's settings."""
        with self.database.reading() as session:
            return load_shop(session)

    def announce(self) -> None:
        """Announce the shop's .local name on the network, and say what came of it."""
        host = self.shop().host
        if self.public_host not in OPEN_TO_ALL or not host.endswith(".LOCAL"):
            return
        self._announcement = announcing.announce(host, self.public_port, lan_addresses())
        told = f"Announced on the network as {web_address(host.lower(), self.public_port)}"
        self._say(self._announcement.problem or told)

    def serve(self) -> None:
        """Serve until Ctrl-C."""
        serving.serve(self._listeners, lambda: self._say("Ctrl-C stops it."), self._look_after)
        self._say("Stopped.")

    def close(self) -> None:
        """Close every door, stop what is still being made, take the name back, let go of the database."""
        serving.close(self._listeners)
        self._app.extensions[JOBS].close()
        if self._announcement is not None:
            self._announcement.close()
        self.database.close()


def own_certificate(settings: Config, new: bool = False) -> certificates.Held:
    """The authority and certificate of the shop's own; new: with a fresh authority."""
    database = Database(settings.database_url)
    try:
        with database.reading() as session:
            hosts = hosts_of(load_shop(session))
    finally:
        database.close()
    if new:
        for file in authority_folder().glob("*"):
            file.unlink()
    return certificates.hold(authority_folder(), hosts)


def authority_folder() -> Path:
    """Where the shop's own authority for https lies."""
    return instance_folder() / "authority"


def hosts_of(shop: Shop, names: Iterable[str] = ()) -> set[str]:
    """Every name and IPv4 address under which phones may reach this computer."""
    every = {*own_names(), *lan_addresses(), *names, *(host.lower() for host in shop.hosts)}
    return {host for host in every if host and ":" not in host}


def web_address(host: str, port: int, secure: bool = False) -> str:
    """http://host/ (https when secure) with the port only where it is not the scheme's own."""
    name = f"[{host}]" if ":" in host else host
    scheme, usual = ("https", 443) if secure else ("http", 80)
    return f"{scheme}://{name}/" if port == usual else f"{scheme}://{name}:{port}/"
