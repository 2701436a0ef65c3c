"""A tank's water: odd readings one step either side, the bands of what lives there, who is out and since when."""

from datetime import UTC, datetime, timedelta

import pytest

from tests.services.making_rows import LIMITS, kind
from webapp.services import tank_water
from webapp.services.odd_readings import odd_reading, usual_range
from webapp.services.readings import log_readings
from webapp.services.recording import new_deed
from webapp.services.shop import revision

SPREADS = LIMITS["odd_reading_spreads"]
START = datetime(2026, 5, 1, 9, 0, tzinfo=UTC)


def run(*values):
    return [((START + timedelta(days=day)).timestamp(), value) for day, value in enumerate(values)]


def test_the_usual_range_is_a_modified_z_score():
    """Iglewicz and Hoaglin 1993: 0.6745 |x - median| / MAD above 3.5 is an outlier."""
    last = [8.0, 8.4, 8.8, 7.6, 8.2]
    low, high = usual_range(last, "alk", "laboratory", SPREADS)
    middle, mad = 8.2, 0.2
    assert high == pytest.approx(middle + 3.5 * mad / 0.6745, abs=1e-3)
    assert low == pytest.approx(middle - 3.5 * mad / 0.6745, abs=1e-3)


def test_it_is_never_narrower_than_the_error_of_the_method():
    # A drop kit is off by up to 0.4 dKH (common practice); four equal readings say nothing of that.
    assert usual_range([8.0] * 5, "alk", "drop_kit", SPREADS) == pytest.approx((8 - 3.5 * 0.2, 8 + 3.5 * 0.2))
    assert usual_range([8.0], "alk", "drop_kit", SPREADS) == pytest.approx((8 - 3.5 * 0.2, 8 + 3.5 * 0.2))
    assert usual_range([], "alk", "drop_kit", SPREADS) is None


@pytest.mark.parametrize(("value", "why"), [(8.69, None), (8.71, "far"), (13.1, "unusual"), (5.9, "unusual")])
def test_one_step_either_side(stage, value, why):
    with stage.database.saving() as session:
        log_readings(session, stage.owner, new_deed(), stage.tank, [{"quantity": "alk", "value": 8.0, "unit": "dkh"}])
        reading = {"quantity": "alk", "value": value, "unit": "dkh"}
        odd = odd_reading(session, stage.tank, reading, SPREADS)
        assert (odd and odd.why) == why
        assert odd_reading(session, stage.other_tank, reading, SPREADS) is None or why == "unusual"


def test_a_reading_in_another_unit_is_judged_by_what_it_means(stage):
    with stage.database.saving() as session:
        fahrenheit = {"quantity": "temp", "value": 77.0, "unit": "f"}
        assert odd_reading(session, stage.tank, fahrenheit, SPREADS) is None
        assert odd_reading(session, stage.tank, fahrenheit | {"value": 25.0}, SPREADS).why == "unusual"


def test_the_bands_are_what_all_kinds_share():
    kinds = [kind("zoanthus"), kind("acropora")]
    shared = tank_water.shared_bands(kinds)["temp"]
    bands = [one.bands["temp"] for one in kinds]
    assert shared.limit_low == max(band.limit_low for band in bands)
    assert shared.limit_high == min(band.limit_high for band in bands)
    assert shared.ideal == (max(band.ideal_low for band in bands), min(band.ideal_high for band in bands))


def test_who_is_out_of_range_and_since_when():
    acropora = kind("acropora")
    high = acropora.bands["temp"].limit_high
    found = {"temp": run(25, high + 0.01, 25, high + 0.01, high + 1)}
    (one,) = tank_water.out_of_range([acropora], found)
    assert (one.profile_key, one.since) == ("acropora", START + timedelta(days=3))
    assert tank_water.out_of_range([acropora], {"temp": run(high + 1, high)}) == []


@pytest.mark.parametrize(("temp_c", "codes"), [
    (22.49, ["cold"]), (22.5, []), (27.99, []), (28.0, ["warm"]), (28.99, ["warm"]), (29.0, ["hot"]),
])  # fmt: skip
def test_alarms_of_temperature(temp_c, codes):
    assert tank_water.alarms({"temp": run(25, temp_c)}, LIMITS) == codes


@pytest.mark.parametrize(("ammonia", "codes"), [(0.25, []), (0.26, ["ammonia"])])
def test_ammonia_stops_sales(ammonia, codes):
    assert tank_water.alarms({"ammonia": run(ammonia)}, LIMITS) == codes


def test_runs_and_kinds_of_a_real_tank(stage):
    with stage.database.saving() as session:
        readings = [{"quantity": "temp", "value": 77.0, "unit": "f"}]
        log_readings(session, stage.owner, new_deed(), stage.tank, readings, START)
        found = tank_water.runs(session, stage.tank, START - timedelta(days=1))
        assert found == {"temp": [(pytest.approx(START.timestamp(), abs=1e-3), pytest.approx(25.0))]}
        at = revision(session)
        assert [one.key for one in tank_water.kinds_in(session, stage.memory, at, stage.tank)] == ["zoanthus"]
        assert tank_water.kinds_in(session, stage.memory, at, stage.other_tank) == []
