"""Water changes, salinity correction and evaporation, by mass balance."""

from math import ceil, exp, log

from webapp.science.ranges import above, within
from webapp.science.salinity import SALINITY_MAX, absolute_from_practical, density_kg_l, practical_from_absolute

SALINITY = (0.0, SALINITY_MAX)


def after_water_change(now: float, new_water: float, fraction: float, times: int = 1) -> float:
    """A concentration after `times` equal water changes of `fraction` (0 to 1) of the volume.

    now and new_water in any one unit, 0 or more. Range: times 0 to 1000. Equation: C_new + (C - C_new)(1 - f)^n.
    Source: mass balance.
    """
    _concentrations(now=now, new_water=new_water)
    within("fraction", fraction, 0, 1)
    within("times", times, 0, 1000)
    return new_water + (now - new_water) * (1 - fraction) ** times


def water_changes_needed(now: float, target: float, new_water: float, fraction: float) -> int:
    """How many equal changes of `fraction` (above 0, at most 1) bring `now` to `target` or past it; 0 when it is there.

    Range: concentrations 0 or more in one unit; target must lie between now and new_water, not at new_water, unless
    one change of everything does it (else ValueError naming target).
    Equation: ln((target - new) / (now - new)) / ln(1 - f). Source: mass balance.
    """
    _concentrations(now=now, target=target, new_water=new_water)
    above("fraction", within("fraction", fraction, 0, 1), 0)
    if target == now:
        return 0
    left = (target - new_water) / (now - new_water) if now != new_water else -1.0
    if left < 0 or left > 1 or (left == 0 and fraction < 1):
        raise ValueError(f"target {target:g} cannot be reached from {now:g} with new water of {new_water:g}")
    if fraction == 1:
        return 1
    return ceil(log(left) / log(1 - fraction) - 1e-9)


def after_continuous_exchange(now: float, new_water: float, litres: float, volume_l: float) -> float:
    """A concentration after `litres` of new water ran through a mixed `volume_l` (L) at constant level.

    Range: concentrations and litres 0 or more, volume above 0. Equation: C_new + (C - C_new) exp(-v/V).
    Source: mass balance.
    """
    _concentrations(now=now, new_water=new_water, litres=litres)
    return new_water + (now - new_water) * exp(-litres / above("volume_l", volume_l, 0))


def salinity_after_swap(volume_l: float, salinity: float, litres: float, new_salinity: float, temp_c: float) -> float:
    """Practical salinity after `litres` (L) were taken out and replaced with water of `new_salinity`.

    Range: salinity 0 to 45, 0 to 40 °C, litres 0 to volume_l. Equation: balance of salt and mass at one temperature.
    Source: mass balance; teos10_2010.
    """
    within("litres", litres, 0, above("volume_l", volume_l, 0))
    old_kg = (volume_l - litres) * density_kg_l(salinity, temp_c)
    new_kg = litres * density_kg_l(new_salinity, temp_c)
    return (old_kg * salinity + new_kg * new_salinity) / (old_kg + new_kg)


def litres_to_swap(volume_l: float, salinity: float, target: float, new_salinity: float, temp_c: float) -> float:
    """Litres to take out and replace with water of `new_salinity` (0 for fresh water) to reach `target`.

    Range: salinity 0 to 45, 0 to 40 °C, volume above 0; target between salinity and new_salinity (else ValueError
    naming target). Equation: x = V ρ1 (S1 - S2) / (ρ1 (S1 - S2) + ρ3 (S2 - S3)). Source: mass balance; teos10_2010.
    """
    above("volume_l", volume_l, 0)
    if salinity == target:
        return 0.0
    if not min(salinity, new_salinity) <= target <= max(salinity, new_salinity):
        raise ValueError(f"target {target:g} is not between {salinity:g} and {new_salinity:g}")
    out = density_kg_l(salinity, temp_c) * (salinity - target)
    back = density_kg_l(new_salinity, temp_c) * (target - new_salinity)
    return volume_l * out / (out + back)


def salt_to_raise_g(volume_l: float, salinity: float, target: float, temp_c: float) -> float:
    """Grams of dry (anhydrous) sea salt to dissolve in `volume_l` (L) to raise `salinity` to `target`.

    Range: salinity 0 to 45, target at or above it, 0 to 40 °C, volume above 0. A salt mix holds crystal water and needs
    more: follow its label and measure. Never in a tank with animals: dissolve it apart. Equation: with s in g per g of
    water, ρ V (s2 - s1) / (1 - s2). Source: mass balance; millero_2008; teos10_2010.
    """
    within("target", target, salinity, SALINITY_MAX)
    s1, s2 = absolute_from_practical(salinity) / 1000, absolute_from_practical(target) / 1000
    return above("volume_l", volume_l, 0) * 1000 * density_kg_l(salinity, temp_c) * (s2 - s1) / (1 - s2)


def salinity_after_salt(volume_l: float, salinity: float, grams: float, temp_c: float) -> float:
    """Practical salinity after `grams` of dry (anhydrous) sea salt dissolved in `volume_l` (L).

    Range: salinity 0 to 45 before and after, 0 to 40 °C, grams 0 or more. Equation: inverse of `salt_to_raise_g`.
    Source: mass balance; millero_2008; teos10_2010.
    """
    _concentrations(grams=grams)
    mass_g = above("volume_l", volume_l, 0) * 1000 * density_kg_l(salinity, temp_c)
    salt_g = mass_g * absolute_from_practical(salinity) / 1000 + grams
    return practical_from_absolute(1000 * salt_g / (mass_g + grams))


def salinity_after_evaporation(volume_l: float, salinity: float, litres: float, temp_c: float) -> float:
    """Practical salinity after `litres` of fresh water evaporated from `volume_l` (L). Only water leaves.

    Range: salinity 0 to 45, 0 to 40 °C, litres from 0 to half the volume. Equation: S M / (M - ρ0 e).
    Source: mass balance; teos10_2010.
    """
    within("litres", litres, 0, above("volume_l", volume_l, 0) / 2)
    mass = volume_l * density_kg_l(salinity, temp_c)
    return salinity * mass / (mass - litres * density_kg_l(0, temp_c))


def fresh_water_to_top_up_l(volume_l: float, salinity: float, target: float, temp_c: float) -> float:
    """Litres of fresh water to add to `volume_l` (L) of evaporated water, without taking any out, to reach `target`.

    Range: salinity 0 to 45, target above 0 and at most salinity, 0 to 40 °C. Equation: ρ1 V (S1/S2 - 1) / ρ0.
    Source: mass balance; teos10_2010.
    """
    above("target", within("target", target, 0, within("salinity", salinity, *SALINITY)), 0)
    mass = above("volume_l", volume_l, 0) * density_kg_l(salinity, temp_c)
    return mass * (salinity / target - 1) / density_kg_l(0, temp_c)


def _concentrations(**values: float) -> None:
    for name, value in values.items():
        within(name, value, 0, 1e9)
