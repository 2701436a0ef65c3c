"""Single words and short phrases for the values that the history keeps."""

import re

from webapp.words.language import Translate, later

_IN_BRACKETS = re.compile(r" \([^)]*\)")
_PLAIN_WORDS = re.compile(r"[(]| and | of ")

STATUS = {
    "quarantine": later("in quarantine"),
    "healing": later("healing"),
    "for_sale": later("for sale"),
    "mother": later("mother colony, not for sale"),
    "kept": later("kept by the shop"),
    "sold": later("sold"),
    "lost": later("died"),
    "merged": later("joined to another"),
}
ORIGIN = {
    "bought_in": later("bought in"),
    "maricultured": later("farmed in the sea"),
    "wild": later("taken from the wild"),
    "own": later("grown here"),
    "unknown": later("origin not known"),
}
METHOD = {
    "saw": later("cut with a saw"),
    "cutter": later("cut between the heads"),
    "shears": later("cut with shears"),
    "scalpel": later("cut with a scalpel"),
    "foot_cut": later("cut at the foot"),
    "halving": later("halved through the mouth"),
    "micro_fragment": later("cut into small tiles"),
    "natural_split": later("split by itself"),
    "other": later("cut"),
}
CAUSE = {
    "bleach_light": later("bleached by light"),
    "bleach_heat": later("bleached by heat"),
    "starvation": later("starved"),
    "brown_jelly": later("brown jelly"),
    "tissue_loss": later("tissue loss"),
    "melt_after_cut": later("melted after the cut"),
    "pest": later("a pest"),
    "fish_bite": later("bitten by a fish"),
    "sting": later("stung"),
    "fell": later("fell or drifted"),
    "buried": later("buried"),
    "algae": later("overgrown by algae"),
    "chemical": later("a swing in the water"),
    "human": later("a mistake of ours"),
    "unknown": later("not known"),
}
PLACEMENT = {
    "bottom": later("On the sand at the bottom."),
    "lower": later("In the lower third, on the rock."),
    "middle": later("Half way up the rock."),
    "upper": later("In the upper third, near the light."),
    "anywhere": later("Anywhere that the light and the flow suit it."),
}
PURPOSE = {
    "display": later("display"),
    "grow_out": later("grow-out"),
    "quarantine": later("quarantine"),
    "holding": later("holding"),
}
GROUP = {
    "corallimorph": later("mushroom (corallimorph)"),
    "zoanthid": later("zoanthid"),
    "soft": later("soft coral"),
    "gorgonian": later("gorgonian"),
    "lps": later("large-polyp stony coral"),
    "sps": later("small-polyp stony coral"),
    "anemone": later("anemone"),
    "clam": later("giant clam"),
}
CONFLICT = {
    "created_twice": later("it was entered twice"),
    "sold_after_sold": later("it was sold twice"),
    "sold_after_lost": later("it was sold after it was noted as lost"),
    "sold_after_merged": later("it was sold after it was joined to another"),
    "sold_while_held": later("it was sold while it was on hold for somebody else"),
    "lost_after_sold": later("it was noted as lost after it was sold"),
    "lost_after_lost": later("it was noted as lost twice"),
    "lost_after_merged": later("it was noted as lost after it was joined to another"),
    "merged_after_sold": later("it was joined to another after it was sold"),
    "merged_after_lost": later("it was joined to another after it was noted as lost"),
    "merged_after_merged": later("it was joined to two others"),
    "held_twice": later("two people hold it with different words"),
    "held_after_sold": later("it was put on hold after it was sold"),
    "held_after_lost": later("it was put on hold after it was noted as lost"),
    "held_after_merged": later("it was put on hold after it was joined to another"),
    "moved_after_sold": later("it was moved after it was sold"),
    "moved_after_lost": later("it was moved after it was noted as lost"),
    "moved_after_merged": later("it was moved after it was joined to another"),
    "changed_after_sold": later("its state was changed after it was sold"),
    "changed_after_lost": later("its state was changed after it was noted as lost"),
    "changed_after_merged": later("its state was changed after it was joined to another"),
    "returned_while_here": later("it was noted as returned although it was here"),
    "bound_twice": later("this tag was bound to two things"),
}


def latin_name(scientific: str, translate: Translate) -> str:
    """A scientific name as a sheet has it: without what its brackets explain."""
    return scientific if is_latin(scientific) else _IN_BRACKETS.sub("", translate(scientific))


def is_latin(scientific: str) -> bool:
    """Whether a scientific name is one and nothing besides, so that there is nothing to translate."""
    return not _PLAIN_WORDS.search(scientific)
