"""The carbonate system: what alkalinity and pH together say about CO2 and about the skeleton's mineral.

Sea water with carbonate, borate and water as its only bases: no phosphate, silicate or organic alkalinity, and the
boron of natural sea water. From hobby tests the saturation state is known to about 15 to 20 %; show it as a band.
"""

from collections.abc import Callable
from dataclasses import dataclass

from webapp.science import equilibria as k
from webapp.science.alkalinity import umol_kg_from_dkh
from webapp.science.molar_mass import ATOMIC_WEIGHT
from webapp.science.ph_scales import nbs_from_total, total_from_nbs
from webapp.science.ranges import within
from webapp.science.roots import invert
from webapp.science.salinity import density_kg_l

ALK_DKH = (0.5, 30.0)
PH_NBS = (6.5, 9.5)
PH_TOTAL = (5.0, 11.0)  # where a solution is looked for
CA_MG_L = (50.0, 2000.0)
PCO2_UATM = (20.0, 20000.0)
OUTDOOR_PCO2_UATM = 425.0  # the open air of the mid-2020s; it rises by about 2.5 a year
TARGET_ALK_DKH = 8.0


@dataclass(frozen=True)
class CarbonateState:
    """The carbonate system of one water sample. Saturation states have no unit; below 1 the mineral dissolves."""

    pco2_uatm: float
    omega_aragonite: float
    omega_calcite: float
    dic_umol_kg: float
    co3_umol_kg: float
    ph_total: float


@dataclass(frozen=True)
class PhShortfall:
    """Where a pH below the expected one comes from. expected - measured = from_alkalinity + from_co2, exactly."""

    expected_ph_nbs: float
    from_alkalinity: float
    from_co2: float
    pco2_uatm: float


def carbonate_system(
    alk_dkh: float, ph_nbs: float, salinity: float, temp_c: float, ca_mg_l: float | None = None
) -> CarbonateState:
    """CO2, saturation states and dissolved carbon of water from its alkalinity and buffer-set pH.

    alk_dkh in dKH, ph_nbs on the NBS scale, practical salinity, °C, calcium in mg/L (None: that of natural sea water).
    Range: 0.5 to 30 dKH, pH 6.5 to 9.5, salinity 19 to 43, 2 to 35 °C, 50 to 2000 mg/L.
    Equation: carbonate alkalinity = total - borate - OH + H; K1, K2 by Lueker, KB by Dickson, Ksp by Mucci.
    Source: dickson_2007; lueker_2000; dickson_1990_boric; mucci_1983; weiss_1974.
    """
    within("ph_nbs", ph_nbs, *PH_NBS)
    alk = _alkalinity_mol_kg(alk_dkh, salinity, temp_c)
    ph_total = total_from_nbs(ph_nbs, salinity, temp_c)
    h = 10**-ph_total
    k1, k2 = k.carbonic_acid_k1_k2(salinity, temp_c)
    carbonate_alk = alk - _other_alkalinity(salinity, temp_c)(h)
    if carbonate_alk <= 0:
        raise ValueError(f"ph_nbs {ph_nbs:g} is impossible at alk_dkh {alk_dkh:g}: borate alone would exceed it")
    co2 = carbonate_alk * h * h / (k1 * h + 2 * k1 * k2)
    co3 = co2 * k1 * k2 / (h * h)
    calcium = k.total_calcium(salinity) if ca_mg_l is None else _calcium_mol_kg(ca_mg_l, salinity, temp_c)
    return CarbonateState(
        pco2_uatm=co2 / k.co2_solubility(salinity, temp_c) / k.co2_fugacity_factor(temp_c) * 1e6,
        omega_aragonite=calcium * co3 / k.aragonite_solubility(salinity, temp_c),
        omega_calcite=calcium * co3 / k.calcite_solubility(salinity, temp_c),
        dic_umol_kg=co2 * (1 + k1 / h + k1 * k2 / (h * h)) * 1e6,
        co3_umol_kg=co3 * 1e6,
        ph_total=ph_total,
    )


def ph_nbs_at_pco2(alk_dkh: float, pco2_uatm: float, salinity: float, temp_c: float) -> float:
    """The pH (NBS) that water of this alkalinity settles at under air with `pco2_uatm` (µatm of CO2).

    Range: 0.5 to 30 dKH, 20 to 20000 µatm, salinity 19 to 43, 2 to 35 °C. Equation: as `carbonate_system`, solved
    for H by bisection. Source: dickson_2007.
    """
    within("pco2_uatm", pco2_uatm, *PCO2_UATM)
    alk = _alkalinity_mol_kg(alk_dkh, salinity, temp_c)
    k1, k2 = k.carbonic_acid_k1_k2(salinity, temp_c)
    other = _other_alkalinity(salinity, temp_c)
    co2 = pco2_uatm * 1e-6 * k.co2_fugacity_factor(temp_c) * k.co2_solubility(salinity, temp_c)

    def alkalinity_at(ph_total: float) -> float:
        h = 10**-ph_total
        return co2 * (k1 * h + 2 * k1 * k2) / (h * h) + other(h)

    return nbs_from_total(invert(alkalinity_at, alk, *PH_TOTAL), salinity, temp_c)


def ph_nbs_at_dic(alk_dkh: float, dic_umol_kg: float, salinity: float, temp_c: float) -> float:
    """The pH (NBS) of water from its alkalinity and dissolved inorganic carbon (µmol/kg), e.g. just after a dose.

    Range: 0.5 to 30 dKH, salinity 19 to 43, 2 to 35 °C, and carbon that gives a total-scale pH of 5 to 11 (else
    ValueError naming dic_umol_kg). Equation: as `carbonate_system`, solved for H by bisection. Source: dickson_2007.
    """
    alk = _alkalinity_mol_kg(alk_dkh, salinity, temp_c)
    k1, k2 = k.carbonic_acid_k1_k2(salinity, temp_c)
    other = _other_alkalinity(salinity, temp_c)

    def alkalinity_at(ph_total: float) -> float:
        h = 10**-ph_total
        carbonate = dic_umol_kg * 1e-6 * (k1 * h + 2 * k1 * k2) / (h * h + k1 * h + k1 * k2)
        return carbonate + other(h)

    low, high = alkalinity_at(PH_TOTAL[0]), alkalinity_at(PH_TOTAL[1])
    if not (dic_umol_kg > 0 and low <= alk <= high):
        raise ValueError(f"dic_umol_kg {dic_umol_kg:g} does not go with alk_dkh {alk_dkh:g}")
    return nbs_from_total(invert(alkalinity_at, alk, *PH_TOTAL), salinity, temp_c)


def ph_shortfall(
    alk_dkh: float,
    ph_nbs: float,
    salinity: float,
    temp_c: float,
    *,
    expected_alk_dkh: float = TARGET_ALK_DKH,
    expected_pco2_uatm: float = OUTDOOR_PCO2_UATM,
) -> PhShortfall:
    """How much of a low pH is low alkalinity, and how much is CO2 above that of outdoor air (a closed room, the night).

    Range: as `carbonate_system`; expected_alk_dkh in dKH, expected_pco2_uatm in µatm. Equation: from the pH at
    (expected alkalinity, expected CO2), first the alkalinity is changed to the measured one, then the CO2; a negative
    part raises the pH. The two parts add up exactly. Source: dickson_2007; the split is our own.
    """
    expected = ph_nbs_at_pco2(expected_alk_dkh, expected_pco2_uatm, salinity, temp_c)
    aired = ph_nbs_at_pco2(alk_dkh, expected_pco2_uatm, salinity, temp_c)
    pco2 = carbonate_system(alk_dkh, ph_nbs, salinity, temp_c).pco2_uatm
    return PhShortfall(expected, expected - aired, aired - ph_nbs, pco2)


def _alkalinity_mol_kg(alk_dkh: float, salinity: float, temp_c: float) -> float:
    within("alk_dkh", alk_dkh, *ALK_DKH)
    return umol_kg_from_dkh(alk_dkh, salinity, temp_c) * 1e-6


def _calcium_mol_kg(ca_mg_l: float, salinity: float, temp_c: float) -> float:
    return within("ca_mg_l", ca_mg_l, *CA_MG_L) / 1000 / ATOMIC_WEIGHT["Ca"] / density_kg_l(salinity, temp_c)


def _other_alkalinity(salinity: float, temp_c: float) -> Callable[[float], float]:
    """H -> borate + OH - H, mol/kg."""
    boron, k_boric, k_water = k.total_boron(salinity), k.boric_acid(salinity, temp_c), k.water(salinity, temp_c)
    return lambda h: boron * k_boric / (k_boric + h) + k_water / h - h
