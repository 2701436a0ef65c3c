import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.fixture import Fixture, Footprint
from webapp.science.light import WORDS, from_fixture, from_lux, from_meter, from_words
from webapp.science.lux import COLOURS


@pytest.mark.parametrize(
    ("corrected", "low", "mid", "high"),
    [(True, 100 / 1.08, 100, 108), (None, 100 / 1.08, 100, 137), (False, 104, 120, 139)],
)
def test_meter_and_its_correction_for_water(corrected, low, mid, high):
    """Widened upwards by 1.35 where nobody knows whether the meter allows for water (common practice)."""
    reading = from_meter(100, 20, 50, corrected_for_water=corrected).at(20)
    assert (reading.low, reading.mid, reading.high) == pytest.approx((low, mid, high), rel=0.02)


def test_not_knowing_holds_both_answers():
    unknown, yes, no = (from_meter(100, 20, 50, corrected_for_water=c).at(20) for c in (None, True, False))
    assert unknown.low <= min(yes.low, no.mid)
    assert unknown.high >= max(yes.high, no.mid)


@given(st.floats(1, 1e5), st.sampled_from(COLOURS), st.floats(0, 40), st.floats(0, 40))
def test_lux_field_is_ordered_and_falls(lux, colour, at, asked):
    field = from_lux(lux, colour, at, 40)
    here, there = field.at(at), field.at(asked)
    assert there.low <= there.mid <= there.high
    assert (there.mid <= here.mid) == (asked >= at) or math.isclose(there.mid, here.mid)


def test_words_are_ordered_and_overlap():
    ranges = [from_words(word, 50).at(25) for word in WORDS]
    for dimmer, brighter in zip(ranges, ranges[1:], strict=False):
        assert dimmer.low < brighter.low < dimmer.high < brighter.high
        assert dimmer.mid < brighter.mid


def test_daily_light():
    field = from_meter(250, 20, 50, corrected_for_water=True, hours=10, ramp_hours=4)
    assert field.dli(20).mid == pytest.approx(7.2)
    assert from_words("dim", 50).dli(10) is None
    assert from_fixture(Fixture("t5", 2, 39, hours=0), Footprint(90, 45, 45)).dli(10).high == 0


def test_every_field_says_its_basis():
    box = Footprint(90, 45, 45)
    for field in (
        from_words("dim", 45),
        from_lux(900, "blue", 10, 45),
        from_meter(90, 10, 45, corrected_for_water=None),
        from_fixture(Fixture("unknown", 1, 40), box),
    ):
        assert field.basis
        assert all(len(line) > 10 for line in field.basis)


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: from_meter(-1, 10, 50, corrected_for_water=True), "par"),
        (lambda: from_meter(4000, 10, 50, corrected_for_water=True), "par"),
        (lambda: from_meter(math.nan, 10, 50, corrected_for_water=True), "par"),
        (lambda: from_meter(100, 60, 50, corrected_for_water=True), "depth_cm"),
        (lambda: from_meter(100, 1, 2, corrected_for_water=True), "water_depth_cm"),
        (lambda: from_meter(100, 10, 50, corrected_for_water=True, horizontal="left"), "horizontal"),
        (lambda: from_meter(100, 10, 50, corrected_for_water=True, hours=30), "hours"),
        (lambda: from_meter(100, 10, 50, corrected_for_water=True, water="green"), "water"),
        (lambda: from_lux(100, "pink", 10, 50), "colour"),
        (lambda: from_words("bright", 50), "word"),
        (lambda: from_words("dim", 1), "water_depth_cm"),
        (lambda: from_words("dim", 50).at(51), "depth_cm"),
        (lambda: from_words("dim", 50).at(math.nan), "depth_cm"),
        (lambda: from_words("dim", 50).at(10, "left"), "horizontal"),
        (lambda: from_fixture(Fixture("t5", 1, 39), Footprint(90, 45, 45), water="green"), "water"),
    ],
)
def test_refusals_name_the_argument(call, name):
    with pytest.raises(ValueError, match=name):
        call()
