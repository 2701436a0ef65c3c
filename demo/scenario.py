"""The invented shop: its people, its tanks and racks. Nothing here is real; every name was made up of plain words."""

from dataclasses import dataclass
from typing import Any

#: How many days the shop has kept its history.
DAYS = 120

#: (name, PIN, role) of the demonstration's own people.
PEOPLE = (("Ilva", "740316", "owner"), ("Joss", "295814", "staff"))

SHOP: dict[str, Any] = {
    "name": "Puddle & Plug",
    "host": "SHOP.LOCAL",
    "currency": "EUR",
    "time_zone": "Europe/Berlin",
    "units": {"alk": "dkh", "salinity": "ppt", "temp": "c", "po4": "mg_l"},
    "terms": (
        "Every frag is healed and holds to its plug before it is sold; the day it was cut is on its card. "
        "If one does badly in the first five days, bring a photo and a sample of your water, and we will find out "
        "together what went wrong. We take frags back in trade. What the law gives you stays yours."
    ),
    "poisons_line": "Ask for your local number",
    "wifi_name": "Puddle and Plug guests",
    "wifi_secret": "",
}

#: What this shop decides otherwise than the program's defaults.
THRESHOLDS = {"low_stock": 2.0}


@dataclass(frozen=True, slots=True)
class TankPlan:
    """A tank of the shop: its payload for the history."""

    name: str
    purpose: str
    volume_l: float
    length_cm: float
    width_cm: float
    height_cm: float
    light_hours: float
    note: str

    @property
    def payload(self) -> dict[str, Any]:
        """As 'tank_set' takes it."""
        return {key: getattr(self, key) for key in self.__slots__}


@dataclass(frozen=True, slots=True)
class RackPlan:
    """A rack: where it hangs, how large it is, and the light and flow read there (µmol/m²/s, cm/s)."""

    name: str
    tank: str
    rows: int
    columns: int
    depth_cm: float
    par: float
    flow_cm_s: float


TANKS = (
    TankPlan("Long Bay", "display", 680, 180, 70, 60, 9,
             "The showpiece by the door. 70 litres are changed every second Friday."),
    TankPlan("Frag Bench", "grow_out", 290, 150, 60, 35, 9,
             "Soft corals and stony corals with large polyps."),
    TankPlan("Bright Bench", "grow_out", 330, 150, 60, 40, 10,
             "High light and strong flow. Alkalinity and calcium are dosed at night."),
    TankPlan("Dim Shelf", "grow_out", 190, 120, 50, 35, 8,
             "Mushrooms below, button polyps above. The lamp runs at one third."),
    TankPlan("Window Garden", "display", 340, 120, 80, 40, 10,
             "An hour of sun in the afternoon; warms up in a hot week."),
    TankPlan("Quarantine", "quarantine", 100, 80, 40, 35, 8,
             "Own net, own tongs, own bucket. Nothing leaves before two clean checks."),
)  # fmt: skip

RACKS = (
    RackPlan("L1", "Long Bay", 5, 8, 28, 115, 10),
    RackPlan("F1", "Frag Bench", 6, 12, 12, 130, 11),
    RackPlan("B1", "Bright Bench", 4, 10, 9, 290, 23),
    RackPlan("B2", "Bright Bench", 4, 10, 20, 190, 17),
    RackPlan("D1", "Dim Shelf", 5, 10, 10, 98, 9),
    RackPlan("D2", "Dim Shelf", 5, 9, 23, 55, 5),
    RackPlan("G1", "Window Garden", 5, 8, 15, 215, 12),
    RackPlan("Q1", "Quarantine", 5, 8, 18, 75, 8),
)
RACK = {rack.name: rack for rack in RACKS}
