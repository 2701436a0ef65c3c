"""A running shop: the app, its open doors, the announced name, and what the person at the keyboard is told."""

from collections.abc import Callable

from webapp import announce as announcing
from webapp import create_app, doors, serving
from webapp.addresses import lan_addresses
from webapp.config import Config
from webapp.services.shop import Shop, is_set_up, load_shop
from webapp.storage.database import Database

OPEN_TO_ALL = ("0.0.0.0", "::", "")


class Running:
    """One shop between start and stop. `say` gets one line at a time for the person at the keyboard."""

    def __init__(self, settings: Config, say: Callable[[str], None]):
        self._say = say
        self.database = Database(settings.database_url)
        self._app = create_app(settings, self.database)
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
        serving.serve(self._listeners, ready=lambda: self._say("Ctrl-C stops it."))
        self._say("Stopped.")

    def close(self) -> None:
        """Close every door, take the name back, let go of the database."""
        serving.close(self._listeners)
        if self._announcement is not None:
            self._announcement.close()
        self.database.close()


def web_address(host: str, port: int) -> str:
    """http://host/ with the port only where it is not 80."""
    name = f"[{host}]" if ":" in host else host
    return f"http://{name}/" if port == 80 else f"http://{name}:{port}/"
