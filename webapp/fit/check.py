"""The fit check: will this animal live in that tank, factor by factor, and where, and what must change first.

prepare            readings as ranges, questions, light and flow at every place         prepared.py
water, toxins      chemistry and warmth; ammonia and nitrite                            water.py, toxins.py
steadiness         daily swings, summer heat                                            steadiness.py
place              light and flow at the best spot                                      placing.py
animals            tankmates, neighbours, chemistry between them, pumps                 tankmates.py ...
room and care      free space, the tank's age, feeding                                  space.py, care.py
whole              the worst of them, and what would settle most                        whole.py, settle.py
used to            what this very animal lives in here, told beside each factor         habits.py
mend               plans, one schedule, acclimation                                     mending.py, acclimate.py
"""

from collections.abc import Mapping
from dataclasses import dataclass

from webapp.fit.acclimate import acclimate
from webapp.fit.beside import paperwork_of, safety_of, unknowable_for
from webapp.fit.care import judge_age, judge_feeding
from webapp.fit.chemistry import judge_chemistry, judge_pumps
from webapp.fit.findings import Finding, Note, Report, Spot, Verdict
from webapp.fit.habits import tell_used_to
from webapp.fit.leaving import leave_or_mend
from webapp.fit.mending import Mended, mend
from webapp.fit.neighbours import judge_neighbours
from webapp.fit.placing import Placed, place, with_gaps
from webapp.fit.prepared import NO_KINDS, PreparedTank, prepare
from webapp.fit.profile import Profile
from webapp.fit.requires import required_now
from webapp.fit.settle import settle_next
from webapp.fit.space import judge_space
from webapp.fit.specimen import Specimen
from webapp.fit.steadiness import judge_stability, judge_summer
from webapp.fit.tank import BuyerTank
from webapp.fit.tankmates import judge_tankmates
from webapp.fit.toxins import judge_toxins
from webapp.fit.water import judge_water
from webapp.fit.whole import whole


def check(tank: BuyerTank, specimen: Specimen, kinds: Mapping[str, Profile] = NO_KINDS) -> Report:
    """The whole answer for one animal and one tank. `kinds`: profiles by key, for the neighbours named."""
    return check_prepared(prepare(tank, kinds), specimen)


def check_prepared(prepared: PreparedTank, specimen: Specimen, *, with_plans: bool = True) -> Report:
    """As `check`, for a tank prepared once and asked about many times; a ranking needs no plans."""
    profile = specimen.profile
    judged = _judged_once(prepared, profile, specimen.size_cm)
    findings = tell_used_to(judged.findings, specimen.used_to)
    mended = mend(findings, prepared, profile) if with_plans else Mended(findings)
    lives = with_plans and judged.whole != "not_here"
    return Report(
        profile_key=profile.key,
        profile_revision=profile.revision,
        whole=judged.whole,
        whole_reasons=judged.whole_reasons,
        findings=mended.findings,
        questions=prepared.questions,
        spot=judged.spot,
        settle_next=judged.settle_next,
        schedule=mended.schedule,
        schedule_notes=mended.notes,
        acclimation=_acclimation(prepared, specimen, judged, mended) if lives else (),
        safety=safety_of(profile, doses=mended.doses, work=bool(mended.schedule)),
        paperwork=paperwork_of(profile),
        unknowable=unknowable_for(prepared, specimen, findings),
    )


@dataclass(frozen=True, slots=True)
class _Judged:
    profile: Profile
    findings: tuple[Finding, ...]
    whole: Verdict
    whole_reasons: tuple[Note, ...]
    spot: Spot
    settle_next: tuple[str, ...]


def _judged_once(prepared: PreparedTank, profile: Profile, size_cm: float | None) -> _Judged:
    key = (id(profile), size_cm)
    if key not in prepared.memo:
        prepared.memo[key] = _judge(prepared, profile, size_cm)
    return prepared.memo[key]


def _judge(prepared: PreparedTank, profile: Profile, size_cm: float | None) -> _Judged:
    required = required_now(profile, prepared.given)
    placed = place(prepared, profile, required)
    findings = leave_or_mend(_findings(prepared, profile, size_cm, required, placed), prepared, profile)
    verdict, reasons = whole(findings, profile.hardiness)
    spot = with_gaps(placed.spot, findings)
    return _Judged(profile, findings, verdict, reasons, spot, settle_next(findings, profile))


def _acclimation(prepared: PreparedTank, specimen: Specimen, judged: _Judged, mended: Mended) -> tuple[Note, ...]:
    """From the water here to the buyer's: as it is, or as it will be where it must change before the animal comes."""
    readings, light = prepared.readings, prepared.tank.light
    after = {found.factor: found.plan.target for found in mended.findings if found.plan}
    later = after if judged.whole == "change_first" else {}
    temp_c, salinity_ppt = (later.get(name, readings.middle(name)) for name in ("temp", "salinity"))
    return acclimate(specimen, temp_c, salinity_ppt, judged.spot, light_hours=light.hours if light else None)


def _findings(
    prepared: PreparedTank, profile: Profile, size_cm: float | None, required: frozenset[str], placed: Placed
) -> tuple[Finding, ...]:
    """Every finding, in the order a person reads them."""
    return (
        *judge_water(prepared, profile, required),
        *judge_toxins(prepared),
        *judge_stability(prepared, profile),
        *judge_summer(prepared, profile),
        *(finding for finding in (placed.light, placed.flow) if finding),
        judge_tankmates(prepared, profile, "tankmates" in required),
        judge_neighbours(prepared, profile),
        *judge_chemistry(prepared, profile),
        *judge_pumps(prepared, profile),
        judge_space(prepared, profile, size_cm),
        judge_age(prepared, profile, "age" in required),
        *judge_feeding(prepared, profile, "feeding" in required),
    )
