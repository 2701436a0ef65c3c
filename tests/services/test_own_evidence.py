"""The shop's own record of a kind."""

import pytest

from webapp.services import intake, updating
from webapp.services.own_evidence import alive_share, evidence
from webapp.services.readings import log_readings
from webapp.services.recording import new_deed


def test_the_product_limit_estimate_of_a_textbook():
    """Kaplan & Meier 1958, section 2: eight lives, deaths at 0.8, 3.1, 5.4, 9.2, losses at 1.0, 2.7, 7.0, 12.1 months;
    they give 7/8, then 7/8 x 4/5, x 3/4, x 1/2."""
    lives = [(0.8, True), (1.0, False), (2.7, False), (3.1, True), (5.4, True), (7.0, False), (9.2, True), (12.1,
    False)]
    for moment, share in ((1.0, 7 / 8), (4.0, 7 / 10), (6.0, 21 / 40), (10.0, 21 / 80)):
        assert alive_share(lives, moment) == pytest.approx(share)


def test_nobody_and_everybody():
    assert alive_share([], 30) is None
    assert alive_share([(40.0, False)] * 3, 30) == 1.0
    assert alive_share([(10.0, True)] * 3, 30) == 0.0


def test_a_shop_with_ten_mushrooms_two_of_which_died(stage):
    now = stage.later(minutes=1)
    with stage.database.saving() as session:
        made = [
            intake.take_in(
                session, stage.owner, new_deed(),
                {"profile_key": "discosoma", "name": "Rust", "origin": "bought_in", "status": "for_sale",
                 "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""},
                at=stage.later(days=-100),
            )[0]
            for _ in range(10)
        ]  # fmt: skip
        for one in made[:2]:
            updating.update(session, stage.owner, new_deed(), "lost", [one], {"cause": "unknown"},
            stage.later(days=-80))
        for ppt in (34.0, 35.0, 36.0):
            water = [{"quantity": "salinity", "value": ppt, "unit": "ppt", "method": ""}]
            log_readings(session, stage.owner, new_deed(), stage.tank, water)
    with stage.database.reading() as session:
        found = evidence(session, stage.memory, 99, "discosoma", now)
        none = evidence(session, stage.memory, 99, "xenia", now)
    assert (found.count, found.died) == (10, 2)
    assert found.alive == ((30, pytest.approx(0.8)), (90, pytest.approx(0.8)))
    assert found.lived_in["salinity"] == pytest.approx((34.2, 35.8))
    assert (none.count, none.alive, none.lived_in) == (0, (), {})
