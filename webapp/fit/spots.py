"""The places of a tank that an animal could stand in, with the light and flow there.

Light and flow vary without steps between the places that science.light and science.flow describe, so the places between
them are looked at too: an animal is put where it suits, and that spot is the answer.
"""

import math
from dataclasses import dataclass

from webapp.fit.lighting import DEPTH_NOT_SAID_CM, Lighting
from webapp.fit.size import Size
from webapp.fit.streaming import Streaming
from webapp.science.flow import JET_REACH
from webapp.science.interval import Interval

LAYERS = 9
TOP_CM = 5.0
"""Nothing stands closer to the surface: it would dry at the next water change."""
SHADE = (0.2, 0.4, 0.7)
"""Light in the shade of rock or under an overhang, over that beside it: low, usual, high. Estimate."""
FLOW_PLACES = ("sheltered", "open", "in_jet")
BETWEEN = 3
"""Flow is looked at in this many steps from one of FLOW_PLACES to the next."""
NEAR_JET = 0.3
"""A third of the tank's length from the pump: nearer, a piece is blown over."""
SET_BY_HAND = 0.15
"""Relative half-range of a distance that is chosen, not met by chance."""
ZONES = ((0.34, "upper"), (0.67, "middle"), (0.97, "lower"), (1.01, "bottom"))


@dataclass(frozen=True, slots=True)
class Choice:
    """One place at a depth: its name, how far it is from the plain open place (0 is best), and what is there."""

    name: str
    effort: int
    interval: Interval


@dataclass(frozen=True, slots=True)
class Place:
    """One depth with its choices of light and of flow. Without a light or flow said they are empty."""

    depth_cm: float
    fraction: float
    zone: str
    light: tuple[Choice, ...]
    flow: tuple[Choice, ...]


def zone_at(fraction: float) -> str:
    """The name of a depth given as a share of the water: upper, middle, lower, bottom (on the sand)."""
    return next(name for up_to, name in ZONES if fraction < up_to)


def places_in(size: Size, lighting: Lighting, streaming: Streaming) -> tuple[Place, ...]:
    """Nine layers from just under the surface to the sand. Flow is told apart by thirds of the depth.

    Source: estimates (shade, shelter), as named in the tables of the module.
    """
    water = size.depth_cm
    if water is None:
        water = lighting.field.water_depth_cm if lighting.field else DEPTH_NOT_SAID_CM
    top = min(TOP_CM, water / 4)
    by_third = [_flow(streaming, (third + 0.5) / 3) for third in range(3)]
    places = []
    for i in range(LAYERS):
        depth = top + (water - top) * i / (LAYERS - 1)
        fraction = min(1.0, depth / water)
        flow = by_third[min(2, int(fraction * 3))]
        places.append(Place(depth, fraction, zone_at(fraction), _light(lighting, depth), flow))
    return tuple(places)


def _light(lighting: Lighting, depth_cm: float) -> tuple[Choice, ...]:
    middle, edge = (lighting.at(depth_cm, place) for place in ("middle", "edge"))
    if middle is None or edge is None:
        return ()
    low, usual, high = SHADE
    shaded = edge.scaled(usual).widened(usual / low - 1, high / usual - 1) if edge.low > 0 else edge
    return (
        Choice("middle", 0, middle),
        Choice("edge", 0, edge),
        Choice("half_shade", 1, _between(edge, shaded, 0.5)),
        Choice("shade", 1, shaded),
    )


def _flow(streaming: Streaming, fraction: float) -> tuple[Choice, ...]:
    fixed = [streaming.at(fraction, spot) for spot in FLOW_PLACES]
    sheltered, in_open, in_jet = fixed
    if sheltered is None or in_open is None or in_jet is None:
        return ()
    choices = [Choice("open", 0, in_open)]
    for name, step_name, towards in (("sheltered", "half_sheltered", sheltered), ("in_jet", "edge_of_jet", in_jet)):
        for step in range(1, BETWEEN):
            choices.append(Choice(step_name, 1, _between(in_open, towards, step / BETWEEN)))
        choices.append(Choice(name, 1, towards))
    if streaming.way == "pumps":
        choices.append(Choice("near_jet", 1, _nearer(in_jet)))
    return tuple(choices)


def _nearer(in_jet: Interval) -> Interval:
    """The jet at a chosen distance: its speed falls with distance, and the spread for not knowing it goes."""
    low, usual, high = JET_REACH
    set_by_hand = math.log1p(SET_BY_HAND)
    down = math.log(in_jet.mid / in_jet.low) ** 2 - math.log(high / usual) ** 2
    up = math.log(in_jet.high / in_jet.mid) ** 2 - math.log(usual / low) ** 2
    mid = in_jet.mid * usual / NEAR_JET
    down, up = (math.hypot(math.sqrt(max(0.0, part)), set_by_hand) for part in (down, up))
    return Interval(mid * math.exp(-down), mid, mid * math.exp(up))


def _between(a: Interval, b: Interval, share: float) -> Interval:
    """Geometric mean of two ranges, `share` of the way from a to b."""
    low, mid, high = (
        math.exp((1 - share) * math.log(max(x, 1e-3)) + share * math.log(max(y, 1e-3)))
        for x, y in ((a.low, b.low), (a.mid, b.mid), (a.high, b.high))
    )
    return Interval(low, max(low, mid), max(low, mid, high))
