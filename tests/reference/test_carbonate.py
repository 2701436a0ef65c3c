"""The carbonate system against PyCO2SYS; constants against the check values of Dickson, Sabine & Christian 2007."""

import itertools
import warnings
from math import log, log10

import numpy
import pytest

from tests.reference.deviations import record
from webapp.science import carbonate, equilibria, ph_scales
from webapp.science.alkalinity import dkh_from_umol_kg

with warnings.catch_warnings():  # it and its autodiff library touch parts of numpy that newer versions deprecate
    warnings.simplefilter("ignore")
    import PyCO2SYS

LIBRARY = "PyCO2SYS 1.8 (Lueker 2000, Dickson 1990, Dickson & Riley 1979, Uppström 1974)"
GUIDE = "Dickson, Sabine & Christian 2007, check values at S 35, 25 °C"
OPTIONS = {"opt_k_carbonic": 10, "opt_k_bisulfate": 1, "opt_total_borate": 1, "opt_k_fluoride": 1}
POINTS = list(itertools.product((1800, 2300, 2850, 3500), (7.7, 8.05, 8.4), (28, 35, 38), (20, 25, 28)))


KEYS = [
    "pCO2", "saturation_aragonite", "saturation_calcite", "dic", "carbonate", "pH_nbs", "pH_total", "k_CO2",
    "k_carbonic_1", "k_carbonic_2", "k_borate", "k_bisulfate", "k_fluoride", "k_aragonite", "k_calcite", "k_water",
    "fugacity_factor", "total_borate", "total_sulfate", "total_fluoride", "total_calcium",
]  # fmt: skip


def theirs(alk_umol_kg, second, kind, places, scale=1, **more):
    """One call for all points (a single one takes the library as long): a dict of the results of each."""
    salinity, temp_c = zip(*places, strict=True)
    found = PyCO2SYS.sys(
        numpy.full(len(places), alk_umol_kg, dtype=float), numpy.full(len(places), second, dtype=float), 1, kind,
        salinity=numpy.array(salinity, dtype=float), temperature=numpy.array(temp_c, dtype=float),
        opt_pH_scale=scale, **OPTIONS, **more,
    )  # fmt: skip
    columns = {key: numpy.broadcast_to(found[key], len(places)) for key in KEYS}
    return [{key: float(column[i]) for key, column in columns.items()} for i in range(len(places))]


@pytest.mark.parametrize(
    ("name", "ours", "published", "tolerance"),
    [
        ("ln K0", lambda: log(equilibria.co2_solubility(35, 25)), -3.5617, 6e-5),
        ("log10 K1", lambda: log10(equilibria.carbonic_acid_k1_k2(35, 25)[0]), -5.8472, 6e-5),
        ("log10 K2", lambda: log10(equilibria.carbonic_acid_k1_k2(35, 25)[1]), -8.9660, 6e-5),
        ("ln KB", lambda: log(equilibria.boric_acid(35, 25)), -19.7964, 6e-5),
        ("ln KW", lambda: log(equilibria.water(35, 25)), -30.434, 6e-4),
        ("ln KS", lambda: log(equilibria.bisulfate(35, 25)), -2.30, 6e-3),
    ],
)
def test_constants_of_the_guide(name, ours, published, tolerance):
    record(name, GUIDE, ours(), published, tolerance)


@pytest.mark.parametrize(
    ("name", "ours", "published"),
    [("aragonite", equilibria.aragonite_solubility, -6.19), ("calcite", equilibria.calcite_solubility, -6.37)],
)
def test_solubility_of_the_minerals(name, ours, published):
    # Mucci 1983: pKsp at S 35, 25 °C is 6.19 for aragonite and 6.37 for calcite.
    record(f"log10 Ksp of {name}", "Mucci 1983, S 35, 25 °C", log10(ours(35, 25)), published, 6e-3)


def test_constants_of_the_library():
    places = list(itertools.product((28, 35, 38), (20, 25, 28)))
    for (salinity, temp_c), found in zip(places, theirs(2300, 8.1, 3, places), strict=True):
        k1, k2 = equilibria.carbonic_acid_k1_k2(salinity, temp_c)
        for name, ours, key in [
            ("K0", equilibria.co2_solubility(salinity, temp_c), "k_CO2"),
            ("K1", k1, "k_carbonic_1"),
            ("K2", k2, "k_carbonic_2"),
            ("KB", equilibria.boric_acid(salinity, temp_c), "k_borate"),
            ("KS", equilibria.bisulfate(salinity, temp_c), "k_bisulfate"),
            ("KF", equilibria.hydrogen_fluoride(salinity, temp_c), "k_fluoride"),
            ("Ksp of aragonite", equilibria.aragonite_solubility(salinity, temp_c), "k_aragonite"),
            ("Ksp of calcite", equilibria.calcite_solubility(salinity, temp_c), "k_calcite"),
            ("fugacity factor of CO2", equilibria.co2_fugacity_factor(temp_c), "fugacity_factor"),
        ]:
            record(name, LIBRARY, ours, found[key], 1e-7, relative=True)
        for name, ours, key in [
            ("Total boron", equilibria.total_boron(salinity), "total_borate"),
            ("Total sulfate", equilibria.total_sulfate(salinity), "total_sulfate"),
            ("Total fluoride", equilibria.total_fluoride(salinity), "total_fluoride"),
            ("Total calcium", equilibria.total_calcium(salinity), "total_calcium"),
        ]:
            record(f"{name}, µmol/kg", LIBRARY, ours * 1e6, found[key], 1e-7, relative=True)
        # The library converts KW to the total scale point by point, the Guide by one rounded factor.
        record("KW", LIBRARY, equilibria.water(salinity, temp_c), found["k_water"], 0.012, relative=True)


def test_state_of_the_water_and_ph_scales():
    alk, ph, *places = zip(*POINTS, strict=True)
    places = list(zip(*places, strict=True))
    found = theirs(alk, ph, 3, places)
    back = theirs(alk, [point["pH_nbs"] for point in found], 3, places, scale=4)
    for (alk_umol_kg, ph_total, salinity, temp_c), point, again in zip(POINTS, found, back, strict=True):
        ph_nbs = ph_scales.nbs_from_total(ph_total, salinity, temp_c)
        ours = carbonate.carbonate_system(dkh_from_umol_kg(alk_umol_kg, salinity, temp_c), ph_nbs, salinity, temp_c)
        for name, value, key in [
            ("pCO2", ours.pco2_uatm, "pCO2"),
            ("Saturation of aragonite", ours.omega_aragonite, "saturation_aragonite"),
            ("Saturation of calcite", ours.omega_calcite, "saturation_calcite"),
            ("Dissolved inorganic carbon", ours.dic_umol_kg, "dic"),
            ("Carbonate", ours.co3_umol_kg, "carbonate"),
        ]:
            record(name, LIBRARY, value, point[key], 5e-4, relative=True)
        record("pH on the NBS scale", LIBRARY, ph_nbs, point["pH_nbs"], 1e-5)
        total = ph_scales.total_from_nbs(point["pH_nbs"], salinity, temp_c)
        record("pH on the total scale", LIBRARY, total, again["pH_total"], 1e-5)


def test_ph_under_air_of_known_co2():
    points = list(itertools.product((1800, 2850, 3500), (280, 425, 1500), (30, 35), (22, 26)))
    alk, pco2, *places = zip(*points, strict=True)
    found = theirs(alk, pco2, 4, list(zip(*places, strict=True)))
    for (alk_umol_kg, uatm, salinity, temp_c), point in zip(points, found, strict=True):
        ours = carbonate.ph_nbs_at_pco2(dkh_from_umol_kg(alk_umol_kg, salinity, temp_c), uatm, salinity, temp_c)
        record("pH (NBS) at given pCO2", LIBRARY, ours, point["pH_nbs"], 3e-4)


def test_ph_from_alkalinity_and_carbon():
    alk, dic = (2300, 2800, 3500, 2800), (1967, 2400, 2800, 2790)
    for alk_umol_kg, carbon, point in zip(alk, dic, theirs(alk, dic, 2, [(35, 25)] * 4), strict=True):
        ours = carbonate.ph_nbs_at_dic(dkh_from_umol_kg(alk_umol_kg, 35, 25), carbon, 35, 25)
        record("pH (NBS) at given dissolved inorganic carbon", LIBRARY, ours, point["pH_nbs"], 5e-4)


def test_measured_calcium_enters_in_proportion():
    (point,) = theirs(2788.114, 8.1, 3, [(35, 25)], total_calcium=10240.3)
    ca_mg_l = 10240.3e-6 * 40.078 * 1023.3436
    ours = carbonate.carbonate_system(8, ph_scales.nbs_from_total(8.1, 35, 25), 35, 25, ca_mg_l)
    record("Saturation of aragonite, calcium measured", LIBRARY, ours.omega_aragonite, point["saturation_aragonite"],
           5e-4, relative=True)  # fmt: skip
