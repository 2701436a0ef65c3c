"""The invented stock: mother colonies with their frag sessions, and animals bought in to be sold whole.

Strain names are plain words put together for this demonstration. Sizes in millimetres, money in whole euros,
days counted back from today. Days of healing are chosen within what the profiles give for attachment.
"""

from dataclasses import dataclass

from demo.scenario import DAYS


@dataclass(frozen=True, slots=True)
class Strain:
    """One kind under an invented name. rack: its home; since: days ago it came (DAYS: it was here when the shop began).

    method '': it is not cut here. frag: (size_mm, heads or None) of a fresh plug. sessions: (days ago, plugs).
    sale: it is itself for sale, `count` of them; price is that of a plug or of the animal.
    """

    key: str
    name: str
    hue: int
    rack: str
    price: int
    size_mm: float
    heads: int | None = None
    method: str = ""
    frag: tuple[float, int | None] = (0, None)
    heal_days: int = 0
    sessions: tuple[tuple[int, int], ...] = ()
    since: int = DAYS
    quarantine_days: int = 0
    sale: bool = False
    count: int = 1
    origin: str = "bought_in"
    supplier: str = "a farm in the east"
    papers: str = ""


_CITES = "CITES II, copy in the folder"
_KEPT = "an older tank of ours"

COLONIES = (
    Strain("discosoma", "Ink Thistle", 285, "D2", 12, 75, 14, "foot_cut", (20, 1), 14, ((100, 5), (30, 4)),
           supplier=_KEPT),
    Strain("rhodactis_hairy", "Mossy Ledger", 145, "D2", 18, 58, 5, "halving", (22, 1), 18, ((85, 4),),
           supplier=_KEPT),
    Strain("rhodactis_bubble", "Tin Plover", 120, "D1", 45, 60, 3, since=48, quarantine_days=21,
           supplier="a private tank"),
    Strain("ricordea_florida", "Marmalade Post", 50, "D1", 38, 32, 5, "halving", (20, 1), 18, ((60, 3),)),
    Strain("zoanthus", "Plum Kettle", 320, "D1", 15, 95, 70, "scalpel", (20, 5), 10, ((105, 6), (22, 4)),
           supplier=_KEPT),
    Strain("zoanthus", "Copper Wren", 40, "D1", 22, 60, 38, "scalpel", (18, 4), 10, ((48, 5),)),
    Strain("zoanthus", "Night Ferry", 265, "D1", 30, 50, 26, since=80, quarantine_days=18, supplier="a swap evening"),
    Strain("palythoa", "Old Mitten", 90, "F1", 12, 120, 40, "scalpel", (25, 4), 10, ((95, 4), (3, 4)),
           supplier=_KEPT),
    Strain("sarcophyton", "Loaf of Rye", 85, "G1", 16, 180, None, "scalpel", (35, None), 18, ((80, 4),),
           supplier=_KEPT),
    Strain("sinularia", "Barley Sheaf", 65, "G1", 14, 160, None, "scalpel", (45, None), 14, ((26, 3),)),
    Strain("capnella", "Wet Thicket", 130, "G1", 12, 150, None, since=64, quarantine_days=16,
           supplier="a private tank"),
    Strain("xenia", "Slow Clap", 310, "G1", 10, 100, None, "scalpel", (25, None), 10, ((40, 4),)),
    Strain("clavularia", "Paper Bellows", 300, "F1", 16, 90, None, "scalpel", (25, None), 14, ((62, 3),)),
    Strain("pachyclavularia", "Billiard Cloth", 145, "F1", 12, 150, None, "scalpel", (30, None), 12, ((104, 5),),
           supplier=_KEPT),
    Strain("gorgonian_photosynthetic", "Mulberry Rake", 310, "G1", 20, 260, None, "shears", (60, None), 16,
           ((72, 3),)),
    Strain("euphyllia_glabrescens", "Candle Loft", 130, "L1", 75, 160, 11, "cutter", (38, 1), 62, ((98, 3), (20, 2)),
           papers=_CITES),
    Strain("fimbriaphyllia_branching", "Brass Anchor", 95, "L1", 48, 180, 16, "cutter", (38, 1), 62, ((102, 4),),
           papers=_CITES),
    Strain("caulastraea", "Quince Pudding", 150, "F1", 24, 130, 24, "cutter", (40, 3), 46, ((92, 4),), supplier=_KEPT),
    Strain("blastomussa", "Rust Pocket", 22, "D1", 32, 90, 16, "cutter", (26, 2), 46, ((75, 3),), papers=_CITES),
    Strain("micromussa", "Jam Cellar", 12, "F1", 42, 110, 18, "saw", (26, 2), 32, ((66, 4),), papers=_CITES),
    Strain("duncanopsammia", "Straw Parade", 160, "F1", 28, 160, 22, "cutter", (38, 2), 46, ((82, 3),),
           papers=_CITES),
    Strain("favites", "Pantry Tile", 30, "F1", 30, 120, None, "saw", (26, None), 34, ((58, 3),), papers=_CITES),
    Strain("echinophyllia", "Torn Map", 335, "D1", 38, 130, None, "saw", (26, None), 34, ((64, 3),), papers=_CITES),
    Strain("cyphastrea", "Frost Crumb", 25, "F1", 20, 85, None, "saw", (24, None), 16, ((38, 3),), since=88,
           quarantine_days=30),
    Strain("montipora_plating", "Saucer Stack", 28, "B2", 22, 160, None, "shears", (34, None), 14, ((84, 3), (6, 3)),
           origin="maricultured"),
    Strain("montipora_branching", "Orchard Twig", 40, "B2", 20, 140, None, "shears", (32, None), 16, ((36, 4),),
           supplier=_KEPT),
    Strain("montipora_encrusting", "Velvet Sill", 340, "B2", 28, 90, None, since=110, quarantine_days=45,
           origin="maricultured"),
    Strain("acropora", "Tall Chimney", 160, "B1", 55, 150, None, "shears", (30, None), 26, ((90, 4), (25, 3)),
           origin="maricultured"),
    Strain("acropora", "Lilac Gable", 290, "B1", 65, 120, None, "shears", (28, None), 28, ((55, 3),),
           origin="maricultured"),
    Strain("pocillopora", "Rosy Thatch", 345, "B1", 24, 130, None, "shears", (30, None), 20, ((68, 4),)),
    Strain("seriatopora", "Needle Box", 352, "B2", 22, 140, None, "shears", (35, None), 24, ((44, 3),)),
    Strain("stylophora", "Soft Stairs", 350, "B2", 24, 120, None, "shears", (28, None), 16, ((12, 4),)),
)  # fmt: skip

BOUGHT = (
    Strain("catalaphyllia", "Long Evening", 140, "L1", 140, 110, 1, since=62, quarantine_days=34, sale=True,
           papers=_CITES),
    Strain("cynarina", "Cold Jelly", 10, "D2", 85, 60, 1, since=55, quarantine_days=32, sale=True, count=2,
           papers=_CITES),
    Strain("homophyllia_scolymia", "Clock Face", 145, "D2", 190, 65, 1, since=50, quarantine_days=32, sale=True,
           papers=_CITES),
    Strain("trachyphyllia", "Folded Letter", 20, "L1", 95, 80, 1, since=70, quarantine_days=33, sale=True, count=2,
           papers=_CITES),
    Strain("fungia", "Slow Wheel", 40, "F1", 60, 70, 1, since=66, quarantine_days=30, sale=True, count=2,
           papers=_CITES),
    Strain("goniopora", "Window Box", 340, "F1", 65, 70, None, since=58, quarantine_days=31, sale=True, count=2,
           origin="maricultured", papers=_CITES),
    Strain("plerogyra", "Soap Tray", 165, "D2", 80, 90, None, since=52, quarantine_days=30, sale=True, papers=_CITES),
    Strain("lobophyllia", "Harbour Map", 30, "L1", 70, 80, 2, since=64, quarantine_days=30, sale=True, count=2,
           papers=_CITES),
    Strain("turbinaria", "Custard Funnel", 92, "F1", 40, 90, None, since=60, quarantine_days=28, sale=True,
           papers=_CITES),
    Strain("tubastraea", "Lamp Oil", 48, "D1", 45, 60, 8, since=36, quarantine_days=22, sale=True, papers=_CITES),
    Strain("entacmaea_quadricolor", "Red Awning", 28, "G1", 70, 90, 1, since=76, quarantine_days=21, sale=True,
           supplier="a breeder inland"),
    Strain("phymanthus", "Market Hat", 145, "G1", 45, 60, 1, since=40, quarantine_days=18, sale=True, count=2),
    Strain("tridacna_high_light", "Cobalt Porch", 255, "G1", 95, 60, None, since=50, quarantine_days=20, sale=True,
           count=2,
           supplier="a hatchery in the south", papers=_CITES),
    Strain("tridacna_medium_light", "Ribbed Sofa", 85, "G1", 85, 90, None, since=50, quarantine_days=20, sale=True,
           supplier="a hatchery in the south", papers=_CITES),
    Strain("pavona", "Fern Press", 130, "B2", 22, 45, None, since=45, quarantine_days=30, sale=True, count=2),
    Strain("heliopora", "Slate Shutters", 255, "B2", 30, 50, None, since=11, quarantine_days=42, sale=True, count=2),
    Strain("galaxea", "Spark Drawer", 145, "F1", 35, 60, 14, since=5, quarantine_days=30, sale=True, papers=_CITES),
)  # fmt: skip
#: What came in shipments (`demo.deliveries`); `count`: how many of them arrived alive.
DELIVERED = (
    Strain("acropora", "Chalk Ladder", 205, "B1", 48, 45, None, since=54, quarantine_days=43, sale=True, count=3,
           origin="maricultured"),
    Strain("euphyllia_glabrescens", "Cellar Stair", 110, "L1", 85, 90, 2, since=54, quarantine_days=30, sale=True,
           count=3),
    Strain("zoanthus", "Pebble Street", 30, "D1", 18, 35, 8, since=54, quarantine_days=16, sale=True, count=4),
    Strain("acropora", "Tarn Steps", 175, "B1", 52, 40, None, since=18, quarantine_days=44, sale=True, count=4,
           origin="maricultured"),
    Strain("montipora_plating", "Drift Paling", 20, "B2", 24, 45, None, since=18, quarantine_days=44, sale=True,
           count=2, origin="maricultured"),
    Strain("trachyphyllia", "Sunday Loft", 5, "L1", 90, 75, 1, since=1, quarantine_days=30, sale=True, count=2),
    Strain("fimbriaphyllia_branching", "Corner Lantern", 100, "L1", 55, 80, 2, since=1, quarantine_days=30, sale=True,
           count=2),
    Strain("zoanthus", "Seed Drawer", 315, "D1", 20, 30, 9, since=1, quarantine_days=16, sale=True, count=3),
)  # fmt: skip
STRAIN = {strain.name: strain for strain in (*COLONIES, *BOUGHT, *DELIVERED)}
