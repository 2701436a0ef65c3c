"""Speed of the water at a place in a tank: from its pumps, from what can be seen, or from a meter."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from webapp.science.fixture import Footprint
from webapp.science.flow_jet import JET_DECAY, circulation_m_s, jet_centre_speed_m_s, turnover_per_h
from webapp.science.interval import Interval

SPOTS = ("sheltered", "open", "in_jet")

DERATING = {
    "return": (0.4, 0.65, 0.9),
    "wave_narrow": (0.6, 0.8, 1.0),
    "wave_wide": (0.6, 0.8, 1.0),
    "unknown": (0.45, 0.75, 1.0),
}
"""Real over rated flow: head and plumbing for a return pump, dirt and guards for the others. Common practice."""
OUTLET_M_S = {
    "return": (0.5, 1.0, 2.0),
    "wave_narrow": (0.5, 0.85, 1.4),
    "wave_wide": (0.22, 0.37, 0.62),
    "unknown": (0.25, 0.65, 1.7),
}
"""Speed at the outlet by kind: pipe nozzle, narrow stream, wide propeller. Estimate from flow over outlet area."""
CIRCULATION = (0.65, 1.1, 1.75)
"""Factor of circulation_m_s: 0.7 in an empty room; a balance with walls, rock and turns gives 0.7-1.7. Estimate."""
PLACE = {"open": (0.55, 1.05, 1.5), "sheltered": (0.08, 0.27, 0.75)}
"""Speed at a place over that of the circulation: clear of rock, or behind it. Estimate."""
DEPTH_SLOPE = 0.3
"""Fall of the circulation from surface to bottom, over its value at half depth. Estimate."""
JET_REACH = (0.25, 0.5, 0.8)
"""Distance from the pump of a place in its jet, as a share of the tank's length."""
IN_JET = (0.36, 0.62, 1.0)
"""Speed off the axis, in a jet that rock and the far wall disturb, over that on a free jet's axis. Estimate."""
PROPORTIONS = (2.0, 1.0, 1.0)
"""Length : width : depth taken where only the volume is known."""
SHAPE_NOT_KNOWN = 0.3
"""Relative half-range of length and section where only the volume is known."""
FROM_OPEN = {"open": (1.0, 1.0, 1.0), "sheltered": (0.1, 0.3, 0.8), "in_jet": (1.2, 2.2, 4.5)}
"""Other places over the open water, where only the open water was described or measured. Estimate."""
METER = 0.15
"""Relative half-range of one reading of a small current meter, or a particle timed by eye. Estimate."""

WORDS = {
    "dirt_settles": ((0.3, 1.5, 3.0), "dirt settles and stays, tentacles hang"),
    "gentle_sway": ((3.0, 5.0, 8.0), "soft tissue sways gently"),
    "waves_steadily": ((8.0, 11.0, 15.0), "tentacles wave steadily, dirt does not settle"),
    "bent_over": ((15.0, 19.0, 25.0), "tissue is bent over to one side"),
    "sand_moves": ((25.0, 32.0, 50.0), "sand moves, polyps stay shut"),
}
"""What a person sees where the animal would stand, and the speed in cm/s. Common practice."""


@dataclass(frozen=True, slots=True)
class Pump:
    """`rated_l_h`: flow on the label, litres an hour each (0..100,000). `kind`: key of DERATING. `count` alike."""

    rated_l_h: float
    kind: str
    count: int = 1

    def __post_init__(self) -> None:
        if not 0 < self.rated_l_h <= 100_000:
            raise ValueError(f"rated_l_h must be above 0..100000, got {self.rated_l_h}")
        if self.kind not in DERATING:
            raise ValueError(f"kind must be one of {', '.join(DERATING)}, got {self.kind!r}")
        if not 1 <= self.count <= 24 or self.count != int(self.count):
            raise ValueError(f"count must be a whole number 1..24, got {self.count}")


@dataclass(frozen=True, slots=True)
class FlowField:
    """Speeds in one tank: one a spot, cm/s, at half depth. `turnover_per_h`: real flow over volume, or None."""

    sheltered: Interval
    open: Interval
    in_jet: Interval
    turnover_per_h: Interval | None
    basis: tuple[str, ...]
    depth_slope: float = 0.0

    def at(self, depth_fraction: float, spot: str = "open") -> Interval:
        """Mean speed, cm/s, at `depth_fraction` (0 surface .. 1 bottom) in a 'sheltered', 'open' or 'in_jet' spot.

        About 95 % range. Pumps sit high in most tanks and sand and rock slow the bottom: the circulation is taken to
        fall linearly by `depth_slope` of its middle value from surface to bottom (estimate); a jet is aimed.
        """
        if not 0 <= depth_fraction <= 1:
            raise ValueError(f"depth_fraction must be 0..1, got {depth_fraction}")
        if spot not in SPOTS:
            raise ValueError(f"spot must be one of {', '.join(SPOTS)}, got {spot!r}")
        slope = 0.0 if spot == "in_jet" else self.depth_slope
        return getattr(self, spot).scaled(1 + slope * (0.5 - depth_fraction))


def from_pumps(
    pumps: Sequence[Pump], *, footprint: Footprint | None = None, volume_l: float | None = None
) -> FlowField:
    """Flow field from pumps and the tank's size: `footprint`, or `volume_l` (5..20,000) alone, which is wider.

    Circulation: U = k sqrt(sum(Q U0) / section); jet: U = 6 U0 d / x of the strongest pump (Rajaratnam 1976).
    Independent relative half-ranges add in quadrature on a log scale.
    Source: rajaratnam_1976 (jet); momentum balance (circulation); estimates as named in the tables.
    """
    if not pumps:
        raise ValueError("pumps must not be empty")
    if footprint is None and volume_l is None:
        raise ValueError("footprint or volume_l must be given")
    if volume_l is not None and not 5 <= volume_l <= 20_000:
        raise ValueError(f"volume_l must be 5..20000, got {volume_l}")
    volume = footprint.volume_l if volume_l is None else volume_l
    if footprint is None:
        a, b, c = PROPORTIONS
        unit_m = (volume / 1000 / (a * b * c)) ** (1 / 3)
        length_m, section_m2, shape = a * unit_m, b * c * unit_m**2, math.log1p(SHAPE_NOT_KNOWN)
    else:
        length_m, shape = footprint.length_cm / 100, 0.0
        section_m2 = footprint.width_cm * footprint.depth_cm / 1e4
    flow = _sum_of_pumps([(p.rated_l_h * p.count, DERATING[p.kind]) for p in pumps])
    momentum = _sum_of_pumps([_momentum(p, p.count) for p in pumps])
    strongest = max(pumps, key=lambda p: _sum_of_pumps([_momentum(p, 1)]).mid)
    circulation = 100 * circulation_m_s(momentum.mid, section_m2, CIRCULATION[1])
    drive = [(math.log(momentum.mid / momentum.low) / 2, math.log(momentum.high / momentum.mid) / 2), (shape, shape)]
    speeds = {}
    for spot, place in PLACE.items():
        speeds[spot] = _product(circulation * place[1], [_logs(CIRCULATION), _logs(place), *drive])
    jet, outlet = _sum_of_pumps([_momentum(strongest, 1)]), OUTLET_M_S[strongest.kind][1]
    diameter_m = 2 * math.sqrt(jet.mid / math.pi) / outlet  # of the round outlet with this speed and momentum flux
    axis = jet_centre_speed_m_s(outlet, diameter_m, JET_REACH[1] * length_m, JET_DECAY)
    speeds["in_jet"] = _product(
        100 * axis * IN_JET[1],
        [
            _logs(IN_JET),
            _logs(JET_REACH)[::-1],
            (math.log(jet.mid / jet.low) / 2, math.log(jet.high / jet.mid) / 2),
            (shape, shape),
        ],
    )
    basis = (
        "real flow over rated: return 0.4-0.9, others 0.6-1.0 (common practice)",
        "jet: 6 U0 d / x (Rajaratnam 1976); circulation: momentum over cross-section; rock and place estimated",
    )
    turnover = flow.scaled(turnover_per_h(1.0, volume))
    return FlowField(**speeds, turnover_per_h=turnover, basis=basis, depth_slope=DEPTH_SLOPE)


def from_words(word: str) -> FlowField:
    """Flow field from what a person sees in the open water of the tank (key of WORDS).

    Source: common practice.
    """
    if word not in WORDS:
        raise ValueError(f"word must be one of {', '.join(WORDS)}, got {word!r}")
    values, said = WORDS[word]
    return _from_open(Interval(*values), (f"seen: {said} (common practice)",))


def from_meter(cm_s: float) -> FlowField:
    """Flow field from one mean reading in the open water, above 0..200 cm/s, within 15 %.

    Source: estimate (error of one reading, other places).
    """
    if not 0 < cm_s <= 200:
        raise ValueError(f"cm_s must be above 0..200, got {cm_s}")
    return _from_open(Interval.times_over(cm_s, METER), ("one reading, within 15 % (estimate)",))


def _from_open(value: Interval, basis: tuple[str, ...]) -> FlowField:
    parts = [(math.log(value.mid / value.low), math.log(value.high / value.mid))]
    speeds = {spot: _product(value.mid * f[1], [*parts, _logs(f)]) for spot, f in FROM_OPEN.items()}
    return FlowField(**speeds, turnover_per_h=None, basis=basis)


def _momentum(pump: Pump, count: int) -> tuple[float, tuple[float, float, float]]:
    """Kinematic momentum flux Q U0 of `count` pumps, m^4 s^-2: rated part, and the (low, usual, high) factor to it."""
    derating, outlet = DERATING[pump.kind], OUTLET_M_S[pump.kind]
    factor = _product(derating[1] * outlet[1], [_logs(derating), _logs(outlet)])
    return pump.rated_l_h * count / 3.6e6, (factor.low, factor.mid, factor.high)


def _sum_of_pumps(parts: list[tuple[float, tuple[float, float, float]]]) -> Interval:
    """Sum of amounts with factors, the errors of different pumps independent: absolute half-ranges in quadrature."""
    mid = sum(a * f[1] for a, f in parts)
    down = math.hypot(*(a * (f[1] - f[0]) for a, f in parts))
    up = math.hypot(*(a * (f[2] - f[1]) for a, f in parts))
    return Interval(mid - down, mid, mid + up)


def _product(mid: float, logs: list[tuple[float, float]]) -> Interval:
    down = math.hypot(*(d for d, _ in logs))
    up = math.hypot(*(u for _, u in logs))
    return Interval(mid * math.exp(-down), mid, mid * math.exp(up))


def _logs(f: tuple[float, float, float]) -> tuple[float, float]:
    return math.log(f[1] / f[0]), math.log(f[2] / f[1])
