"""Several animals for one tank: the water that all of them bear, one plan for it, and what cannot be met for all."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from webapp.fit.acclimate import acclimate
from webapp.fit.findings import Report
from webapp.fit.mending import PLANNED, to_mend
from webapp.fit.plans import Plans, plan_all
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Band
from webapp.fit.specimen import Specimen

#: A common range is at least this share of the narrowest of theirs where limits leave room: no plan hits a point.
LEAST_SHARE = 0.1


@dataclass(frozen=True, slots=True)
class Common:
    """What several kinds have in common. Numbers are places in their row.

    bands: factor -> the range to aim at, inside the limits of all. compromise: factors whose ideals do not meet, while
    the limits do. apart: factor -> (the one whose limit ends lowest, the one whose limit begins highest): no water is
    within the limits of both.
    """

    bands: dict[str, Band]
    compromise: frozenset[str] = frozenset()
    apart: dict[str, tuple[int, int]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Together:
    """One plan over all of them. asked_by: factor -> places of those whose water must change for it."""

    common: Common
    plans: Plans
    asked_by: dict[str, tuple[int, ...]]


def common_bands(kinds: Sequence[Mapping[str, Band]]) -> Common:
    """The ranges of `kinds` (each: factor -> band) laid over one another. Source: intersection of intervals."""
    bands, compromise, apart = {}, set(), {}
    for factor in dict.fromkeys(factor for kind in kinds for factor in kind):
        having = {place: kind[factor] for place, kind in enumerate(kinds) if factor in kind}
        band = _common(list(having.values()))
        if band is None:
            ends_lowest = min(having, key=lambda place: having[place].limit_high)
            begins_highest = max(having, key=lambda place: having[place].limit_low)
            apart[factor] = ends_lowest, begins_highest
            continue
        bands[factor] = band
        if max(one.ideal_low for one in having.values()) > min(one.ideal_high for one in having.values()):
            compromise.add(factor)
    return Common(bands, frozenset(compromise), apart)


def _common(bands: Sequence[Band]) -> Band | None:
    """Where the ideals meet; else what lies between them, inside the limits of all; None where no limits meet."""
    limit_low, limit_high = max(band.limit_low for band in bands), min(band.limit_high for band in bands)
    if limit_low >= limit_high and len(set(bands)) > 1:
        return None
    low, high = sorted((max(band.ideal_low for band in bands), min(band.ideal_high for band in bands)))
    low, high = max(low, limit_low), min(high, limit_high)
    short = LEAST_SHARE * min(band.ideal_high - band.ideal_low for band in bands) - (high - low)
    if short > 0:
        low, high = max(low - short / 2, limit_low), min(high + short / 2, limit_high)
    return replace(bands[0], limit_low=limit_low, ideal_low=low, ideal_high=high, limit_high=limit_high)


def plan_together(reports: Sequence[Report], kinds: Sequence[Mapping[str, Band]], volume_l: float | None) -> Together:
    """One plan for the tank that `reports` tell of, in the order of `kinds`. volume_l: the tank's litres as stated.

    Animals that no change brings there do not count, unless none of them may go.
    """
    living = [place for place, report in enumerate(reports) if report.whole != "not_here"] or range(len(reports))
    common = common_bands([kinds[place] if place in living else {} for place in range(len(kinds))])
    asked_by: dict[str, tuple[int, ...]] = {}
    water: dict[str, float] = {}
    for place in living:
        for finding in reports[place].findings:
            if finding.estimate and finding.factor in PLANNED | {"ph"}:
                water[finding.factor] = finding.estimate.mid
            if to_mend(finding) and finding.factor in common.bands:
                asked_by[finding.factor] = (*asked_by.get(finding.factor, ()), place)
    try:
        plans = plan_all(water, common.bands, asked_by, volume_l) if asked_by else Plans({})
    except ValueError:  # beyond an equation's range: no amount can be told
        plans = Plans({})
    return Together(common, plans, asked_by)


def led_into(
    reports: Sequence[Report], together: Together, prepared: PreparedTank, specimens: Sequence[Specimen]
) -> list[Report]:
    """The reports with an acclimation each to the water as it will be: after the common plan where any must wait."""
    readings, light = prepared.readings, prepared.tank.light
    waits = any(report.whole == "change_first" for report in reports)
    planned = together.plans.by_factor
    after = {name: planned[name].target for name in together.asked_by if name in planned} if waits else {}
    temp_c, salinity_ppt = (after.get(name, readings.middle(name)) for name in ("temp", "salinity"))
    return [
        replace(
            report,
            acclimation=acclimate(
                specimen, temp_c, salinity_ppt, report.spot, light_hours=light.hours if light else None
            ),
        )
        if report.acclimation
        else report
        for report, specimen in zip(reports, specimens, strict=True)
    ]
