import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import acclimation as a

salinities, rates, minutes = st.floats(20, 42), st.floats(0, 60), st.floats(0, 120)


@given(start=salinities, tank=salinities, rate=rates, time=minutes, bag=st.floats(100, 3000))
def test_a_drip_ends_between_bag_and_tank_and_an_overflowing_one_is_further(start, tank, rate, time, bag):
    filling = a.drip_growing(start, tank, rate, bag, time)
    flowing = a.drip_constant(start, tank, rate, bag, time)
    assert min(start, tank) - 1e-9 <= filling <= max(start, tank) + 1e-9
    assert abs(flowing - tank) <= abs(filling - tank) + 1e-9


@given(start=st.floats(20, 30), tank=st.floats(33, 40), share=st.floats(0, 0.95), bag=st.floats(100, 3000))
def test_adding_the_computed_water_gives_the_goal(start, tank, share, bag):
    goal = start + share * (tank - start)
    added = a.water_to_add_ml(start, tank, goal, bag)
    assert a.drip_growing(start, tank, added, bag, 1) == pytest.approx(goal)


def test_two_drops_a_second_are_six_millilitres_a_minute():
    assert a.drops_per_second(6) == 2
    assert a.drops_per_second(6, drops_per_ml=15) == 1.5


@given(bag_c=st.floats(10, 35), tank_c=st.floats(20, 30), close=st.floats(0.2, 2), tau=st.floats(2, 30))
def test_after_the_float_time_the_bag_is_close_enough(bag_c, tank_c, close, tau):
    time = a.float_minutes(bag_c, tank_c, close, tau)
    assert abs(a.temp_after_floating(bag_c, tank_c, time, tau) - tank_c) <= close + 1e-9
    assert (time == 0) == (abs(bag_c - tank_c) <= close)


@given(now=st.floats(0.5, 15), goal=st.floats(0.5, 30), by_moving=st.booleans())
def test_light_rises_in_allowed_steps_and_falls_at_once(now, goal, by_moving):
    steps = a.light_steps(now, goal, by_moving=by_moving)
    limit, pause = (1.39, 7) if by_moving else (1.15, 3)
    assert steps[-1].dli_mol == pytest.approx(goal)
    assert steps[0].day == 0
    for before, after in zip(steps, steps[1:], strict=False):
        assert after.day - before.day == pause
        assert 1 <= after.dli_mol / before.dli_mol <= limit * (1 + 1e-6)
    if goal <= now:
        assert steps == [a.LightStep(0, goal)]
    else:
        assert steps[0].dli_mol == now


def test_light_takes_no_more_steps_than_it_must():
    assert [step.day for step in a.light_steps(4, 8)] == [0, 3, 6, 9, 12, 15]
    assert [step.day for step in a.light_steps(4, 8, by_moving=True)] == [0, 7, 14, 21]
    assert [step.day for step in a.light_steps(4, 4.6)] == [0, 3]


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: a.drip_growing(30, 35, -1, 500, 30), "rate_ml_min"),
        (lambda: a.drip_growing(30, 35, 1, 0, 30), "bag_ml"),
        (lambda: a.drip_constant(30, 35, 1, 0, 30), "tub_ml"),
        (lambda: a.water_to_add_ml(30, 35, 35, 500), "goal"),
        (lambda: a.water_to_add_ml(30, 35, 36, 500), "goal"),
        (lambda: a.drops_per_second(6, 100), "drops_per_ml"),
        (lambda: a.temp_after_floating(78, 25, 10), "bag_c"),
        (lambda: a.float_minutes(20, 78), "tank_c"),
        (lambda: a.float_minutes(20, 25, 0), "within_c"),
        (lambda: a.float_minutes(20, 25, 0.5, 0), "time_constant_min"),
        (lambda: a.bag_time_constant_min(0.5, 0), "wetted_area_m2"),
        (lambda: a.light_steps(0, 5), "dli_now"),
        (lambda: a.light_steps(5, 200), "dli_goal"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
