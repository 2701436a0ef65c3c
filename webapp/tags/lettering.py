"""Text into a box: it shrinks to a stated least size, then is shortened at a word, and drawn run by run."""

import unicodedata
from dataclasses import dataclass

from PIL import ImageDraw

from webapp.tags.fonts import code_font_path, font, runs, width_em

_LINE_HEIGHT = 1.2  # of the font size
_SHRINK = 0.94  # from one size tried to the next
_ELLIPSIS = "…"
_COMFORT = 0.5  # of the largest size: from there down a word too long for its line may rather be broken
_GAIN = 1.4  # a broken word must be so many times larger than the whole one


_SLACK = 1.02  # widths are measured once at a large size; hinting makes small letters a little wider


@dataclass(frozen=True)
class Block:
    """Lines that fit their box at `size_px` dots. `shortened` tells that words were left out."""

    lines: tuple[str, ...]
    size_px: int
    shortened: bool = False


def fit_block(text: str, width: float, height: float, largest_px: float, least_px: float) -> Block:
    """The largest setting of `text` within width x height dots, from largest_px down to least_px.

    A long word is broken where that lets it be read from much further. What does not fit at the least size is cut at a
    word and ends in an ellipsis. Letters that no font has leave no gap. No lines when not even one fits.
    """
    words = "".join(run.text for run in runs(text)).split()
    if not words:
        return Block((), max(1, int(largest_px)))
    whole = _largest(words, width, height, largest_px, least_px, broken=False)
    comfort = largest_px * _COMFORT
    if whole is None or whole.size_px < comfort:
        broken = _largest(words, width, height, min(comfort, largest_px), least_px, broken=True)
        if broken is not None and (whole is None or broken.size_px >= whole.size_px * _GAIN):
            return broken
    if whole is not None:
        return whole
    least = max(1, round(least_px))
    rows = int(height // (least * _LINE_HEIGHT))
    if rows < 1:
        return Block((), least, True)
    return Block(tuple(_shortened(_pieces(words, width, least), width, least, rows)), least, True)


def draw_block(draw: ImageDraw.ImageDraw, left: float, top: float, block: Block, centred_in: float = 0.0) -> float:
    """Draw the lines in black from (left, top); returns the y below them. `centred_in`: a width to stand in the middle
    of."""
    for line in block.lines:
        baseline = top + block.size_px * 0.95
        x = left + max(0.0, (centred_in - width_em(line) * block.size_px) / 2 if centred_in else 0.0)
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


def _largest(
    words: list[str], width: float, height: float, largest_px: float, least_px: float, *, broken: bool
) -> Block | None:
    """The largest size from largest_px down to least_px at which all words fit, long ones broken or not."""
    size = largest_px
    while True:
        px = max(1, int(size) if size > least_px else round(least_px))
        lines = _wrapped(_pieces(words, width, px) if broken else words, width, px)
        if lines is not None and len(lines) * max(size, px) * _LINE_HEIGHT <= height:
            return Block(tuple(lines), px)
        if size <= least_px:
            return None
        size = max(least_px, size * _SHRINK)


def _pieces(words: list[str], width: float, size_px: int) -> list[str]:
    """The words, each that is too wide for a line broken into parts that fill lines."""
    found: list[str] = []
    for word in words:
        while len(word) > 1 and _may_break(word) and _width(word, size_px) > width:
            hyphen = "-" if word[0].lower() != word[0].upper() else ""
            count = len(word) - 1
            while count > 1 and _width(word[:count] + hyphen, size_px) > width:
                count -= 1
            found.append(word[:count] + hyphen)
            word = word[count:]
        found.append(word)
    return found


def _may_break(word: str) -> bool:
    """Not where letters join or carry marks: Arabic, Hebrew and much of India and Thailand stay whole."""
    return all(unicodedata.bidirectional(letter) not in ("R", "AL", "NSM") for letter in word)


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
