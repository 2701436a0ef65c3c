"""Slots of a rack of one row, told from the tags around them: through known cameras, and not where they do not tell."""

from random import Random

import cv2
import numpy as np
import pytest

from webapp.tags.slots import slots_in_photo
from webapp.tags.slots_in_line import slots_in_line

COUNT, PITCH_MM = 12, 30.0


def camera(random):
    """From slots to pixels: any turn, a tilt of 20 to 35 degrees (OpenCV's projection)."""
    lens = np.array([[3000, 0, 2000], [0, 3000, 1500], [0, 0, 1.0]])
    turned, _ = cv2.Rodrigues(np.array([np.radians(random.uniform(20, 35)), np.radians(random.uniform(-30, 30)), 0]))
    rolled, _ = cv2.Rodrigues(np.array([0, 0, random.uniform(0, 6.28)]))
    pose, _ = cv2.Rodrigues(turned @ rolled)
    away = np.array([0, 0, 550.0])

    def seen(slot, beside_mm=0.0):
        """A tag anywhere on its plug."""
        x = (slot - COUNT / 2) * PITCH_MM + random.uniform(-3, 3)
        y = beside_mm + random.uniform(-3, 3)
        return tuple(cv2.projectPoints(np.array([[x, y, 0.0]]), pose, away, lens, None)[0][0][0])

    return seen


def one_rack(seed):
    """Nine plugs, of which the books know seven, one of those wrongly: what is told against what is true."""
    random = Random(seed)
    seen = camera(random)
    true = {f"c{n}": slot for n, slot in enumerate(random.sample(range(COUNT), 9))}
    middles = {code: seen(slot) for code, slot in true.items()} | {"on the sand": seen(4, 40.0)}
    noted = {code: true[code] for code in list(true)[:7]}
    noted["c0"] = next(slot for slot in range(COUNT) if slot not in true.values())
    found = slots_in_line(middles, noted, COUNT)
    assert "on the sand" not in found
    told = {code: slot for code, slot in found.items() if noted.get(code) != slot}
    return sum(told[code] == true[code] for code in told), sum(told[code] != true[code] for code in told)


@pytest.mark.long
def test_new_plugs_and_wrong_books_are_told_and_hardly_ever_wrongly():
    """With one of seven books wrong, about one photo in a hundred tells the slot beside the true one; staff confirm."""
    told = [one_rack(seed) for seed in range(200)]
    assert sum(right for right, _ in told) >= 0.9 * 3 * len(told)
    assert sum(wrong > 0 for _, wrong in told) <= 0.02 * len(told)


@pytest.mark.parametrize(("rows", "columns"), [(1, COUNT), (COUNT, 1)])
def test_a_rack_of_one_row_or_of_one_column(rows, columns):
    seen = camera(Random(5))
    slots = {f"c{n}": (0, n) if rows == 1 else (n, 0) for n in range(0, 12, 2)}
    middles = {code: seen(max(slot)) for code, slot in slots.items()} | {"new": seen(5)}
    assert slots_in_photo(middles, slots, rows, columns)["new"] == ((0, 5) if rows == 1 else (5, 0))


def test_nothing_is_told_from_too_few_or_where_the_plugs_stand_anyhow():
    random = Random(3)
    seen = camera(random)
    four = {f"c{n}": n for n in range(4)}
    assert slots_in_line({code: seen(slot) for code, slot in four.items()} | {"new": seen(5)}, four, COUNT) == {}
    noted = {f"c{n}": n for n in range(10)}
    anyhow = {code: (random.uniform(0, 4000), random.uniform(0, 3000)) for code in noted}
    assert slots_in_line(anyhow, noted, COUNT) == {}


def test_between_two_slots_or_past_the_end_nothing_is_told():
    seen = camera(Random(8))
    noted = {f"c{n}": n for n in range(COUNT)}
    middles = {code: seen(slot) for code, slot in noted.items()} | {"between": seen(4.5), "past": seen(COUNT)}
    assert {"between", "past"}.isdisjoint(slots_in_line(middles, noted, COUNT))
