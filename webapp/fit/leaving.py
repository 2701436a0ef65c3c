"""When to leave the tank alone: no change of a mixed tank's water for one easy animal that lives well there."""

from dataclasses import replace

from webapp.fit.findings import Finding, Note
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Profile
from webapp.fit.steadiness import MUST_BE_STEADY, is_steady
from webapp.fit.water import FACTORS
from webapp.fit.whole import DEMANDING_FROM

MENDING = frozenset(
    {"lower_slowly", "raise_slowly", "thins_out", "ph_high", "feed_more_or_export_less", "raise_alkalinity"}
)


def leaves_it(prepared: PreparedTank, profile: Profile) -> bool:
    """An easy animal, and nothing said against the tank being steady; small-polyped stony corals want it said."""
    if profile.group in MUST_BE_STEADY and not prepared.tank.swings:
        return False
    return profile.hardiness < DEMANDING_FROM and is_steady(prepared)


def leave_or_mend(findings: tuple[Finding, ...], prepared: PreparedTank, profile: Profile) -> tuple[Finding, ...]:
    """The findings, with 'leave it' in place of mending where a water factor is only close for an easy animal."""
    if not leaves_it(prepared, profile):
        return findings
    return tuple(
        _left(finding) if finding.factor in FACTORS and finding.verdict == "close" else finding for finding in findings
    )


def _left(finding: Finding) -> Finding:
    kept = tuple(note for note in finding.advice if note.code not in MENDING)
    return replace(finding, advice=(Note("leave_it"), *kept))
