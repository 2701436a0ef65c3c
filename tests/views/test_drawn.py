"""Drawings keep order and proportion, stay inside their frame, and leave out numbers that would touch."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.fit.findings import Spot
from webapp.fit.profile import Band, Basis
from webapp.science.interval import Interval
from webapp.views.drawn import INSET, LABEL_GAP, decimals_for, factor_line, sparkline, tank_view

BASIS = Basis("common_practice")
ROUNDING = 0.11
"""Coordinates are written with one decimal."""

numbers = st.floats(0.01, 2000, allow_nan=False)


@st.composite
def bands(draw: st.DrawFn) -> Band:
    return Band(*sorted(draw(st.lists(numbers, min_size=4, max_size=4, unique=True))), BASIS)


@st.composite
def intervals(draw: st.DrawFn) -> Interval:
    return Interval(*sorted(draw(st.lists(numbers, min_size=3, max_size=3))))


@given(bands(), intervals(), st.none() | numbers, st.booleans())
def test_a_line_keeps_the_order_and_stays_in_its_frame(band, estimate, used_to, log):
    line = factor_line(band, estimate, used_to, log=log)
    assert line.limit_low <= line.ideal_low <= line.ideal_high <= line.limit_high
    assert line.low <= line.mid <= line.high
    for x in (line.limit_low, line.limit_high, line.low, line.high, *([line.used_to] if used_to else [])):
        assert INSET <= x <= line.width - INSET


@given(bands(), intervals(), st.booleans())
def test_a_reading_is_drawn_on_the_side_of_a_limit_where_it_lies(band, estimate, log):
    line = factor_line(band, estimate, log=log)
    if estimate.mid > band.limit_high:
        assert line.mid >= line.limit_high
    if estimate.mid < band.limit_low:
        assert line.mid <= line.limit_low
    if band.limit_low <= estimate.mid <= band.limit_high:
        assert line.beyond == 0 and line.outside is None


@given(bands(), st.none() | intervals(), st.booleans())
def test_numbers_under_a_line_never_touch(band, estimate, log):
    shown = [tick.x for tick in factor_line(band, estimate, log=log).ticks if tick.shown]
    assert all(b - a >= LABEL_GAP for a, b in zip(shown, shown[1:], strict=False))


def test_equal_steps_are_equally_long():
    line = factor_line(Band(0, 10, 30, 40, BASIS), None)
    assert line.ideal_low - line.limit_low == pytest.approx(line.limit_high - line.ideal_high, abs=ROUNDING)
    assert line.ideal_high - line.ideal_low == pytest.approx(2 * (line.ideal_low - line.limit_low), abs=2 * ROUNDING)


def test_equal_ratios_are_equally_long_on_a_logarithmic_line():
    line = factor_line(Band(25, 50, 200, 400, BASIS), None, log=True)
    octave = line.ideal_low - line.limit_low
    assert octave == pytest.approx((line.width - 2 * INSET) / math.log2(400 / 25), abs=ROUNDING)
    assert line.ideal_high - line.ideal_low == pytest.approx(2 * octave, abs=2 * ROUNDING)


def test_a_reading_far_off_is_drawn_at_the_end_and_says_so():
    band = Band(31, 33.5, 36, 38, BASIS)
    low, high = factor_line(band, Interval.exact(20)), factor_line(band, Interval.exact(90))
    assert (low.beyond, low.mid, low.outside) == (-1, INSET, (low.limit_low, INSET))
    assert (high.beyond, high.mid) == (1, high.width - INSET)
    assert factor_line(band, Interval.exact(30)).beyond == 0


def test_a_limit_of_zero_has_a_place_on_a_logarithmic_line():
    line = factor_line(Band(0, 5, 20, 40, BASIS), Interval(0, 0, 1), log=True)
    assert line.low == line.mid == INSET
    assert line.limit_low < line.ideal_low and line.beyond == 0


def test_no_reading_no_mark():
    line = factor_line(Band(1, 2, 3, 4, BASIS), None)
    assert (line.low, line.mid, line.high, line.used_to, line.beyond) == (None, None, None, None, 0)


@pytest.mark.parametrize(("span", "decimals"), [(150, 0), (20, 0), (7, 1), (0.8, 2), (0.14, 3)])
def test_decimals_tell_the_ticks_apart(span, decimals):
    assert decimals_for(span) == decimals


def spot(depth=None, depths=None, zone="middle", flow=None) -> Spot:
    return Spot(zone, depth, depths, None, flow)


@given(st.floats(60, 200), st.floats(40, 80), st.floats(0, 80), st.floats(0, 40))
def test_the_tank_is_in_proportion_and_the_animal_is_in_the_water(length, height, top, span):
    view = tank_view(length, height, spot(top + span / 2, (top, top + span)))
    x, y, width, glass_height = view.glass
    if 0.9 <= length / height <= 2.4:
        assert width / glass_height == pytest.approx(length / height, rel=0.01)
    assert view.water_y <= view.spot[1] <= view.sand_y
    assert x < view.spot[0] < x + width
    assert view.water_y <= view.zone[0] < view.zone[1] <= view.sand_y + 0.1


def test_depths_are_measured_from_the_surface_to_the_sand():
    view = tank_view(100, 50, spot(12.5, (0, 25)))
    middle = (view.water_y + view.sand_y) / 2
    assert view.zone == pytest.approx((view.water_y, middle), abs=ROUNDING)
    assert view.spot[1] == pytest.approx((view.water_y + middle) / 2, abs=ROUNDING)
    assert [cm for _, cm in view.depths] == [0, 25]


def test_a_tank_without_sizes_shows_the_zone_and_no_depths():
    upper, bottom = (tank_view(None, None, spot(31, (22, 38), zone)) for zone in ("upper", "bottom"))
    assert upper.depths == bottom.depths == ()
    assert upper.spot[1] < bottom.spot[1]


def test_faster_water_is_drawn_longer():
    slow, fast, none = (
        tank_view(90, 50, spot(20, flow=flow)).whirls for flow in (Interval.exact(3), Interval.exact(30), None)
    )
    assert slow[0].length < fast[0].length and none == ()


def test_a_sparkline_runs_from_the_first_to_the_last_value():
    line = sparkline([(5, 8.0), (1, 7.0), (3, 9.0)], width=160, height=40)
    assert line.points == "4,36 80,4 156,20"
    assert line.last == (156, 20) and (line.low, line.high) == (7, 9)


def test_a_sparkline_makes_room_for_the_ideal_band():
    line = sparkline([(0, 8.0), (1, 8.2)], Band(6, 7, 9, 11, BASIS))
    assert line.ideal == (4.0, 32.0)


def test_a_flat_history_is_drawn_in_the_middle_and_one_value_not_at_all():
    assert sparkline([(0, 8.0), (1, 8.0)]).points == "4,20 156,20"
    assert sparkline([(0, 8.0)]) is None
