"""Counting: what tags in a photo say of a rack, events for each specimen, a stocktake and its report."""

import csv
import io
from itertools import permutations

import pytest

from webapp.errors import BadInput, NotFound
from webapp.services import binding, count_report, stocktaking, updating
from webapp.services.fragging import FragSession, frag
from webapp.services.recording import new_deed, undo
from webapp.services.tables import csv_text
from webapp.storage.history import happened
from webapp.storage.present_specimen import present_specimen
from webapp.storage.specimen import SpecimenRow

COUNT = "c" * 32


@pytest.fixture
def rack(stage):
    """Five frags beside their mother on the stage's rack; one stranger on the other rack. Codes by name."""
    with stage.database.saving() as session:
        ids = frag(session, stage.owner, new_deed(), FragSession(stage.mother, "scalpel", 5, stage.rack,
        price_cents=1000))
        place = {"tank_id": stage.other_tank, "rack_id": stage.other_rack, "slot": "A1"}
        updating.move(session, stage.owner, new_deed(), [ids[4]], place)
    with stage.database.reading() as session:
        codes = {one: session.get(SpecimenRow, one).code for one in (stage.mother, *ids)}
    return ids, codes, f"rack:{stage.rack}"


def sorted_out(stage, key, codes):
    with stage.database.reading() as session:
        return stocktaking.sort_out(session, stocktaking.find_place(session, key), codes)


def confirmed(stage, key, codes, deed_id=None, **more):
    with stage.database.saving() as session:
        place = stocktaking.find_place(session, key)
        return stocktaking.confirm(session, stage.owner, deed_id or new_deed(), COUNT, place, codes, **more)


def reported(stage):
    with stage.database.reading() as session:
        return count_report.report(session, COUNT)


def row(stage, specimen_id):
    with stage.database.reading() as session:
        return session.get(SpecimenRow, specimen_id)


def test_tags_are_sorted_into_here_missing_elsewhere_gone_and_others(stage, rack):
    ids, codes, key = rack
    with stage.database.saving() as session:
        updating.update(session, stage.owner, new_deed(), "sold", [ids[3]], {})
        (blank,) = binding.make_blanks(session, stage.owner, new_deed(), 1)
    found = sorted_out(stage, key, [codes[ids[0]], codes[ids[0]], codes[ids[3]], codes[ids[4]], blank, "0000000"])
    assert [one.id for one in found.here] == [ids[0]]
    assert [one.id for one in found.missing] == [stage.mother, ids[1], ids[2]]
    assert [one.id for one in found.elsewhere] == [ids[4]]
    assert [one.id for one in found.gone] == [ids[3]]
    assert found.others == [(blank, "blank"), ("0000000", "not known here")]


def test_the_place_is_told_by_its_own_tag_or_by_most_of_its_specimens(stage, rack):
    ids, codes, key = rack
    with stage.database.reading() as session:
        own = binding.find_target(session, "rack", stage.other_rack).code
        assert stocktaking.guess_place(session, [codes[ids[0]], codes[ids[1]], codes[ids[4]]]).key == key
        assert stocktaking.guess_place(session, [codes[ids[0]], own]).key == f"rack:{stage.other_rack}"
        with pytest.raises(NotFound):
            stocktaking.guess_place(session, ["0000000"])


def test_a_count_is_an_event_for_each_and_sending_it_twice_changes_nothing(stage, rack):
    ids, codes, key = rack
    deed_id = new_deed()
    seen = [codes[ids[0]], codes[ids[4]]]
    for _ in range(2):
        confirmed(stage, key, seen, deed_id, by_eye=[ids[1]], moved={ids[4]: ""})
    kinds = {}
    with stage.database.reading() as session:
        for one in (stage.mother, *ids):
            kinds[one] = sorted(e.kind for e in happened(session, one) if e.payload.get("count") == COUNT)
    assert kinds == {
        stage.mother: ["missing"], ids[0]: ["seen"], ids[1]: ["seen"], ids[2]: ["missing"], ids[3]: ["missing"],
        ids[4]: ["moved", "seen"],
    }  # fmt: skip
    assert row(stage, ids[2]).missing_since is not None
    assert row(stage, ids[4]).rack_id == stage.rack
    assert row(stage, ids[0]).seen_at is not None


def test_a_moved_plug_gets_its_slot_and_one_that_stands_elsewhere_on_its_rack_too(stage, rack):
    ids, codes, key = rack
    seen = [codes[one] for one in (stage.mother, ids[0], ids[4])]
    tally = confirmed(stage, key, seen, moved={ids[4]: "D10"}, shifted={ids[0]: "C3", ids[1]: "C4"})
    assert tally == {"seen": 2, "missing": 3, "moved": 1}
    assert (row(stage, ids[4]).rack_id, row(stage, ids[4]).slot) == (stage.rack, "D10")
    assert row(stage, ids[0]).slot == "C3"
    assert row(stage, ids[1]).slot != "C4", "it was not seen"
    found = {one.id: one.found for one in reported(stage).lines}
    assert (found[ids[0]], found[ids[4]]) == ("seen", "moved")


@pytest.mark.parametrize("slots", [("D11", "A2"), ("D10", "D10")], ids=["not on the rack", "two in one"])
def test_a_slot_that_cannot_be_is_refused(stage, rack, slots):
    ids, codes, key = rack
    with pytest.raises(BadInput):
        confirmed(stage, key, [codes[ids[0]], codes[ids[4]]], moved={ids[4]: slots[0]}, shifted={ids[0]: slots[1]})
    assert row(stage, ids[4]).rack_id == stage.other_rack


def test_a_stocktake_over_all_racks_ends_in_a_report(stage, rack):
    ids, codes, key = rack
    with stage.database.reading() as session:
        assert {one.key: one.expected for one in stocktaking.all_places(session)} == {
            key: 5, f"rack:{stage.other_rack}": 1,
        }  # fmt: skip
    confirmed(stage, key, [codes[one] for one in (stage.mother, ids[0], ids[4])], moved={ids[4]: ""})
    half = reported(stage)
    assert [one.key for one in half.left] == [f"rack:{stage.other_rack}"]
    confirmed(stage, f"rack:{stage.other_rack}", [])
    report = reported(stage)
    assert report.left == []
    totals = {what: report.total(what) for what in ("expected", "seen", "missing", "moved", "variance")}
    assert totals == {"expected": 5, "seen": 2, "missing": 3, "moved": 1, "variance": -2}
    assert report.missing_cents == 3000
    assert {one.id: one.found for one in report.lines}[ids[4]] == "moved"


def test_counting_a_place_again_replaces_its_line_and_undo_takes_a_count_back(stage, rack):
    ids, codes, key = rack
    confirmed(stage, key, [])
    again = new_deed()
    confirmed(stage, key, [codes[ids[0]]], again)
    assert reported(stage).total("seen") == 1
    with stage.database.saving() as session:
        undo(session, stage.owner, again)
    assert reported(stage).total("seen") == 0
    assert {one.found for one in reported(stage).lines} == {"missing"}


def test_order_of_arrival_makes_no_difference_to_who_is_missing(stage, rack):
    ids, codes, key = rack
    confirmed(stage, key, [])
    confirmed(stage, key, [codes[ids[0]]])
    with stage.database.reading() as session:
        events = happened(session, ids[0])
    assert len(events) >= 3
    presents = [present_specimen(order) for order in permutations(events)]
    assert all(now == presents[0] for now in presents)
    assert presents[0]["missing_since"] is None


def test_missing_ends_with_a_sale_or_a_move(stage, rack):
    ids, _codes, key = rack
    confirmed(stage, key, [])
    since = row(stage, ids[0]).missing_since
    confirmed(stage, key, [])
    assert row(stage, ids[0]).missing_since == since
    with stage.database.saving() as session:
        updating.update(session, stage.owner, new_deed(), "sold", [ids[0]], {})
        updating.move(session, stage.owner, new_deed(), [ids[1]], {"tank_id": stage.other_tank})
    assert (row(stage, ids[0]).missing_since, row(stage, ids[1]).missing_since) == (None, None)


def test_the_table_guards_against_formulas(stage, rack):
    ids, codes, key = rack
    with stage.database.saving() as session:
        updating.update(session, stage.owner, new_deed(), "named", [ids[0]], {"name": '=HYPERLINK("x")'})
    confirmed(stage, key, [codes[ids[0]]])
    text = count_report.report_csv(reported(stage))
    rows = list(csv.reader(io.StringIO(text.removeprefix("\ufeff"))))
    assert rows[0][:4] == ["place", "slot now", "code", "name"]
    assert len(rows) == 6
    assert {cell for line in rows for cell in line if cell.startswith("'")} == {"'=HYPERLINK(\"x\")"}


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_every_sign_that_starts_a_formula_is_guarded(start):
    """The signs listed by OWASP, 'CSV Injection'."""
    (line,) = list(csv.reader(io.StringIO(csv_text(["a"], [[f"{start}1"]]).removeprefix("\ufeff"), newline="")))[1:]
    assert line == [f"'{start}1"]


def test_numbers_stay_numbers():
    assert csv_text(["a", "b"], [[-1.5, None]]).endswith("-1.5,\r\n")
