"""The shop's own record of a kind."""

import pytest

from webapp.services import intake, updating
from webapp.services.own_evidence import evidence
from webapp.services.readings import log_readings
from webapp.services.recording import new_deed


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
            updating.update(
                session, stage.owner, new_deed(), "lost", [one], {"cause": "unknown"}, stage.later(days=-80)
            )
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
