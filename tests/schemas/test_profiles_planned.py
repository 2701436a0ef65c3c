"""The shipped profiles can be planned for: every kind's bands, from any water that a home tank may hold."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from webapp.fit.aims import NUTRIENTS
from webapp.fit.doses import NewWater
from webapp.fit.schedule import build
from webapp.schemas.profiles import load_profiles

RANGES = {
    "temp": (18, 31),
    "salinity": (24, 41),
    "alk": (3, 16),
    "ca": (220, 650),
    "mg": (750, 1900),
    "no3": (0, 150),
    "po4": (0, 1.5),
}
kinds = st.sampled_from(sorted(load_profiles()))
waters = st.fixed_dictionaries({}, optional={name: st.floats(*span) for name, span in RANGES.items()})


@settings(max_examples=300, deadline=None)
@given(kinds, waters)
@example(
    "entacmaea_quadricolor", {"temp": 18, "salinity": 38, "alk": 3, "ca": 513, "mg": 750, "no3": 0, "po4": 0}
)  # new water helps only once the salinity has come down
def test_any_water_can_be_brought_into_every_ideal_band_of_any_kind(key, water):
    bands = load_profiles()[key].bands
    mend = {name for name, value in water.items() if not bands[name].ideal_low <= value <= bands[name].ideal_high}
    schedule = build(water, bands, mend, 170, NewWater())
    noted = {note.values["quantity"] for note in schedule.left}
    for name, value in schedule.water.items():
        inside = bands[name].ideal_low - 1e-6 <= value <= bands[name].ideal_high + 1e-6
        assert inside or (name in NUTRIENTS and name in noted), (key, name, value, schedule.left)
    assert not any(note.code == "takes_too_long" for note in schedule.left)
