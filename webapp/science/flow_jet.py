"""Jets and the circulation they drive in a box of water."""

import math

JET_DECAY = 6.0
"""B in U/U0 = B d/x for a round turbulent jet, 5.8-6.2 (Rajaratnam 1976, Turbulent Jets; Pope 2000, table 5.1)."""


def turnover_per_h(flow_l_h: float, volume_l: float) -> float:
    """Times an hour that `flow_l_h` (>= 0) moves the tank's `volume_l` (> 0), h^-1: Q / V."""
    if not flow_l_h >= 0:
        raise ValueError(f"flow_l_h must not be negative, got {flow_l_h}")
    if not volume_l > 0:
        raise ValueError(f"volume_l must be above 0, got {volume_l}")
    return flow_l_h / volume_l


def mean_speed_cm_s(flow_l_h: float, section_m2: float) -> float:
    """Mean speed of `flow_l_h` (>= 0) through a cross-section of `section_m2` (> 0), cm/s: Q / A.

    What a tank would have if its pumps moved all of it evenly once; jets and the circulation are faster.
    """
    if not flow_l_h >= 0:
        raise ValueError(f"flow_l_h must not be negative, got {flow_l_h}")
    if not section_m2 > 0:
        raise ValueError(f"section_m2 must be above 0, got {section_m2}")
    return flow_l_h / 3.6e6 / section_m2 * 100


def outlet_speed_m_s(flow_l_h: float, diameter_m: float) -> float:
    """Mean speed in a round outlet of `diameter_m` (> 0) that passes `flow_l_h` (>= 0), m/s: 4 Q / (pi d^2)."""
    if not flow_l_h >= 0:
        raise ValueError(f"flow_l_h must not be negative, got {flow_l_h}")
    if not diameter_m > 0:
        raise ValueError(f"diameter_m must be above 0, got {diameter_m}")
    return flow_l_h / 3.6e6 * 4 / (math.pi * diameter_m**2)


def jet_centre_speed_m_s(outlet_m_s: float, diameter_m: float, distance_m: float, decay: float = JET_DECAY) -> float:
    """Speed on the axis of a free round turbulent jet at `distance_m` (>= 0) from its outlet, m/s.

    U = decay U0 d / x, not above U0 (the core, x < decay d). Rajaratnam 1976. Rock and walls cut it short.
    """
    if not outlet_m_s >= 0:
        raise ValueError(f"outlet_m_s must not be negative, got {outlet_m_s}")
    if not diameter_m > 0:
        raise ValueError(f"diameter_m must be above 0, got {diameter_m}")
    if not distance_m >= 0:
        raise ValueError(f"distance_m must not be negative, got {distance_m}")
    return outlet_m_s * min(1.0, decay * diameter_m / max(distance_m, 1e-9))


def circulation_m_s(momentum_m4_s2: float, section_m2: float, factor: float) -> float:
    """Speed of the circulation that jets of total kinematic momentum flux sum(Q U0) keep up in a box, m/s.

    U = factor sqrt(M / A): momentum scaling of confined jets. Room-air practice takes about 0.7 for the highest
    return speed in an empty room (Etheridge & Sandberg 1996, Building Ventilation; from memory).
    """
    if not momentum_m4_s2 >= 0:
        raise ValueError(f"momentum_m4_s2 must not be negative, got {momentum_m4_s2}")
    if not section_m2 > 0:
        raise ValueError(f"section_m2 must be above 0, got {section_m2}")
    if not factor > 0:
        raise ValueError(f"factor must be above 0, got {factor}")
    return factor * math.sqrt(momentum_m4_s2 / section_m2)
