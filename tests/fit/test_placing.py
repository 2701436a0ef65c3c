"""Where in the tank: the spot is inside the tank, follows the kind's habit, and is the best there is."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fit.making import kind, report, tank, with_band
from webapp.fit.judge import RANK, judge
from webapp.fit.prepared import prepare
from webapp.fit.spots import zone_at
from webapp.fit.tank import FlowSaid, LightSaid, Measured, Neighbour, PumpSaid

LIT = LightSaid("fixture", kind="led_reef_mixed", count=2, watts=60, height_cm=20)
PUMPED = FlowSaid("pumps", (PumpSaid(4000, "wave_wide", 2),))


@pytest.mark.parametrize(("fraction", "zone"), [(0.1, "upper"), (0.5, "middle"), (0.8, "lower"), (1.0, "bottom")])
def test_zones(fraction, zone):
    assert zone_at(fraction) == zone


@pytest.mark.parametrize(("placement", "zones"), [("bottom", {"bottom"}), ("upper", {"upper"}), ("middle", {"middle"}),
                                                 ("lower", {"lower", "bottom"})])  # fmt: skip
def test_habit_decides_where_light_and_flow_do_not(placement, zones):
    wide = with_band("par", 1, 2, 2000, 3000, placement=placement)
    spot = report(tank(light=LIT, flow=PUMPED), wide).spot
    assert spot.zone in zones


def test_without_light_and_flow_the_place_is_habit():
    spot = report(tank(light=None, flow=None)).spot
    assert spot.zone == "middle" and spot.light is None and spot.flow is None
    assert [note.code for note in spot.reasons] == ["spot_by_habit"]


def test_a_weak_lamp_sends_it_up_and_a_strong_one_down_or_into_shade():
    def depth(par):
        said = LightSaid("meter", par=par, depth_cm=22, corrected_for_water=True)
        return report(tank(light=said)).spot

    weak, fair, strong = depth(45), depth(130), depth(700)
    assert weak.depth_cm < fair.depth_cm
    codes = {note.code for note in strong.reasons}
    assert strong.depth_cm > fair.depth_cm or codes & {"spot_shade", "spot_half_shade", "spot_edge"}
    assert "spot_higher_than_usual" in {note.code for note in weak.reasons}


@given(
    st.floats(10, 1100),
    st.floats(2, 45),
    st.floats(0.5, 60),
    st.sampled_from(("middle", "upper", "bottom", "anywhere")),
)
@settings(max_examples=60, deadline=None)
def test_no_other_place_is_better(par, depth_cm, speed, placement):
    buyer = tank(
        light=LightSaid("meter", par=par, depth_cm=depth_cm, corrected_for_water=True),
        flow=FlowSaid("meter", speed_cm_s=speed),
    )
    profile = kind(placement=placement)
    answer = report(buyer, profile)
    got = max(RANK[f.verdict] for f in answer.findings if f.factor in ("light", "flow"))
    places = prepare(buyer).places
    allowed = places[-1:] if placement == "bottom" else places
    possible = min(
        max(
            min(RANK[judge(c.interval, profile.bands["par"], log=True).verdict] for c in at.light),
            min(RANK[judge(c.interval, profile.bands["flow"], log=True).verdict] for c in at.flow),
        )
        for at in allowed
    )
    assert got == possible
    low, high = answer.spot.depth_range_cm
    assert 0 < low <= answer.spot.depth_cm <= high <= 45


def test_nearer_the_pump_is_faster_and_better_known():
    at = prepare(tank(flow=PUMPED)).places[4]
    by_name = {choice.name: choice.interval for choice in at.flow}
    near, jet = by_name["near_jet"], by_name["in_jet"]
    assert near.mid > jet.mid and near.high / near.low < jet.high / jet.low


def test_the_tank_size_may_be_the_volume_only():
    buyer = tank(light=LIT, flow=PUMPED, length=None, width=None, height=None, volume=Measured(200, "l"))
    wide = report(buyer)
    known = report(tank(light=LIT, flow=PUMPED))
    assert wide.spot.light.high / wide.spot.light.low > known.spot.light.high / known.spot.light.low


def test_a_gap_to_keep_is_part_of_the_spot():
    torch = kind(key="longarm", scientific="Longarmia ficta", sting_reach_cm=20, adult_cm=40)
    answer = report(tank(neighbours=(Neighbour("longarm", 10),)), kinds={"longarm": torch})
    gap = next(note for note in answer.spot.reasons if note.code == "spot_gap")
    assert gap.values == {"neighbour": "longarm", "needed_cm": 30.0}


def test_where_darkness_is_ideal_habit_decides_among_what_is_dark_enough():
    shaded = with_band("par", 0, 0, 60, 150, placement="lower")
    answer = report(tank(light=LightSaid(way="meter", par=30, depth_cm=36, corrected_for_water=True)), shaded)
    assert answer.spot.zone == "lower"


def test_a_place_in_another_third_than_usual_is_said():
    dim = LightSaid(way="meter", par=95, depth_cm=12, corrected_for_water=True)
    answer = report(tank(light=dim), with_band("par", 50, 100, 200, 300, placement="middle"))
    assert answer.spot.zone == "upper"
    assert answer.spot.reasons[0].code == "spot_higher_than_usual"
