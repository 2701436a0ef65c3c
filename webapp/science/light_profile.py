"""Light through the depth of a tank from one known value at one depth."""

import math
from dataclasses import dataclass

from webapp.science.interval import Interval
from webapp.science.optics import N_SEA_WATER

HEIGHT_CM = 18.0
"""Usual height of a lamp above the water where nobody said. Estimate."""
SPREADING = (0.0, 0.9, 1.9)
"""Power with which light falls with distance: 0 between mirrors, 2 under a point (Kahn & Barry 1997)."""
EDGE_SHARE = (0.25, 0.5, 0.95)
"""Light at the sides as a share of that below the lamp. Estimate, from the model of light_panel over usual tanks."""


@dataclass(frozen=True, slots=True)
class Anchored:
    """`value` (PPFD) holds at `depth_cm` in the place `horizontal`; the rest follows from spreading and the water."""

    value: Interval
    depth_cm: float
    horizontal: str
    attenuation_per_m: Interval

    def at(self, depth_cm: float, horizontal: str) -> Interval:
        """PPFD (µmol m^-2 s^-1) at `depth_cm`: value ((h + z0/n) / (h + z/n))^p exp(-K (z - z0)), wider farther off."""
        if self.value.low <= 0:
            return Interval.exact(0.0)
        near, far = HEIGHT_CM + self.depth_cm / N_SEA_WATER, HEIGHT_CM + depth_cm / N_SEA_WATER
        spread = math.log(far / near)
        below_m = (depth_cm - self.depth_cm) / 100
        k = self.attenuation_per_m
        shift = SPREADING[1] * spread + k.mid * below_m
        down = [(SPREADING[2] - SPREADING[1]) * spread, (k.high - k.mid) * below_m]
        up = [(SPREADING[1] - SPREADING[0]) * spread, (k.mid - k.low) * below_m]
        if below_m < 0:
            down, up = up, down
        if horizontal != self.horizontal:
            low, usual, high = EDGE_SHARE
            if horizontal == "edge":
                shift -= math.log(usual)
                down, up = [*down, math.log(usual / low)], [*up, math.log(high / usual)]
            else:
                shift += math.log(usual)
                down, up = [*down, math.log(high / usual)], [*up, math.log(usual / low)]
        mid = self.value.mid * math.exp(-shift)
        down_total = math.hypot(*down, math.log(self.value.mid / self.value.low))
        up_total = math.hypot(*up, math.log(self.value.high / self.value.mid))
        return Interval(mid * math.exp(-down_total), mid, mid * math.exp(up_total))
