"""What a kind of animal needs: bands, habits and cautions, each with the basis it rests on."""

from dataclasses import dataclass, field
from typing import Literal

BasisKind = Literal["published", "common_practice", "memory", "this_shop"]
Severity = Literal["risk", "never"]

#: Factors that have a band, with the canonical unit of `science.units` (light and flow: at the animal's spot).
BANDED = {
    "temp": "c",
    "salinity": "ppt",
    "alk": "dkh",
    "ca": "mg_l",
    "mg": "mg_l",
    "ph": "nbs",
    "no3": "mg_l",
    "po4": "mg_l",
    "par": "umol",
    "flow": "cm_s",
}


@dataclass(frozen=True, slots=True)
class Basis:
    """Where a range comes from. `source` is a citation key when `kind` is 'published', else ''."""

    kind: BasisKind
    source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Band:
    """limit_low <= ideal_low <= ideal_high <= limit_high, in the factor's canonical unit."""

    limit_low: float
    ideal_low: float
    ideal_high: float
    limit_high: float
    basis: Basis


@dataclass(frozen=True, slots=True)
class Profile:
    """One kind at one revision. `bands` is keyed by BANDED; a factor without a band is not judged.

    adult_cm, sting_reach_cm: centimetres. hardiness: 1 (easy) to 5. aggression: 0 to 5. stung_easily: 0 to 3.
    nipped_by: what bites it -> severity; catches: what it eats -> severity; both keyed by tankmate group.
    """

    key: str
    revision: int
    scientific: str
    trade_name: str
    group: str
    bands: dict[str, Band]
    placement: str
    adult_cm: float
    sting_reach_cm: float
    aggression: int
    stung_easily: int
    skeleton: bool
    calcium_demand: int
    feeding: str
    feeding_days_per_week: float
    hardiness: int
    toxicity_note: str
    cites: str
    propagation_methods: str
    attach_days: tuple[int, int]
    min_tank_age_months: float
    nipped_by: dict[str, Severity] = field(default_factory=dict)
    catches: dict[str, Severity] = field(default_factory=dict)
    requires: frozenset[str] = frozenset()
    toxic: bool = False
    stings: bool = False
    basis_note: str = ""
