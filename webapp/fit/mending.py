"""A plan for every water factor that is to be mended, all out of one schedule; nothing where it is left."""

from dataclasses import dataclass, replace

from webapp.fit.findings import Finding, Note, Step
from webapp.fit.leaving import leaves_it
from webapp.fit.plans import Plans, plan_all
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Profile
from webapp.fit.water import BUILDING

PLANNED = frozenset({"temp", "salinity", "alk", "ca", "mg", "no3", "po4"})
NOT_MENDED = frozenset({"leave_it", "thins_out"})
TARGETED = frozenset({"lower_slowly", "raise_slowly", "mend_either_way"})


@dataclass(frozen=True, slots=True)
class Mended:
    """The findings with their plans, the one schedule, and what it takes for granted or cannot do."""

    findings: tuple[Finding, ...]
    schedule: tuple[Step, ...] = ()
    notes: tuple[Note, ...] = ()

    @property
    def doses(self) -> bool:
        """Whether any step weighs out a chemical."""
        return any(step.unit == "g" for step in self.schedule)


def mend(findings: tuple[Finding, ...], prepared: PreparedTank, profile: Profile) -> Mended:
    """Plans for what must or may change: 'change first' always, 'close' unless it is to be left as it is."""
    findings = findings if leaves_it(prepared, profile) else tuple(_either_way(finding) for finding in findings)
    wanted = {finding.factor for finding in findings if to_mend(finding)}
    if not wanted:
        return Mended(findings)
    water = {f.factor: f.estimate.mid for f in findings if f.factor in PLANNED | {"ph"} and f.estimate}
    try:
        plans = plan_all(water, profile.bands, wanted, prepared.size.volume_l)
    except ValueError:  # beyond an equation's range: no amount can be told
        return Mended(findings)
    return Mended(tuple(_with_plan(f, plans) for f in findings), plans.schedule, plans.notes)


def to_mend(finding: Finding) -> bool:
    """Whether a plan is to bring this factor into its ideal."""
    if finding.factor not in PLANNED or finding.estimate is None:
        return False
    if finding.verdict == "not_known":
        return any(note.code == "mend_either_way" for note in finding.advice)
    if finding.verdict == "suits":
        return False
    held = any(note.code in NOT_MENDED for note in finding.advice)
    return not held and not any(note.code == "matters_little" for note in finding.reasons)


def _either_way(finding: Finding) -> Finding:
    """What cannot be told from beyond the limit, yet lies outside the ideal with all its error, is mended meanwhile.

    A salinity first of all: what is dissolved rises and falls with it, and would be dosed in vain.
    """
    if finding.verdict != "not_known" or finding.estimate is None or finding.band is None:
        return finding
    if finding.factor not in PLANNED or finding.reasons[0].code != "straddles_limit":
        return finding
    band, estimate = finding.band, finding.estimate
    if estimate.low <= band.ideal_high and estimate.high >= band.ideal_low:
        return finding
    if finding.factor in BUILDING and estimate.low > band.ideal_high:  # the usual water changes bring it down
        return finding
    target = band.ideal_low if estimate.high < band.ideal_low else band.ideal_high
    return replace(finding, advice=(*finding.advice, Note("mend_either_way", {"target": target})))


def _with_plan(finding: Finding, plans: Plans) -> Finding:
    plan = plans.by_factor.get(finding.factor)
    if plan is None or not to_mend(finding):
        return finding
    advice = tuple(
        Note(note.code, {"target": plan.target}) if note.code in TARGETED else note for note in finding.advice
    )
    return replace(finding, plan=plan, advice=advice)
