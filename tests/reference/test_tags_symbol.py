"""QR symbols against ISO/IEC 18004: versions, levels and capacities, and what an independent decoder says of them."""

import re
from random import Random

import pytest
import segno
import zxingcpp
from PIL import Image
from segno import helpers

from webapp.tags.address import LabelAddress
from webapp.tags.codes import new_code
from webapp.tags.symbol import make_symbol, symbol_svg
from webapp.tags.wifi import wifi_text

# ISO/IEC 18004:2015 table 7: data codewords; tables 2 and 3: bits of mode and count indicators at versions 1 to 9.
DATA_CODEWORDS = {(2, "Q"): 22, (3, "Q"): 34, (3, "M"): 44, (4, "Q"): 48, (4, "M"): 64, (5, "Q"): 62, (5, "M"): 86}
LADDER = list(DATA_CODEWORDS)
# The same standard, table 7: capacities in alphanumeric and byte mode.
CAPACITY = {(2, "Q"): (29, 20), (3, "Q"): (47, 32), (3, "M"): (61, 42), (4, "Q"): (67, 46), (4, "M"): (90, 62)}


def drawn(symbol, pixels=6):
    side = symbol.size + 8
    picture = Image.new("L", (side, side), 255)
    for y, row in enumerate(symbol.modules):
        for x, dark in enumerate(row):
            if dark:
                picture.putpixel((x + 4, y + 4), 0)
    return picture.resize((side * pixels, side * pixels), Image.Resampling.NEAREST)


def decoded(symbol):
    (barcode,) = zxingcpp.read_barcodes(drawn(symbol), formats=zxingcpp.BarcodeFormat.QRCode)
    return barcode


def bits_of_address(text):
    """Two segments: 'http' in bytes (4 + 8 + 32 bits), the rest alphanumeric (4 + 9 + 11 for two, 6 for one)."""
    rest = len(text) - 4
    return 44 + 13 + 11 * (rest // 2) + 6 * (rest % 2)


@pytest.mark.parametrize(
    ("host", "port", "version", "level"),
    [
        ("shop.local", None, 2, "Q"),
        ("a.local", None, 2, "Q"),
        ("x.lan", None, 2, "Q"),
        ("10.0.0.5", None, 2, "Q"),
        ("frags.local", None, 3, "Q"),
        ("192.168.1.20", None, 3, "Q"),
        ("192.168.100.120", None, 3, "Q"),
        ("shop.local", 8000, 3, "Q"),
        ("192.168.100.120", 8080, 3, "Q"),
        ("corals-of-the-old-harbour.local", None, 3, "M"),
    ],
)
def test_version_level_and_text_of_each_address_form(host, port, version, level):
    text = LabelAddress(host, port).url(new_code())
    symbol = make_symbol(text)
    assert (symbol.version, symbol.level, symbol.size) == (version, level, 17 + 4 * version)
    barcode = decoded(symbol)
    assert barcode.text == text
    assert (barcode.extra["Version"], barcode.ec_level) == (str(version), level)


@pytest.mark.parametrize("length", range(3, 46))
def test_the_first_rung_whose_data_codewords_hold_the_address_is_taken(length):
    text = LabelAddress(f"{'a' * (length - 2)}.b").url("7K3QXM4")
    expected = next(rung for rung in LADDER if bits_of_address(text) <= 8 * DATA_CODEWORDS[rung])
    symbol = make_symbol(text)
    assert (symbol.version, symbol.level) == expected
    assert decoded(symbol).text == text


@pytest.mark.parametrize("rung", CAPACITY)
def test_table_of_capacities(rung):
    """The longest text of one mode that a rung holds; one more goes to the next rung."""
    for longest, letter in zip(CAPACITY[rung], "Aa", strict=True):
        symbol = make_symbol(letter * longest)
        assert LADDER.index((symbol.version, symbol.level)) <= LADDER.index(rung)
        beyond = make_symbol(letter * (longest + 1))
        assert LADDER.index((beyond.version, beyond.level)) > LADDER.index(rung)


@pytest.mark.parametrize("host", ["shop.local", "a.local", "frags.local", "192.168.1.20"])
def test_a_second_encoder_needs_the_same_version(host):
    """segno, given the same two segments."""
    text = LabelAddress(host).url("7K3QXM4")
    other = segno.make([text[:4], text[4:]], error="q", boost_error=False, micro=False)
    assert f"{make_symbol(text).version}-{make_symbol(text).level}" == other.designator


def test_many_codes_decode():
    random = Random(18004)
    for _ in range(200):
        text = f"http://SHOP.LOCAL/{new_code(random)}"
        assert decoded(make_symbol(text)).text == text


@pytest.mark.parametrize(
    ("name", "password", "text"),
    # escapes of the open-source ZXing project's page 'Barcode Contents': backslash before \ ; , : and "
    [
        ("mynetwork", "mypassword", "WIFI:T:WPA;S:mynetwork;P:mypassword;;"),
        ('"foo;bar\\baz"', "", 'WIFI:T:nopass;S:\\"foo\\;bar\\\\baz\\";;'),
        ("Reef: guests, all", "a;b:c,d\\e", "WIFI:T:WPA;S:Reef\\: guests\\, all;P:a\\;b\\:c\\,d\\\\e;;"),
    ],
)
def test_wifi_text_is_escaped_and_decodes(name, password, text):
    assert wifi_text(name, password) == text
    barcode = decoded(make_symbol(text))
    assert barcode.text == text


def test_wifi_text_as_a_second_library_writes_it():
    """segno's helper, for a text without commas, which it leaves as they are."""
    ours = wifi_text("Reef; guests", "pass:word;1")
    assert ours == helpers.make_wifi_data("Reef; guests", "pass:word;1", "WPA")


def test_svg_is_read_by_the_decoder():
    """zxing-cpp reads pictures, so the SVG's rectangles are drawn here by their own numbers."""
    svg = symbol_svg(make_symbol("http://SHOP.LOCAL/7K3QXM4"))
    picture = Image.new("L", (33 * 4, 33 * 4), 255)
    for x, y, length in re.findall(r"M(\d+) (\d+)h(\d+)v1", svg):
        box = (int(x) * 4, int(y) * 4, (int(x) + int(length)) * 4, (int(y) + 1) * 4)
        picture.paste(0, box)
    assert zxingcpp.read_barcode(picture).text == "http://SHOP.LOCAL/7K3QXM4"
