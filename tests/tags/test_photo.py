"""Photos from strangers: read when they can be, refused with a sentence when they cannot."""

import io
import struct
import zlib

import numpy as np
import pytest
from PIL import Image

from tests.tags.making import HOSTS, make_labels
from webapp.errors import BadInput, TooMany
from webapp.tags import photo as photo_module
from webapp.tags.labels import to_png
from webapp.tags.page import Label
from webapp.tags.photo import prepare_photo, read_photo, read_tags
from webapp.tags.pieces import PLUG_SQUARE_20

LABELS = make_labels(40)


def tag(label, side=None):
    picture = Image.open(io.BytesIO(to_png(label, PLUG_SQUARE_20, 300))).convert("RGB")
    return picture.resize((side, side), Image.Resampling.LANCZOS) if side else picture


def scene(labels, size=(1200, 900), side=None, background=(90, 80, 70)):
    picture = Image.new("RGB", size, background)
    x = y = 30
    for label in labels:
        piece = tag(label, side)
        if x + piece.width > size[0]:
            x, y = 30, y + piece.height + 20
        picture.paste(piece, (x, y))
        x += piece.width + 20
    return picture


def encoded(picture, kind="JPEG", **options):
    out = io.BytesIO()
    picture.save(out, kind, **options)
    return out.getvalue()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_tag_is_found_in_each_format(kind):
    (found,) = read_tags(encoded(scene(LABELS[:1]), kind), HOSTS)
    assert (found.code, found.text) == (LABELS[0].code, LABELS[0].address_url)


def test_forty_tags_in_one_photo():
    found = read_tags(encoded(scene(LABELS, (2000, 1500), side=180), quality=90), HOSTS)
    assert {one.code for one in found} == {label.code for label in LABELS}
    assert len(found) == 40


def test_corners_are_in_pixels_of_the_whole_photo():
    """The symbol's own corners, drawn at known places in a photo that is read at half its size first."""
    picture = scene(LABELS[:1], (4000, 3000))
    piece = tag(LABELS[0])
    dark = piece.convert("L").point(lambda v: 255 - v).crop((0, 0, piece.width, round(piece.height * 0.8))).getbbox()
    reading = read_photo(encoded(picture, quality=95), HOSTS)
    assert (reading.width, reading.height, reading.step) == (4000, 3000, "small")
    left, top, right, bottom = (30 + value for value in dark)
    for found, true in zip(
        reading.tags[0].corners, ((left, top), (right, top), (right, bottom), (left, bottom)), strict=True
    ):
        assert found == pytest.approx(true, abs=4)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photo_is_turned_upright(orientation):
    exif = Image.Exif()
    exif[0x0112] = orientation
    data = encoded(scene(LABELS[:1], (1200, 600)), exif=exif)
    reading = read_photo(data, HOSTS)
    photo = prepare_photo(data)
    upright = (1200, 600) if orientation < 5 else (600, 1200)
    assert (reading.width, reading.height) == upright == (photo.width, photo.height)
    mirrored = orientation in (2, 4, 5, 7)
    assert len(reading.tags) == 1 or mirrored


def test_other_shops_and_other_symbols_are_told_apart_and_never_followed():
    stranger = Label(LABELS[1].code, f"http://ELSEWHERE.LAN/{LABELS[1].code}")
    page = Label(LABELS[2].code, "https://elsewhere.example/win")
    wrong = LABELS[3].address_url[:-1] + ("A" if LABELS[3].code[-1] != "A" else "B")
    reading = read_photo(encoded(scene([LABELS[0], stranger, page, Label("misread", wrong)])), HOSTS)
    assert [one.code for one in reading.tags] == [LABELS[0].code]
    assert dict(reading.others) == {
        stranger.address_url: "not_ours",
        page.address_url: "not_ours",
        wrong: "bad_check",
    }


def test_under_pure_blue_light_the_strongest_channel_is_read():
    """Luma keeps a tenth of blue (ITU-R BT.601: 0.114), and a sensor's noise in red and green then hides the symbol."""
    grey = scene(LABELS[:1], (700, 500), side=160).convert("L").point(lambda v: 40 + v * 0.8)
    noise = Image.effect_noise(grey.size, 40).point(lambda v: max(0, v - 110))
    blue = Image.merge("RGB", (noise, noise, grey))
    reading = read_photo(encoded(blue, "PNG"), HOSTS)
    assert [one.code for one in reading.tags] == [LABELS[0].code]
    assert reading.step == "strongest channel"


def test_small_tags_are_found_further_up_the_ladder():
    """At 4000 pixels a module is 2.4 pixels, at 2000 only 1.2."""
    picture = scene(LABELS[:1], (4000, 3000), side=95)
    reading = read_photo(encoded(picture, quality=92), HOSTS)
    assert [one.code for one in reading.tags] == [LABELS[0].code]
    assert reading.step in ("full", "sharpened")


def test_a_thorough_reading_adds_up_what_every_step_finds():
    """One tag near, one far: the first step sees only the near one."""
    picture = scene(LABELS[:1], (4000, 3000), side=400)
    picture.paste(tag(LABELS[1], 85), (2001, 1501))
    data = encoded(picture, quality=92)
    assert [one.code for one in read_tags(data, HOSTS)] == [LABELS[0].code]
    thorough = read_photo(data, HOSTS, thorough=True)
    assert {one.code for one in thorough.tags} == {LABELS[0].code, LABELS[1].code}
    assert thorough.step == "strongest channel"


def test_a_photo_without_tags_has_none():
    assert read_tags(encoded(Image.effect_noise((1500, 1000), 60)), HOSTS) == []


def test_a_stored_photo_is_small_upright_and_knows_no_camera_or_place():
    exif = Image.Exif()
    exif[0x010F] = "SOMEMAKER"
    exif.get_ifd(0x8825)[1] = "N"
    data = encoded(scene(LABELS[:8], (3000, 2000)), exif=exif, quality=90, comment=b"SOMECOMMENT")
    assert b"SOMEMAKER" in data and b"SOMECOMMENT" in data
    photo = prepare_photo(data)
    assert (photo.width, photo.height) == (1600, 1067)
    for webp, longest in ((photo.webp, 1600), (photo.thumb_webp, 320)):
        picture = Image.open(io.BytesIO(webp))
        assert picture.format == "WEBP"
        assert max(picture.size) == longest
        assert not picture.getexif()
        assert "icc_profile" not in picture.info
        assert b"SOME" not in webp
    assert len(photo.thumb_webp) < len(photo.webp) < len(data)


def test_a_small_photo_is_not_blown_up():
    photo = prepare_photo(encoded(Image.new("RGB", (200, 100), "red"), "PNG"))
    assert (photo.width, photo.height) == (200, 100)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16", "CMYK"])
def test_every_pixel_mode_is_stored(mode):
    kind = "JPEG" if mode == "CMYK" else "PNG"
    photo = prepare_photo(encoded(Image.new(mode, (64, 64)), kind))
    assert Image.open(io.BytesIO(photo.webp)).mode == "RGB"


def test_what_is_transparent_becomes_white():
    photo = prepare_photo(encoded(Image.new("RGBA", (64, 64), (0, 0, 0, 0)), "PNG"))
    assert min(Image.open(io.BytesIO(photo.webp)).getpixel((32, 32))) > 250


def png_header(width, height):
    def chunk(kind, body):
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = zlib.compress(bytes(10_000))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


JPEG = encoded(scene(LABELS[:2]))
BAD = {
    "nothing": (b"", "empty"),
    "forty megabytes": (b"\xff\xd8\xff" + bytes(40_000_000), "more than 30 MB"),
    "text": (b"Dear shop, here is my photo", "not a picture"),
    "html": (b"<html><script>alert(1)</script></html>", "not a picture"),
    "svg": (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "not a picture"),
    "eps": (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 10 10\n", "not a picture"),
    "gif": (encoded(Image.new("P", (8, 8)), "GIF"), "not a picture"),
    "bmp": (encoded(Image.new("RGB", (8, 8)), "BMP"), "not a picture"),
    "heic": (b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic" + bytes(100), "send a JPEG"),
    "half a jpeg": (JPEG[: len(JPEG) // 2], "cut short"),
    "half a png": (encoded(scene(LABELS[:2]), "PNG")[:2000], "cut short"),
    "half a webp": (encoded(scene(LABELS[:2]), "WEBP")[:3000], "picture|cut short"),
    "a bomb that Pillow refuses": (png_header(20_000, 20_000), "too many pixels"),
    "a bomb that Pillow warns of": (png_header(10_000, 10_000), "too many pixels"),
    "a bomb under Pillow's limit": (png_header(6_000, 6_000), "too many pixels"),
    "a png that ends early": (png_header(4_000, 4_000), "cut short"),
    "thousands of scans": (JPEG[:-2] + JPEG[JPEG.index(b"\xff\xda") :] * 80, "unusual"),
}


@pytest.mark.parametrize("work", [prepare_photo, lambda data: read_tags(data, HOSTS)], ids=["store", "read"])
@pytest.mark.parametrize("kind", BAD)
def test_bad_input_gets_a_sentence_and_nothing_else(work, kind):
    data, words = BAD[kind]
    with pytest.raises(BadInput, match=words) as caught:
        work(data)
    assert caught.value.field == "photo"
    assert str(caught.value).endswith(".")


def test_forty_eight_megapixels_are_read_at_a_quarter():
    picture = Image.new("L", (8000, 6000), 90)
    picture.paste(tag(LABELS[0], 1000).convert("L"), (3000, 2000))
    data = encoded(picture, quality=80)
    reading = read_photo(data, HOSTS)
    assert [one.code for one in reading.tags] == [LABELS[0].code]
    assert reading.step == "small"
    photo = prepare_photo(data)
    assert (photo.width, photo.height) == (1600, 1200)


# Columns of linear RGB to XYZ (D50): IEC 61966-2-1 sRGB, and P3 primaries with a D65 white (SMPTE EG 432-1), as adapted
# by the usual Bradford matrix
SRGB_D50 = ((0.4361, 0.2225, 0.0139), (0.3851, 0.7169, 0.0971), (0.1431, 0.0606, 0.7141))
P3_D50 = ((0.5151, 0.2412, -0.0011), (0.2919, 0.6922, 0.0419), (0.1572, 0.0666, 0.7841))


def matrix_profile(columns, gamma):
    """A display profile of ICC.1:2001 with three primaries and one gamma."""

    def s15(value):
        return struct.pack(">i", round(value * 65536))

    curve = b"curv" + bytes(4) + struct.pack(">IHxx", 1, round(gamma * 256))
    body = {b"desc": b"desc" + bytes(4) + struct.pack(">I", 2) + b"P\0" + bytes(79)}
    body[b"cprt"] = b"text" + bytes(4) + b"none"
    body[b"wtpt"] = b"XYZ " + bytes(4) + s15(0.9642) + s15(1.0) + s15(0.8249)
    for letter, column in zip(b"rgb", columns, strict=True):
        body[bytes([letter]) + b"XYZ"] = b"XYZ " + bytes(4) + b"".join(map(s15, column))
        body[bytes([letter]) + b"TRC"] = curve
    table, data = struct.pack(">I", len(body)), b""
    for name, entry in body.items():
        table += name + struct.pack(">II", 128 + 4 + 12 * len(body) + len(data), len(entry))
        data += entry + bytes(-len(entry) % 4)
    illuminant = s15(0.9642) + s15(1.0) + s15(0.8249)
    head = bytes(8) + b"\x02\x10\0\0mntrRGB XYZ " + bytes(12) + b"acsp" + bytes(28) + illuminant
    head = struct.pack(">I", 128 + len(table) + len(data)) + head[4:] + bytes(128 - len(head))
    return head + table + data


@pytest.mark.parametrize("pixel", [(120, 120, 120), (180, 100, 90), (90, 140, 110), (60, 90, 170)])
def test_a_wide_gamut_photo_keeps_its_colours(pixel):
    """Expected by the two matrices and the sRGB curve, worked out here."""
    linear = [(value / 255) ** 2.2 for value in pixel]
    xyz = [sum(P3_D50[c][row] * linear[c] for c in range(3)) for row in range(3)]
    srgb = np.linalg.solve(np.array(SRGB_D50).T, xyz)
    expected = [255 * (1.055 * v ** (1 / 2.4) - 0.055) for v in srgb]
    data = encoded(Image.new("RGB", (64, 64), pixel), "PNG", icc_profile=matrix_profile(P3_D50, 2.2))
    found = Image.open(io.BytesIO(prepare_photo(data).webp)).getpixel((32, 32))
    assert found == pytest.approx(expected, abs=4)


def test_a_profile_that_makes_no_sense_is_left_aside():
    data = encoded(Image.new("RGB", (64, 64), (200, 100, 50)), "PNG", icc_profile=b"no profile" * 20)
    assert Image.open(io.BytesIO(prepare_photo(data).webp)).getpixel((32, 32)) == pytest.approx((200, 100, 50), abs=4)


def test_when_every_place_is_taken_a_person_is_asked_to_wait(monkeypatch):
    monkeypatch.setattr(photo_module, "_LONGEST_WAIT_S", 0)
    with photo_module._PLACES, photo_module._PLACES, pytest.raises(TooMany, match="try again") as caught:
        read_tags(JPEG, HOSTS)
    assert caught.value.retry_after_s == 0
    assert len(read_tags(JPEG, HOSTS)) == 2


def test_a_bad_photo_gives_its_place_back():
    for _ in range(5):
        with pytest.raises(BadInput):
            prepare_photo(b"not a photo")
    assert len(read_tags(JPEG, HOSTS)) == 2
