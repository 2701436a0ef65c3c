"""An independent numeric model of speed in a tank: jets marched step by step, a circulation from a balance of forces.

What it is: each pump's jet is integrated by the entrainment hypothesis (Morton, Taylor & Turner 1956, Proc. R. Soc. A
234, 1-23; top-hat coefficient 0.076-0.090 for round jets, after Fischer et al. 1979, Mixing in Inland and Coastal
Waters, ch. 9) and loses momentum to rock and return flow on its way. The circulation follows from momentum put in
against friction on walls, drag of rock and losses in the turns. Its speed at a point follows from the point's place in
an elliptic eddy, with the tails of the jets added. Real flow, outlet, coefficients, rock and the exact place are drawn.
What it is not: no solution of the equations of motion and no measurement. It shares with the code under test only the
ranges of real over rated flow and of outlet speed, which are statements about pumps, and how sheltered a sheltered
place may be, which is a statement about rock.
"""

import math

from webapp.science.flow import DERATING, OUTLET_M_S

STEPS = 60


def jet_along(flow_m3_s, outlet_m_s, length_m, entrainment, loss_length_m):
    """Centre speed and half-speed radius of a jet at STEPS places along `length_m`, marched from its outlet."""
    momentum, flow, x, places = flow_m3_s * outlet_m_s, flow_m3_s, 0.0, []
    core = 6.2 * 2 * math.sqrt(flow_m3_s / (math.pi * outlet_m_s))  # the flow has doubled where the core ends
    step = length_m / STEPS
    for _ in range(STEPS):
        speed = momentum / flow
        radius = flow / math.sqrt(math.pi * momentum)
        places.append((x, min(2 * speed, outlet_m_s), radius * math.sqrt(math.log(2) / 2)))
        flow += (flow_m3_s / core if x < core else 2 * math.pi * radius * entrainment * speed) * step
        momentum *= math.exp(-step / loss_length_m)
        x += step
    return places


def circulation(momentum, box, rng):
    """Speed (m/s) at which wall friction, rock and turns take up the jets' momentum flux."""
    length, width, depth = (v / 100 for v in (box.length_cm, box.width_cm, box.depth_cm))
    section = width * depth
    wall = length * width + 2 * length * depth + 2 * section
    friction = rng.uniform(0.005, 0.02) * wall / 2
    rock = rng.uniform(0.1, 0.6) * section * rng.uniform(0.8, 1.3) / 2
    turns = rng.uniform(1.5, 4.0) * section / 2 / 2
    return math.sqrt(momentum / (friction + rock + turns))


def draw(pumps, box, depth_fraction, spot, rng):
    """Mean speed, cm/s, at one exact place of one tank that fits the description."""
    length = box.length_cm / 100
    jets = []
    for pump in pumps:
        low, _, high = DERATING[pump.kind]
        for _ in range(pump.count):
            flow = pump.rated_l_h / 3.6e6 * rng.uniform(low, high)
            outlet = math.exp(rng.uniform(math.log(OUTLET_M_S[pump.kind][0]), math.log(OUTLET_M_S[pump.kind][2])))
            jets.append((flow, outlet))
    total = sum(q * u for q, u in jets)
    bulk = circulation(total, box, rng)
    if spot == "in_jet":
        flow, outlet = max(jets, key=lambda jet: jet[0] * jet[1])
        places = jet_along(flow, outlet, length, rng.uniform(0.076, 0.090), length * rng.uniform(0.8, 4.0))
        _, centre, half = places[int(STEPS * rng.uniform(0.25, 0.8))]
        off = math.sqrt(rng.random())  # evenly over the disc within the half-speed radius
        jet = centre * 0.5 ** (off**2)
        return 100 * max(0.0, math.hypot(jet, bulk * rng.uniform(0.0, 0.7)))
    # Place in an elliptic eddy: across at random, in height as asked; still water at its heart, slower along the sand.
    across, height = rng.uniform(-1, 1), 1 - 2 * depth_fraction + rng.uniform(-0.2, 0.2)
    radius = min(1.0, math.hypot(across, height))
    eddy = bulk * 1.35 * math.sin(min(radius / 0.75, 1.0) * math.pi / 2) * (1 - 0.35 * max(0.0, -height))
    if spot == "sheltered":
        return 100 * eddy * math.exp(rng.uniform(math.log(0.08), math.log(0.75)))
    flow, outlet = jets[int(rng.integers(len(jets)))]
    x, centre, half = jet_along(flow, outlet, length, 0.083, 2 * length)[int(STEPS * rng.uniform(0.15, 0.95))]
    tail = centre * 0.5 ** (rng.uniform(1.7, 4.0) ** 2)
    return 100 * max(0.0, math.hypot(eddy * rng.uniform(0.75, 1.25), tail))
