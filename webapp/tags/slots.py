"""Which slot of a rack each tag in a photo stands in, told from the tags around it whose slots are known.

Slots are a regular grid, so a homography takes the photo to rows and columns; it is found from random fours of known
tags and what most of them agree on (Fischler and Bolles 1981, Random sample consensus), so that a few plugs that stand
elsewhere than noted do not matter.
"""

from collections import Counter
from collections.abc import Mapping
from random import Random

import numpy as np

from webapp.tags.registering import from_points, project
from webapp.tags.slots_in_line import centred, claimed_once, slots_in_line

Array = np.ndarray
Point = tuple[float, float]
Slot = tuple[int, int]

LEAST_NEIGHBOURS = 6
_AGREES = 0.35  # slots: a plug stands anywhere in its slot, a tag anywhere on its plug
_SURE = 0.3  # slots from the middle of one: further out it might be the next one
_NEAR = 2.3  # slots to the nearest neighbour: further away the grid is only guessed at
_LEAST_SHARE = 0.7
_TRIES = 120


def slots_in_photo(middles: Mapping[str, Point], noted: Mapping[str, Slot], rows: int, columns: int) -> dict[str, Slot]:
    """The slots, as (row, column) from 0, of the tags whose slot is sure, by code.

    `middles`: each tag's middle in pixels; `noted`: the slots in the shop's books, of as many of them as have one.
    Empty where fewer than six noted ones are in the photo (five on a rack of one row or one column), or fewer than
    seven in ten of those stand as noted.
    """
    if rows == 1:
        line = slots_in_line(middles, {code: column for code, (_, column) in noted.items()}, columns)
        return {code: (0, column) for code, column in line.items()}
    if columns == 1:
        line = slots_in_line(middles, {code: row for code, (row, _) in noted.items()}, rows)
        return {code: (row, 0) for code, row in line.items()}
    known = [code for code in middles if code in noted]
    if len(known) < LEAST_NEIGHBOURS:
        return {}
    points = centred(middles)
    seen = np.array([points[code] for code in known])
    grid = np.array([noted[code][::-1] for code in known], float)
    agreeing = _agreed(seen, grid)
    if agreeing is None:
        return {}
    towards = from_points(seen[agreeing], grid[agreeing])
    found = {}
    for code, point in points.items():
        column, row = project(towards, point[None])[0]
        nearest = np.abs(np.hypot(*(grid[agreeing] - (column, row)).T)).min()
        if not np.isfinite(nearest) or nearest > _NEAR:
            continue
        slot = (round(row), round(column))
        off = max(abs(row - slot[0]), abs(column - slot[1]))
        if off <= _SURE and 0 <= slot[0] < rows and 0 <= slot[1] < columns:
            found[code] = slot
    return claimed_once(found)


def _agreed(seen: Array, grid: Array) -> Array | None:
    """Which of the known tags stand as noted, or None when too few do to tell a grid from them."""
    random, best = Random(len(seen)), np.zeros(len(seen), bool)
    for _ in range(_TRIES):
        four = random.sample(range(len(seen)), 4)
        if _tells(grid[four]):
            close = _close(from_points(seen[four], grid[four]), seen, grid)
            best = close if close.sum() > best.sum() else best
    if best.sum() < 4 or not _tells(grid[best]):
        return None
    best = _close(from_points(seen[best], grid[best]), seen, grid)
    enough = max(LEAST_NEIGHBOURS, _LEAST_SHARE * len(seen))
    return best if best.sum() >= enough and _tells(grid[best]) else None


def _close(towards: Array, seen: Array, grid: Array) -> Array:
    with np.errstate(all="ignore"):
        off = np.hypot(*(project(towards, seen) - grid).T)
    return np.nan_to_num(off, nan=np.inf) < _AGREES


def _tells(grid: Array) -> bool:
    """Two rows with two tags each: four of which no three lie on a line."""
    return sum(count >= 2 for count in Counter(grid[:, 1]).values()) >= 2
