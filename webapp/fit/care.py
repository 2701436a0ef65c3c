"""What the buyer brings: a tank that has run long enough, and food."""

from webapp.fit.findings import Finding, Note
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Basis, Profile
from webapp.fit.requires import hungry, lives_by_food

_AGE = Basis("common_practice", note="months a tank has run with animals in it")
_FOOD = Basis("common_practice", note="feeding days a week")
ENOUGH_SHARE = 0.5


def judge_age(prepared: PreparedTank, profile: Profile, required: bool) -> Finding:
    """Months since the tank was started, against the kind's minimum. Waiting mends it.

    Source: common practice (the minimum is the profile's).
    """
    needs, age = profile.min_tank_age_months, prepared.tank.age_months
    if age is None:
        return Finding("age", "not_known", (Note("age_not_said", {"needs_months": needs}),), required, basis=(_AGE,))
    values = {"age_months": age, "needs_months": needs}
    if age >= needs:
        return Finding("age", "suits", (Note("age_fine", values),), required, basis=(_AGE,))
    wait = {"wait_months": needs - age}
    return Finding(
        "age", "change_first", (Note("age_too_young", {**values, **wait}),), required, basis=(_AGE,),
        advice=(Note("wait_months", wait),),
    )  # fmt: skip


def judge_feeding(prepared: PreparedTank, profile: Profile, required: bool) -> list[Finding]:
    """Days a week the buyer can feed, against what the kind does best with; nothing where it needs none.

    A kind that must be fed and never can be is not here: no water or place mends that.

    Source: common practice (the days are the profile's).
    """
    needs, days = profile.feeding_days_per_week, prepared.tank.feeding_days_per_week
    if needs <= 0:
        return []
    advice = (Note("feed_it", {"needs_days": needs}),)
    if days is None:
        note = Note("feeding_not_said", {"needs_days": needs})
        return [Finding("feeding", "not_known", (note,), required, basis=(_FOOD,), advice=advice)]
    values = {"days": days, "needs_days": needs}
    if days >= needs:
        return [Finding("feeding", "suits", (Note("feeding_fine", values),), required, basis=(_FOOD,))]
    if days <= 0 and required and not lives_by_food(profile):
        return [Finding("feeding", "not_here", (Note("feeding_too_little", values),), required, basis=(_FOOD,))]
    if lives_by_food(profile):
        return [Finding("feeding", "not_here", (Note("feeding_cannot", values),), required, basis=(_FOOD,))]
    if hungry(profile) and days < ENOUGH_SHARE * needs:
        note = Note("feeding_too_little", values)
        return [Finding("feeding", "change_first", (note,), required, basis=(_FOOD,), advice=advice)]
    return [Finding("feeding", "close", (Note("feeding_less", values),), required, basis=(_FOOD,), advice=advice)]
