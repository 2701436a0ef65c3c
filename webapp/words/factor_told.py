"""One factor of the answer in sentences."""

from dataclasses import dataclass

from webapp.fit.findings import Finding, Verdict
from webapp.science.interval import Interval
from webapp.words.basis import basis_word
from webapp.words.factors import factor_name, quantity_of
from webapp.words.language import later
from webapp.words.notes import note_sentence
from webapp.words.plans import ToldPlan, tell_plan
from webapp.words.speaker import Speaker

EVEN = 0.05
"""Up to this share an uneven range is told as 'give or take'."""


@dataclass(frozen=True, slots=True)
class ToldFactor:
    """A factor ready to be shown: reading '7.2 dKH', give_or_take 'give or take 0.4'; '' where there is nothing.

    edges: limit, ideal, ideal, limit as numbers in the reader's unit, for the drawing.
    """

    factor: str
    name: str
    verdict: Verdict
    unit: str
    reading: str
    give_or_take: str
    reasons: list[str]
    advice: list[str]
    basis: str
    plan: ToldPlan | None
    required: bool
    near_edge: bool
    used_to: str
    edges: tuple[str, ...]


def tell_factor(finding: Finding, speaker: Speaker) -> ToldFactor:
    """All that is said of one factor."""
    quantity, estimate = quantity_of(finding.factor), finding.estimate
    measured = quantity is not None and estimate is not None
    plan = finding.plan
    return ToldFactor(
        factor=finding.factor,
        name=factor_name(finding.factor, speaker.translate),
        verdict=finding.verdict,
        unit=speaker.unit_label(quantity) if quantity and finding.band else "",
        reading=speaker.reading(quantity, estimate.mid) if measured else "",
        give_or_take=_give_or_take(quantity, estimate, speaker) if measured else "",
        reasons=[note_sentence(note, speaker, finding) for note in finding.reasons],
        advice=[note_sentence(note, speaker, finding) for note in finding.advice],
        basis=_basis(finding, speaker),
        plan=tell_plan(plan, finding.factor, estimate.mid if estimate else None, speaker) if plan else None,
        required=finding.required,
        near_edge=finding.near_edge,
        used_to=_used_to(finding, quantity, speaker),
        edges=_edges(finding, quantity, speaker),
    )


def _give_or_take(quantity: str, estimate: Interval, speaker: Speaker) -> str:
    half = (estimate.high - estimate.low) / 2
    if half == 0:
        return ""
    if abs(estimate.mid - estimate.low - half) <= EVEN * half:
        change = speaker.bare_difference(quantity, half, estimate.mid)
        return speaker.say(later("give or take %(change)s"), change=change)
    ends = {"low": speaker.bare(quantity, estimate.low), "high": speaker.bare(quantity, estimate.high)}
    return speaker.say(later("anything from %(low)s to %(high)s"), **ends)


def _basis(finding: Finding, speaker: Speaker) -> str:
    if not finding.basis:
        return ""
    word = basis_word(finding.basis[0], speaker.translate)
    return speaker.say(later("Range: %(basis)s") if finding.band else later("Rule: %(basis)s"), basis=word)


def _edges(finding: Finding, quantity: str | None, speaker: Speaker) -> tuple[str, ...]:
    band = finding.band
    if quantity is None or band is None:
        return ()
    values = (band.limit_low, band.ideal_low, band.ideal_high, band.limit_high)
    return tuple(speaker.bare(quantity, value) for value in values)


def _used_to(finding: Finding, quantity: str | None, speaker: Speaker) -> str:
    if finding.used_to is None or quantity is None or any(note.code == "used_to_differs" for note in finding.reasons):
        return ""
    return speaker.say(later("Used to %(reading)s here."), reading=speaker.reading(quantity, finding.used_to))
