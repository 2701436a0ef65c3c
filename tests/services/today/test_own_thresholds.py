"""Every rule of Today is asked one step either side of its threshold, and follows the shop's own number.

The moments are worked out by hand from the number that is set.
"""

from datetime import timedelta
from pathlib import Path

import pytest

from tests.services.today.making import SECOND, Shop
from webapp.schemas.profiles import load_profiles
from webapp.services.thresholds import DEFAULTS, save_thresholds
from webapp.services.today.page import RULES
from webapp.storage.base import new_id

DAY, HOUR = timedelta(days=1), timedelta(hours=1)


@pytest.fixture
def shop(stage):
    return Shop(stage)


def test_no_rule_is_left_without_a_test():
    told = "".join(path.read_text("utf-8") for path in Path(__file__).parent.glob("test_*.py"))
    assert [rule for rule in RULES if f'ask("{rule}"' not in told and f'ids("{rule}"' not in told] == []


def cut(shop):
    shop.frags(shop.stage.mother, 1, shop.start)


def read(shop):
    shop.read("alk", 8.0, "dkh", shop.start)


def lit(shop):
    shop.read("par", 120, "umol", shop.start, rack_id=shop.stage.rack)


def fed_lps(shop):
    """Mushrooms stand there as well: the hungrier kind says when."""
    shop.animal(profile_key=next(key for key, kind in load_profiles().items() if kind.group == "lps"))
    fed_mushroom(shop)


def fed_mushroom(shop):
    shop.animal(profile_key="discosoma")
    shop.tell((new_id(), "fed", {"tank_id": shop.stage.tank, "food": "meaty"}, shop.start))


def counted(shop):
    tally = {"count": new_id(), "expected": 10, "seen": 10, "missing": 0, "moved": 0}
    shop.tell((shop.stage.rack, "rack_counted", tally, shop.start))


def stands(shop):
    shop.animal(at=shop.start, price_cents=1500)


def measured(shop):
    shop.tell((shop.stage.mother, "measured", {"size_mm": 40}, shop.start))


#: threshold -> rule, what is made at the start, the shop's own number, hours until the rule tells.
OWN = {
    "loose_check_h": ("loose_check", cut, 24, 24),
    "reading_due_days": ("read_water", read, 3, 3 * 24),
    "rack_par_days": ("read_light", lit, 10, 10 * 24),
    "feed_lps_days": ("feed", fed_lps, 2, 2 * 24),
    "feed_mushroom_days": ("feed", fed_mushroom, 5, 5 * 24),
    "count_rack_days": ("count_racks", counted, 4, 4 * 24),
    "price_review_days": ("price_review", stands, 20, 20 * 24),
    "measure_due_days": ("measure", measured, 12, 12 * 24),
}


@pytest.mark.parametrize("key", OWN)
def test_a_number_of_the_shops_own_moves_the_moment(shop, key):
    rule, make, own, hours = OWN[key]
    assert own != DEFAULTS[key]
    make(shop)
    with shop.stage.database.saving() as session:
        save_thresholds(session, {key: own})
    assert shop.ids(rule, shop.start + hours * HOUR - SECOND) == []
    assert len(shop.ids(rule, shop.start + hours * HOUR)) == 1


@pytest.mark.parametrize("rate", [4.0, 5.0, 6.0])
def test_month_losses_above_the_shops_own_share(shop, rate):
    """One of 20 died: 5 %, which is above 4 and neither above 5 nor above 6."""
    ids = [shop.animal() for _ in range(19)]
    shop.tell((ids[0], "lost", {"cause": "unknown"}, shop.start + DAY))
    with shop.stage.database.saving() as session:
        save_thresholds(session, {"loss_month_pct": rate})
    assert bool(shop.ask("month_losses", shop.start + 2 * DAY).due) is (rate < 5)


def test_a_death_counts_in_the_month_for_thirty_days_and_no_longer(shop):
    ids = [shop.animal() for _ in range(3)]
    shop.tell((ids[0], "lost", {"cause": "unknown"}, shop.start))
    assert len(shop.ask("month_losses", shop.start + 30 * DAY).due) == 1
    assert shop.ask("month_losses", shop.start + 30 * DAY + SECOND).due == ()


@pytest.mark.parametrize(("theirs", "hours"), [(48, 48), (None, DEFAULTS["doa_window_h"])])
def test_a_supplier_with_hours_of_its_own_is_claimed_within_them(shop, theirs, hours):
    box, line = new_id(), new_id()
    opened = {"supplier": "a farm", "opened_at": shop.start.isoformat(), "claim_h": theirs}
    ordered = {"line": line, "profile_key": "zoanthus", "name": "Ring", "origin": "wild", "count": 5}
    shop.tell(
        (box, "shipment_set", opened, shop.start), (box, "shipment_line", ordered, shop.start),
        (box, "line_arrived", {"line": line, "alive": 4, "dead": 1, "specimens": []}, shop.start + HOUR),
    )  # fmt: skip
    assert shop.ids("dead_claim", shop.start + hours * HOUR) == [box]
    assert shop.ids("dead_claim", shop.start + hours * HOUR + SECOND) == []
