"""Water changes and salinity corrections against integration by scipy and balances with the EOS-80 library."""

import warnings

import numpy
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tests.reference.deviations import record
from webapp.science import dilution

with warnings.catch_warnings():  # the EOS-80 library warns on import that it is superseded; that is why it is the check
    warnings.filterwarnings("ignore", message="The seawater library is deprecated", category=UserWarning)
    import seawater

EOS80 = "mass balance with EOS-80 densities (seawater 3.3), scipy brentq"


def kg(litres, salinity, temp_c):
    return litres * float(seawater.dens0(salinity, temp_c)) / 1000


@pytest.mark.parametrize(("fraction", "times"), [(0.1, 5), (0.2, 4), (0.25, 3), (0.5, 1)])
def test_repeated_changes_as_a_geometric_series(fraction, times):
    # What is left of the old water is a term of a geometric progression, here by logarithms in numpy.
    left = float(numpy.exp(times * numpy.log1p(-fraction)))
    ours = dilution.after_water_change(20, 2, fraction, times)
    record("Concentration after water changes", "geometric series (numpy)", ours, 2 + 18 * left, 1e-9)


@pytest.mark.parametrize("litres", [25, 100, 300])
def test_continuous_exchange_by_integration(litres):
    solved = solve_ivp(lambda v, c: (2 - c) / 100, (0, litres), [20.0], rtol=1e-11, atol=1e-12)
    ours = dilution.after_continuous_exchange(20, 2, litres, 100)
    record("Concentration in continuous exchange", "scipy solve_ivp", ours, solved.y[0, -1], 1e-7)


@pytest.mark.parametrize(
    ("volume", "now", "target", "new", "temp_c"),
    [(100, 36, 35, 0, 25), (200, 38, 35, 0, 25), (200, 33, 35, 40, 25), (200, 34, 35, 38, 26), (500, 30, 32, 45, 20)],
)
def test_litres_to_swap(volume, now, target, new, temp_c):
    def miss(litres):
        old, fresh = kg(volume - litres, now, temp_c), kg(litres, new, temp_c)
        return (old * now + fresh * new) / (old + fresh) - target

    theirs = brentq(miss, 0, volume)
    ours = dilution.litres_to_swap(volume, now, target, new, temp_c)
    record("Water to swap for a salinity, L", EOS80, ours, theirs, 1e-4, relative=True)


@pytest.mark.parametrize(("volume", "now", "target", "temp_c"), [(100, 33, 35, 25), (200, 34, 35, 26), (50, 0, 35, 25)])
def test_salt_to_raise(volume, now, target, temp_c):
    per_unit = 35.16504 / 35 / 1000  # Millero et al. 2008
    water = kg(volume, now, temp_c) * 1000

    def miss(grams):
        return (water * now * per_unit + grams) / (water + grams) - target * per_unit

    ours = dilution.salt_to_raise_g(volume, now, target, temp_c)
    record("Dry salt to raise salinity, g", EOS80, ours, brentq(miss, 0, 1e5), 1e-4, relative=True)


def test_evaporation_by_integration():
    # Salt stays while 5 L of water leave 200 L: dS/dm = S / m as mass is lost.
    start = kg(200, 35, 25)
    solved = solve_ivp(lambda m, s: s / (start - m), (0, kg(5, 0, 25)), [35.0], rtol=1e-11, atol=1e-12)
    ours = dilution.salinity_after_evaporation(200, 35, 5, 25)
    record("Salinity after evaporation", "scipy solve_ivp with EOS-80 densities", ours, solved.y[0, -1], 1e-4)


def test_number_of_changes_by_counting():
    for fraction in (0.1, 0.15, 0.2, 0.33):
        level, count = 20.0, 0
        while level > 5:
            level, count = level * (1 - fraction), count + 1
        ours = dilution.water_changes_needed(20, 5, 0, fraction)
        record("Number of water changes", "counted one by one", ours, count, 0)


def test_one_volume_leaves_one_part_in_e():
    ours = dilution.after_continuous_exchange(1, 0, 100, 100)
    record("What is left after one volume", "1/e", ours, 1 / numpy.e, 1e-12)
