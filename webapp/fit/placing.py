"""Where in the tank: light and flow judged at the best spot for this kind, and that spot is the answer."""

import math
from dataclasses import dataclass, replace

from webapp.fit.findings import Finding, Note, Spot, Verdict
from webapp.fit.judge import RANK, Judgement, judge, reason
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Band, Basis, Profile
from webapp.fit.spots import Choice, Place
from webapp.science.flow import FlowField
from webapp.science.light import LightField

STRONG_LIGHT_GROUPS = frozenset({"sps", "clam", "anemone"})
"""Kinds for which a described light is never enough: they live by strong light (common practice)."""
ESTIMATED = frozenset({"words", "lux", "fixture"})
HABIT = {"upper": 0.2, "middle": 0.5, "lower": 0.8, "bottom": 1.0}
HABIT_SLACK = 0.2
AS_GOOD = math.log(1.5)
"""Within this factor of the middle of the ideal, light is as good as that middle: habit decides (common practice)."""
PLACE_CODES = {
    "edge": "spot_edge",
    "half_shade": "spot_half_shade",
    "shade": "spot_shade",
    "sheltered": "spot_sheltered",
    "half_sheltered": "spot_half_sheltered",
    "edge_of_jet": "spot_edge_of_stream",
    "in_jet": "spot_in_stream",
    "near_jet": "spot_near_pump",
}


@dataclass(frozen=True, slots=True)
class Placed:
    """The two findings, and the spot."""

    light: Finding | None
    flow: Finding | None
    spot: Spot


@dataclass(frozen=True, slots=True)
class _Option:
    key: tuple
    place: Place
    light: tuple[Choice, Judgement] | None
    flow: tuple[Choice, Judgement] | None


def place(prepared: PreparedTank, profile: Profile, required: frozenset[str]) -> Placed:
    """Light, flow and spot of this kind in the tank. Free-living kinds lie on the sand; others may stand anywhere.

    Source: our own rule: the mildest verdict, then the least effort, then the kind's own height (common practice).
    """
    options = _options(_allowed(prepared.places, profile), profile)
    best = min(options, key=lambda option: option.key)
    light = flow = None
    if "par" in profile.bands:
        light = _light_finding(prepared, profile, best, "light" in required)
    if "flow" in profile.bands:
        flow = _flow_finding(prepared, profile, best, "flow" in required)
    return Placed(light, flow, _spot(profile, best, options))


def with_gaps(spot: Spot, findings: tuple[Finding, ...]) -> Spot:
    """The spot with the gaps to keep there: neighbours compete for it too."""
    gaps = [note for found in findings if found.factor == "neighbours" for note in found.advice]
    kept = tuple(Note("spot_gap", note.values) for note in gaps if note.code == "keep_gap")
    return replace(spot, reasons=(*spot.reasons, *kept)) if kept else spot


def _allowed(places: tuple[Place, ...], profile: Profile) -> tuple[Place, ...]:
    return places[-1:] if profile.placement == "bottom" else places


def _options(places: tuple[Place, ...], profile: Profile) -> list[_Option]:
    flows: dict[int, tuple[Choice, Judgement] | None] = {}
    for at in places:
        if id(at.flow) not in flows:
            flows[id(at.flow)] = _best(at.flow, profile.bands.get("flow"))
    return [_option(at, _best(at.light, profile.bands.get("par")), flows[id(at.flow)], profile) for at in places]


def _option(
    at: Place, light: tuple[Choice, Judgement] | None, flow: tuple[Choice, Judgement] | None, profile: Profile
) -> _Option:
    ranks = [RANK[found[1].verdict] for found in (light, flow) if found]
    effort = sum(found[0].effort for found in (light, flow) if found)
    edges = sum(found[1].near_edge for found in (light, flow) if found)
    off_light = round(max(0.0, _off(light, profile.bands.get("par")) - AS_GOOD), 3)
    off_usual = abs(at.fraction - HABIT.get(profile.placement, 0.5))
    key = (
        max(ranks, default=0), sum(ranks), effort, edges, round(_off_habit(at, profile), 3), off_light, off_usual,
    )  # fmt: skip
    return _Option(key, at, light, flow)


def _best(choices: tuple[Choice, ...], band: Band | None) -> tuple[Choice, Judgement] | None:
    """The place with the mildest verdict; between equals the one nearest the middle of the ideal."""
    if band is None or not choices:
        return None
    judged = [(choice, judge(choice.interval, band, log=True)) for choice in choices]
    return min(
        judged, key=lambda found: (RANK[found[1].verdict], found[0].effort, found[1].near_edge, _off(found, band))
    )


def _off(found: tuple[Choice, Judgement] | None, band: Band | None) -> float:
    if found is None or band is None:
        return 0.0
    mid = max(found[0].interval.mid, 0.01)
    if band.ideal_low <= 0:  # darkness is ideal too: nothing is gained by going darker than half of the ideal
        return max(0.0, math.log(mid / (band.ideal_high / 2)))
    return abs(math.log(mid / math.sqrt(band.ideal_low * band.ideal_high)))


def _off_habit(at: Place, profile: Profile) -> float:
    usual = HABIT.get(profile.placement)
    return 0.0 if usual is None else max(0.0, abs(at.fraction - usual) - HABIT_SLACK)


def _light_finding(prepared: PreparedTank, profile: Profile, best: _Option, required: bool) -> Finding:
    band, lighting = profile.bands["par"], prepared.lighting
    if best.light is None:
        asked = "light" in prepared.asked
        advice = Note("answer_question") if asked else Note("describe_light")
        return Finding(
            "light", "not_known", lighting.notes or (Note("light_not_said"),), required, band=band, unit="umol",
            basis=(band.basis,), advice=(advice,),
        )  # fmt: skip
    interval, judgement = best.light[0].interval, best.light[1]
    verdict: Verdict = judgement.verdict
    reasons = [reason(judgement, interval, band), *lighting.notes]
    advice = []
    if lighting.way == "words" and profile.group in STRONG_LIGHT_GROUPS and verdict in ("suits", "close"):
        verdict = "not_known"
        reasons.append(Note("light_words_only", {"group": profile.group}))
    if verdict == "not_known":
        advice.append(Note("measure_light", {"depth_cm": best.place.depth_cm}))
    elif verdict != "suits" and interval.mid > band.ideal_high:
        advice.append(Note("dim_light", {"share": 1 - band.ideal_high / interval.mid}))
    elif verdict != "suits" and interval.mid > 0:
        advice.append(Note("more_light", {"factor": band.ideal_low / interval.mid}))
    elif judgement.near_edge and lighting.way in ESTIMATED and _worth_measuring(profile):
        advice.append(Note("measure_light", {"depth_cm": best.place.depth_cm}))
    near = judgement.near_edge and verdict == "suits"
    return Finding(
        "light",
        verdict,
        tuple(reasons),
        required,
        near,
        interval,
        band,
        "umol",
        None,
        (band.basis, *_how(lighting.field)),
        tuple(advice),
    )


def _worth_measuring(profile: Profile) -> bool:
    """Kinds that pay for a wrong estimate: builders of skeletons, and what lives by strong light (common practice)."""
    return profile.skeleton or profile.group in STRONG_LIGHT_GROUPS


def _flow_finding(prepared: PreparedTank, profile: Profile, best: _Option, required: bool) -> Finding:
    band, streaming = profile.bands["flow"], prepared.streaming
    if best.flow is None:
        asked = "flow" in prepared.asked
        advice = Note("answer_question") if asked else Note("describe_flow")
        return Finding(
            "flow", "not_known", streaming.notes or (Note("flow_not_said"),), required, band=band, unit="cm_s",
            basis=(band.basis,), advice=(advice,),
        )  # fmt: skip
    interval, judgement = best.flow[0].interval, best.flow[1]
    advice = []
    if judgement.verdict == "not_known":
        advice.append(Note("look_at_flow"))
    elif judgement.verdict != "suits" and interval.mid > band.ideal_high:
        advice.append(Note("less_flow", {"share": band.ideal_high / interval.mid}))
    elif judgement.verdict != "suits":
        advice.append(Note("more_flow", {"factor": band.ideal_low / interval.mid}))
    return Finding(
        "flow", judgement.verdict, (reason(judgement, interval, band), *streaming.notes), required,
        judgement.near_edge, interval, band, "cm_s", None, (band.basis, *_how(streaming.field)), tuple(advice),
    )  # fmt: skip


def _how(field: LightField | FlowField | None) -> tuple[Basis, ...]:
    """What the figure itself rests on."""
    return tuple(Basis("common_practice", note=said) for said in field.basis) if field else ()


def _spot(profile: Profile, best: _Option, options: list[_Option]) -> Spot:
    at = best.place
    as_good = [option.place.depth_cm for option in _run_of_equals(best, options)]
    reasons = [_habit_note(profile, at)] if best.light or best.flow else []
    for found, code, low, high in (
        (best.light, "spot_light_decides", "low_umol", "high_umol"),
        (best.flow, "spot_flow_decides", "low_cm_s", "high_cm_s"),
    ):
        if found:
            interval = found[0].interval
            reasons.append(Note(code, {low: interval.low, high: interval.high}))
            if found[0].name in PLACE_CODES:
                reasons.append(Note(PLACE_CODES[found[0].name]))
    if not reasons:
        reasons.append(Note("spot_by_habit", {"placement": profile.placement}))
    return Spot(
        at.zone, at.depth_cm, (min(as_good), max(as_good)),
        best.light[0].interval if best.light else None, best.flow[0].interval if best.flow else None, tuple(reasons),
    )  # fmt: skip


def _run_of_equals(best: _Option, options: list[_Option]) -> list[_Option]:
    """The layers around the best one that are no worse for it in light, flow and habit."""
    here = options.index(best)
    low = high = here
    while low > 0 and options[low - 1].key[:5] == best.key[:5]:
        low -= 1
    while high < len(options) - 1 and options[high + 1].key[:5] == best.key[:5]:
        high += 1
    return options[low : high + 1]


def _habit_note(profile: Profile, at: Place) -> Note:
    values = {"placement": profile.placement}
    if profile.placement == "bottom":
        return Note("spot_on_sand")
    usual = HABIT.get(profile.placement)
    if usual is None or at.zone == profile.placement:
        return Note("spot_as_usual", values)
    return Note("spot_higher_than_usual" if at.fraction < usual else "spot_lower_than_usual", values)
