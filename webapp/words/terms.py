"""Single words and short phrases for the values that the history keeps."""

from webapp.words.language import later

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
    "maricultured": later("grown in the sea on a farm"),
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
    "bleach_light": "bleached by light",
    "bleach_heat": "bleached by heat",
    "starvation": "starved",
    "brown_jelly": "brown jelly",
    "tissue_loss": "tissue loss",
    "melt_after_cut": "melted after the cut",
    "pest": "a pest",
    "fish_bite": "bitten by a fish",
    "sting": "stung",
    "fell": "fell or drifted",
    "buried": "buried",
    "algae": "overgrown by algae",
    "chemical": "a swing in the water",
    "human": "a mistake of ours",
    "unknown": "not known",
}
PLACEMENT = {
    "bottom": later("On the sand at the bottom."),
    "lower": later("In the lower third, on the rock."),
    "middle": later("Half way up the rock."),
    "upper": later("In the upper third, near the light."),
    "anywhere": later("Anywhere that the light and the flow suit it."),
}
PURPOSE = {"display": "display", "grow_out": "grow-out", "quarantine": "quarantine", "holding": "holding"}
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
    "created_twice": "it was entered twice",
    "sold_after_sold": "it was sold twice",
    "sold_after_lost": "it was sold after it was noted as lost",
    "sold_after_merged": "it was sold after it was joined to another",
    "sold_while_held": "it was sold while it was on hold for somebody else",
    "lost_after_sold": "it was noted as lost after it was sold",
    "lost_after_lost": "it was noted as lost twice",
    "lost_after_merged": "it was noted as lost after it was joined to another",
    "merged_after_sold": "it was joined to another after it was sold",
    "merged_after_lost": "it was joined to another after it was noted as lost",
    "merged_after_merged": "it was joined to two others",
    "held_twice": "two people hold it with different words",
    "held_after_sold": "it was put on hold after it was sold",
    "held_after_lost": "it was put on hold after it was noted as lost",
    "held_after_merged": "it was put on hold after it was joined to another",
    "moved_after_sold": "it was moved after it was sold",
    "moved_after_lost": "it was moved after it was noted as lost",
    "moved_after_merged": "it was moved after it was joined to another",
    "changed_after_sold": "its state was changed after it was sold",
    "changed_after_lost": "its state was changed after it was noted as lost",
    "changed_after_merged": "its state was changed after it was joined to another",
    "returned_while_here": "it was noted as returned although it was here",
    "bound_twice": "this tag was bound to two things",
}
