"""Words that have no place in the project: hosts of registries, paths of one machine, how it came to be written."""

import re

from tests.house import project

#: In pieces, so that this file does not hold them itself.
BARRED = (
    "pypi" + r"\.org", "python" + "hosted", "npm" + r"js\.(org|com)", "deb" + r"\.debian\.org", r"github" + r"\.com",
    r"/wo" + r"rk/", r"/ro" + r"ot/", r"/ho" + r"me/[a-z]", r"/tm" + r"p/w\b", r"C:" + r"\\Users",
    r"\bchat" + r"gpt\b", r"\bcla" + r"ude\b", r"\bLL" + r"M\b", r"\bco" + r"pilot\b", r"\bAI" + r"\b(?!-)",
    r"\bTO" + r"DO\b", r"\bFIX" + r"ME\b", r"\bXX" + r"X\b",
    r"\bdesi" + r"gn\.md\b", r"\bscien" + r"ce\.md\b", r"\btra" + r"de\.md\b", r"\bpho" + r"ne\.md\b",
    r"\bsty" + r"les\.md\b",
)  # fmt: skip
PATTERN = re.compile("|".join(f"(?:{word})" for word in BARRED))


def test_none_of_them_is_in_any_file():
    found = []
    for path in project.files():
        try:
            text = path.read_text("utf-8")
        except UnicodeDecodeError:
            continue
        found += [f"{project.short(path)}: {match[0]}" for match in PATTERN.finditer(text)]
    assert not found


def test_files_are_written_by_hand_or_small():
    """Nothing is vendored: no minified scripts, no archives, nothing over 400 kB."""
    odd = [
        project.short(path)
        for path in project.files()
        if path.stat().st_size > 400_000 or path.name.endswith((".min.js", ".min.css", ".zip", ".whl", ".gz", ".woff2"))
    ]
    assert not odd
