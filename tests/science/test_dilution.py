import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from webapp.science import dilution as d
from webapp.science.salinity import density_kg_l

volumes, salinities, temps = st.floats(10, 2000), st.floats(25, 42), st.floats(18, 30)


@given(now=st.floats(0, 100), new=st.floats(0, 100), fraction=st.floats(0, 1), times=st.integers(0, 20))
def test_changes_only_ever_come_closer_to_the_new_water(now, new, fraction, times):
    after = d.after_water_change(now, new, fraction, times)
    assert abs(after - new) <= abs(now - new) * (1 + 1e-12)
    assert d.after_water_change(after, new, fraction, 1) == pytest.approx(
        d.after_water_change(now, new, fraction, times + 1)
    )


@given(
    now=st.floats(1, 100), new=st.floats(0, 100), share=st.floats(0.01, 0.99), fraction=st.floats(0.05, 0.9)
)
def test_the_number_of_changes_is_the_first_that_suffices(now, new, share, fraction):
    assume(abs(now - new) > 0.1)
    count = d.water_changes_needed(now, new + share * (now - new), new, fraction)
    left, left_before = (abs(d.after_water_change(now, new, fraction, n) - new) for n in (count, count - 1))
    assert left <= share * abs(now - new) * (1 + 1e-6)
    assert left_before > share * abs(now - new) * (1 - 1e-6)


def test_changes_that_need_no_count():
    assert d.water_changes_needed(5, 5, 0, 0.2) == 0
    assert d.water_changes_needed(20, 0, 0, 1) == 1
    assert d.water_changes_needed(20, 5, 0, 0.2) == 7


@given(now=st.floats(0, 100), litres=st.floats(0, 500), volume=volumes)
def test_exchange_in_many_small_steps_approaches_the_continuous_one(now, litres, volume):
    assume(litres < volume)
    steps = d.after_water_change(now, 0, litres / volume / 1000, 1000)
    assert steps == pytest.approx(d.after_continuous_exchange(now, 0, litres, volume), rel=2e-3, abs=1e-9)


@given(volume=volumes, now=salinities, share=st.floats(0.01, 0.99), new=st.sampled_from([0.0, 20.0, 45.0]), temp=temps)
def test_swapping_the_computed_litres_gives_the_target(volume, now, share, new, temp):
    target = now + share * (new - now)
    litres = d.litres_to_swap(volume, now, target, new, temp)
    assert 0 < litres < volume
    assert d.salinity_after_swap(volume, now, litres, new, temp) == pytest.approx(target)


@given(volume=volumes, now=st.floats(0, 40), rise=st.floats(0, 4), temp=temps)
def test_dissolving_the_computed_salt_gives_the_target(volume, now, rise, temp):
    grams = d.salt_to_raise_g(volume, now, now + rise, temp)
    assert d.salinity_after_salt(volume, now, grams, temp) == pytest.approx(now + rise)


@given(volume=volumes, now=st.floats(5, 35), share=st.floats(0, 0.2), temp=temps)
def test_topping_up_brings_the_salt_back_to_where_it_was(volume, now, share, temp):
    salty = d.salinity_after_evaporation(volume, now, volume * share, temp)
    assert salty >= now - 1e-9
    mass = volume * density_kg_l(now, temp) - volume * share * density_kg_l(0, temp)
    left = mass / density_kg_l(salty, temp)
    assert d.fresh_water_to_top_up_l(left, max(salty, now), now, temp) == pytest.approx(volume * share, abs=1e-6)


def test_water_already_right_needs_nothing():
    assert d.litres_to_swap(100, 35, 35, 0, 25) == 0
    assert d.salt_to_raise_g(100, 35, 35, 25) == 0
    assert d.fresh_water_to_top_up_l(100, 35, 35, 25) == 0


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: d.after_water_change(-1, 0, 0.2), "now"),
        (lambda: d.after_water_change(1, 0, 20), "fraction"),
        (lambda: d.after_water_change(1, 0, 0.2, -1), "times"),
        (lambda: d.water_changes_needed(20, 5, 0, 0), "fraction"),
        (lambda: d.water_changes_needed(20, 5, 10, 0.2), "target"),
        (lambda: d.water_changes_needed(20, 0, 0, 0.2), "target"),
        (lambda: d.water_changes_needed(20, 25, 0, 0.2), "target"),
        (lambda: d.after_continuous_exchange(1, 0, -1, 100), "litres"),
        (lambda: d.after_continuous_exchange(1, 0, 1, 0), "volume_l"),
        (lambda: d.salinity_after_swap(100, 35, 101, 0, 25), "litres"),
        (lambda: d.litres_to_swap(100, 35, 36, 0, 25), "target"),
        (lambda: d.salt_to_raise_g(100, 35, 34, 25), "target"),
        (lambda: d.salinity_after_salt(100, 35, -1, 25), "grams"),
        (lambda: d.salinity_after_evaporation(100, 35, 60, 25), "litres"),
        (lambda: d.fresh_water_to_top_up_l(100, 35, 36, 25), "target"),
        (lambda: d.fresh_water_to_top_up_l(100, 35, 0, 25), "target"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
