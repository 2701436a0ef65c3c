"""Reading labels back from the page as drawn, with a decoder that had no part in making them.

Each label's crop is reduced to three pixels a module and blurred, about what a phone sees at the far end of its reach:
a label that only reads with perfect pixels fails here.
"""

from collections.abc import Iterable

import zxingcpp
from PIL import Image, ImageFilter

from webapp.errors import CannotPrint
from webapp.tags.page import Placed

PIXELS_PER_MODULE = 3
BLUR_SIGMA_PX = 0.8


def check_page(page: Image.Image, placed: Iterable[Placed]) -> None:
    """CannotPrint, naming the label, unless every label on `page` reads back as exactly its own address."""
    for one in placed:
        texts = read_label(page, one)
        if texts == [one.symbol.text]:
            continue
        said = f"it reads '{texts[0]}'" if texts else "no reader finds its symbol"
        raise CannotPrint(
            f"Label {one.label.code} does not read back: {said}. Nothing was printed. "
            "Choose a larger label or another printer resolution, and try again."
        )


def read_label(page: Image.Image, one: Placed) -> list[str]:
    """The texts of all QR symbols found in the label's crop."""
    crop = page.crop(one.box).convert("L")
    scale = PIXELS_PER_MODULE / one.fit.module_dots
    size = max(1, round(crop.width * scale)), max(1, round(crop.height * scale))
    seen = crop.resize(size, Image.Resampling.BOX).filter(ImageFilter.GaussianBlur(BLUR_SIGMA_PX))
    found = zxingcpp.read_barcodes(
        seen, formats=zxingcpp.BarcodeFormat.QRCode, try_rotate=False, try_downscale=False, try_invert=False
    )
    return [barcode.text for barcode in found]
