"""Several animals for one tank: laws of the common range and of the one plan, checked against interval arithmetic."""

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fit.making import GOOD, PRACTICE, band, kind, tank
from tests.fit.test_schedule import RANGES
from webapp.fit.check import check_prepared
from webapp.fit.prepared import prepare
from webapp.fit.profile import Band
from webapp.fit.specimen import Specimen, UsedTo
from webapp.fit.tank import Measured
from webapp.fit.together import common_bands, led_into, plan_together
from webapp.schemas.profiles import load_profiles

KINDS = load_profiles()
HERE = {"temp": UsedTo(25.5, 25.0, 26.0, 40, 40.0), "salinity": UsedTo(35.0, 34.5, 35.5, 40, 40.0)}
edges = st.lists(st.floats(0, 100), min_size=4, max_size=4, unique=True).map(sorted)
bands = edges.map(lambda four: Band(*four, PRACTICE))
sales = st.lists(st.sampled_from(sorted(KINDS)), min_size=1, max_size=5, unique=True)
waters = st.fixed_dictionaries({}, optional={name: st.floats(*span) for name, span in RANGES.items()})


def asked(keys, water):
    """The reports on these kinds for a good tank with this water, their bands, and the tank."""
    units = {name: value.unit for name, value in GOOD.items()}
    readings = {**{name: (value,) for name, value in GOOD.items()}}
    readings |= {name: (Measured(round(value, 3), units[name]),) for name, value in water.items()}
    prepared = prepare(tank(readings=readings), KINDS)
    specimens = [Specimen(KINDS[key], 3.0, HERE) for key in keys]
    return [check_prepared(prepared, one) for one in specimens], [KINDS[key].bands for key in keys], prepared, specimens


@given(st.lists(bands, min_size=1, max_size=5))
def test_a_common_range_is_inside_every_limit_and_there_is_one_unless_two_limits_miss_each_other(several):
    common = common_bands([{"alk": one} for one in several])
    meets = max(one.limit_low for one in several) < min(one.limit_high for one in several)
    assert ("alk" in common.bands) == meets != ("alk" in common.apart)
    if meets:
        found = common.bands["alk"]
        assert found.ideal_low < found.ideal_high
        assert all(one.limit_low <= found.ideal_low and found.ideal_high <= one.limit_high for one in several)
    else:
        one, other = common.apart["alk"]
        assert several[one].limit_high <= several[other].limit_low


def test_common_ranges_by_hand():
    """Ideals that meet: where they do. That do not, between them as far as no limit ends. Limits that do not: none."""
    low, high, far = band(20, 22, 25, 27), band(23, 24, 28, 30), band(26, 28, 30, 32)
    assert common_bands([{"temp": low}, {"temp": high}]).bands["temp"] == band(23, 24, 25, 27)
    apart = common_bands([{"temp": low}, {"temp": far}])
    assert (apart.bands["temp"], apart.compromise) == (band(26, 26, 27, 27), {"temp"})
    never = common_bands([{"temp": band(28, 29, 30, 31)}, {"temp": low}])
    assert (never.bands, never.apart) == ({}, {"temp": (1, 0)})


@settings(max_examples=40, deadline=None)
@given(sales, waters, st.integers(0, 99))
def test_the_order_of_animals_does_not_matter(keys, water, seed):
    reports, bands_of, prepared, _ = asked(keys, water)
    plan = plan_together(reports, bands_of, prepared.size.volume_l)
    order = random.Random(seed).sample(range(len(keys)), len(keys))
    other = plan_together([reports[n] for n in order], [bands_of[n] for n in order], prepared.size.volume_l)
    assert plan.plans.schedule == other.plans.schedule
    assert {name: {keys[n] for n in places} for name, places in plan.asked_by.items()} == {
        name: {keys[order[n]] for n in places} for name, places in other.asked_by.items()
    }


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(sorted(KINDS)), waters)
def test_for_one_animal_it_is_the_plan_for_that_animal(key, water):
    [report], [bands_of], prepared, specimens = asked([key], water)
    plan = plan_together([report], [bands_of], prepared.size.volume_l)
    assert plan.plans.schedule == report.schedule
    assert led_into([report], plan, prepared, specimens) == [report]


@settings(max_examples=60, deadline=None)
@given(sales, waters)
def test_no_target_is_outside_the_limits_of_any_of_them(keys, water):
    reports, bands_of, prepared, _ = asked(keys, water)
    plan = plan_together(reports, bands_of, prepared.size.volume_l)
    may_go = [n for n, report in enumerate(reports) if report.whole != "not_here"] or range(len(keys))
    for name, planned in plan.plans.by_factor.items():
        for n in may_go:
            its = bands_of[n].get(name)
            assert its is None or its.limit_low <= planned.target <= its.limit_high, (name, keys[n])


def test_what_cannot_be_met_for_two_is_not_planned_and_names_them():
    cold, warm = (kind(bands={**kind().bands, "temp": one}) for one in (band(18, 20, 22, 23), band(24, 26, 28, 29)))
    prepared = prepare(tank(readings={name: (value,) for name, value in GOOD.items()}), {})
    reports = [check_prepared(prepared, Specimen(one)) for one in (warm, cold)]
    plan = plan_together(reports, [warm.bands, cold.bands], 200.0)
    assert plan.common.apart == {"temp": (1, 0)}
    assert "temp" not in plan.plans.by_factor
