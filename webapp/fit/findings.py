"""What the check found: codes and values, never sentences. `words` makes the sentences."""

from dataclasses import dataclass, field
from typing import Literal

from webapp.fit.profile import Band, Basis
from webapp.science.interval import Interval

Verdict = Literal["suits", "close", "not_known", "change_first", "not_here"]

#: Worst last.
ORDER: tuple[Verdict, ...] = ("suits", "close", "not_known", "change_first", "not_here")

Value = float | int | str | bool | None | tuple


@dataclass(frozen=True, slots=True)
class Note:
    """One thing to say: `code` names the sentence, `values` fill it. Units are in the names (temp_c, volume_l)."""

    code: str
    values: dict[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Question:
    """A value that looks typed in another unit. Nothing of this quantity is judged until it is answered.

    offers: what it would be in each other unit: (unit key, value as typed, canonical value).
    """

    quantity: str
    code: str
    typed: float
    unit: str
    offers: tuple[tuple[str, float, float], ...] = ()
    values: dict[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a day-by-day plan. day counts from 0; amount in `unit` ('g' or 'l')."""

    day: int
    action: str
    amount: float
    unit: str
    expect: dict[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Plan:
    """How to mend one factor within a daily rate. `action` names the deed, totals in `unit` ('g' or 'l')."""

    action: str
    total: float
    unit: str
    days: int
    target: float
    steps: tuple[Step, ...] = ()
    cautions: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in the buyer's tank. depth_cm below the surface; light in umol m-2 s-1, flow in cm/s."""

    zone: str
    depth_cm: float | None
    depth_range_cm: tuple[float, float] | None
    light: Interval | None
    flow: Interval | None
    reasons: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """The verdict on one factor. `estimate` is in the factor's canonical unit; `used_to` is the median here.

    required: this kind must have a reading of it. near_edge: suits, but its interval leaves the ideal band.
    """

    factor: str
    verdict: Verdict
    reasons: tuple[Note, ...]
    required: bool = False
    near_edge: bool = False
    estimate: Interval | None = None
    band: Band | None = None
    unit: str = ""
    used_to: float | None = None
    basis: tuple[Basis, ...] = ()
    advice: tuple[Note, ...] = ()
    plan: Plan | None = None


@dataclass(frozen=True, slots=True)
class Report:
    """The whole answer. `findings` in the order a person reads them; `whole_reasons` say why it is so."""

    profile_key: str
    profile_revision: int
    whole: Verdict
    whole_reasons: tuple[Note, ...]
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...] = ()
    spot: Spot | None = None
    settle_next: tuple[str, ...] = ()
    schedule: tuple[Step, ...] = ()
    schedule_notes: tuple[Note, ...] = ()
    acclimation: tuple[Note, ...] = ()
    safety: tuple[Note, ...] = ()
    paperwork: tuple[Note, ...] = ()
    unknowable: tuple[Note, ...] = ()
