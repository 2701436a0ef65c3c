"""Which factors a kind must have a reading of before a blank may count as a pass.

A profile says so itself (Profile.requires); one that says nothing gets its group's list. Stony corals: temperature,
salinity, alkalinity, nitrate, phosphate, the tank's age, light at the spot; small-polyped ones and clams calcium and
magnesium too. Others: temperature, salinity, one nutrient reading, age, light and flow described (common practice).
What lives by food alone needs the feeding said instead of the light. Ask for the skeleton, not the group's name: some
soft corals build one.
"""

from functools import lru_cache

from webapp.fit.profile import Profile

STONY = frozenset({"temp", "salinity", "alk", "no3", "po4", "age", "light"})
BUILDERS = frozenset({"ca", "mg"})
OTHERS = frozenset({"temp", "salinity", "nutrient", "age", "light", "flow"})
HUNTS_FROM = 2
"""Kinds of tankmate that it surely takes, from which on the tankmates must be known: a hunter, not one odd pairing."""


def lives_by_food(profile: Profile) -> bool:
    """Whether it has no use for light (its ideal band of light starts at zero) and must be fed."""
    band = profile.bands.get("par")
    return (band is None or band.ideal_low == 0) and profile.feeding_days_per_week > 0


def hungry(profile: Profile) -> bool:
    """Whether it starves first where the water holds no nutrients: fed two days a week or more."""
    return profile.feeding_days_per_week >= 2


def builds_no_skeleton(profile: Profile) -> bool:
    """Whether calcium and magnesium matter little to it: no skeleton and no demand (clams have a demand)."""
    return not profile.skeleton and profile.calcium_demand == 0


@lru_cache(maxsize=1024)
def _by_content(requires: frozenset[str], stony: bool, builder: bool, by_food: bool, hunter: bool) -> frozenset[str]:
    needed = requires or (STONY | (BUILDERS if builder else frozenset()) if stony else OTHERS)
    if not requires and by_food:
        needed = (needed - {"light"}) | {"feeding"}
    return needed | {"tankmates"} if hunter else needed


def requirements(profile: Profile) -> frozenset[str]:
    """Factor names, with 'nutrient' for nitrate or phosphate, either."""
    stony = profile.skeleton or profile.calcium_demand > 0
    builder = stony and (profile.group in ("sps", "clam") or profile.calcium_demand >= 3)
    hunter = sum(severity == "never" for severity in profile.catches.values()) >= HUNTS_FROM
    return _by_content(profile.requires, stony, builder, lives_by_food(profile), hunter)


def required_now(profile: Profile, given: frozenset[str]) -> frozenset[str]:
    """As `requirements`, with 'nutrient' settled by what was `given`: either reading will do, else nitrate is named."""
    needed = requirements(profile)
    if "nutrient" not in needed:
        return needed
    needed = needed - {"nutrient"}
    return needed if given & {"no3", "po4"} else needed | {"no3"}
