"""Development of the Acropora flatworm against its published generation times."""

import pytest

from webapp.science.flatworm import slowdown, stretched_days


@pytest.mark.parametrize(("temp_c", "days"), [(27, 38), (24, 64)])
def test_generation_times_of_barton_2019(temp_c, days):
    assert stretched_days(38, temp_c) == pytest.approx(days)


def test_warmer_is_faster_and_outside_the_study_the_nearer_end_counts():
    assert slowdown(21) > slowdown(24) > slowdown(25.5) > 1 > slowdown(30)
    assert stretched_days(11, 19) == stretched_days(11, 21)
    assert stretched_days(11, 33) == stretched_days(11, 30)
    with pytest.raises(ValueError, match="temp_c"):
        slowdown(20.9)
