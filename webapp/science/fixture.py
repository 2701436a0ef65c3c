"""What a buyer can say about a light, and what is known of its kind: photons per joule, beam, size, colour.

All ranges are those of complete fixtures (lamp, driver, optics or reflector), not of bare lamps or chips.
"""

from dataclasses import dataclass

NELSON_BUGBEE = "Nelson & Bugbee 2014, PLoS ONE 9(6): e99010"


@dataclass(frozen=True, slots=True)
class LightKind:
    """One kind of fixture. Ranges are (low, usual, high).

    `ppe_umol_per_j`: photons 400-700 nm per joule of electricity. `beam_deg`: full angle at half intensity.
    `length_share`: lit length as a share of the tank's, or None where `length_cm` holds; `width_cm`: lit width of one.
    `height_cm`: usual height above the water where the buyer can't tell. `colour`: key of lux.COLOURS.
    """

    ppe_umol_per_j: tuple[float, float, float]
    beam_deg: tuple[float, float, float]
    length_cm: float
    width_cm: float
    height_cm: tuple[float, float, float]
    colour: str
    basis: str
    length_share: float | None = None


KINDS = {
    "led_reef_blue": LightKind(
        (1.1, 1.55, 2.1), (60, 90, 120), 25, 15, (12, 20, 32), "blue",
        "estimate: photons per joule of blue light 3.8 x 0.4-0.6 chip x 0.7-0.9 driver and optics; no published test",
    ),
    "led_reef_mixed": LightKind(
        (1.1, 1.5, 2.0), (60, 90, 120), 25, 15, (12, 20, 32), "blue_white",
        f"estimate; the best white-red-blue fixtures of 2014 gave 1.7 ({NELSON_BUGBEE})",
    ),
    "led_white": LightKind(
        (1.0, 1.45, 2.1), (80, 110, 125), 30, 12, (8, 15, 30), "white",
        "estimate: 70-145 lumens per watt over 69 lux per µmol (CIE LED illuminants)",
    ),
    "led_strip": LightKind(
        (0.7, 1.0, 1.5), (100, 120, 130), 45, 4, (4, 8, 15), "white",
        "estimate: 50-105 lumens per watt over 69 lux per µmol (CIE LED illuminants)", length_share=0.9,
    ),
    "t5": LightKind(
        (0.6, 0.76, 0.97), (90, 115, 130), 55, 5, (6, 12, 20), "fluorescent",
        f"best fluorescent fixture tested 0.95 ({NELSON_BUGBEE}); lower end: worn tubes and plain reflectors, estimate",
        length_share=0.9,
    ),
    "metal_halide": LightKind(
        (0.7, 0.98, 1.35), (80, 105, 125), 22, 18, (18, 26, 40), "metal_halide",
        f"best ceramic lamp fixture tested 1.46 ({NELSON_BUGBEE}); quartz double-ended lamps lower, estimate",
    ),
    "compact_fluorescent": LightKind(
        (0.35, 0.5, 0.75), (105, 120, 140), 22, 6, (5, 10, 18), "fluorescent",
        "estimate: 40-65 lumens per watt over 76 lux per µmol (CIE FL2), less light trapped between folded tubes",
    ),
    "unknown": LightKind(
        (0.4, 1.0, 2.0), (70, 105, 130), 30, 12, (6, 15, 30), "unknown",
        "kind not known: from compact fluorescent to good LED",
    ),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fixture:
    """The light as the buyer describes it.

    `kind`: key of KINDS. `count`: how many alike (1..24). `watts_each`: electrical power at the setting used (0..2000).
    `hours`: hours a day with light on, ramps included. `height_cm`: water surface to lamp (0..200). None: not known.
    `length_cm`, `width_cm`: lit size of one fixture where known. `beam_deg`: full beam angle where known (20..160).
    `ramp_hours`: sum of dawn and dusk ramps. `lid`: clear cover between lamp and water, None where not said.
    Raises ValueError naming the argument.
    """

    kind: str
    count: int
    watts_each: float
    hours: float | None = None
    height_cm: float | None = None
    length_cm: float | None = None
    width_cm: float | None = None
    beam_deg: float | None = None
    ramp_hours: float = 0.0
    lid: bool | None = False

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise ValueError(f"kind must be one of {', '.join(KINDS)}, got {self.kind!r}")
        if not 1 <= self.count <= 24 or self.count != int(self.count):
            raise ValueError(f"count must be a whole number 1..24, got {self.count}")
        _check("watts_each", self.watts_each, 0, 2000, open_low=True)
        _check("hours", self.hours, 0, 24)
        _check("height_cm", self.height_cm, 0, 200)
        _check("length_cm", self.length_cm, 1, 300)
        _check("width_cm", self.width_cm, 1, 150)
        _check("beam_deg", self.beam_deg, 20, 160)
        _check("ramp_hours", self.ramp_hours, 0, 24)
        if self.hours is not None and self.ramp_hours > self.hours:
            raise ValueError(f"ramp_hours must not exceed hours, got {self.ramp_hours}")


@dataclass(frozen=True, slots=True)
class Footprint:
    """Inside of the tank: length (left to right), width (front to back) and depth of the water, cm."""

    length_cm: float
    width_cm: float
    depth_cm: float

    def __post_init__(self) -> None:
        _check("length_cm", self.length_cm, 10, 600)
        _check("width_cm", self.width_cm, 10, 300)
        _check("depth_cm", self.depth_cm, 5, 200)

    @property
    def volume_l(self) -> float:
        """Volume of the box, litres, before rock and sand."""
        return self.length_cm * self.width_cm * self.depth_cm / 1000


def _check(name: str, value: float | None, low: float, high: float, open_low: bool = False) -> None:
    if value is not None and not (low <= value <= high and not (open_low and value == low)):
        raise ValueError(f"{name} must be {'above ' if open_low else ''}{low}..{high}, got {value}")
