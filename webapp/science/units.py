"""Every unit a reading may come in, and the way to and from the one unit each quantity is kept in.

`salinity` is kept as practical salinity (PSS-78), the number that shops call "ppt"; absolute salinity is 0.47 % higher.
"""

from collections.abc import Callable
from dataclasses import dataclass

from webapp.science import alkalinity, nutrients, ph_scales, salinity
from webapp.science.molar_mass import ATOMIC_WEIGHT, molar_mass_g_mol

DEFAULT_TEMP_C = 25.0
US_GALLON_L = 231 * 2.54**3 / 1000  # 231 cubic inches
IMPERIAL_GALLON_L = 4.54609
INCH_CM = 2.54
SG_REFERENCE_C = {"sg_25": 25.0, "sg_20": 20.0, "sg_60f": salinity.SIXTY_FAHRENHEIT_C, "sg_4": 4.0}


@dataclass(frozen=True)
class Unit:
    """A unit a person may choose: its key, the label shown, and the decimals a reading is shown with."""

    key: str
    label: str
    decimals: int


@dataclass(frozen=True)
class Quantity:
    """A measured quantity and the units it may come in.

    `plausible` (usual in a reef tank) and `possible` (outside: ask) are (low, high) in the canonical unit.
    """

    name: str
    canonical_unit: str
    units: dict[str, Unit]
    plausible: tuple[float, float]
    possible: tuple[float, float]


def _quantity(name: str, plausible: tuple[float, float], possible: tuple[float, float], *units: Unit) -> Quantity:
    return Quantity(name, units[0].key, {unit.key: unit for unit in units}, plausible, possible)


QUANTITIES: dict[str, Quantity] = {
    quantity.name: quantity
    for quantity in (
        _quantity("temp", (20, 30), (10, 40), Unit("c", "°C", 1), Unit("f", "°F", 1)),
        _quantity(
            "salinity", (28, 38), (20, 45),
            Unit("ppt", "ppt", 1), Unit("sg_25", "SG 25/25 °C", 4), Unit("sg_20", "SG 20/20 °C", 4),
            Unit("sg_60f", "SG 60/60 °F", 4), Unit("sg_4", "density against water of 4 °C", 4),
            Unit("ms_cm", "mS/cm, not compensated", 1), Unit("ms_cm_25", "mS/cm at 25 °C", 1),
            Unit("n_d", "refractive index", 4),
        ),
        _quantity(
            "alk", (6, 13), (3, 20), Unit("dkh", "dKH", 1), Unit("meq_l", "meq/L", 2),
            Unit("ppm_caco3", "ppm CaCO3", 0), Unit("umol_kg", "µmol/kg", 0), Unit("fdh", "°fH", 1),
        ),
        _quantity("ca", (350, 500), (200, 700), Unit("mg_l", "mg/L", 0), Unit("mg_l_caco3", "mg/L as CaCO3", 0)),
        _quantity("mg", (1100, 1500), (700, 2000), Unit("mg_l", "mg/L", 0), Unit("mg_l_caco3", "mg/L as CaCO3", 0)),
        _quantity(
            "no3", (0, 50), (0, 300),
            Unit("mg_l", "mg/L NO3", 1), Unit("mg_l_n", "mg/L NO3-N", 2), Unit("umol_l", "µmol/L", 1),
        ),
        _quantity(
            "po4", (0, 0.5), (0, 10), Unit("mg_l", "mg/L PO4", 3), Unit("mg_l_p", "mg/L PO4-P", 3),
            Unit("ppb_p", "ppb P", 0), Unit("ppb_po4", "ppb PO4", 0), Unit("umol_l", "µmol/L", 2),
        ),
        _quantity("ph", (7.7, 8.6), (7, 9), Unit("nbs", "pH (buffer scale)", 2), Unit("total", "pH (total scale)", 2)),
        _quantity("ammonia", (0, 0.25), (0, 20), Unit("mg_l_n", "mg/L NH3-N", 2), Unit("mg_l", "mg/L NH3", 2)),
        _quantity("nitrite", (0, 0.5), (0, 50), Unit("mg_l", "mg/L NO2", 2), Unit("mg_l_n", "mg/L NO2-N", 2)),
        _quantity(
            "volume", (20, 2000), (5, 50000),
            Unit("l", "litres", 0), Unit("gal_us", "US gallons", 0), Unit("gal_imp", "imperial gallons", 0),
        ),
        _quantity("length", (1, 300), (0.1, 1000), Unit("cm", "cm", 1), Unit("in", "in", 1)),
        _quantity("par", (20, 600), (0, 1200), Unit("umol", "µmol/m²/s", 0)),
        _quantity("flow_speed", (2, 50), (0, 100), Unit("cm_s", "cm/s", 1)),
    )
}  # fmt: skip

Convert = Callable[[float, float | None, float], float]  # (value, temp_c, salinity) -> value


def _times(factor: float) -> tuple[Convert, Convert]:
    return (lambda v, t, s: v * factor), (lambda v, t, s: v / factor)


def _warm(temp_c: float | None) -> float:
    return DEFAULT_TEMP_C if temp_c is None else temp_c


def _sg(reference_c: float, usual_temp_c: float) -> tuple[Convert, Convert]:
    def sample(temp_c: float | None) -> float:
        return usual_temp_c if temp_c is None else temp_c

    return (
        lambda v, t, s: salinity.salinity_from_sg(v, sample(t), reference_c),
        lambda v, t, s: salinity.sg_from_salinity(v, sample(t), reference_c),
    )


def _ion(ion: str) -> tuple[Convert, Convert]:
    return (lambda v, t, s: nutrients.mg_l_from_umol_l(ion, v)), (lambda v, t, s: nutrients.umol_l_from_mg_l(ion, v))


_CACO3 = molar_mass_g_mol(Ca=1, C=1, O=3)
_N_IN_NH3 = nutrients.element_from_ion("nh3", 1)
_PO4_PER_P = nutrients.ion_from_element("po4", 1)

# (quantity, unit) -> (to canonical, from canonical); the canonical unit itself needs none.
_CONVERT: dict[tuple[str, str], tuple[Convert, Convert]] = {
    ("temp", "f"): ((lambda v, t, s: (v - 32) / 1.8), (lambda v, t, s: v * 1.8 + 32)),
    **{
        ("salinity", key): _sg(reference, DEFAULT_TEMP_C if key == "sg_4" else reference)
        for key, reference in SG_REFERENCE_C.items()
    },
    ("salinity", "ms_cm"): (
        lambda v, t, s: salinity.salinity_from_conductivity(v, _warm(t)),
        lambda v, t, s: salinity.conductivity_ms_cm(v, _warm(t)),
    ),
    ("salinity", "ms_cm_25"): (
        lambda v, t, s: salinity.salinity_from_conductivity(v, 25.0),
        lambda v, t, s: salinity.conductivity_ms_cm(v, 25.0),
    ),
    ("salinity", "n_d"): (
        lambda v, t, s: salinity.salinity_from_refractive_index(v, _warm(t)),
        lambda v, t, s: salinity.refractive_index(v, _warm(t)),
    ),
    ("alk", "meq_l"): _times(1 / alkalinity.MEQ_L_PER_DKH),
    ("alk", "ppm_caco3"): _times(alkalinity.dkh_from_ppm_caco3(1)),
    ("alk", "fdh"): _times(alkalinity.dkh_from_fdh(1)),
    ("alk", "umol_kg"): (
        lambda v, t, s: v * alkalinity.dkh_from_umol_kg(1, s, _warm(t)),
        lambda v, t, s: v * alkalinity.umol_kg_from_dkh(1, s, _warm(t)),
    ),
    ("ca", "mg_l_caco3"): _times(ATOMIC_WEIGHT["Ca"] / _CACO3),
    ("mg", "mg_l_caco3"): _times(ATOMIC_WEIGHT["Mg"] / _CACO3),
    ("no3", "mg_l_n"): _times(nutrients.ion_from_element("no3", 1)),
    ("no3", "umol_l"): _ion("no3"),
    ("po4", "mg_l_p"): _times(_PO4_PER_P),
    ("po4", "ppb_p"): _times(_PO4_PER_P / 1000),
    ("po4", "ppb_po4"): _times(1 / 1000),
    ("po4", "umol_l"): _ion("po4"),
    ("ph", "total"): (
        lambda v, t, s: ph_scales.nbs_from_total(v, s, _warm(t)),
        lambda v, t, s: ph_scales.total_from_nbs(v, s, _warm(t)),
    ),
    ("ammonia", "mg_l"): _times(_N_IN_NH3),
    ("nitrite", "mg_l_n"): _times(nutrients.ion_from_element("no2", 1)),
    ("volume", "gal_us"): _times(US_GALLON_L),
    ("volume", "gal_imp"): _times(IMPERIAL_GALLON_L),
    ("length", "in"): _times(INCH_CM),
}


def to_canonical(
    quantity: str, value: float, unit: str, *, temp_c: float | None = None, salinity_ppt: float = 35.0
) -> float:
    """`value` in `unit` as the canonical unit of `quantity` (keys of QUANTITIES and its units).

    temp_c (°C) is that of the sample; None is the reference temperature of a hydrometer (25 °C for sg_4) and 25 °C for
    everything else. salinity_ppt is practical salinity, used for µmol/kg and pH scales only. Range: any finite number
    where the conversion is a factor; where it is an equation of state a value outside it raises ValueError, as do an
    unknown quantity or unit. Nothing is judged here: compare with `possible` and `plausible`.
    Equation: by unit, see the module of the quantity. Source: definition; iupac_2021; teos10_2010; lewis_1980;
    quan_fry_1995; takahashi_1982; nist_hb44.
    """
    return _apply(0, quantity, value, unit, temp_c, salinity_ppt)


def from_canonical(
    quantity: str, value: float, unit: str, *, temp_c: float | None = None, salinity_ppt: float = 35.0
) -> float:
    """`value` in the canonical unit of `quantity`, expressed in `unit`.

    Range: as `to_canonical`, of which it is the inverse, with the same parameters and sources. Source: definition.
    """
    return _apply(1, quantity, value, unit, temp_c, salinity_ppt)


def _apply(direction: int, quantity: str, value: float, unit: str, temp_c: float | None, salinity_ppt: float) -> float:
    if quantity not in QUANTITIES:
        raise ValueError(f"quantity {quantity!r} is not one of {', '.join(QUANTITIES)}")
    of = QUANTITIES[quantity]
    if unit not in of.units:
        raise ValueError(f"unit {unit!r} is not one of {', '.join(of.units)} for {quantity}")
    if value != value or abs(value) == float("inf"):
        raise ValueError(f"value {value} is not a number")
    if unit == of.canonical_unit:
        return float(value)
    return _CONVERT[quantity, unit][direction](value, temp_c, salinity_ppt)
