"""Slots told from the tags around them: through known cameras, with wrong books, and not where they do not tell."""

from random import Random

import cv2
import numpy as np
import pytest

from webapp.tags.slots import slots_in_photo

ROWS, COLUMNS, PITCH_MM = 5, 10, 30.0


def camera(random):
    """From mm on the rack to pixels: any turn, a tilt of 20 to 35 degrees (OpenCV's projection)."""
    lens = np.array([[3000, 0, 2000], [0, 3000, 1500], [0, 0, 1.0]])
    turned, _ = cv2.Rodrigues(np.array([np.radians(random.uniform(20, 35)), 0, 0]))
    rolled, _ = cv2.Rodrigues(np.array([0, 0, random.uniform(0, 6.28)]))
    pose, _ = cv2.Rodrigues(turned @ rolled)
    bent = np.array([0.02, 0, 0, 0])  # what a phone's corrected lens leaves
    away = np.array([0, 0, 450.0])

    def seen(row, column):
        """A tag anywhere on its plug."""
        x = (column - COLUMNS / 2) * PITCH_MM + random.uniform(-3, 3)
        y = (row - ROWS / 2) * PITCH_MM + random.uniform(-3, 3)
        return tuple(cv2.projectPoints(np.array([[x, y, 0.0]]), pose, away, lens, bent)[0][0][0])

    return seen


def rack(random, count):
    """Codes in true slots."""
    places = random.sample([(row, column) for row in range(ROWS) for column in range(COLUMNS)], count)
    return {f"c{number}": place for number, place in enumerate(places)}


@pytest.mark.parametrize("seed", range(12))
def test_a_moved_plug_s_slot_is_told_by_its_neighbours_or_not_at_all(seed):
    random = Random(seed)
    true, seen = rack(random, 30), camera(random)
    middles = {code: seen(*place) for code, place in true.items()}
    noted = {code: true[code] for code in list(true)[:24]}  # six came from elsewhere
    found = slots_in_photo(middles, noted, ROWS, COLUMNS)
    assert all(found[code] == true[code] for code in found)
    assert sum(code in found for code in list(true)[24:]) >= 5


def test_books_that_are_wrong_here_and_there_are_corrected():
    random = Random(4)
    true, seen = rack(random, 30), camera(random)
    middles = {code: seen(*place) for code, place in true.items()}
    noted = dict(true)
    noted["c0"], noted["c1"], noted["c2"] = true["c1"], true["c0"], (4, 9)
    found = slots_in_photo(middles, noted, ROWS, COLUMNS)
    assert found["c0"] == true["c0"] and found["c1"] == true["c1"]
    assert all(found[code] == true[code] for code in found)


def test_nothing_is_told_from_too_few_or_from_one_row():
    random = Random(2)
    seen = camera(random)
    five = {f"c{n}": (n % 3, n) for n in range(5)}
    row = {f"c{n}": (0, n) for n in range(9)}
    for noted in (five, row):
        middles = {code: seen(*place) for code, place in noted.items()} | {"new": seen(1, 4)}
        assert slots_in_photo(middles, noted, ROWS, COLUMNS) == {}


def test_nothing_is_told_where_the_plugs_stand_anyhow():
    random = Random(9)
    noted = rack(random, 30)
    middles = {code: (random.uniform(0, 4000), random.uniform(0, 3000)) for code in noted}
    assert slots_in_photo(middles, noted, ROWS, COLUMNS) == {}


def test_between_two_slots_or_beside_the_rack_nothing_is_told():
    random = Random(3)
    true, seen = rack(random, 30), camera(random)
    middles = {code: seen(*place) for code, place in true.items()}
    middles |= {"between": seen(2.5, 4.5), "beside": seen(2, -1)}
    found = slots_in_photo(middles, true, ROWS, COLUMNS)
    assert {"between", "beside"}.isdisjoint(found)
