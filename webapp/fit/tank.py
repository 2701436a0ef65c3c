"""The buyer's tank, as typed: every value keeps the unit and the method the buyer gave."""

from dataclasses import dataclass, field
from typing import Literal


@dataclass(frozen=True, slots=True)
class Measured:
    """One value as typed. `unit` is a key of science.units; `method` a key of fit.methods, '' when not said.

    Two units more are taken: 'mg_l_unsure' (nitrate, phosphate, ammonia, nitrite: the kit does not say which form it
    counts) and 'gal' (a volume in gallons of which kind was not said, which is asked about).
    """

    value: float
    unit: str
    method: str = ""


@dataclass(frozen=True, slots=True)
class LightSaid:
    """How the buyer knows the light; `way` says which fields count.

    way 'meter': par at depth_cm, corrected_for_water True/False/None (not known).
    way 'lux': lux at depth_cm (0 = at the surface), colour and instrument keys of science.lux.
    way 'fixture': kind key of science.fixture, count, watts each at the setting used, hours a day, height_cm above
    the water.
    way 'words': word key of science.light.
    """

    way: Literal["meter", "lux", "fixture", "words"]
    par: float | None = None
    lux: float | None = None
    depth_cm: float | None = None
    corrected_for_water: bool | None = None
    colour: str = ""
    instrument: str = ""
    kind: str = ""
    count: int = 1
    watts: float | None = None
    height_cm: float | None = None
    hours: float | None = None
    word: str = ""


@dataclass(frozen=True, slots=True)
class PumpSaid:
    """A pump: rated flow in litres an hour, kind key of science.flow, how many."""

    rated_l_h: float
    kind: str = "wave_wide"
    count: int = 1


@dataclass(frozen=True, slots=True)
class FlowSaid:
    """way 'pumps': pumps; way 'words': word key of science.flow; way 'meter': speed_cm_s at the spot."""

    way: Literal["pumps", "words", "meter"]
    pumps: tuple[PumpSaid, ...] = ()
    word: str = ""
    speed_cm_s: float | None = None


@dataclass(frozen=True, slots=True)
class Neighbour:
    """A coral already in the tank: profile key, and the clear gap to the planned spot in cm (None: not said)."""

    key: str
    gap_cm: float | None = None


@dataclass(frozen=True, slots=True)
class BuyerTank:
    """Everything a buyer may say; anything may be missing. `readings` is keyed by quantity of science.units
    (temp, salinity, alk, ca, mg, ph, no3, po4, ammonia, nitrite); two values of one quantity are allowed.

    length, width, height: inside of the glass; the water's depth is taken from the height. swings: the most that temp
    (C), salinity (ppt) and alk (dKH) move in a day. answers: the `answer` values of questions meant as typed.
    """

    readings: dict[str, tuple[Measured, ...]] = field(default_factory=dict)
    volume: Measured | None = None
    length: Measured | None = None
    width: Measured | None = None
    height: Measured | None = None
    light: LightSaid | None = None
    flow: FlowSaid | None = None
    tankmates: tuple[str, ...] | None = None
    neighbours: tuple[Neighbour, ...] | None = None
    free_space_cm: float | None = None
    age_months: float | None = None
    feeding_days_per_week: float | None = None
    summer_high: Measured | None = None
    carbon: bool | None = None
    open_pumps: bool | None = None
    swings: dict[str, float] = field(default_factory=dict)
    answers: frozenset[str] = frozenset()
