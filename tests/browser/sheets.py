"""Care sheets printed by chromium: how many pages, how small the type. `python -m tests.browser.sheets`: all kinds.

Each kind is printed alone, for an ordinary tank, and for one whose water needs many changes, with neighbours and fish,
so that its sheet holds the most text. `python -m tests.browser.sheets en de acropora`: only these languages and kinds.
"""

import re
import sys
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.pseudo import speaking_pseudo
from tests.stage import Stage
from webapp.schemas.profiles import load_profiles
from webapp.services import intake
from webapp.services.readings import log_readings
from webapp.services.recording import new_deed
from webapp.services.tagging import live_code

PAPERS = ("a4", "letter", "a5", "roll")
FULL_TANK = (
    "temp=22.4&temp_unit=c&temp_by=strip_thermometer&salinity=1.0231&salinity_unit=sg_25&alk=6.1&alk_unit=dkh&no3=62"
    "&po4=0.33&ca=345&mg=1140&ph=7.8&ammonia=0.02&nitrite=0.1&volume=210&length=90&width=45&height=52&age=7&summer=29.5"
    "&swing_alk=1.4&swing_temp=1.6&swing_salinity=0.6&light_way=fixture&lamp=led_reef_mixed&watts=95&lamps=2&lamp_height=20"
    "&light_hours=10&flow_way=pumps&pump1=5000&pump1_kind=wave_wide&pump2=3000&pump2_kind=return&feeds=2&carbon=no"
    "&open_pumps=yes&space=9&near1=acropora&near1_gap=4&near2=euphyllia_glabrescens&near2_gap=7&near3=galaxea&near3_gap=11"
    "&near4=discosoma&near4_gap=3&mate=tang&mate=shrimp_cleaner&mate=crab_emerald&mate=anemonefish"
)
ORDINARY_TANK = (
    "temp=25&temp_unit=c&salinity=34&salinity_unit=ppt&alk=7.2&alk_unit=dkh&no3=25&po4=0.08&ca=400&mg=1250&ph=8.1"
    "&volume=200&length=100&width=45&height=50&age=18&light_way=fixture&lamp=led_reef_mixed&watts=95&lamps=2"
    "&lamp_height=20&light_hours=10&flow_way=pumps&pump1=5000&pump1_kind=wave_wide&feeds=2&mate=tang"
    "&near1=euphyllia_glabrescens&near1_gap=20"
)
TANKS = {"alone": "", "ordinary tank": ORDINARY_TANK, "full tank": FULL_TANK}
#: Characters of a PDF that begin a page object.
_PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")
_BOX = re.compile(rb"/MediaBox\s*\[([^]]+)\]")


@dataclass(frozen=True)
class Printed:
    """One sheet on paper. sides: as the layout meant; smallest_pt: of its type; lost: texts wider than their place."""

    pages: int
    sides: int
    smallest_pt: float
    lost: int
    pdf: bytes

    @property
    def page_mm(self) -> tuple[float, float]:
        """Width and height of its last page."""
        left, bottom, right, top = (float(one) for one in _BOX.findall(self.pdf)[-1].split())
        return (right - left) / 72 * 25.4, (top - bottom) / 72 * 25.4


def one_of_each_kind(stage: Stage, keys: Iterable[str] = ()) -> dict[str, str]:
    """Profile key -> code of an animal of that kind (all: of every), used to measured water, with a permit."""
    codes = {}
    with stage.database.saving() as session:
        water = [("temp", 25.4, "c"), ("salinity", 34.6, "ppt"), ("alk", 8.3, "dkh"), ("par", 90.0, "umol")]
        for key, kind in ((key, load_profiles()[key]) for key in keys or load_profiles()):
            made = intake.take_in(
                session, stage.owner, new_deed(),
                {"profile_key": key, "name": f"{kind.trade_name.split(' (')[0].title()} of the Long Name",
                 "origin": "maricultured", "status": "for_sale", "papers": "ID-0471/2026, line 12", "size_mm": 38.0,
                 "heads": 3, "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""},
            )[0]  # fmt: skip
            codes[key] = live_code(session, made)
        said = [
            {"quantity": one, "value": value, "unit": unit} | ({"rack_id": stage.rack} if one == "par" else {})
            for one, value, unit in water
        ]
        log_readings(session, stage.owner, new_deed(), stage.tank, said)
    return codes


def printed(page: Page, address: str) -> Printed:
    """The sheet at this address, printed on the paper it names."""
    page.goto(address)
    page.emulate_media(media="print")
    facts = page.evaluate(
        """() => {
          const sheet = document.querySelector(".take-home");
          const walk = document.createTreeWalker(sheet, NodeFilter.SHOW_TEXT);
          let smallest = 99, lost = 0;
          while (walk.nextNode()) {
            const box = walk.currentNode.parentElement;
            if (!walk.currentNode.data.trim() || box.closest("svg")) continue;
            smallest = Math.min(smallest, parseFloat(getComputedStyle(box).fontSize) * 0.75);
            if (box.scrollWidth > box.clientWidth + 1 && getComputedStyle(box).display !== "inline") lost += 1;
          }
          return [sheet.querySelectorAll(".side").length, smallest, lost];
        }"""
    )
    pdf = page.pdf(prefer_css_page_size=True)
    page.emulate_media(media="screen")
    return Printed(len(_PAGE.findall(pdf)), facts[0], facts[1], facts[2], pdf)


def longest(language: str = "en") -> list[tuple[int, str]]:
    """(characters, profile key) of every kind's sheet for the full tank, the longest first."""
    from tests.shop_client import Visitor

    with tempfile.TemporaryDirectory() as folder:
        stage = Stage(Path(folder))
        visitor = Visitor(stage, "public")
        codes = one_of_each_kind(stage)
        found = [
            (len(visitor.open(f"/{code}/sheet.txt?lang={language}&{FULL_TANK}").page), key)
            for key, code in codes.items()
        ]
        stage.close()
    return sorted(found, reverse=True)


def sweep(languages: Iterable[str], kinds: Iterable[str] = ()) -> int:
    """Print these kinds (all: every) on every paper in these languages; tell pages, and how many sheets are wrong."""
    from playwright.sync_api import sync_playwright

    from tests.browser.conftest import serving
    from tests.browser.devices import CHROMIUM, FLAGS

    wrong, pages = [], {}
    patch = pytest.MonkeyPatch()
    speaking_pseudo(patch)
    with tempfile.TemporaryDirectory() as folder, serving(Path(folder)) as shop, sync_playwright() as playwright:
        codes = one_of_each_kind(shop.stage, kinds)
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page = browser.new_page()
        for language, paper, (name, tank) in product(languages, PAPERS, TANKS.items()):
            counts = pages.setdefault(paper, [])
            for key, code in codes.items():
                found = printed(page, f"{shop.url}/{code}/sheet?lang={language}&paper={paper}&from=14:00&{tank}")
                counts.append(found.pages)
                if found.pages != found.sides or found.smallest_pt < 8.99 or found.lost:
                    wrong.append((language, paper, key, name, found.pages, found.sides, found.smallest_pt, found.lost))
            here = counts[-len(codes) :]
            print(language, paper, name, {count: here.count(count) for count in sorted(set(here))}, flush=True)
        browser.close()
    patch.undo()
    for paper, counts in pages.items():
        print(f"{paper}: {sum(count > 1 for count in counts)} of {len(counts)} sheets have more than one page")
    print(f"{len(wrong)} wrong", *wrong, sep="\n")
    return len(wrong)


if __name__ == "__main__":
    speaks = [one for one in sys.argv[1:] if one not in load_profiles()]
    sys.exit(bool(sweep(speaks or ("en", "de", "xa", "xb"), [one for one in sys.argv[1:] if one in load_profiles()])))
