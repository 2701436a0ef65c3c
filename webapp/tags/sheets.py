"""Sheets and rolls of labels by geometry alone: millimetres, rows, columns, margins, pitch."""

from dataclasses import dataclass

from webapp.errors import BadInput
from webapp.tags.pieces import TANK_PLACARD, Piece, dots_per_mm

A4_MM = (210.0, 297.0)  # ISO 216
LETTER_MM = (215.9, 279.4)  # ANSI/ASME Y14.1 size A
DPIS = (203, 300, 600)
_BESIDE_FROM = 1.3  # a label this many times wider than high has its text beside the symbol
_SLACK_MM = 0.05


@dataclass(frozen=True)
class Sheet:
    """A page of equal labels. Lengths in mm from the page's top left corner; `shape` is 'rect' or 'disc'.

    `offset_x_mm` and `offset_y_mm` correct a printer that prints beside its mark. BadInput names the wrong field.
    """

    name: str
    page_width_mm: float
    page_height_mm: float
    columns: int
    rows: int
    label_width_mm: float
    label_height_mm: float
    pitch_x_mm: float
    pitch_y_mm: float
    left_mm: float
    top_mm: float
    shape: str = "rect"
    corner_mm: float = 0.0
    dpi: int = 600
    inset_mm: float = 0.5
    cut_lines: bool = False
    offset_x_mm: float = 0.0
    offset_y_mm: float = 0.0

    def __post_init__(self) -> None:
        _check(self)

    @property
    def per_page(self) -> int:
        """Labels on one page."""
        return self.columns * self.rows

    @property
    def dots_per_mm(self) -> float:
        """Printer dots a millimetre."""
        return dots_per_mm(self.dpi)

    @property
    def page_dots(self) -> tuple[int, int]:
        """The page in whole printer dots; the last row or column may be cut by the page's exact edge."""
        return round(self.page_width_mm * self.dots_per_mm), round(self.page_height_mm * self.dots_per_mm)

    def piece(self) -> Piece:
        """The label itself as the piece to fill; one as large as a placard is read from two metres like one."""
        wide = self.shape == "rect" and self.label_width_mm >= _BESIDE_FROM * self.label_height_mm
        height = "" if self.shape == "disc" else f" x {self.label_height_mm:g}"
        far = wide and self.label_width_mm >= TANK_PLACARD.width_mm and self.label_height_mm >= TANK_PLACARD.height_mm
        return Piece(
            f"Label of {self.label_width_mm:g}{height} mm", self.shape, self.label_width_mm, self.label_height_mm,
            "beside" if wide else "under", self.inset_mm, TANK_PLACARD.least_title_points if far else 5.0,
        )  # fmt: skip

    def cell_mm(self, position: int) -> tuple[float, float]:
        """Top left corner of the label at `position` (0 is the first, rows before columns), printer offset included."""
        row, column = divmod(position, self.columns)
        return (
            self.left_mm + column * self.pitch_x_mm + self.offset_x_mm,
            self.top_mm + row * self.pitch_y_mm + self.offset_y_mm,
        )


def _check(sheet: Sheet) -> None:
    if sheet.shape not in ("rect", "disc"):
        raise BadInput("A label is round or rectangular.", "shape")
    if sheet.shape == "disc" and sheet.label_width_mm != sheet.label_height_mm:
        raise BadInput("A round label is as wide as it is high.", "label_height_mm")
    if sheet.dpi not in DPIS:
        raise BadInput("Choose 203, 300 or 600 dpi.", "dpi")
    for field in ("page_width_mm", "page_height_mm", "label_width_mm", "label_height_mm"):
        if not 5 <= getattr(sheet, field) <= 450:
            raise BadInput("Pages and labels measure from 5 to 450 mm.", field)
    for field in ("columns", "rows"):
        if not 1 <= getattr(sheet, field) <= 60:
            raise BadInput("A page has 1 to 60 rows and columns.", field)
    for field in ("offset_x_mm", "offset_y_mm"):
        if not abs(getattr(sheet, field)) <= 10:
            raise BadInput("A printer's offset is 10 mm at most; a larger one is a wrong page size.", field)
    if not 0 <= sheet.corner_mm <= min(sheet.label_width_mm, sheet.label_height_mm) / 2:
        raise BadInput("A corner's radius is at most half the label's shorter side.", "corner_mm")
    if not 0 <= sheet.inset_mm <= 10:
        raise BadInput("The clear edge inside a label measures 0 to 10 mm.", "inset_mm")
    across = (sheet.left_mm, sheet.columns, sheet.pitch_x_mm, sheet.label_width_mm, sheet.page_width_mm)
    down = (sheet.top_mm, sheet.rows, sheet.pitch_y_mm, sheet.label_height_mm, sheet.page_height_mm)
    _check_axis(*across, pitch_field="pitch_x_mm", start_field="left_mm")
    _check_axis(*down, pitch_field="pitch_y_mm", start_field="top_mm")


def _check_axis(
    start: float, count: int, pitch: float, length: float, page: float, *, pitch_field: str, start_field: str
) -> None:
    if count > 1 and not length - _SLACK_MM <= pitch <= page:
        raise BadInput(f"Labels of {length:g} mm do not stand side by side at a pitch of {pitch:g} mm.", pitch_field)
    end = start + (count - 1) * pitch + length
    if not (start >= 0 and end <= page + _SLACK_MM):
        raise BadInput(f"The labels reach from {start:.1f} to {end:.1f} mm of a page of {page:g} mm.", start_field)
