"""Survival curves and bars as geometry: what is drawn lies where the figures say."""

from hypothesis import given
from hypothesis import strategies as st

from webapp.science.survival import kaplan_meier
from webapp.views.drawn_bars import bars
from webapp.views.drawn_survival import survival_drawing


def points(text):
    return [tuple(map(float, pair.split(","))) for pair in text.split()]


def test_a_step_falls_at_its_day_to_its_share():
    drawn = survival_drawing(kaplan_meier([50.0, 100.0], [True, False]))
    # 282 wide from 6, 138 high from 148 up: day 50 of 100 is at 147, one half at 79.
    assert points(drawn.line) == [(6, 10), (147, 10), (147, 79), (288, 79)]
    assert (drawn.end, drawn.ticks) == ((288, 79, 50), ((148, 0), (79, 50), (10, 100)))


@given(st.lists(st.tuples(st.integers(0, 400).map(float), st.booleans()), min_size=1, max_size=40))
def test_nothing_leaves_the_picture_and_no_step_goes_up_or_back(lives):
    drawn = survival_drawing(kaplan_meier([days for days, _ in lives], [dead for _, dead in lives]))
    line = points(drawn.line)
    assert line == sorted(line)
    assert all(6 <= x <= 288 and 10 <= y <= 148 for x, y in line + points(drawn.band))


def test_thousands_of_deaths_make_no_more_points_than_the_picture_is_wide():
    """One death a minute for 7 days, of 10,080: the share falls evenly, so the line is the diagonal of the picture."""
    drawn = survival_drawing(kaplan_meier([(one + 1) / 1440 for one in range(10_080)], [True] * 10_080))
    line = points(drawn.line)
    assert len(line) < 2 * 10 * 282 + 4  # a tenth of a unit is drawn; each has a way along and a way down
    assert all(abs((px - 6) / 282 - (py - 10) / 138) < 0.002 for px, py in line)
    assert drawn.end == (288, 148, 0)


def test_bars_are_as_long_as_their_values_and_go_left_below_zero():
    drawn = bars([("a", 30.0, "30"), ("b", -10.0, "-10"), ("c", 0.0, "0")])
    assert drawn.zero == 70
    assert [(one.x, one.width) for one in drawn.bars] == [(70, 210), (0, 70), (70, 1)]
    assert bars([]) is None
