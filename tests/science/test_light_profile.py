import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.interval import Interval
from webapp.science.light_profile import Anchored
from webapp.science.light_water import attenuation_per_m

anchors = st.builds(
    Anchored,
    st.builds(Interval.times_over, st.floats(1, 1000), st.floats(0.01, 1)),
    st.floats(0, 60),
    st.just("middle"),
    st.sampled_from(["clear", "yellow", None]).map(lambda water: attenuation_per_m("blue", water)),
)
depths = st.floats(0, 60)


@given(anchors, depths, depths, st.sampled_from(["middle", "edge"]))
def test_deeper_is_never_lighter_in_any_part(anchor, a, b, place):
    upper, lower = anchor.at(min(a, b), place), anchor.at(max(a, b), place)
    for part in ("low", "mid", "high"):
        assert getattr(lower, part) <= getattr(upper, part) * (1 + 1e-9)


@given(anchors, depths)
def test_the_anchor_itself_is_returned_and_elsewhere_is_wider(anchor, depth):
    here = anchor.at(anchor.depth_cm, "middle")
    assert (here.low, here.mid, here.high) == pytest.approx((anchor.value.low, anchor.value.mid, anchor.value.high))
    there = anchor.at(depth, "middle")
    assert there.high / there.low >= here.high / here.low * (1 - 1e-9)


@given(anchors, depths)
def test_the_edge_is_darker_and_less_sure(anchor, depth):
    middle, edge = anchor.at(depth, "middle"), anchor.at(depth, "edge")
    assert edge.mid < middle.mid
    assert edge.high / edge.low > middle.high / middle.low


def test_a_reading_at_the_edge_says_more_light_in_the_middle():
    anchor = Anchored(Interval.exact(50), 20, "edge", attenuation_per_m("blue"))
    assert anchor.at(20, "middle").mid > anchor.at(20, "edge").mid == pytest.approx(50)


def test_darkness_stays_dark():
    assert Anchored(Interval.exact(0), 10, "middle", attenuation_per_m("blue")).at(20, "middle") == Interval.exact(0)
