"""The short form: at most six questions, those that this kind cannot be judged without; all others are one tap away."""

from collections.abc import Iterable, Mapping
from itertools import islice

from webapp.fit.profile import Profile
from webapp.fit.requires import lives_by_food
from webapp.views.fit_query import READINGS

MOST = 6
#: What is asked, the weightiest first, and the boxes of each. 'rock' is asked of buyers of kinds that may be poisonous.
BOXES: dict[str, tuple[str, ...]] = {
    "rock": ("rock",),
    "temp": ("temp", "temp_unit"),
    "salinity": ("salinity", "salinity_unit"),
    "alk": ("alk", "alk_unit"),
    "feeding": ("feeds",),
    "light": ("light_word", "light_way"),
    "no3": ("no3", "no3_unit"),
    "age": ("age",),
    "flow": ("flow_word", "flow_way"),
}
#: What may be asked beside an answer: by factor, what one question can settle.
BESIDE = {one: boxes for one, boxes in BOXES.items() if one != "rock"} | {
    one: (one, f"{one}_unit") for one in READINGS
}
MOST_BESIDE = 3
_OF_ANY_KIND = frozenset({"temp", "salinity", "alk", "light", "no3", "age"})
_NUTRIENT = "nutrient"  # nitrate answers it


def six_for(profile: Profile | None) -> tuple[str, ...]:
    """What to ask of the tank for this kind; None: for all kinds."""
    if profile is None:
        return tuple(one for one in BOXES if one in _OF_ANY_KIND)
    wanted = set(profile.requires or _OF_ANY_KIND) | {"temp", "salinity"}
    if _NUTRIENT in wanted:
        wanted.add("no3")
    if profile.toxic:
        wanted.add("rock")
    if lives_by_food(profile):
        wanted.discard("light")
        wanted.add("feeding")
    return tuple(one for one in BOXES if one in wanted)[:MOST]


def holds_all(asked: tuple[str, ...], given: Mapping[str, str]) -> bool:
    """Whether the short form has a box for all that was typed; `light_way` and `flow_way` only by words."""
    boxes = {box for one in asked for box in BOXES[one]} | {"lang", "read", "empty"}
    typed = {box: text for box, text in given.items() if text.strip()}
    by_words = all(typed.get(way, "words") == "words" for way in ("light_way", "flow_way"))
    return "all" not in typed and by_words and set(typed) <= boxes


def still_blank(open_factors: Iterable[str], given: Mapping[str, str]) -> tuple[str, ...]:
    """The first three of the open factors that one question can settle and that nothing was said of."""
    return tuple(islice((one for one in open_factors if one in BESIDE and not _is_said(one, given)), MOST_BESIDE))


def _is_said(one: str, given: Mapping[str, str]) -> bool:
    """A unit alone says nothing; of light and flow another way than words does."""
    boxes = BESIDE[one]
    ways = [given.get(box, "") for box in boxes if box.endswith("_way")]
    typed = [given.get(box, "").strip() for box in boxes if not box.endswith(("_way", "_unit"))]
    return any(typed) or any(way not in ("", "words") for way in ways)
