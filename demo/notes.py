"""What the invented staff write: notes for customers and for themselves, and why animals were lost."""

from random import Random
from typing import Any

_PUBLIC = {
    "corallimorph": (
        "Spreads wide by noon and folds at night.",
        "Likes it here in the shade; paler when it stood higher up.",
        "The rim shows its second colour under blue light.",
    ),
    "zoanthid": (
        "All polyps open within an hour of the lamp.",
        "Three new buds at the edge of the plug.",
        "Closes when the hermit crabs walk over it, and opens again.",
    ),
    "soft": (
        "Shut for two days after it was moved, then open again; that is normal.",
        "Sways well in the middle of the rack.",
        "Full polyps by late morning.",
    ),
    "gorgonian": ("Polyps out all along the branch, also at night.", "Needs a current that keeps it clean."),
    "lps": (
        "Takes small pieces of shrimp after dusk.",
        "Puffs up by midday; keep a hand's width of room around it.",
        "Flesh covers the cut edge all round.",
        "Eats twice a week here.",
    ),
    "sps": (
        "New tissue over the edge of the plug.",
        "Colour came back fully after four weeks.",
        "White growing tips on every branch.",
        "Grows towards the current.",
    ),
    "anemone": (
        "Took its place on the second day and has stayed there.",
        "Eats once a week, a piece the size of a pea.",
    ),
    "clam": ("Closes at once when a shadow passes, as it should.", "A new white rim on the shell: it grows."),
}
#: Stony corals that grow flat: what is true of fleshy heads is not true of them.
_FLAT = ("cyphastrea", "leptastrea", "favites", "echinophyllia", "turbinaria")
_PUBLIC_FLAT = (
    "Has grown over the cut edge.",
    "Covers one side of the plug already.",
    "Puts out fine feelers at night; keep room around it.",
)
_STAFF = (
    "A little algae on the plug, brushed off.",
    "Turned a quarter, it leaned on its neighbour.",
    "Slow to open this week; watch it.",
    "Glue redone, was loose.",
    "Asked for twice today.",
    "Bristle worm under the plug, left alone.",
)
_CUT = {
    "corallimorph": "Under mesh in the calm corner for two weeks. Goggles on, slime rinsed.",
    "zoanthid": "Gloves and goggles, cut under water, bin bag for the wipes.",
    "soft": "Cut under water, rinsed twice, held with a band.",
    "gorgonian": "Tips stripped, axis glued in the hole.",
    "lps": "Cut well below the flesh, iodine rinse, blade guard and goggles.",
    "sps": "Tips with shears, gel glue, nothing left bare.",
}
LOSS_CAUSES = {
    "corallimorph": ("melt_after_cut", "fell"),
    "zoanthid": ("algae", "unknown"),
    "soft": ("fell", "melt_after_cut"),
    "gorgonian": ("tissue_loss",),
    "lps": ("brown_jelly", "tissue_loss"),
    "sps": ("tissue_loss", "bleach_light", "fell"),
}
LOSS_NOTES = {
    "melt_after_cut": "Turned inside out and came apart; removed, water changed.",
    "brown_jelly": "Siphoned off into a bucket, neighbours checked.",
    "fell": "Not on its plug in the morning; not found behind the rack.",
    "tissue_loss": "Bare from the base up within two days.",
    "bleach_light": "Stood too high too early.",
    "algae": "Overgrown from the edge; the plug was old.",
}


def note_for(key: str, group: str, random: Random) -> dict[str, Any]:
    """A note about a kind as 'noted' takes it: mostly for customers, sometimes for staff only."""
    if random.random() < 0.3:
        return {"text": random.choice(_STAFF), "public": False}
    return {"text": random.choice(_PUBLIC_FLAT if key in _FLAT else _PUBLIC[group]), "public": True}


def cut_note(group: str) -> str:
    """What is written at a frag session of this group."""
    return _CUT[group]
