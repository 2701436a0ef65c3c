"""Which growth form, ground and colours draw each kind of animal."""

from collections.abc import Callable
from dataclasses import dataclass

from webapp.pictures.forms import (
    brains,
    branches,
    fleshy,
    gorgonians,
    leathers,
    leaves,
    mushrooms,
    octocorals,
    others,
    plates,
    tentacled,
    zoanthids,
)
from webapp.pictures.pen import Pen
from webapp.pictures.shapes import Shape


@dataclass(frozen=True)
class Kind:
    """A form, what it sits on, its usual hue and accent hue (OKLCH degrees) and chroma."""

    form: Callable[[Pen], list[Shape]]
    ground: str
    hue: float
    accent: float
    chroma: float = 0.17


KINDS: dict[str, Kind] = {
    "discosoma": Kind(mushrooms.smooth_disc, "plug", 265, 200),
    "rhodactis_hairy": Kind(mushrooms.hairy_disc, "plug", 145, 95),
    "rhodactis_elephant_ear": Kind(mushrooms.elephant_ear, "rock", 60, 135, 0.11),
    "rhodactis_bubble": Kind(mushrooms.bubble_disc, "plug", 130, 60),
    "ricordea_florida": Kind(mushrooms.beaded_disc, "plug", 165, 55),
    "ricordea_yuma": Kind(mushrooms.graded_disc, "plug", 350, 75),
    "amplexidiscus": Kind(mushrooms.giant_cup, "rock", 110, 170, 0.08),
    "pseudocorynactis": Kind(mushrooms.ball_tips, "rock", 30, 60, 0.15),
    "zoanthus": Kind(zoanthids.ringed_mat, "plug", 145, 40),
    "palythoa": Kind(zoanthids.stalked_polyps, "plug", 80, 140, 0.09),
    "parazoanthus": Kind(zoanthids.slender_polyps, "rock", 100, 80, 0.18),
    "sarcophyton": Kind(leathers.toadstool, "plug", 85, 110, 0.09),
    "sinularia": Kind(leathers.finger_leather, "plug", 65, 100, 0.08),
    "lobophytum": Kind(leathers.hand_leather, "plug", 105, 120, 0.1),
    "cladiella": Kind(leathers.colt, "plug", 40, 80, 0.07),
    "capnella": Kind(leathers.broccoli_tree, "plug", 80, 130, 0.09),
    "xenia": Kind(octocorals.pulsing_stalks, "rock", 320, 290, 0.07),
    "anthelia": Kind(octocorals.waving_hands, "plug", 220, 240, 0.07),
    "clavularia": Kind(octocorals.clove_polyps, "plug", 310, 110, 0.14),
    "briareum": Kind(octocorals.finger_stars, "plug", 110, 330, 0.1),
    "pachyclavularia": Kind(octocorals.star_mat, "plug", 145, 325),
    "tubipora": Kind(octocorals.organ_pipes, "plug", 190, 25, 0.13),
    "heliopora": Kind(octocorals.blue_blades, "plug", 75, 255, 0.09),
    "dendronephthya": Kind(leathers.carnation_tree, "rock", 20, 12, 0.19),
    "gorgonian_photosynthetic": Kind(gorgonians.candelabra, "plug", 310, 90, 0.11),
    "erythropodium": Kind(gorgonians.hairy_crust, "rock", 50, 95, 0.08),
    "gorgonian_nonphotosynthetic": Kind(gorgonians.red_fan, "rock", 28, 95, 0.19),
    "euphyllia_glabrescens": Kind(tentacled.torch, "plug", 130, 330),
    "fimbriaphyllia_wall": Kind(tentacled.wall_hammer, "rock", 150, 110),
    "fimbriaphyllia_branching": Kind(tentacled.branching_hammer, "plug", 300, 140),
    "catalaphyllia": Kind(tentacled.elegance, "sand", 140, 330),
    "plerogyra": Kind(tentacled.grape_bubbles, "rock", 165, 110, 0.07),
    "physogyra": Kind(tentacled.pearl_bubbles, "rock", 95, 80, 0.06),
    "caulastraea": Kind(fleshy.candy_heads, "plug", 160, 130),
    "blastomussa": Kind(fleshy.blasto_heads, "plug", 22, 150),
    "acanthastrea": Kind(brains.spiny_massive, "plug", 40, 155, 0.15),
    "micromussa": Kind(fleshy.ridged_heads, "plug", 15, 200),
    "lobophyllia": Kind(fleshy.lobed, "rock", 30, 140),
    "symphyllia": Kind(fleshy.closed_brain, "rock", 35, 150, 0.13),
    "cynarina": Kind(fleshy.doughnut, "sand", 10, 140, 0.13),
    "trachyphyllia": Kind(fleshy.open_brain, "sand", 20, 145),
    "homophyllia_scolymia": Kind(fleshy.single_disc, "sand", 145, 28, 0.19),
    "dipsastraea": Kind(brains.star_cups, "plug", 60, 145, 0.12),
    "favites": Kind(brains.pineapple, "plug", 30, 145, 0.15),
    "goniastrea": Kind(brains.honeycomb, "plug", 100, 150, 0.09),
    "platygyra": Kind(brains.maze_brain, "plug", 145, 330, 0.14),
    "goniopora": Kind(tentacled.flowerpot_24, "plug", 340, 80, 0.14),
    "alveopora": Kind(tentacled.flowerpot_12, "plug", 145, 100, 0.08),
    "galaxea": Kind(brains.galaxy, "plug", 145, 100, 0.14),
    "duncanopsammia": Kind(tentacled.whiskers, "plug", 160, 300, 0.13),
    "turbinaria": Kind(plates.cup_scroll, "rock", 90, 105, 0.13),
    "fungia": Kind(plates.plate, "sand", 40, 330, 0.17),
    "heliofungia": Kind(plates.tentacle_plate, "sand", 125, 110, 0.08),
    "tubastraea": Kind(tentacled.sun_tubes, "rock", 48, 95, 0.19),
    "echinophyllia": Kind(plates.eyed_chalice, "plug", 335, 140),
    "oxypora": Kind(plates.thin_chalice, "plug", 25, 150, 0.14),
    "mycedium": Kind(plates.nosed_chalice, "plug", 145, 30, 0.13),
    "pectinia": Kind(leaves.lettuce_walls, "rock", 140, 110, 0.12),
    "merulina": Kind(leaves.ruffled_ridges, "plug", 350, 120, 0.13),
    "hydnophora": Kind(branches.horns, "plug", 140, 120, 0.18),
    "leptoseris": Kind(plates.wrinkled_plate, "plug", 40, 95, 0.16),
    "cyphastrea": Kind(brains.pimpled, "plug", 25, 150, 0.14),
    "leptastrea": Kind(brains.flush_crust, "plug", 290, 130, 0.13),
    "echinopora": Kind(leaves.whorl_plates, "plug", 65, 140, 0.11),
    "pavona": Kind(leaves.upright_leaves, "plug", 130, 100, 0.11),
    "psammocora": Kind(brains.petal_ridges, "plug", 130, 110, 0.08),
    "porites": Kind(branches.finger_stubs, "plug", 110, 100, 0.12),
    "montipora_plating": Kind(plates.tiered_plates, "plug", 28, 60, 0.17),
    "montipora_encrusting": Kind(plates.encrusting_sheet, "plug", 340, 180, 0.17),
    "montipora_branching": Kind(branches.finger_twigs, "plug", 40, 110, 0.17),
    "acropora": Kind(branches.staghorn, "plug", 160, 270, 0.13),
    "acropora_deepwater": Kind(branches.smooth_antlers, "plug", 300, 330, 0.11),
    "anacropora": Kind(branches.briar, "plug", 75, 120, 0.08),
    "pocillopora": Kind(branches.cauliflower, "plug", 345, 120, 0.15),
    "stylophora": Kind(branches.paws, "plug", 350, 140, 0.15),
    "seriatopora": Kind(branches.needles, "plug", 352, 100, 0.15),
    "entacmaea_quadricolor": Kind(others.bubble_tip, "rock", 28, 145, 0.16),
    "phymanthus": Kind(others.rock_flower, "sand", 145, 20, 0.15),
    "stichodactyla_tapetum": Kind(others.mini_carpet, "rock", 145, 330, 0.15),
    "tridacna_high_light": Kind(others.bored_clam, "rock", 255, 190, 0.16),
    "tridacna_medium_light": Kind(others.fluted_clam, "sand", 85, 160, 0.1),
}
GROUP_KINDS: dict[str, str] = {
    "corallimorph": "discosoma",
    "zoanthid": "zoanthus",
    "soft": "sarcophyton",
    "gorgonian": "gorgonian_photosynthetic",
    "lps": "dipsastraea",
    "sps": "montipora_branching",
    "anemone": "entacmaea_quadricolor",
    "clam": "tridacna_high_light",
}


def kind_of(key: str, group: str | None = None) -> Kind:
    """The kind of a profile key; for a key not drawn yet, the usual form of its group."""
    if key in KINDS:
        return KINDS[key]
    return KINDS[GROUP_KINDS.get(group or "", "sarcophyton")]
