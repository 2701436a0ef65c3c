"""What this very animal is used to here, told beside each factor. It changes no verdict: acclimation bridges it."""

from dataclasses import replace

from webapp.fit.findings import Finding, Note
from webapp.fit.specimen import UsedTo

NAMED = {"light": "par"}
"""Factors whose used-to condition goes by another name."""
ENOUGH_READINGS = 3


def tell_used_to(findings: tuple[Finding, ...], used_to: dict[str, UsedTo]) -> tuple[Finding, ...]:
    """The findings with the median it is used to, and a note where the buyer's reading differs beyond its own error."""
    if not used_to:
        return findings
    return tuple(_told(found, used_to.get(NAMED.get(found.factor, found.factor))) for found in findings)


def _told(found: Finding, used: UsedTo | None) -> Finding:
    if used is None:
        return found
    at = found.estimate
    if at is None or used.n < ENOUGH_READINGS or at.low <= used.median <= at.high:
        return replace(found, used_to=used.median)
    values = {"used_to": used.median, "value": at.mid, "difference": at.mid - used.median}
    return replace(found, used_to=used.median, reasons=(*found.reasons, Note("used_to_differs", values)))
