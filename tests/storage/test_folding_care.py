"""Looks, dips, cuts, care, pests and shipments: any order of arrival gives the same present; undo takes back."""

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from webapp.storage.folding import Happened
from webapp.storage.present_care import present_pest, present_shipment, present_tending
from webapp.storage.present_specimen import present_specimen

START = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
TANK, LINE, OTHER = "a" * 32, "b" * 32, "c" * 32
BORN = {"profile_key": "zoanthus", "name": "Ring", "tank_id": TANK, "mother_id": OTHER, "method": "saw", "size_mm": 20}
KIND = {"profile_key": "zoanthus", "name": "Ring", "origin": "wild", "count": 3}

STORIES = {
    "specimen": (present_specimen, ("born", BORN), {
        "checked": st.fixed_dictionaries({}, optional={
            "holds": st.booleans(), "pest_free": st.booleans(), "slime": st.booleans(),
            "colour": st.sampled_from(["good", "bleached"]),
        }),
        "dipped": st.just({"dip": "iodine", "repeat": True}),
        "cut": st.integers(1, 9).map(lambda heads: {"method": "saw", "pieces": [OTHER], "heads": heads}),
        "measured": st.integers(10, 40).map(lambda size: {"size_mm": size}),
    }),
    "pest": (present_pest, ("pest_found", {"tank_id": TANK, "pest": "other", "stops_sale": True}), {
        "pest_looked": st.booleans().map(lambda clean: {"clean": clean}),
        "pest_treated": st.just({"treatment": "dip"}),
        "pest_stop": st.booleans().map(lambda stops: {"stops_sale": stops}),
        "pest_cleared": st.just({}),
        "pest_back": st.just({}),
    }),
    "shipment": (present_shipment, ("shipment_set", {"supplier": "a farm"}), {
        "shipment_set": st.sampled_from([{"claim_h": 12.0}, {"packed_at": START.isoformat()}]),
        "shipment_line": st.sampled_from([LINE, OTHER]).map(lambda line: {"line": line} | KIND),
        "line_dropped": st.just({"line": LINE}),
        "bag_measured": st.integers(18, 30).map(lambda c: {"line": LINE, "tank_id": TANK, "bag_temp_c": c}),
        "line_arrived": st.integers(0, 3).map(lambda n: {"line": LINE, "alive": n, "dead": 1, "specimens": []}),
        "dead_claimed": st.just({"count": 1}),
        "shipment_done": st.just({}),
    }),
}  # fmt: skip


@st.composite
def stories(draw):
    fold, first, later = STORIES[draw(st.sampled_from(sorted(STORIES)))]
    events = [Happened(f"{0:032x}", *[first[0], START, first[1]])]
    for number in range(1, draw(st.integers(1, 12))):
        at = START + timedelta(hours=draw(st.integers(-2, 5)))
        kind = draw(st.sampled_from([*sorted(later), "undone"]))
        payload = {"event_id": draw(st.sampled_from(events)).id} if kind == "undone" else draw(later[kind])
        events.append(Happened(f"{number:032x}", kind, at, payload))
    return fold, events


@given(stories(), st.randoms(use_true_random=False))
def test_any_order_and_any_repetition_give_the_same_present(story, random):
    fold, events = story
    delivered = events + random.choices(events, k=len(events))
    random.shuffle(delivered)
    assert fold(delivered) == fold(events)


@given(stories())
def test_undoing_everything_after_the_first_gives_the_present_of_the_first(story):
    fold, events = story
    rest = [event for event in events[1:] if event.kind != "undone"]
    undos = [
        Happened(f"{1000 + number:032x}", "undone", START + timedelta(days=1), {"event_id": event.id})
        for number, event in enumerate(rest)
    ]
    assert fold([events[0], *rest, *undos]) == fold(events[:1])


def look(number, days, **seen):
    return Happened(f"{number:032x}", "checked", START + timedelta(days=days), seen)


def test_what_ails_it_stands_until_a_look_says_otherwise():
    born = Happened(f"{0:032x}", "born", START, BORN)
    ill = look(1, 1, slime=True)
    assert present_specimen([born, ill])["trouble"] == "slime"
    assert present_specimen([born, ill, look(2, 2, holds=True)])["trouble"] == "slime"
    assert present_specimen([born, ill, look(2, 2, slime=False)])["trouble"] == ""
    assert present_specimen([born, ill, look(2, 2, slime=False, pest_free=False)])["trouble"] == "pest"


def test_a_frag_is_cut_when_it_is_born_but_not_when_it_split_by_itself():
    born = Happened(f"{0:032x}", "born", START, BORN)
    split = Happened(f"{0:032x}", "born", START, BORN | {"method": "natural_split"})
    assert present_specimen([born])["cut_at"] == START
    assert present_specimen([split])["cut_at"] is None


def test_a_tending_undone_is_gone():
    fed = Happened(f"{0:032x}", "fed", START, {"tank_id": TANK, "food": "meaty"}, "Noor", "e" * 32)
    assert present_tending([fed])["given"] == {"food": "meaty"}
    assert present_tending([fed, Happened(f"{1:032x}", "undone", START, {"event_id": fed.id})]) is None
