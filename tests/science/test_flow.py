import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.fixture import Footprint
from webapp.science.flow import DERATING, IN_JET, OUTLET_M_S, SPOTS, WORDS, Pump, from_meter, from_pumps, from_words

boxes = st.builds(Footprint, st.floats(25, 180), st.floats(20, 80), st.floats(20, 70))
pumps = st.lists(
    st.builds(Pump, st.floats(100, 20_000), st.sampled_from(list(DERATING)), st.integers(1, 4)), min_size=1, max_size=4
)
spots = st.sampled_from(SPOTS)
depths = st.floats(0, 1)


@given(pumps, boxes, spots, depths)
def test_ordered_and_more_pumps_never_less_flow(some, box, spot, depth):
    speed = from_pumps(some, footprint=box).at(depth, spot)
    more = from_pumps([*some, Pump(1000, "wave_wide")], footprint=box).at(depth, spot)
    assert 0 < speed.low < speed.mid < speed.high
    assert more.mid >= speed.mid


@given(st.floats(100, 10_000), st.sampled_from(list(DERATING)), boxes, spots, st.floats(1, 4))
def test_speed_goes_with_the_root_of_rated_flow(rated, kind, box, spot, factor):
    """At a given outlet speed, jets and circulation go with the root of momentum flux, so with that of the flow."""
    one, more = (from_pumps([Pump(q, kind)], footprint=box).at(0.5, spot) for q in (rated, rated * factor))
    in_core = spot == "in_jet" and more.mid > 0.999 * 100 * OUTLET_M_S[kind][1] * IN_JET[1]
    if not in_core:
        assert (more.low / one.low, more.high / one.high) == pytest.approx((factor**0.5, factor**0.5), rel=1e-6)


@given(pumps, boxes)
def test_shelter_is_calmest_and_a_jet_fastest_for_pumps_of_one_size(some, box):
    field = from_pumps(some[:1], footprint=box)
    assert field.at(0.5, "sheltered").mid < field.at(0.5, "open").mid


@given(pumps, boxes, depths, depths)
def test_the_circulation_is_slower_lower_down(some, box, a, b):
    field = from_pumps(some, footprint=box)
    assert field.at(max(a, b)).mid <= field.at(min(a, b)).mid


@given(pumps, st.floats(20, 2000), spots)
def test_volume_alone_is_wider_than_the_shape(some, volume, spot):
    side = (volume / 2 * 1000) ** (1 / 3)
    if side < 12 or side > 150:
        return
    vague = from_pumps(some, volume_l=volume).at(0.5, spot)
    exact = from_pumps(some, footprint=Footprint(2 * side, side, side)).at(0.5, spot)
    assert vague.mid == pytest.approx(exact.mid)
    assert vague.high / vague.low > exact.high / exact.low


def test_turnover_is_of_real_flow_over_volume():
    turnover = from_pumps([Pump(4000, "wave_wide")], volume_l=200).turnover_per_h
    assert (turnover.low, turnover.mid, turnover.high) == pytest.approx((12, 16, 20))
    assert from_words("gentle_sway").turnover_per_h is None


def test_words_follow_each_other_without_a_gap():
    ranges = [from_words(word).at(0.5, "open") for word in WORDS]
    for slower, faster in zip(ranges, ranges[1:], strict=False):
        assert slower.high == pytest.approx(faster.low)


@pytest.mark.parametrize("field", [from_words("waves_steadily"), from_meter(10)])
def test_other_spots_than_the_seen_one_are_less_sure(field):
    seen = field.at(0.5, "open")
    for spot in ("sheltered", "in_jet"):
        assert field.at(0.5, spot).high / field.at(0.5, spot).low > seen.high / seen.low
    assert field.at(0.5, "sheltered").mid < seen.mid < field.at(0.5, "in_jet").mid


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: Pump(0, "return"), "rated_l_h"),
        (lambda: Pump(math.nan, "return"), "rated_l_h"),
        (lambda: Pump(100, "magic"), "kind"),
        (lambda: Pump(100, "return", 0), "count"),
        (lambda: from_pumps([], volume_l=100), "pumps"),
        (lambda: from_pumps([Pump(100, "return")]), "footprint"),
        (lambda: from_pumps([Pump(100, "return")], volume_l=1), "volume_l"),
        (lambda: from_words("fast"), "word"),
        (lambda: from_meter(0), "cm_s"),
        (lambda: from_meter(math.nan), "cm_s"),
        (lambda: from_meter(10).at(1.1), "depth_fraction"),
        (lambda: from_meter(10).at(0.5, "left"), "spot"),
    ],
)
def test_refusals_name_the_argument(call, name):
    with pytest.raises(ValueError, match=name):
        call()
