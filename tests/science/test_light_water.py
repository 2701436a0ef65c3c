import pytest

from webapp.science.light_water import WATER_K_PER_M, attenuation_per_m


@pytest.mark.parametrize("colour", WATER_K_PER_M)
def test_tint_takes_more_and_not_knowing_is_wider(colour):
    clear, yellow, unknown = (attenuation_per_m(colour, water) for water in ("clear", "yellow", None))
    assert clear.mid < unknown.mid < yellow.mid
    assert unknown.high - unknown.low > clear.high - clear.low


def test_clear_water_takes_white_before_blue_and_tint_turns_that_round():
    assert attenuation_per_m("blue", "clear").mid < attenuation_per_m("white", "clear").mid
    assert attenuation_per_m("blue", "yellow").mid > attenuation_per_m("white", "yellow").mid


def test_refusals_name_the_argument():
    with pytest.raises(ValueError, match="colour"):
        attenuation_per_m("pink")
    with pytest.raises(ValueError, match="water"):
        attenuation_per_m("blue", "green")
