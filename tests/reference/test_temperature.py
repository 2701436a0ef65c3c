"""Heat stress against worked examples of the coral reef watch method (Skirving et al. 2020)."""

import pytest

from tests.reference.deviations import record
from webapp.science.temperature import degree_heating_weeks, stress_level

MMM = 27.0


@pytest.mark.parametrize(
    ("hotspots", "published"),
    [([1.0, 2.0, 0.8, 1.2], 0.6), ([2.0] * 7, 2.0), ([1.0] * 14, 2.0), ([1.0] * 28, 4.0), ([0.9] * 56, 0.0)],
)
def test_degree_heating_weeks(hotspots, published):
    # Worked example and equivalences published with the method: one week at 2 °C counts as two weeks at 1 °C.
    ours = degree_heating_weeks([MMM + spot for spot in hotspots], MMM)
    record("Degree heating weeks, °C-weeks", "NOAA Coral Reef Watch method, worked examples", ours, published, 1e-9)


@pytest.mark.parametrize(
    ("hotspot", "weeks", "published"),
    [
        (0.0, 9.0, "none"),
        (0.5, 9.0, "watch"),
        (1.0, 3.9, "warning"),
        (1.0, 4.0, "alert_1"),
        (2.0, 7.9, "alert_1"),
        (1.5, 8.0, "alert_2"),
    ],
)
def test_levels_as_published(hotspot, weeks, published):
    # Skirving et al. 2020, table of stress levels.
    assert stress_level(hotspot, weeks) == published
