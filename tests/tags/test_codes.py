"""Codes: what they promise about mistakes, and what a scanned text is taken for."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.tags.codes import ALPHABET, Scan, is_valid, new_code, normalise, parse_scan

HOSTS = ("SHOP.LOCAL", "old.lan")
CODES = st.integers(0, 2**64).map(lambda seed: new_code(Random(seed)))
CODE = new_code(Random(7))


@given(CODES)
def test_a_new_code_is_valid_and_stays_itself_when_normalised(code):
    assert is_valid(code)
    assert normalise(code) == code
    assert len(code) == 7


@given(CODES, st.integers(0, 6), st.sampled_from(ALPHABET))
def test_every_single_wrong_symbol_is_found(code, place, wrong):
    mistyped = code[:place] + wrong + code[place + 1 :]
    assert is_valid(mistyped) == (wrong == code[place])


@given(CODES, st.integers(0, 5))
def test_every_swap_of_neighbours_is_found_but_zero_with_z(code, place):
    a, b = code[place], code[place + 1]
    swapped = code[:place] + b + a + code[place + 2 :]
    assert is_valid(swapped) == (a == b or {a, b} == {"0", "Z"})


def test_codes_are_spread_over_the_alphabet():
    seen = {symbol for seed in range(200) for symbol in new_code(Random(seed))}
    assert seen == set(ALPHABET)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("7k3-qxm", "7K3QXM"), (" oO iI lL ", "001111"), ("7K3\u2011QX\u00a0M", "7K3QXM"), ("７Ｋ３\n", "7K3")],
)
def test_a_code_is_read_as_people_write_it(typed, meant):
    assert normalise(typed) == meant


def test_a_look_alike_typed_for_the_right_symbol_still_resolves():
    code = next(c for c in (new_code(Random(s)) for s in range(500)) if "0" in c and "1" in c)
    assert parse_scan(code.replace("0", "o").replace("1", "l"), HOSTS) == Scan(code)


@pytest.mark.parametrize(
    "text",
    [
        CODE,
        CODE.lower(),
        f" {CODE[:3]} {CODE[3:]} ",
        f"http://SHOP.LOCAL/{CODE}",
        f"HTTP://SHOP.LOCAL/{CODE}",
        f"http://shop.local/{CODE.lower()}/",
        f"https://shop.local:8443/{CODE}",
        f"http://shop.local./{CODE}",
        f"http://Old.Lan:8000/{CODE}?from=poster#top",
        f"shop.local/{CODE}",
    ],
)
def test_ours_in_every_form(text):
    assert parse_scan(text, HOSTS) == Scan(CODE)


@pytest.mark.parametrize(
    "text",
    [
        f"http://elsewhere.example/{CODE}",
        f"http://shop.local.elsewhere.example/{CODE}",
        f"http://shop.local@elsewhere.example/{CODE}",
        f"http://elsewhere.example\\@shop.local/{CODE}",
        f"http://elsewhere.example/?http://shop.local/{CODE}",
        f"ftp://shop.local/{CODE}",
        f"xhttp://shop.local/{CODE}",
        "https://elsewhere.example",
    ],
)
def test_another_host_is_not_ours_however_it_is_dressed(text):
    assert parse_scan(text, HOSTS) == Scan(None, "not_ours")


@pytest.mark.parametrize(
    "text", ["", "8", "333256", "WIFI:T:nopass;S:A;;", "http://shop.local/", f"http://shop.local/rack/{CODE}", "U" * 7]
)
def test_what_is_no_code(text):
    assert parse_scan(text, HOSTS) == Scan(None, "not_a_code")


def test_a_wrong_check_symbol_is_told_apart():
    wrong = CODE[:-1] + ("A" if CODE[-1] != "A" else "B")
    assert parse_scan(wrong, HOSTS) == Scan(None, "bad_check")
    assert parse_scan(f"http://shop.local/{wrong}", HOSTS) == Scan(None, "bad_check")


@given(st.text(max_size=60) | st.text(alphabet="htp:/.@\\?#ABC127shoplcal", max_size=40))
def test_any_text_gets_an_answer(text):
    scan = parse_scan(text, HOSTS)
    assert (scan.code is None) == (scan.problem is not None)
    assert scan.code is None or is_valid(scan.code)


def test_a_very_long_text_is_refused():
    assert parse_scan("http://shop.local/" + "A" * 100_000, HOSTS).problem == "not_a_code"
