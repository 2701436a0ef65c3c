"""The report through JSON: complete, plain, and the same report back."""

import json
from dataclasses import fields as parts_of

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from webapp.fit import findings as found
from webapp.fit.profile import Band, Basis
from webapp.schemas import report as shapes
from webapp.schemas.report import report_from_json, report_to_json
from webapp.science.interval import Interval

numbers = st.floats(-1e6, 1e6)
words = st.text(max_size=8)
plain = st.one_of(numbers, st.integers(-1000, 1000), words, st.booleans(), st.none())
values = st.dictionaries(words, plain | st.lists(plain, max_size=3).map(tuple), max_size=3)
notes = st.builds(found.Note, words, values)


def many(strategy):
    return st.lists(strategy, max_size=2).map(tuple)


def maybe(strategy):
    return st.none() | strategy


def ordered(n, kind):
    return st.lists(numbers, min_size=n, max_size=n).map(lambda xs: kind(*sorted(xs)))


bases = st.builds(Basis, st.sampled_from(("published", "common_practice", "memory", "this_shop")), words, words)
bands = st.builds(lambda band, basis: Band(*band, basis), ordered(4, lambda *x: x), bases)
intervals = ordered(3, Interval)
steps = st.builds(found.Step, st.integers(0, 400), words, numbers, words, st.dictionaries(words, numbers, max_size=2))
plans = st.builds(found.Plan, words, numbers, words, st.integers(0, 400), numbers, many(steps), many(notes))
verdicts = st.sampled_from(found.ORDER)
factor_findings = st.builds(
    found.Finding, words, verdicts, many(notes), st.booleans(), st.booleans(), maybe(intervals), maybe(bands), words,
    maybe(numbers), many(bases), many(notes), maybe(plans),
)  # fmt: skip
spots = st.builds(
    found.Spot,
    words,
    maybe(numbers),
    maybe(st.tuples(numbers, numbers)),
    maybe(intervals),
    maybe(intervals),
    many(notes),
)
questions = st.builds(found.Question, words, words, numbers, words, many(st.tuples(words, numbers, numbers)), values)
reports = st.builds(
    found.Report, words, st.integers(1, 9), verdicts, many(notes), many(factor_findings), many(questions), maybe(spots),
    many(words), many(steps), many(notes), many(notes), many(notes), many(notes), many(notes),
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(reports)
def test_any_report_comes_back_the_same_through_json(report):
    assert report_from_json(json.loads(json.dumps(report_to_json(report)))) == report


SHAPES = [
    shape
    for shape in vars(shapes).values()
    if isinstance(shape, type) and isinstance(getattr(shape, "makes", None), type)
]


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.__name__)
def test_no_field_of_the_check_is_left_out(shape):
    assert set(shape().fields) == {part.name for part in parts_of(shape.makes)}


def test_the_shapes_are_all_looked_at():
    assert {shape.makes.__name__ for shape in SHAPES} == {
        "Basis", "Band", "Interval", "Note", "Question", "Step", "Plan", "Spot", "Finding", "Report",
    }  # fmt: skip


def test_infinity_never_leaves_as_json():
    note = found.Step(0, "sodium_bicarbonate", float("inf"), "g")
    report = found.Report("key", 1, "suits", (), (), schedule=(note,))
    with pytest.raises(ValueError, match="Special numeric|JSON"):
        json.dumps(report_to_json(report), allow_nan=False)
