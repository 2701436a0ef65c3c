"""Text into a box: it shrinks to a stated least size, then is shortened at a word, and drawn run by run."""

from dataclasses import dataclass

from PIL import ImageDraw

from webapp.tags.fonts import code_font_path, font, runs, width_em

_LINE_HEIGHT = 1.2  # of the font size
_SHRINK = 0.94  # from one size tried to the next
_ELLIPSIS = "…"


_SLACK = 1.02  # widths are measured once at a large size; hinting makes small letters a little wider


@dataclass(frozen=True)
class Block:
    """Lines that fit their box at `size_px` dots. `shortened` tells that words were left out."""

    lines: tuple[str, ...]
    size_px: int
    shortened: bool = False


def fit_block(text: str, width: float, height: float, largest_px: float, least_px: float) -> Block:
    """The largest setting of `text` within width x height dots, from largest_px down to least_px.

    What does not fit at the least size is cut at a word and ends in an ellipsis. No lines when not even one fits.
    """
    words = " ".join(text.split()).split(" ")
    size = largest_px
    while size > least_px:
        lines = _wrapped(words, width, int(size))
        if lines is not None and len(lines) * size * _LINE_HEIGHT <= height:
            return Block(tuple(lines), int(size))
        size *= _SHRINK
    least = max(1, round(least_px))
    rows = int(height // (least * _LINE_HEIGHT))
    if not text.strip() or rows < 1:
        return Block((), least, bool(text.strip()))
    lines = _wrapped(words, width, least)
    if lines is not None and len(lines) <= rows:
        return Block(tuple(lines), least)
    return Block(tuple(_shortened(words, width, least, rows)), least, True)


def draw_block(draw: ImageDraw.ImageDraw, left: float, top: float, block: Block) -> float:
    """Draw the lines in black from (left, top); returns the y below them."""
    for line in block.lines:
        baseline = top + block.size_px * 0.95
        x = left
        for run in runs(line):
            face = font(run.font_path, block.size_px)
            draw.text((round(x), round(baseline)), run.text, fill=0, font=face, anchor="ls")
            x += face.getlength(run.text)
        top += block.size_px * _LINE_HEIGHT
    return top


def draw_code(draw: ImageDraw.ImageDraw, left: float, bottom: float, code: str, size_px: int) -> None:
    """Draw a code in clear, bold capitals, its baseline at `bottom`."""
    path = code_font_path()
    stroke = 0 if path else max(1, size_px // 24)  # Pillow's own font has no bold cut
    position = (round(left), round(bottom))
    draw.text(position, code, fill=0, font=font(path, size_px), anchor="ls", stroke_width=stroke)


def _width(text: str, size_px: int) -> float:
    return width_em(text) * size_px * _SLACK


def _wrapped(words: list[str], width: float, size_px: int) -> list[str] | None:
    """Words set in lines, or None when one word alone is too wide."""
    lines: list[str] = []
    for word in words:
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and _width(joined, size_px) <= width:
            lines[-1] = joined
        elif _width(word, size_px) > width:
            return None
        else:
            lines.append(word)
    return lines


def _shortened(words: list[str], width: float, size_px: int, rows: int) -> list[str]:
    """As many words as fit, then an ellipsis; a first word that is itself too wide is cut within."""
    for count in range(len(words) - 1, 0, -1):
        kept = [*words[:count]]
        kept[-1] = kept[-1].rstrip(",;:.(-–") + _ELLIPSIS
        lines = _wrapped(kept, width, size_px)
        if lines is not None and len(lines) <= rows:
            return lines
    word = words[0]
    while len(word) > 1 and _width(word + _ELLIPSIS, size_px) > width:
        word = word[:-1]
    return [word + _ELLIPSIS]
