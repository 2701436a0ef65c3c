"""pH of sea water: from the scale of a probe set in NBS buffers to the total scale of the equations, and back."""

from math import log10

from webapp.science.equilibria import bisulfate, hydrogen_fluoride, total_fluoride, total_sulfate
from webapp.science.ranges import within

PH = (4.5, 11.5)


def nbs_minus_total(salinity: float, temp_c: float) -> float:
    """How much a buffer-set (NBS) probe reads above the total scale; about 0.137 at 35 and 25 °C.

    Range: salinity 19 to 43, 2 to 35 °C. Equation: a(H, NBS) = fH · [H]sws with
    fH = 1.2948 - 0.002036 T + (0.0004607 - 0.000001475 T) S², and
    [H]sws/[H]total = (1 + TS/KS + TF/KF) / (1 + TS/KS). fH contains the liquid junction of the electrode, so expect
    0.02 to 0.05 between probes. Source: takahashi_1982; dickson_1990_bisulfate; dickson_riley_1979.
    """
    sulfate = total_sulfate(salinity) / bisulfate(salinity, temp_c)
    fluoride = total_fluoride(salinity) / hydrogen_fluoride(salinity, temp_c)
    t = temp_c + 273.15
    f_h = 1.2948 - 0.002036 * t + (0.0004607 - 0.000001475 * t) * salinity**2
    return -log10(f_h * (1 + sulfate + fluoride) / (1 + sulfate))


def total_from_nbs(ph_nbs: float, salinity: float, temp_c: float) -> float:
    """pH on the total scale of a buffer-set reading `ph_nbs`.

    Range: pH 4.5 to 11.5, salinity 19 to 43, 2 to 35 °C. Equation: minus `nbs_minus_total`. Source: takahashi_1982.
    """
    return within("ph_nbs", ph_nbs, *PH) - nbs_minus_total(salinity, temp_c)


def nbs_from_total(ph_total: float, salinity: float, temp_c: float) -> float:
    """What a buffer-set (NBS) probe reads in water of `ph_total`.

    Range: pH 4.5 to 11.5, salinity 19 to 43, 2 to 35 °C. Equation: plus `nbs_minus_total`. Source: takahashi_1982.
    """
    return within("ph_total", ph_total, *PH) + nbs_minus_total(salinity, temp_c)
