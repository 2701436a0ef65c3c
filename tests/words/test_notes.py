"""Every code that the check and its plans can emit has a sentence, filled by the values that its table names."""

import re

import pytest

from tests.words.making import KINDS, MATE_NAMES, speaker
from webapp.fit import codes, plan_codes
from webapp.fit.findings import Finding, Note
from webapp.fit.plan_codes import ACTIONS
from webapp.words.notes import CHECK, PLANS, note_sentence
from webapp.words.places import SALTS
from webapp.words.plans import DEEDS, TITLES
from webapp.words.questions import TEXTS
from webapp.words.sentences import every_form

PLACE = re.compile(r"%\((\w+)\)s")
DERIVED = {"ideal": {"ideal_low", "ideal_high"}, "limits": {"limit_low", "limit_high"}, "range": {"low", "high"}}
NOTED = {code: entry for code, entry in codes.ALL.items() if code not in codes.QUESTIONS}
PLANNED = {code: entry for code, entry in plan_codes.ALL.items() if code not in ACTIONS}
BOTH = [(CHECK, code, NOTED[code]) for code in NOTED] + [(PLANS, code, PLANNED[code]) for code in PLANNED]

#: A value for every name, of the kind that the check gives it.
WORDS = {
    "quantity": "alk", "other": "no3", "factors": ("alk", "light"), "tankmates": (sorted(MATE_NAMES)[0],),
    "tankmate": sorted(MATE_NAMES)[0], "neighbour": sorted(KINDS)[0], "method": "drop_kit", "group": "sps",
    "salt": "sodium_bicarbonate", "verdict": "close", "note": "stings", "appendix": "II", "placement": "middle",
    "carbon": None, "what": "open", "volume_l": 90.0,
}  # fmt: skip
CASES = {"way": ("fixture", "lux", "words"), "verdict": ("close", "change_first", "not_here"),
         "placement": ("upper", "middle", "lower", "anywhere"), "what": ("open", "water", "spot", "compare"),
         "factor": ("light", "flow"), "difference": (2.0, -2.0), "carbon": (None, True), "volume_l": (None, 90.0),
         "days": (1, 3), "needs_days": (1, 3), "count": (1, 3), "n": (1, 3), "note": ("may carry palytoxin", "stings"),
         "goal_mol": (1.0, 9.0), "age_months": (0.0, 1.0, 8.0), "hours": (1, 2), "wait_months": (1.0, 3.0)}  # fmt: skip
LIGHT_STEPS = ("dimmer", "move")
FINDING = Finding("alk", "close", ())


def sample(code: str, name: str):
    if name == "factor" and code in ("more_light", "more_flow"):
        return 1.5
    if name == "way" and code in ("light_step", "final_spot_on_day"):
        return "move"
    return WORDS.get(name, CASES[name][0] if name in CASES else 7.5)


def variants(code: str, names: tuple[str, ...]):
    plain = {name: sample(code, name) for name in names}
    yield plain
    for name in names:
        if name == "volume_l" and "carbon" not in names:
            continue
        options = LIGHT_STEPS if plain[name] in LIGHT_STEPS else CASES.get(name, ())
        if isinstance(plain[name], float) and name == "factor":
            options = ()
        for option in options:
            yield {**plain, name: option}


@pytest.mark.parametrize(("table", "code", "entry"), BOTH, ids=lambda part: part if isinstance(part, str) else "")
def test_every_code_has_a_sentence_whose_places_its_values_fill(table, code, entry):
    allowed = set(entry.values) | {name for name, needs in DERIVED.items() if needs <= set(entry.values)}
    for form in every_form(table[code]):
        assert set(PLACE.findall(form)) <= allowed
        assert form.endswith(".")


@pytest.mark.parametrize(("table", "code", "entry"), BOTH, ids=lambda part: part if isinstance(part, str) else "")
def test_every_sentence_can_be_said(table, code, entry):
    for values in variants(code, entry.values):
        said = note_sentence(Note(code, values), speaker(), FINDING)
        assert said.endswith(".")
        assert "%(" not in said and "None" not in said
        assert said[0] == said[0].upper() or said.startswith("pH")


def test_no_sentence_is_for_a_code_that_nothing_emits():
    assert set(CHECK) == set(NOTED)
    assert set(PLANS) == set(PLANNED)


def test_every_question_and_every_deed_has_its_words():
    assert set(codes.QUESTIONS) <= set(TEXTS)
    assert set(ACTIONS) == (set(DEEDS) - {"warmer", "cooler"}) | set(TITLES)
    assert set(SALTS) >= {action for action in ACTIONS if action in DEEDS and action not in TITLES}


@pytest.mark.parametrize("code", ["", "no_such_code", "IN_IDEAL"])
def test_an_unknown_code_is_an_error(code):
    with pytest.raises(KeyError):
        note_sentence(Note(code), speaker())


def test_a_missing_value_is_an_error_not_a_hole():
    with pytest.raises(KeyError):
        note_sentence(Note("make_room"), speaker())


def test_test_again_is_told_apart_by_its_values():
    reading = note_sentence(Note("test_again", {"method": "laboratory", "half_range": 0.1}), speaker(), FINDING)
    caution = note_sentence(Note("test_again", {"quantity": "alk", "target": 8.0}), speaker())
    assert reading == "Test again. This would settle it: laboratory test, good to 0.1 dKH."
    assert caution == "Test before each next step, and stop at 8 dKH."


def test_nothing_anywhere_tells_anybody_to_dose_for_ph():
    for sentence in (*CHECK.values(), *PLANS.values()):
        for form in every_form(sentence):
            if "dose" in form.lower() and "pH" in form:
                assert form.startswith(("Do not dose anything for pH", "Nothing is dosed for pH"))


def test_a_shops_own_note_may_end_with_a_stop_and_hold_a_percent_sign():
    said = note_sentence(Note("safety_handling", {"note": "sharp: rinse with 3% peroxide."}), speaker())
    assert said == "Sharp: rinse with 3% peroxide. Wear gloves, and wash your hands afterwards."


@pytest.mark.parametrize(("cm_s", "seen"), [(2, "almost still"), (3, "sway"), (8, "wave"), (15, "bent"), (40, "bent")])
def test_a_speed_is_told_by_what_can_be_seen(cm_s, seen):
    """The words of the form, by the speeds that they stand for."""
    assert seen in note_sentence(Note("flow_low_first", {"flow_cm_s": float(cm_s)}), speaker())
