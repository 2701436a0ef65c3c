"""The growth rate against a certified regression of NIST and against scipy."""

import numpy
import scipy.stats

from tests.reference.deviations import record
from webapp.science.growth import specific_growth_rate

# NIST StRD, linear regression, dataset Norris (public domain): (x, y).
NORRIS = [
    (0.2, 0.1), (337.4, 338.8), (118.2, 118.1), (884.6, 888.0), (10.1, 9.2), (226.5, 228.1), (666.3, 668.5),
    (996.3, 998.5), (448.6, 449.1), (777.0, 778.9), (558.2, 559.2), (0.4, 0.3), (0.6, 0.1), (775.5, 778.1),
    (666.9, 668.8), (338.0, 339.3), (447.5, 448.9), (11.6, 10.8), (556.0, 557.7), (228.1, 228.3), (995.8, 998.0),
    (887.6, 888.8), (120.2, 119.6), (0.3, 0.3), (0.3, 0.6), (556.8, 557.6), (339.1, 339.3), (887.2, 888.0),
    (999.0, 998.5), (779.0, 778.9), (11.1, 10.2), (118.3, 117.6), (229.2, 228.9), (669.1, 668.4), (448.9, 449.2),
    (0.5, 0.2),
]  # fmt: skip
NORRIS_SLOPE, NORRIS_STANDARD_ERROR = 1.00211681802045, 0.429796848199937e-03

DAYS, AREAS = [0, 30, 60, 90, 120], [10, 11.8, 13.9, 16.5, 19.4]


def test_rate_and_error_of_a_colony():
    theirs = scipy.stats.linregress(DAYS, numpy.log(AREAS))
    ours = specific_growth_rate(DAYS, AREAS, reading_error=0)
    record("Specific growth rate, 1/day", "scipy linregress", ours.per_day, theirs.slope, 1e-9)
    record("Standard error of the growth rate, 1/day", "scipy linregress", ours.se_per_day, theirs.stderr, 1e-9)


def test_certified_regression():
    # The logarithm of a size takes the place of y; scaled by 1000, since e^998 is no size.
    points = sorted(NORRIS)
    ours = specific_growth_rate([x for x, _ in points], [numpy.exp(y / 1000) for _, y in points], reading_error=0)
    record("Slope of a regression", "NIST StRD Norris", ours.per_day * 1000, NORRIS_SLOPE, 1e-10)
    record("Standard error of a regression", "NIST StRD Norris", ours.se_per_day * 1000, NORRIS_STANDARD_ERROR, 1e-10)
