"""Survival, growth, drift and turnover of a shop counted by hand."""

from datetime import timedelta

import pytest

from tests.services.today.making import Shop
from webapp.schemas.profiles import load_profiles
from webapp.services import insight
from webapp.services.thresholds import DEFAULTS

DAY = timedelta(days=1)


@pytest.fixture
def shop(stage):
    return Shop(stage)


@pytest.fixture
def session(stage):
    opened = stage.database.reading()
    yield opened
    opened.close()


def test_survival_by_mother_is_the_product_of_the_steps(shop, session):
    """Five frags: one dies on day 10 of 5 (4/5), one is sold on day 20, one dies on day 30 of 3 left (2/3): 8/15."""
    her = shop.animal(status="mother", name="Mum")
    ids = shop.frags(her, 5, shop.start)
    shop.tell(
        (ids[0], "lost", {"cause": "unknown"}, shop.start + 10 * DAY),
        (ids[1], "sold", {}, shop.start + 20 * DAY),
        (ids[2], "lost", {"cause": "unknown"}, shop.start + 30 * DAY),
    )
    found = insight.survival(session, "mother", shop.start - DAY, shop.start + 100 * DAY)
    assert [(one.key, one.curve.count, one.curve.died) for one in found] == [(her, 5, 2)]
    assert found[0].at(9)[0] == 1
    assert found[0].at(10)[0] == pytest.approx(4 / 5)
    assert found[0].at(30)[0] == pytest.approx(8 / 15)
    assert found[0].at(101) is None


@pytest.mark.parametrize(("count", "curves"), [(4, 0), (5, 1)])
def test_fewer_than_five_make_no_curve(shop, session, count, curves):
    shop.frags(shop.animal(status="mother", profile_key="discosoma"), count, shop.start)
    assert len(insight.survival(session, "method", shop.start, shop.start + DAY)) == curves


def test_growth_of_a_kind_is_that_of_its_middle_animal(shop, session):
    """Heads that double in 30, 60 and 120 days: the middle one in 60; in 30 days it grows by the root of two."""
    for days in (30, 60, 120):
        one = shop.animal(heads=100)
        shop.tell((one, "measured", {"heads": 200}, shop.start + days * DAY))
    found = insight.growth_by_kind(session, DEFAULTS, shop.start + 130 * DAY)
    assert [(one.key, one.count) for one in found] == [("zoanthus", 3)]
    assert found[0].doubling_days == pytest.approx(60)
    assert found[0].percent == pytest.approx(100 * (2**0.5 - 1))
    assert found[0].before is None
    # 245 days on, only the slow one was measured within the half year; of the two before, half way between the rates.
    later = insight.growth_by_kind(session, DEFAULTS, shop.start + 245 * DAY)
    assert later[0].recent == pytest.approx(100 * (2 ** (30 / 120) - 1))
    assert later[0].before == pytest.approx(100 * (2 ** (30 * (1 / 30 + 1 / 60) / 2) - 1))


def test_a_drift_is_certain_only_when_its_interval_leaves_out_zero(shop, session, stage):
    for day in range(5):
        shop.read("alk", 8.0 + 0.1 * day, "dkh", shop.start + day * DAY)
        shop.read("temp", 25.0 + (0.5 if day % 2 else 0), "c", shop.start + day * DAY)
    found = {one.quantity: one for one in insight.water_drift(session, shop.start - DAY)}
    assert found["alk"].per_month == pytest.approx(3.0, abs=1e-3)
    assert found["alk"].is_certain
    assert not found["temp"].is_certain
    assert found["temp"].low < 0 < found["temp"].high


def test_what_sells_and_what_stands(shop, session):
    sold = [shop.animal(name="Quick", price_cents=1000) for _ in range(3)]
    shop.tell(*((one, "sold", {"price_cents": cents}, shop.start + days * DAY)
                for one, cents, days in zip(sold, (1000, 900, 1000), (10, 20, 60), strict=True)))  # fmt: skip
    shop.animal(name="Slow")
    found = insight.turnover(session, load_profiles(), shop.start - DAY, shop.start + 90 * DAY)
    quick, slow = (next(one for one in found if one.name == name) for name in ("Quick", "Slow"))
    assert (quick.sold, quick.takings_cents, quick.days_to_sale, quick.for_sale) == (3, 2900, 20, 0)
    assert (slow.sold, slow.for_sale, slow.days_standing) == (0, 1, 90)
    assert found[0] is quick
