"""Equilibrium constants of sea water at atmospheric pressure, on the total hydrogen ion scale, mol/kg of sea water."""

from math import exp, log, log10, sqrt

from webapp.science.ranges import within

ZERO_C_K = 273.15
SALINITY = (19.0, 43.0)
TEMP_C = (2.0, 35.0)
CHLORINITY = 1 / 1.80655  # chlorinity of salinity 1


def _kelvin(salinity: float, temp_c: float) -> float:
    within("salinity", salinity, *SALINITY)
    return within("temp_c", temp_c, *TEMP_C) + ZERO_C_K


def co2_solubility(salinity: float, temp_c: float) -> float:
    """K0, mol/kg/atm, of CO2 against its fugacity.

    Range: salinity 19 to 43, 2 to 35 °C. Source: weiss_1974.
    """
    t, s = _kelvin(salinity, temp_c) / 100, salinity
    return exp(-60.2409 + 93.4517 / t + 23.3585 * log(t) + s * (0.023517 - 0.023656 * t + 0.0047036 * t * t))


def co2_fugacity_factor(temp_c: float) -> float:
    """Fugacity over partial pressure of CO2 in air at 1 atm.

    Range: 2 to 35 °C. Source: weiss_1974.
    """
    t = within("temp_c", temp_c, *TEMP_C) + ZERO_C_K
    b = -1636.75 + 12.0408 * t - 0.0327957 * t**2 + 3.16528e-5 * t**3
    delta = 57.7 - 0.118 * t
    gas_constant_cm3_bar, atmosphere_bar = 83.1451, 1.01325
    return exp((b + 2 * delta) * atmosphere_bar / (gas_constant_cm3_bar * t))


def carbonic_acid_k1_k2(salinity: float, temp_c: float) -> tuple[float, float]:
    """(K1, K2) of carbonic acid.

    Range: salinity 19 to 43, 2 to 35 °C. Source: lueker_2000.
    """
    t, s = _kelvin(salinity, temp_c), salinity
    k1 = -3633.86 / t + 61.2172 - 9.67770 * log(t) + 0.011555 * s - 0.0001152 * s * s
    k2 = -471.78 / t - 25.9290 + 3.16967 * log(t) + 0.01781 * s - 0.0001122 * s * s
    return 10**k1, 10**k2


def boric_acid(salinity: float, temp_c: float) -> float:
    """KB of boric acid.

    Range: salinity 19 to 43, 2 to 35 °C. Source: dickson_1990_boric.
    """
    t, s = _kelvin(salinity, temp_c), salinity
    root = sqrt(s)
    return exp(
        (-8966.90 - 2890.53 * root - 77.942 * s + 1.728 * s * root - 0.0996 * s * s) / t
        + (148.0248 + 137.1942 * root + 1.62142 * s)
        - (24.4344 + 25.085 * root + 0.2474 * s) * log(t)
        + 0.053105 * root * t
    )


def water(salinity: float, temp_c: float) -> float:
    """KW of water, mol²/kg².

    Range: salinity 19 to 43, 2 to 35 °C. Source: millero_1995, on the total scale as in dickson_2007.
    """
    t, s = _kelvin(salinity, temp_c), salinity
    salt = (118.67 / t - 5.977 + 1.0495 * log(t)) * sqrt(s) - 0.01615 * s
    return exp(148.9652 - 13847.26 / t - 23.6521 * log(t) + salt)


def aragonite_solubility(salinity: float, temp_c: float) -> float:
    """Ksp of aragonite, mol²/kg².

    Range: salinity 19 to 43, 2 to 35 °C. Source: mucci_1983.
    """
    t, s = _kelvin(salinity, temp_c), salinity
    salt = (-0.068393 + 0.0017276 * t + 88.135 / t) * sqrt(s) - 0.10018 * s + 0.0059415 * s**1.5
    return 10 ** (-171.945 - 0.077993 * t + 2903.293 / t + 71.595 * log10(t) + salt)


def calcite_solubility(salinity: float, temp_c: float) -> float:
    """Ksp of calcite, mol²/kg².

    Range: salinity 19 to 43, 2 to 35 °C. Source: mucci_1983.
    """
    t, s = _kelvin(salinity, temp_c), salinity
    salt = (-0.77712 + 0.0028426 * t + 178.34 / t) * sqrt(s) - 0.07711 * s + 0.0041249 * s**1.5
    return 10 ** (-171.9065 - 0.077993 * t + 2839.319 / t + 71.595 * log10(t) + salt)


def bisulfate(salinity: float, temp_c: float) -> float:
    """KS of HSO4-, on the free scale.

    Range: salinity 19 to 43, 2 to 35 °C. Source: dickson_1990_bisulfate.
    """
    t, s = _kelvin(salinity, temp_c), salinity
    i = ionic_strength(s)
    return (1 - 0.001005 * s) * exp(
        -4276.1 / t + 141.328 - 23.093 * log(t)
        + (-13856 / t + 324.57 - 47.986 * log(t)) * sqrt(i)
        + (35474 / t - 771.54 + 114.723 * log(t)) * i
        - 2698 / t * i**1.5 + 1776 / t * i * i
    )  # fmt: skip


def hydrogen_fluoride(salinity: float, temp_c: float) -> float:
    """KF of HF, on the free scale.

    Range: salinity 19 to 43, 2 to 35 °C. Source: dickson_riley_1979.
    """
    t, s = _kelvin(salinity, temp_c), salinity
    return (1 - 0.001005 * s) * exp(1590.2 / t - 12.641 + 1.525 * sqrt(ionic_strength(s)))


def ionic_strength(salinity: float) -> float:
    """Ionic strength, mol/kg of water.

    Range: salinity 0 to 45. Equation: 19.924 S / (1000 - 1.005 S). Source: dickson_2007.
    """
    return 19.924 * within("salinity", salinity, 0, 45) / (1000 - 1.005 * salinity)


def total_boron(salinity: float) -> float:
    """Total boron of natural sea water, mol/kg; a salt mix may hold several times as much.

    Range: salinity 19 to 43. Source: uppstrom_1974, rounded as in dickson_2007.
    """
    return 0.0004157 / 35 * within("salinity", salinity, *SALINITY)


def total_sulfate(salinity: float) -> float:
    """Total sulfate of natural sea water, mol/kg.

    Range: salinity 19 to 43. Source: morris_riley_1966.
    """
    return 0.14 / 96.062 * within("salinity", salinity, *SALINITY) * CHLORINITY


def total_fluoride(salinity: float) -> float:
    """Total fluoride of natural sea water, mol/kg.

    Range: salinity 19 to 43. Source: riley_1965.
    """
    return 0.000067 / 18.998 * within("salinity", salinity, *SALINITY) * CHLORINITY


def total_calcium(salinity: float) -> float:
    """Calcium of natural sea water, mol/kg.

    Range: salinity 19 to 43. Source: riley_tongudai_1967.
    """
    return 0.02128 / 40.087 * within("salinity", salinity, *SALINITY) * CHLORINITY
