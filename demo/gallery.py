"""Pictures of ten screens of the invented shop: `python -m demo.gallery` makes them again in demo/gallery.

Needs the extras of the tests (a browser that is driven) and a chromium.
"""

import io
import shutil
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from PIL import Image
from sqlalchemy import select

from demo.seed import PEOPLE, seed
from webapp import create_app
from webapp.config import Config
from webapp.serving import open_door
from webapp.storage.database import Database
from webapp.storage.migrating import upgrade
from webapp.storage.place import RackRow, TankRow
from webapp.storage.specimen import SpecimenRow

FOLDER = Path(__file__).parent / "gallery"
MOST_BYTES = 120_000
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
TANK = (
    "temp=25.4&temp_unit=c&salinity=34.2&salinity_unit=ppt&alk=7.6&alk_unit=dkh&no3=22&no3_unit=no3&po4=0.06&ca=410&mg=1290"
    "&volume=210&length=90&width=45&height=50&age=18&light_way=fixture&lamp=led_reef_mixed&watts=90&lamps=1&lamp_height=20"
    "&flow_way=words&flow_word=waves_steadily&feeds=2&mate=tang&mate=anemonefish&near1=discosoma&near1_gap=12&space=35"
    "&read=yes"
)


@dataclass(frozen=True)
class Shot:
    """One picture: its name, the address, and how it is seen. staff: signed in; box: only this part of the page."""

    name: str
    path: str
    theme: str = "light"
    language: str = "en"
    wide: bool = False
    staff: bool = False
    box: str = ""


SHOTS = (
    Shot("card", "/{code}"),
    Shot("card-dark-german", "/{code}", theme="dark", language="de"),
    Shot("six-questions", "/{code}/fit"),
    Shot("verdict", "/{code}/answer?" + TANK),
    Shot("what-suits", "/suits/answer?" + TANK),
    Shot("sheet", "/{code}/sheet?from=14:00&" + TANK, wide=True, box=".side"),
    Shot("sheet-receipt", "/{code}/sheet?paper=roll&from=14:00", wide=True, box=".side"),
    Shot("staff-stock", "/stock", wide=True, staff=True),
    Shot("staff-rack", "/racks/{rack}", wide=True, staff=True),
    Shot("staff-tank", "/tanks/{tank}", wide=True, staff=True),
)


def main() -> None:
    """Make every picture."""
    from playwright.sync_api import sync_playwright

    shutil.rmtree(FOLDER, ignore_errors=True)
    FOLDER.mkdir()
    program = next(filter(None, map(shutil.which, BROWSERS)), None)
    with tempfile.TemporaryDirectory() as folder, _serving(Path(folder)) as (address, names), sync_playwright() as play:
        browser = play.chromium.launch(executable_path=program, args=FLAGS)
        for shot in SHOTS:
            size = {"width": 1000, "height": 760} if shot.wide else {"width": 390, "height": 844}
            scale = 1 if shot.wide else 1.5
            context = browser.new_context(
                viewport=size, color_scheme=shot.theme, locale=shot.language, device_scale_factor=scale
            )  # fmt: skip
            page = context.new_page()
            if shot.staff:
                _sign_in(page, address)
            page.goto(address + shot.path.format(**names), wait_until="networkidle")
            seen = page.locator(shot.box).first.screenshot() if shot.box else page.screenshot()
            print(f"{shot.name}.webp  {_keep(seen, FOLDER / f'{shot.name}.webp')} bytes")
            context.close()
        browser.close()


def _keep(png: bytes, path: Path) -> int:
    """Write it as WebP, of the best quality that stays small enough."""
    picture = Image.open(io.BytesIO(png)).convert("RGB")
    for quality in (86, 75, 60, 45):
        packed = io.BytesIO()
        picture.save(packed, "WEBP", quality=quality, method=6)
        if packed.tell() < MOST_BYTES:
            break
    path.write_bytes(packed.getvalue())
    return path.stat().st_size


@contextmanager
def _serving(folder: Path) -> Iterator[tuple[str, dict[str, str]]]:
    """The invented shop on a free port of loopback, and what stands for the names in addresses."""
    url = f"sqlite:///{folder}/gallery.sqlite"
    upgrade(url)
    database = Database(url)
    with database.saving() as session:
        seed(session, lambda _sentence: None)
    app = create_app(Config(url, "a key for pictures only", staff_on_public_door=True), database)
    listener = open_door(app, "public", "127.0.0.1", 0)
    thread = threading.Thread(target=listener.server.serve, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{listener.port}", _names(database)
    finally:
        listener.server.stop()
        thread.join(5)
        database.close()


def _names(database: Database) -> dict[str, str]:
    with database.reading() as session:
        frag = session.scalars(
            select(SpecimenRow)
            .where(SpecimenRow.status == "for_sale", SpecimenRow.photo_id.is_not(None))
            .where(SpecimenRow.rack_id.is_not(None), SpecimenRow.profile_key.like("euphyllia%"))
            .order_by(SpecimenRow.name, SpecimenRow.code)
        ).first()
        assert frag is not None and frag.code is not None
        rack, tank = session.get(RackRow, frag.rack_id), session.get(TankRow, frag.tank_id)
        return {"code": frag.code, "rack": rack.id if rack else "", "tank": tank.id if tank else ""}


def _sign_in(page, address: str) -> None:  # type: ignore[no-untyped-def]
    name, secret, _role = PEOPLE[0]
    page.goto(address + "/sign-in")
    page.fill("#person", name)
    page.fill("#secret", secret)
    page.click("main form button")
    page.wait_for_url(lambda url: "sign-in" not in url)


if __name__ == "__main__":
    main()
