"""'What here suits my tank?' judges each kind once and leaves no plug out."""

import pytest
from sqlalchemy import select

from webapp.fit.tank import BuyerTank, Measured
from webapp.services import intake, suiting, updating
from webapp.services.readings import log_readings
from webapp.services.recording import new_deed
from webapp.services.suiting import rank
from webapp.storage.specimen import SpecimenRow

MINE = BuyerTank(readings={"temp": (Measured(25.2, "c"),), "salinity": (Measured(34.8, "ppt"),)})


@pytest.fixture
def shelves(stage):
    """Star polyps and mushrooms in two tanks; the South has the water nearer to the buyer's."""
    with stage.database.saving() as session:
        for tank, ppt in ((stage.tank, 32.0), (stage.other_tank, 35.0)):
            water = [
                {"quantity": name, "value": value, "unit": unit, "method": ""}
                for name, value, unit in (("salinity", ppt, "ppt"), ("temp", 25.0, "c"))
            ]
            log_readings(session, stage.owner, new_deed(), tank, water)
        for tank, rack in ((stage.tank, stage.rack), (stage.other_tank, stage.other_rack)):
            for kind in ("pachyclavularia", "discosoma"):
                for _ in range(2):
                    intake.take_in(
                        session, stage.owner, new_deed(),
                        {"profile_key": kind, "name": kind.title(), "origin": "bought_in", "status": "for_sale",
                         "tank_id": tank, "rack_id": rack, "slot": ""},
                    )  # fmt: skip
    return stage


def _ranked(stage):
    with stage.database.reading() as session:
        return [case for cases in rank(session, stage.memory, MINE, stage.later(days=1)).values() for case in cases]


def test_every_plug_is_counted_once_and_each_kind_judged_once(shelves, monkeypatch):
    asked = []
    plain = suiting.check_prepared
    monkeypatch.setattr(
        suiting, "check_prepared", lambda *given, **more: asked.append(given[1].profile.key) or plain(*given, **more)
    )
    cases = _ranked(shelves)
    assert {case.profile.key: case.count for case in cases} == {"discosoma": 4, "pachyclavularia": 4}
    assert sorted(asked) == ["discosoma", "pachyclavularia"]


def test_plugs_from_the_water_nearest_to_the_buyers_are_named_first(shelves):
    for case in _ranked(shelves):
        assert [home.used_to["salinity"].median for home in case.homes] == [35.0, 32.0]
        assert case.plugs[0].code == case.homes[0].codes[0]
        assert len({plug.code for plug in case.plugs}) == 4


def test_what_is_held_is_not_offered(shelves):
    case = next(case for case in _ranked(shelves) if case.profile.key == "discosoma")
    code = case.plugs[0].code
    with shelves.database.saving() as session:
        held = session.scalar(select(SpecimenRow.id).where(SpecimenRow.code == code))
        updating.hold(session, shelves.owner, new_deed(), held, "heron", shelves.later(hours=48), shelves.later())
    after = next(case for case in _ranked(shelves) if case.profile.key == "discosoma")
    assert after.count == 3 and code not in {plug.code for plug in after.plugs}


def test_a_shop_with_nothing_for_sale_answers_too(stage):
    assert _ranked(stage) == []
