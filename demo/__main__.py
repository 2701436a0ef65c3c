"""`python3 demo [--fresh] [--port N] [--host ADDRESS] [--https [PORT]]`: from a clean clone to an invented shop."""

import argparse
import logging
import os
import sys
import time
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from webapp.running import Running

ROOT = Path(__file__).resolve().parent.parent
sys.path[0] = str(ROOT)

from demo import bootstrap  # noqa: E402  the project's folder must be on the path first

DATABASE = Path(os.environ.get("RACKSIDE_INSTANCE", ROOT / "instance")).resolve() / "demo.sqlite"
WARNING = """
  Staff sign-in is open on plain http here, so that a phone can try it. Anybody on the same Wi-Fi could listen.
  Use the demo with invented data only; a real shop runs 'python -m webapp serve'.
"""


def main() -> int:
    """Migrate, seed when empty, serve."""
    options = _options()
    if options.fresh:
        for ending in ("", "-wal", "-shm"):
            Path(f"{DATABASE}{ending}").unlink(missing_ok=True)
    from webapp.serving import CannotListen

    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(message)s")
    logging.getLogger("alembic").setLevel(logging.WARNING)
    shop = _open()
    try:
        shop.open_public(options.host, options.port)
        _seed(shop)
        if options.https is not None:
            shop.open_https(options.host, options.https)
        shop.announce()
        _invite(shop, options)
        shop.serve()
    except CannotListen as error:
        print(f"{error} Choose another with --port or --https.")
        return 1
    except KeyboardInterrupt:
        print("Stopped before it was ready; nothing was half done.")
        return 130
    finally:
        shop.close()
    return 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python3 demo", description="An invented coral shop to look at.")
    parser.add_argument("--fresh", action="store_true", help="start over: forget what was changed in the demo")
    parser.add_argument("--port", type=int, default=8000, help="port to serve on (8000)")
    parser.add_argument("--host", default="0.0.0.0", help="address to serve on (every address of this computer)")
    parser.add_argument(
        "--https", type=int, nargs="?", const=8443, metavar="PORT",
        help="also open the staff's door for phones, on 8443 or PORT: install the app, work without signal",
    )  # fmt: skip
    return parser.parse_args()


def _open() -> "Running":
    """The demo's own database, migrated, whatever the environment says about a real shop's."""
    from webapp.config import from_environment
    from webapp.running import Running
    from webapp.storage.migrating import upgrade

    os.environ["RACKSIDE_INSTANCE"] = str(DATABASE.parent)
    os.environ["RACKSIDE_DATABASE"] = f"sqlite:///{DATABASE}"
    settings = from_environment(staff_on_public_door=True)
    upgrade(settings.database_url)
    return Running(settings, print)


def _seed(shop: "Running") -> None:
    """Fill an empty shop, and let its labels lead to the port that is served."""
    from demo.seed import seed
    from webapp.services.shop import is_set_up, load_shop, save_shop

    with shop.database.reading() as session:
        if is_set_up(session):
            print("The demo goes on where it was. 'python3 demo --fresh' starts over.")
            return
    print("Inventing a shop")
    start = time.monotonic()
    with shop.database.saving() as session:
        seed(session, lambda sentence: print(f"  {time.monotonic() - start:5.1f} s  {sentence}", flush=True))
        save_shop(session, load_shop(session), port=shop.public_port)


def _invite(shop: "Running", options: argparse.Namespace) -> None:
    """Print the address, its QR symbol, and who may sign in."""
    from demo.seed import PEOPLE

    address = shop.public_addresses()[0]
    _draw(address)
    print(f"Open {address} on a phone in the same Wi-Fi, or here.")
    print("Staff sign-in of the demo (as it was at the start):")
    for name, secret, role in PEOPLE:
        print(f"  {name}  PIN {secret}  ({role})")
    if options.https is not None:
        print(f"To work without signal, set a phone up once: {address}ca")
    print(WARNING, flush=True)


def _draw(address: str) -> None:
    """The QR symbol of an address, light on dark whatever the colours of the terminal."""
    import qrcode

    symbol, lines = qrcode.QRCode(), StringIO()
    symbol.add_data(address)
    symbol.print_ascii(lines, invert=True)
    white_on_black, plain = ("\x1b[97;40m", "\x1b[0m") if sys.stdout.isatty() else ("", "")
    try:
        print(*(f"{white_on_black}{line}{plain}" for line in lines.getvalue().splitlines()), sep="\n")
    except UnicodeEncodeError:
        print("(This terminal cannot draw the symbol.)")


if __name__ == "__main__":
    bootstrap.enter(Path(__file__).parent)
    sys.exit(main())
