"""A PDF of 1-bit pages, written page by page: exact page boxes, dots at the printer's own pitch (ISO 32000-1).

Pillow derives the page box from whole dots, which makes an A4 page at 600 dpi 0.016 mm too large. Here the box is
the paper's exact size, and the picture is set from the top left corner at its exact resolution.
"""

import zlib
from typing import BinaryIO

from PIL import Image

POINTS_PER_MM = 72 / 25.4


class PdfWriter:
    """Writes to a binary file that need not be seekable. Call `add_page` for each page, then `close`."""

    _CATALOG, _PAGES = 1, 2

    def __init__(self, file: BinaryIO) -> None:
        self._file = file
        self._position = 0
        self._offsets: dict[int, int] = {}
        self._pages: list[int] = []
        self._write(b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")

    def add_page(
        self, width_mm: float, height_mm: float, size_dots: tuple[int, int], packed: bytes, dots_per_mm: float
    ) -> None:
        """Append a page of width_mm x height_mm that shows a picture from `packed_page`."""
        columns, rows = size_dots
        first = 3 + 3 * len(self._pages)
        page, content, picture = first, first + 1, first + 2
        width, height = width_mm * POINTS_PER_MM, height_mm * POINTS_PER_MM
        wide, high = (n / dots_per_mm * POINTS_PER_MM for n in (columns, rows))
        self._pages.append(page)
        self._object(
            page,
            f"<< /Type /Page /Parent {self._PAGES} 0 R /MediaBox [0 0 {width:.4f} {height:.4f}] "
            f"/Contents {content} 0 R /Resources << /XObject << /P {picture} 0 R >> >> >>".encode(),
        )
        self._stream(content, "", f"q {wide:.4f} 0 0 {high:.4f} 0 {height - high:.4f} cm /P Do Q".encode())
        self._stream(
            picture,
            f"/Type /XObject /Subtype /Image /Width {columns} /Height {rows} /ColorSpace /DeviceGray "
            "/BitsPerComponent 1 /Filter /FlateDecode ",
            packed,
        )

    def close(self) -> None:
        """Write the page tree, the catalogue and the cross-reference table. Print dialogues are asked not to scale."""
        kids = " ".join(f"{page} 0 R" for page in self._pages)
        self._object(self._PAGES, f"<< /Type /Pages /Count {len(self._pages)} /Kids [{kids}] >>".encode())
        preferences = "/ViewerPreferences << /PrintScaling /None /PickTrayByPDFSize true >>"
        self._object(self._CATALOG, f"<< /Type /Catalog /Pages {self._PAGES} 0 R {preferences} >>".encode())
        start, count = self._position, len(self._offsets) + 1
        entries = b"".join(b"%010d 00000 n \n" % self._offsets[number] for number in sorted(self._offsets))
        self._write(b"xref\n0 %d\n0000000000 65535 f \n" % count + entries)
        self._write(b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (count, start))

    def _stream(self, number: int, entries: str, data: bytes) -> None:
        self._object(number, f"<< {entries}/Length {len(data)} >>\nstream\n".encode() + data + b"\nendstream")

    def _object(self, number: int, body: bytes) -> None:
        self._offsets[number] = self._position
        self._write(b"%d 0 obj\n" % number + body + b"\nendobj\n")

    def _write(self, data: bytes) -> None:
        self._file.write(data)
        self._position += len(data)


def packed_page(page: Image.Image) -> bytes:
    """The bits of a mode '1' picture, deflated. Labels repeat themselves, so this is about as small as fax coding."""
    return zlib.compress(page.tobytes(), 6)


def unpacked_page(packed: bytes, size_dots: tuple[int, int]) -> Image.Image:
    """The picture again, from the very bytes that went into the file."""
    return Image.frombytes("1", size_dots, zlib.decompress(packed))
