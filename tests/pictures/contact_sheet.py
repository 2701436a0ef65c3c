"""`python -m tests.pictures.contact_sheet FILE.png [--grey] [--photos]`: every kind side by side, to be looked at."""

import argparse

from PIL import Image, ImageDraw

from demo.photos import photo_image
from demo.raster import render
from webapp.pictures.draw import layers
from webapp.pictures.kinds import KINDS

CELL_PX, LABEL_PX, COLUMNS = 220, 16, 9


def drawn(key: str, size: int, seed: int = 0) -> Image.Image:
    """A kind as pixels, in its usual colours."""
    water, animal = layers(key, None, seed)
    return render([*water, *animal], size)


def contact_sheet(photos: bool = False) -> Image.Image:
    """All kinds in rows, each with its key."""
    rows = -(-len(KINDS) // COLUMNS)
    sheet = Image.new("RGB", (COLUMNS * CELL_PX, rows * (CELL_PX + LABEL_PX)), "#101418")
    pencil = ImageDraw.Draw(sheet)
    for at, key in enumerate(KINDS):
        x, y = at % COLUMNS * CELL_PX, at // COLUMNS * (CELL_PX + LABEL_PX)
        picture = photo_image(key, seed=at).resize((CELL_PX, CELL_PX)) if photos else drawn(key, CELL_PX)
        sheet.paste(picture, (x, y))
        pencil.text((x + 4, y + CELL_PX + 2), key, fill="#e8eef2")
    return sheet


def main() -> None:
    """Write the sheet."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file")
    parser.add_argument("--grey", action="store_true", help="with the colour removed")
    parser.add_argument("--photos", action="store_true", help="the photograph-like pictures of the demonstration")
    options = parser.parse_args()
    sheet = contact_sheet(options.photos)
    (sheet.convert("L") if options.grey else sheet).save(options.file)


if __name__ == "__main__":
    main()
