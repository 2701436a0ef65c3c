import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import dosing

salts = st.sampled_from(list(dosing.SALTS))
STATE = {"alk_dkh": 8.0, "ph_nbs": 8.2, "salinity": 35.0, "temp_c": 25.0}


@given(salt=salts, volume_l=st.floats(1, 5000), rise=st.floats(0.01, 19), purity=st.floats(0.5, 1))
def test_there_and_back(salt, volume_l, rise, purity):
    grams = dosing.dose_g(salt, volume_l, rise, purity=purity)
    assert dosing.rise_from_dose(salt, volume_l, grams, purity=purity) == pytest.approx(rise)


@given(salt=salts, volume_l=st.floats(1, 5000), rise=st.floats(0, 9))
def test_a_dose_is_in_proportion_to_volume_and_rise(salt, volume_l, rise):
    grams = dosing.dose_g(salt, volume_l, rise)
    assert dosing.dose_g(salt, 2 * volume_l, rise) == pytest.approx(2 * grams)
    assert dosing.dose_g(salt, volume_l, 2 * rise) == pytest.approx(2 * grams)
    assert dosing.dose_g(salt, volume_l, rise, purity=0.5) == pytest.approx(2 * grams)


def test_carbonate_does_in_one_mole_what_bicarbonate_does_in_two():
    ratio = dosing.dose_g("sodium_carbonate", 100, 1) / dosing.dose_g("sodium_bicarbonate", 100, 1)
    assert ratio == pytest.approx(105.988 / (2 * 84.007), rel=1e-4)


def test_bicarbonate_lowers_ph_a_little_and_carbonate_raises_it():
    after = {}
    for salt in ("sodium_bicarbonate", "sodium_carbonate"):
        grams = dosing.dose_g(salt, 100, 1)
        after[salt] = dosing.side_effects(salt, 100, grams, **STATE).ph_nbs_after
    assert 8.1 < after["sodium_bicarbonate"] < 8.2
    assert 8.2 < after["sodium_carbonate"] < 8.6


@pytest.mark.parametrize("salt", ["calcium_chloride_dihydrate", "magnesium_chloride_hexahydrate"])
def test_chlorides_leave_chloride_and_no_sodium_and_say_nothing_on_ph(salt):
    effects = dosing.side_effects(salt, 100, 20, **STATE)
    assert effects.chloride_mg_l > 0
    assert effects.sodium_mg_l == 0
    assert effects.ph_nbs_after is None


@given(salt=salts, grams=st.floats(1, 30))
def test_whatever_is_dissolved_raises_salinity_by_no_more_than_its_mass(salt, grams):
    effects = dosing.side_effects(salt, 100, grams, **STATE)
    assert 0 < effects.salinity_rise < grams / 100
    ions = effects.sodium_mg_l + effects.chloride_mg_l
    assert 0 < ions < grams * 10


def test_no_dose_has_no_effect():
    effects = dosing.side_effects("sodium_carbonate", 100, 0, **STATE)
    assert effects.salinity_rise == pytest.approx(0, abs=1e-12)
    assert effects.ph_nbs_after == pytest.approx(8.2)


def test_every_salt_says_what_to_keep_it_apart_from():
    for salt in dosing.SALTS.values():
        assert any(caution.startswith("apart_from_") for caution in salt.cautions)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: dosing.dose_g("salt", 100, 1), "salt"),
        (lambda: dosing.dose_g("sodium_carbonate", 0, 1), "volume_l"),
        (lambda: dosing.dose_g("sodium_carbonate", 100, -1), "rise"),
        (lambda: dosing.dose_g("sodium_carbonate", 100, 25), "rise"),
        (lambda: dosing.dose_g("sodium_carbonate", 100, 1, purity=95), "purity"),
        (lambda: dosing.rise_from_dose("sodium_carbonate", 100, -1), "grams"),
        (lambda: dosing.calcium_used_mg_l(-1), "alk_used_dkh"),
        (lambda: dosing.side_effects("salt", 100, 1, **STATE), "salt"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
