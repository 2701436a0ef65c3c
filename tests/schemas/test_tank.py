"""The buyer's tank through JSON: the same tank back, and errors that name their place."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from webapp.errors import BadInput
from webapp.fit.tank import BuyerTank, FlowSaid, LightSaid, Measured, Neighbour, PumpSaid
from webapp.schemas import choices
from webapp.schemas.tank import tank_from_json, tank_to_json
from webapp.schemas.tankmates import load_tankmates

AS_TYPED = {
    "readings": {
        "alk": {"value": 7.9, "unit": "dkh", "method": "drop_kit"},
        "no3": [{"value": 5, "unit": "mg_l"}, {"value": 1.2, "unit": "mg_l_n"}],
    },
    "volume": {"value": 50, "unit": "gal_us"},
    "light": {"way": "fixture", "kind": "led_white", "watts": 30, "count": 2, "height_cm": 15, "hours": 9},
    "flow": {"way": "pumps", "pumps": [{"rated_l_h": 3000, "kind": "wave_wide", "count": 2}]},
    "tankmates": ["tang"],
    "neighbours": [{"key": "galaxea", "gap_cm": 12}],
    "swings": {"alk": 0.3},
    "open_pumps": False,
    "age_months": 14,
}


def test_a_tank_as_a_buyer_gives_it():
    tank = tank_from_json(AS_TYPED)
    assert tank.readings["alk"] == (Measured(7.9, "dkh", "drop_kit"),)
    assert tank.readings["no3"] == (Measured(5, "mg_l"), Measured(1.2, "mg_l_n"))
    assert tank.volume == Measured(50, "gal_us")
    assert tank.light == LightSaid("fixture", kind="led_white", watts=30, count=2, height_cm=15, hours=9)
    assert tank.flow == FlowSaid("pumps", (PumpSaid(3000, "wave_wide", 2),))
    assert (tank.tankmates, tank.neighbours) == (("tang",), (Neighbour("galaxea", 12),))
    assert (tank.open_pumps, tank.carbon, tank.age_months) == (False, None, 14)


def test_what_was_not_said_and_what_there_is_none_of_stay_apart():
    assert tank_from_json({}) == BuyerTank()
    assert tank_to_json(BuyerTank()) == {}
    assert tank_from_json({"tankmates": [], "neighbours": []}).tankmates == ()
    assert tank_to_json(BuyerTank(tankmates=())) == {"tankmates": []}


def measured(quantity):
    return st.builds(
        Measured,
        st.floats(-1e6, 1e6),
        st.sampled_from(choices.UNIT_KEYS[quantity]),
        st.sampled_from(("", *choices.METHOD_KEYS.get(quantity, ()))),
    )


def maybe(strategy):
    return st.none() | strategy


size = st.floats(0, 200)
lights = st.builds(
    LightSaid,
    st.sampled_from(("meter", "lux", "fixture", "words")),
    par=maybe(size),
    lux=maybe(size),
    depth_cm=maybe(size),
    corrected_for_water=maybe(st.booleans()),
    colour=st.sampled_from(("", *choices.LUX_COLOURS)),
    instrument=st.sampled_from(("", *choices.INSTRUMENTS)),
    kind=st.sampled_from(("", *choices.LAMP_KINDS)),
    count=st.integers(1, 24),
    watts=maybe(size),
    height_cm=maybe(size),
    hours=maybe(st.floats(0, 24)),
    word=st.sampled_from(("", *choices.LIGHT_WORDS)),
)
pumps = st.builds(PumpSaid, st.floats(1, 20000), st.sampled_from(choices.PUMP_KINDS), st.integers(1, 24))
flows = st.builds(
    FlowSaid,
    st.sampled_from(("pumps", "words", "meter")),
    st.lists(pumps, max_size=3).map(tuple),
    st.sampled_from(("", *choices.FLOW_WORDS)),
    maybe(size),
)
readings = st.fixed_dictionaries(
    {}, optional={q: st.lists(measured(q), min_size=1, max_size=3).map(tuple) for q in choices.READINGS}
)
tanks = st.builds(
    BuyerTank,
    readings=readings,
    volume=maybe(measured("volume")),
    length=maybe(measured("length")),
    width=maybe(measured("length")),
    height=maybe(measured("length")),
    light=maybe(lights),
    flow=maybe(flows),
    tankmates=maybe(st.lists(st.sampled_from(sorted(load_tankmates())), max_size=3).map(tuple)),
    neighbours=maybe(st.lists(st.builds(Neighbour, st.text(min_size=1), maybe(size)), max_size=3).map(tuple)),
    free_space_cm=maybe(size),
    age_months=maybe(size),
    feeding_days_per_week=maybe(st.floats(0, 7)),
    summer_high=maybe(measured("temp")),
    carbon=maybe(st.booleans()),
    open_pumps=maybe(st.booleans()),
    swings=st.dictionaries(st.sampled_from(choices.READINGS), size, max_size=3),
    answers=st.frozensets(st.text(max_size=80), max_size=5),
)


@settings(max_examples=150, deadline=None)
@given(tanks)
def test_any_tank_comes_back_the_same_through_json(tank):
    assert tank_from_json(json.loads(json.dumps(tank_to_json(tank)))) == tank


@pytest.mark.parametrize(
    ("form", "path", "word"),
    [
        ({"readings": {"alk": {"value": "x", "unit": "dkh"}}}, "readings.alk.value", "valid number"),
        ({"readings": {"alk": {"value": 7}}}, "readings.alk.unit", "required"),
        ({"readings": {"alk": {"value": 7, "unit": "mg_l"}}}, "readings.alk.unit", "dkh, meq_l, ppm_caco3"),
        ({"readings": {"alk": {"value": 7, "unit": "dkh", "method": "guess"}}}, "readings.alk.method", "drop_kit"),
        ({"readings": {"ca": [{"value": 4, "unit": "mg_l"}, {"value": 4, "unit": "zz"}]}}, "readings.ca.1.unit", "zz"),
        ({"readings": {"iron": {"value": 7, "unit": "mg_l"}}}, "readings.iron", "Unknown"),
        ({"readings": {"mg": 1300}}, "readings.mg", "Invalid input"),
        ({"volume": {"value": float("nan"), "unit": "l"}}, "volume.value", "nan"),
        ({"volume": {"value": True, "unit": "l"}}, "volume.value", "valid number"),
        ({"volume": {"value": 5, "unit": "cm"}}, "volume.unit", "gal_us"),
        ({"light": {"way": "sun"}}, "light.way", "meter, lux, fixture, words"),
        ({"light": {"way": "fixture", "kind": "torch"}}, "light.kind", "led_white"),
        ({"flow": {"way": "pumps", "pumps": [{"kind": "return"}]}}, "flow.pumps.0.rated_l_h", "required"),
        ({"tankmates": ["tang", "cat"]}, "tankmates.1", "cat"),
        ({"swings": {"alk": -1}}, "swings.alk", "greater"),
        ({"colour": "blue"}, "colour", "Unknown"),
    ],
)
def test_an_error_names_its_path_and_what_could_be_chosen(form, path, word):
    with pytest.raises(BadInput) as refused:
        tank_from_json(form)
    assert refused.value.field == path
    assert f"{path}: " in str(refused.value)
    assert word in str(refused.value)


def test_every_wrong_place_is_named_at_once():
    with pytest.raises(BadInput) as refused:
        tank_from_json({"light": {"way": "sun"}, "age_months": "old", "readings": {"mg": {"value": 1, "unit": "x"}}})
    for path in ("light.way", "age_months", "readings.mg.unit"):
        assert f"{path}: " in str(refused.value)


@pytest.mark.parametrize("form", [[1], 3, "tank", None])
def test_what_is_no_object_is_refused(form):
    with pytest.raises(BadInput, match="the tank"):
        tank_from_json(form)


@pytest.mark.parametrize(
    ("quantity", "spelling", "key"),
    [
        ("alk", "dKH", "dkh"),
        ("temp", "°C", "c"),
        ("no3", "mg/L NO3-N", "mg_l_n"),
        ("po4", "mg_l_unsure", "mg_l_unsure"),
    ],
)
def test_a_unit_may_be_written_as_its_label(quantity, spelling, key):
    tank = tank_from_json({"readings": {quantity: {"value": 1, "unit": spelling}}})
    assert tank.readings[quantity][0].unit == key


def test_a_gravity_without_its_reference_is_not_guessed():
    """The same number read on two stems differs by up to four ppt (TEOS-10): the reference must be chosen."""
    with pytest.raises(BadInput, match="sg_25, sg_20, sg_60f"):
        tank_from_json({"readings": {"salinity": {"value": 1.025, "unit": "sg"}}})
