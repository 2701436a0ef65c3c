"""Fonts for labels: found on this computer, else the scalable one that comes with Pillow; and what they cannot draw."""

import os
import re
import sys
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from PIL import ImageFont

from webapp.tags.codes import ALPHABET, CODE_LENGTH

_CODE_FONTS = ("DejaVuSansMono-Bold.ttf", "LiberationMono-Bold.ttf", "NotoSansMono-Bold.ttf", "consolab.ttf")
_TEXT_FONTS = ("DejaVuSans-Bold.ttf", "NotoSans-Bold.ttf", "LiberationSans-Bold.ttf", "arialbd.ttf", "Arial Bold.ttf")
_FOLDERS = {
    "win32": [Path(os.environ.get("WINDIR", "C:/Windows")) / "Fonts"],
    "darwin": [Path("/Library/Fonts"), Path("/System/Library/Fonts")],
}.get(sys.platform, [Path("/usr/share/fonts"), Path("/usr/local/share/fonts"), Path.home() / ".local/share/fonts"])
_MOST_FONTS = 600  # looked through for one letter
_WORDS_AND_SPACES = re.compile(r"\s+|\S+")
_VARIANTS = "\ufe0e\ufe0f"  # drawn as text, drawn as a picture
_NEVER_IN_A_FONT = "\U0010fffe"  # a noncharacter: every font answers with its glyph for what is missing


@dataclass(frozen=True)
class Run:
    """A stretch of text that one font draws. `font_path` is None for Pillow's own font."""

    text: str
    font_path: str | None


def font(font_path: str | None, size_px: int) -> ImageFont.FreeTypeFont:
    """The font of a run at a size in dots."""
    return _load(font_path, max(1, size_px))


def code_font_path() -> str | None:
    """A bold font of equal widths, whose zero differs from its O, for codes in clear."""
    return _first_of(_CODE_FONTS)


@lru_cache(maxsize=1)
def code_width_em() -> float:
    """Width of the widest code in ems of the code font, with a little slack."""
    face = font(code_font_path(), 1000)
    return CODE_LENGTH * max(face.getlength(letter) for letter in ALPHABET) / 1000 + 0.1


def runs(text: str) -> list[Run]:
    """`text` cut into stretches, each with a font that has all its letters. Letters of no font are left out.

    A word is kept in one font where any has all of it, because its letters may join.
    """
    found: list[Run] = []
    for word in _WORDS_AND_SPACES.findall(text):
        path = _font_for_all(word)
        for part in [word] if path is not False else word:
            _append(found, part)
    return found


def not_covered(text: str) -> str:
    """The letters of `text`, each once, that no font on this computer has; joiners and variants have no shape."""
    shaped = (letter for letter in text if unicodedata.category(letter) != "Cf" and letter not in _VARIANTS)
    return "".join(dict.fromkeys(letter for letter in shaped if _font_for_all(letter) is False))


@lru_cache(maxsize=8192)
def width_em(text: str) -> float:
    """How wide `text` is drawn, in ems."""
    return sum(font(run.font_path, 200).getlength(run.text) for run in runs(text)) / 200


def _append(found: list[Run], part: str) -> None:
    """Add a word, a space or a letter to the last run where its font will do."""
    last = found[-1] if found else None
    leans_on_last = part.isspace() or unicodedata.category(part[0])[0] == "M"
    path = last.font_path if last and leans_on_last else _font_for_all(part)
    if path is False or not _covers(path, part):
        return
    if last and path == last.font_path:
        found[-1] = Run(last.text + part, path)
    else:
        found.append(Run(part, path))


@lru_cache(maxsize=4096)
def _font_for_all(text: str) -> str | None | bool:
    """Path of the first font with every letter of `text` (None: Pillow's own), False when there is none."""
    for path in (_first_of(_TEXT_FONTS), None):
        if _covers(path, text):
            return path
    return next((path for path in _other_fonts() if _covers(path, text)), False)


def _covers(path: str | None, text: str) -> bool:
    return all(letter.isspace() or _has_glyph(path, letter) for letter in text)


@lru_cache(maxsize=16384)
def _has_glyph(path: str | None, letter: str) -> bool:
    try:
        face = _load(path, 24)
        drawn, missing = face.getmask(letter), face.getmask(_NEVER_IN_A_FONT)
    except OSError:  # a font of bitmaps only
        return False
    return (drawn.size, bytes(drawn)) != (missing.size, bytes(missing))


@lru_cache(maxsize=1)
def _other_fonts() -> tuple[str, ...]:
    """Every other plain or bold font of the system, bold and sans serif first."""
    files = [file for folder in _FOLDERS if folder.is_dir() for file in folder.rglob("*.[to]t[fc]")]
    plain = [file for file in files if not any(word in file.stem for word in ("Italic", "Oblique", "Light", "Thin"))]
    best_first = sorted(plain, key=lambda f: ("Bold" not in f.stem, "Sans" not in f.stem, f.name))
    return tuple(str(file) for file in best_first[:_MOST_FONTS])


@lru_cache(maxsize=8)
def _first_of(names: tuple[str, ...]) -> str | None:
    for name in names:
        try:
            return ImageFont.truetype(name, 24).path
        except OSError:
            continue
    return None


@lru_cache(maxsize=256)
def _load(path: str | None, size_px: int) -> ImageFont.FreeTypeFont:
    if path is None:
        return ImageFont.load_default(size_px)
    return ImageFont.truetype(path, size_px)
