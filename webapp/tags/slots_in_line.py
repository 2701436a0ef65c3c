"""Which slot of a rack of a single row each tag in a photo stands in, told from the tags whose slots are known.

Slots stand on a line at equal steps, so along its picture a projective map of one dimension takes the photo to slots:
slot = (a t + b) / (c t + 1). It is found from random threes of known tags and what most of them agree on (Fischler and
Bolles 1981, Random sample consensus).
"""

from collections import Counter
from collections.abc import Hashable, Mapping
from random import Random
from typing import TypeVar

import numpy as np

Array = np.ndarray
Point = tuple[float, float]
Claim = TypeVar("Claim", bound=Hashable)

LEAST_IN_LINE = 5  # three make a map, so two at least speak for it
_AGREES = 0.25  # slots
_SURE = 0.3  # slots from the middle of one: further out it might be the next one
_BESIDE = 0.5  # slots off the line: further off it stands on something else
_NEAR = 2.3  # slots to the nearest neighbour
_LEAST_SHARE = 0.7
_MOST_SLANTED = 2.0  # the widest step of the row in the picture by the narrowest: more is no photo of a rack
_TRIES = 60


def slots_in_line(middles: Mapping[str, Point], noted: Mapping[str, int], count: int) -> dict[str, int]:
    """The slots, from 0, of the tags whose slot is sure, by code. `count`: how many slots the row has.

    Empty where fewer than five noted tags are in the photo, or fewer than seven in ten of those stand as noted.
    """
    known = [code for code in middles if code in noted]
    if len(known) < LEAST_IN_LINE:
        return {}
    points = centred(middles)
    seen, slots = np.array([points[code] for code in known]), np.array([noted[code] for code in known], float)
    agreeing = _agreed(seen, slots)
    if agreeing is None:
        return {}
    line = _Line(seen[agreeing], slots[agreeing])
    found = {}
    for code, point in points.items():
        slot, off = (float(one[0]) for one in line.at(point[None]))
        nearest = float(np.abs(slots[agreeing] - slot).min()) if np.isfinite(slot) else np.inf
        if nearest <= _NEAR and off <= _BESIDE and abs(slot - round(slot)) <= _SURE and 0 <= round(slot) < count:
            found[code] = round(slot)
    return claimed_once(found)


def centred(middles: Mapping[str, Point]) -> dict[str, Array]:
    """The points around their middle, in units of their spread, so that a fit is well conditioned."""
    pixels = np.array(list(middles.values()), float)
    pixels = (pixels - pixels.mean(axis=0)) / max(float(pixels.std()), 1e-9)
    return dict(zip(middles, pixels, strict=True))


def claimed_once(found: Mapping[str, Claim]) -> dict[str, Claim]:
    """Without the slots that two tags claim: which of them stands there cannot be told."""
    claims = Counter(found.values())
    return {code: slot for code, slot in found.items() if claims[slot] == 1}


class _Line:
    """The line through points, and the map of slots along it, by least squares."""

    def __init__(self, seen: Array, slots: Array):
        self._middle = seen.mean(axis=0)
        self._along = np.linalg.svd(seen - self._middle)[2][0]
        t = (seen - self._middle) @ self._along
        self._map = np.linalg.lstsq(np.column_stack([t, np.ones_like(t), -t * slots]), slots, rcond=None)[0]

    def slant(self, points: Array) -> float:
        """How much wider the widest step between these is than the narrowest; infinite where the map breaks."""
        below = self._map[2] * ((points - self._middle) @ self._along) + 1
        return float((below.max() / below.min()) ** 2) if below.min() > 0 else np.inf

    def at(self, points: Array) -> tuple[Array, Array]:
        """Where each stands along the line and how far off it, both in slots."""
        a, b, c = self._map
        from_middle = points - self._middle
        t = from_middle @ self._along
        across = np.abs(from_middle @ (self._along[1], -self._along[0]))
        with np.errstate(all="ignore"):
            below = c * t + 1
            return (a * t + b) / below, across * np.abs((a - b * c) / below**2)


def _agreed(seen: Array, slots: Array) -> Array | None:
    """Which of the known tags stand as noted, or None when too few do."""
    random, best = Random(len(seen)), np.zeros(len(seen), bool)
    for _ in range(_TRIES):
        three = random.sample(range(len(seen)), 3)
        if len(set(slots[three])) == 3:
            line = _Line(seen[three], slots[three])
            close = _close(line, seen, slots)
            if close.sum() > best.sum() and line.slant(seen[close]) <= _MOST_SLANTED:
                best = close
    enough = max(LEAST_IN_LINE, _LEAST_SHARE * len(seen))
    return best if best.sum() >= enough else None


def _close(line: _Line, seen: Array, slots: Array) -> Array:
    slot, off = line.at(seen)
    return (np.abs(np.nan_to_num(slot, nan=np.inf) - slots) < _AGREES) & (np.nan_to_num(off, nan=np.inf) < _BESIDE)
