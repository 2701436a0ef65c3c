"""The geometry of a water chart."""

from hypothesis import given
from hypothesis import strategies as st

from webapp.services.tank_water import Shared
from webapp.views.drawn_chart import BOTTOM, HEIGHT, LEFT, MOST_POINTS, RIGHT, TOP, WIDTH, chart

DAY = 86400.0
BAND = Shared(22.0, 29.0, (24.0, 27.0))


def places(drawn):
    return [tuple(map(float, one.split(","))) for one in drawn.points.split()]


def test_time_runs_to_the_right_and_warmth_up():
    drawn = chart([(0, 25.0), (DAY, 26.0), (2 * DAY, 24.5)], BAND)
    (x1, y1), (x2, y2), (x3, y3) = places(drawn)
    assert (x1, x3) == (LEFT, WIDTH - RIGHT)
    assert x2 == (x1 + x3) / 2
    assert y2 < y1 < y3


def test_the_ideal_lies_within_the_limits_and_both_in_the_picture():
    drawn = chart([(0, 25.0), (DAY, 26.0)], BAND)
    (top, height), (ideal_top, ideal_height) = drawn.limits, drawn.ideal
    assert TOP <= top < ideal_top
    assert ideal_top + ideal_height < top + height <= HEIGHT - BOTTOM + 0.11


def test_readings_outside_the_limits_are_marked_and_counted():
    drawn = chart([(0, 25.0), (DAY, 29.0), (2 * DAY, 29.01), (3 * DAY, 21.9)], BAND)
    assert (drawn.outside_count, len(drawn.outside)) == (2, 2)


def test_one_reading_and_equal_readings_are_drawn():
    assert len(places(chart([(0, 25.0)], None))) == 1
    assert chart([(0, 25.0), (DAY, 25.0)], None).low == 25.0


def test_kinds_that_share_no_ideal_leave_it_out():
    assert chart([(0, 25.0)], Shared(22.0, 29.0, None)).ideal is None
    assert chart([(0, 25.0)], Shared(29.0, 22.0, None)).limits is None


@given(st.lists(st.floats(0, 40), min_size=1, max_size=900))
def test_everything_stays_in_the_picture_and_a_long_run_keeps_its_extremes(values):
    run = [(number * 600.0, value) for number, value in enumerate(values)]
    drawn = chart(run, BAND)
    found = places(drawn)
    assert all(LEFT - 0.1 <= x <= WIDTH - RIGHT + 0.1 and TOP - 0.1 <= y <= HEIGHT - BOTTOM + 0.1 for x, y in found)
    whole = places(chart(run[:MOST_POINTS], BAND)) if len(run) <= MOST_POINTS else None
    assert whole is None or whole == found
    assert len(found) <= MOST_POINTS + 4
    top, bottom = min(y for _x, y in found), max(y for _x, y in found)
    again = chart([(0.0, max(values)), (1.0, min(values))], BAND)
    assert (top, bottom) == (places(again)[0][1], places(again)[1][1])
