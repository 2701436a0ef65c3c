"""Packing against the trade's table of journeys (common practice): one step either side of each limit."""

from datetime import UTC, datetime, timedelta

import pytest

from tests.services.today.making import Shop
from webapp.schemas.profiles import load_profiles
from webapp.services.selling_bag import judge_bag, unready
from webapp.services.thresholds import DEFAULTS
from webapp.storage.base import new_id
from webapp.storage.specimen import SpecimenRow

NOW = datetime(2026, 5, 9, 12, 0, tzinfo=UTC)
KINDS = load_profiles()
HARDY = [KINDS["discosoma"]]
TENDER = [next(kind for kind in KINDS.values() if kind.hardiness >= 4)]


@pytest.mark.parametrize(
    ("case", "hours", "carry"),
    [
        ("air", 2.0, True), ("air", 2.1, False),
        ("insulated_air", 8.0, True), ("insulated_air", 8.1, False),
        ("insulated_oxygen", 18.0, True), ("insulated_oxygen", 18.1, False),
        ("freight", 24.0, True), ("freight", 36.0, True), ("freight", 36.1, False),
    ],
)  # fmt: skip
def test_each_packing_bears_its_hours_and_no_more(case, hours, carry):
    assert judge_bag(case, hours, None, TENDER, DEFAULTS, NOW).carry is carry


def test_the_time_until_which_it_is_safe_is_counted_from_packing():
    assert judge_bag("air", 1.0, None, HARDY, DEFAULTS, NOW).safe_until == NOW + timedelta(hours=2)


def test_a_freight_box_beyond_its_hours_is_carried_with_a_warning():
    answer = judge_bag("freight", 24.1, None, TENDER, DEFAULTS, NOW)
    assert [code for code, _ in answer.reasons] == ["longer_than_usual"]


def test_only_hardy_kinds_travel_longer_than_that():
    assert judge_bag("freight", 40.0, None, HARDY, DEFAULTS, NOW).carry
    refused = judge_bag("freight", 40.0, None, HARDY + TENDER, DEFAULTS, NOW)
    assert not refused.carry
    assert refused.reasons[0][1]["names"] == TENDER[0].trade_name


def test_a_refusal_names_the_packing_that_would_do():
    assert judge_bag("air", 8.0, None, HARDY, DEFAULTS, NOW).better == "insulated_air"
    assert judge_bag("air", 18.0, None, HARDY, DEFAULTS, NOW).better == "insulated_oxygen"
    assert judge_bag("insulated_oxygen", 20.0, None, HARDY, DEFAULTS, NOW).better == "freight"


@pytest.mark.parametrize(("outside", "carry"), [(22.0, True), (21.9, False), (27.0, True), (27.1, False)])
def test_a_plain_bag_is_refused_where_it_is_too_cold_or_too_hot_outside(outside, carry):
    assert judge_bag("air", 1.0, outside, HARDY, DEFAULTS, NOW).carry is carry


def test_an_insulated_box_goes_out_into_the_cold_with_a_word_about_it():
    answer = judge_bag("insulated_air", 1.0, 2.0, HARDY, DEFAULTS, NOW)
    assert answer.carry
    assert [code for code, _ in answer.reasons] == ["keep_box"]


@pytest.mark.parametrize(("hours", "said"), [(-24, False), (-23.9, True), (0, True), (0.1, False)])
def test_food_within_24_hours_before_the_bag_is_said_and_what_was_fed_afterwards_is_not(stage, hours, said):
    shop = Shop(stage)
    lps = shop.animal(profile_key=next(key for key, kind in KINDS.items() if kind.group == "lps"))
    packed = shop.start + timedelta(days=3)
    fed = {"tank_id": stage.tank, "food": "meaty"}
    shop.tell((new_id(), "fed", fed, packed + timedelta(hours=hours)))
    with stage.database.reading() as session:
        told = unready(session, [session.get_one(SpecimenRow, lps)], KINDS, packed)
    assert bool(told) is said
