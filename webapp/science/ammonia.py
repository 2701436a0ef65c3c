"""Un-ionised (free) ammonia: the share of total ammonia that harms fish."""

from webapp.science.nutrients import ion_from_element
from webapp.science.ranges import within

PH_NBS = (7.0, 9.0)
TEMP_C = (5.0, 35.0)
SALINITY = (5.0, 42.0)


def free_ammonia_fraction(ph_nbs: float, temp_c: float, salinity: float) -> float:
    """Share (0 to 1) of total ammonia present as NH3, at a buffer-set (NBS) pH.

    Range: pH 7 to 9, 5 to 35 °C, salinity 5 to 42; tabulated for pH 7.5 to 8.5, 10 to 25 °C, 18 to 40. Equation:
    1 / (1 + 10^(pKa - pH)), pKa = 0.0901821 + 2729.92/(t + 273.2) + (0.1552 - 0.0003142 t) I,
    I = 19.973 S / (1000 - 1.2005109 S). Within 1.5 % of the printed table; an independent model on the total scale
    agrees within 10 % once the pH is converted, so show 15 %. Never feed it a total-scale pH.
    Source: bower_bidwell_1978; khoo_1977 (salt term); clegg_whitfield_1995 (second opinion).
    """
    t = within("temp_c", temp_c, *TEMP_C)
    s = within("salinity", salinity, *SALINITY)
    strength = 19.973 * s / (1000 - 1.2005109 * s)
    pka = 0.0901821 + 2729.92 / (t + 273.2) + (0.1552 - 0.0003142 * t) * strength
    return 1 / (1 + 10 ** (pka - within("ph_nbs", ph_nbs, *PH_NBS)))


def free_ammonia_mg_l(total_mg_l_n: float, ph_nbs: float, temp_c: float, salinity: float) -> float:
    """Un-ionised ammonia in mg NH3 per litre, of total ammonia in mg N per litre.

    Range: total 0 to 100 mg/L, else as `free_ammonia_fraction`. Equation: total · fraction · M(NH3)/M(N).
    Source: bower_bidwell_1978; iupac_2021.
    """
    total = ion_from_element("nh3", within("total_mg_l_n", total_mg_l_n, 0, 100))
    return total * free_ammonia_fraction(ph_nbs, temp_c, salinity)
