"""What the check must know of the animal on the rack: its kind, its size, and the water it is used to."""

from dataclasses import dataclass, field
from typing import NamedTuple

from webapp.fit.profile import Profile


class UsedTo(NamedTuple):
    """Of one quantity, over the days lived here: median and the middle 80 % (p10, p90), canonical unit; n readings."""

    median: float
    low: float
    high: float
    n: int
    days: float


@dataclass(frozen=True, slots=True)
class Specimen:
    """size_cm: longest dimension now (None: not measured). used_to is keyed like Profile.bands, plus 'light_hours'."""

    profile: Profile
    size_cm: float | None = None
    used_to: dict[str, UsedTo] = field(default_factory=dict)
    days_since_cut: int | None = None
