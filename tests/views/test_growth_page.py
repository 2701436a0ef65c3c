"""The growth of one animal on its panel: what was measured, when, and why no rate is told where none is."""

import re
from datetime import timedelta

import pytest

from tests.services.today.making import Shop
from tests.shop_client import Visitor

DAY = timedelta(days=1)


@pytest.fixture
def measured(stage):
    """The panel of an animal with these sizes (mm), by days before now."""

    def made(*sizes):
        shop = Shop(stage)
        one = shop.animal(at=shop.start)
        now = stage.later()
        shop.tell(*((one, "measured", {"size_mm": size}, now - days * DAY) for days, size in sizes))
        return Visitor(stage).sign_in().open(f"/s/{one}")

    return made


def test_nothing_and_one_size_make_no_growth(measured):
    for sizes in ((), ((3, 40),)):
        assert "<h2>Growth</h2>" not in measured(*sizes).page


def test_two_sizes_of_a_week_are_too_few_days(measured):
    text = measured((8, 40), (1, 44)).text
    assert "40 mm on" in text and "44 mm on" in text
    assert "2 measurements over 7 days: no rate is told of fewer than 14 days." in text


def test_a_change_within_the_error_of_measuring_is_no_growth(measured):
    """A size is good to 1 mm: 40 and 41 mm may be the same."""
    assert "2 measurements over 60 days: the change is smaller than the error of measuring." in measured(
        (61, 40), (1, 41)).text  # fmt: skip


def test_growth_with_its_error_its_doubling_and_the_measurements_beside_it(measured):
    """30 to 42.43 mm across in 60 days: the area of the disc doubles in 60 days, 41.4 % in 30 days.

    Its error: 1 mm of 35.68 is 5.6 % of the area; over the root of Sxx, 42.4 days, that is 0.00132 a day; times
    30 days, 1.414 and 1.96 that is 11 %.
    """
    staff = measured((61, 30), (31, 35.68), (1, 42.43))
    assert "30 mm on" in staff.text and "42 mm on" in staff.text
    assert "41.4 % in 30 days , give or take 11, from 3 sizes taken as discs over 60 days" in staff.text
    assert "it doubles in 60 days" in staff.text
    rows = staff.find(r"<summary>The measurements</summary>(.*?)</details>")
    assert [size for size in ("42 mm", "36 mm", "30 mm") if f">{size}<" in rows] == ["42 mm", "36 mm", "30 mm"]


def test_a_typing_error_is_asked_about_and_kept_when_it_is_meant(measured):
    staff = measured((61, 30), (1, 42))
    staff.send("/measure", measure__size_mm="420")
    assert staff.status == 422
    # 42 mm yesterday: 1 mm is 4.8 % of the area, twice allowed for; 8 % of growth: 42 x the root of 1.095 x 1.080.
    assert re.search(r"It was 42.mm on [^;]*; by now 13.3 to 45.7.mm would be likely.", staff.text)
    assert 'value="420"' in staff.page and "Yes, I mean it" in staff.text
    staff.send("/measure", measure__meant="y")
    assert staff.status == 200 and "Size noted." in staff.text
