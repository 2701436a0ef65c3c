"""`rack_scenes`: 200 seeded photos of whole racks with 40 to 48 tags each; prints what was read of them, not a time."""

from concurrent.futures import ProcessPoolExecutor

from tests.tags.making import HOSTS
from tests.tags.synthetic_rack import make_scene
from webapp.tags.photo import read_photo

SCENES = 200
SETTINGS = ((0.5, None), (0.5, 3.0), (0.5, 2.5), (0.375, None))


def run(emit) -> None:
    """One line for the recommended size at 3.2 to 4 pixels a module, and for harder settings with fewer scenes."""
    with ProcessPoolExecutor(2) as pool:
        for module_mm, px in SETTINGS:
            count = SCENES if (module_mm, px) == SETTINGS[0] else SCENES // 5
            jobs = [(seed, module_mm, px) for seed in range(count)]
            totals = [sum(column) for column in zip(*pool.map(_one, jobs), strict=True)]
            visible, first, seen, invented, hidden, hidden_seen = totals
            print(
                f"rack_scenes module={module_mm} mm px/module={px or '3.2-4'} scenes={count} visible={visible} "
                f"recall={seen / visible:.4f} (first step alone {first / visible:.4f}) invented={invented} "
                f"hidden={hidden} hidden_read={hidden_seen}",
                flush=True,
            )


def _one(job: tuple[int, float, float | None]) -> tuple[int, int, int, int, int, int]:
    seed, module_mm, px = job
    scene = make_scene(seed, module_mm, px)
    first = {tag.code for tag in read_photo(scene.jpeg, HOSTS).tags}
    found = {tag.code for tag in read_photo(scene.jpeg, HOSTS, thorough=True).tags}
    visible, hidden = set(scene.visible), set(scene.hidden)
    return (
        len(visible), len(first & visible), len(found & visible), len(found - visible - hidden), len(hidden),
        len(found & hidden),
    )  # fmt: skip
