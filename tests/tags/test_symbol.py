"""Symbols and their drawing for pages."""

import re
from xml.etree import ElementTree

import pytest

from webapp.errors import CannotPrint
from webapp.tags.symbol import make_symbol, symbol_svg


def test_a_symbol_is_made_once():
    assert make_symbol("http://SHOP.LOCAL/7K3QXM4") is make_symbol("http://SHOP.LOCAL/7K3QXM4")


def test_finder_patterns_stand_in_three_corners():
    modules = make_symbol("http://SHOP.LOCAL/7K3QXM4").modules
    ring = ["1111111", "1000001", "1011101", "1011101", "1011101", "1000001", "1111111"]
    for top, left in ((0, 0), (0, 18), (18, 0)):
        drawn = ["".join("01"[dark] for dark in row[left : left + 7]) for row in modules[top : top + 7]]
        assert drawn == ring


@pytest.mark.parametrize("text", ["", "x" * 4000])
def test_nothing_and_too_much_are_refused(text):
    with pytest.raises(CannotPrint):
        make_symbol(text)


def test_svg_has_the_same_dark_modules_and_no_style():
    symbol = make_symbol("http://SHOP.LOCAL/7K3QXM4")
    svg = symbol_svg(symbol)
    root = ElementTree.fromstring(svg)
    assert root.attrib["viewBox"] == "0 0 33 33"
    assert (root.attrib["width"], root.attrib["height"]) == ("132", "132")
    assert "style" not in svg
    dark = set()
    for x, y, length in re.findall(r"M(\d+) (\d+)h(\d+)v1h-\d+z", svg):
        dark |= {(int(x) - 4 + i, int(y) - 4) for i in range(int(length))}
    assert dark == {(x, y) for y, row in enumerate(symbol.modules) for x, d in enumerate(row) if d}
