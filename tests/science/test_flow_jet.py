import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import flow_jet

positive = st.floats(0.01, 10)


@given(positive, st.floats(0.005, 0.1), st.floats(0, 3), st.floats(0, 3))
def test_a_jet_slows_with_distance_and_is_never_faster_than_its_outlet(speed, diameter, a, b):
    near, far = (flow_jet.jet_centre_speed_m_s(speed, diameter, x) for x in sorted((a, b)))
    assert far <= near <= speed


@given(st.floats(10, 20_000), st.floats(0.005, 0.1))
def test_outlet_speed_times_area_is_the_flow(flow, diameter):
    area = math.pi * diameter**2 / 4
    assert flow_jet.outlet_speed_m_s(flow, diameter) * area * 3.6e6 == pytest.approx(flow)


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: flow_jet.turnover_per_h(-1, 100), "flow_l_h"),
        (lambda: flow_jet.turnover_per_h(1, 0), "volume_l"),
        (lambda: flow_jet.mean_speed_cm_s(-1, 1), "flow_l_h"),
        (lambda: flow_jet.mean_speed_cm_s(1, 0), "section_m2"),
        (lambda: flow_jet.outlet_speed_m_s(-1, 1), "flow_l_h"),
        (lambda: flow_jet.outlet_speed_m_s(1, 0), "diameter_m"),
        (lambda: flow_jet.jet_centre_speed_m_s(-1, 1, 1), "outlet_m_s"),
        (lambda: flow_jet.jet_centre_speed_m_s(1, 0, 1), "diameter_m"),
        (lambda: flow_jet.jet_centre_speed_m_s(1, 1, -1), "distance_m"),
        (lambda: flow_jet.circulation_m_s(-1, 1, 1), "momentum_m4_s2"),
        (lambda: flow_jet.circulation_m_s(1, 0, 1), "section_m2"),
        (lambda: flow_jet.circulation_m_s(1, 1, 0), "factor"),
    ],
)
def test_refusals_name_the_argument(call, name):
    with pytest.raises(ValueError, match=name):
        call()
