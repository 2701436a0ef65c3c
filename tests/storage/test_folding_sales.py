"""Sales, claims, holds and losses: any order of arrival gives the same present; undo takes back."""

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from webapp.storage.folding import Happened
from webapp.storage.present_sale import present_sale
from webapp.storage.present_specimen import present_specimen

START = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
TANK, ONE, TWO, CLAIM = "a" * 32, "b" * 32, "c" * 32, "d" * 32
LINES = [{"specimen_id": ONE, "price_cents": 1250}, {"specimen_id": TWO, "price_cents": None}]
MADE = Happened(f"{0:032x}", "sale_made", START, {"number": 7, "lines": LINES, "talk": True}, "Noor", "e" * 32)
LATER = {
    "sale_bagged": {"case": "air", "journey_h": 1.0, "safe_h": 2.0, "carry": True},
    "sale_claimed": {"claim": CLAIM, "specimen_id": ONE, "trouble": "died"},
    "claim_settled": {"claim": CLAIM, "outcome": "credit", "amount_cents": 1250},
    "sale_returned": {"specimen_id": TWO, "reason": "wrong one"},
}
BORN = Happened(
    f"{0:032x}", "born", START,
    {"profile_key": "zoanthus", "name": "Ring", "tank_id": TANK, "mother_id": TWO, "method": "saw"},
)  # fmt: skip


def after(minutes: int, number: int, kind: str, payload: dict) -> Happened:
    return Happened(f"{number:032x}", kind, START + timedelta(minutes=minutes), payload)


@given(st.lists(st.tuples(st.sampled_from(sorted(LATER)), st.integers(-3, 9)), max_size=8), st.randoms())
def test_a_sale_is_the_same_in_any_order(steps, random):
    events = [MADE, *(after(at, number, kind, LATER[kind]) for number, (kind, at) in enumerate(steps, 1))]
    shuffled = events + events[:2]
    random.shuffle(shuffled)
    assert present_sale(shuffled) == present_sale(events)


def test_a_sale_adds_up_and_knows_its_open_claims():
    sale = present_sale([MADE, after(5, 1, "sale_claimed", LATER["sale_claimed"])])
    assert (sale["total_cents"], sale["number"], sale["open_claims"], sale["talk"]) == (1250, 7, 1, True)
    settled = present_sale(
        [after(9, 2, "claim_settled", LATER["claim_settled"]), MADE, after(5, 1, "sale_claimed", LATER["sale_claimed"])]
    )
    assert settled["open_claims"] == 0
    assert settled["claims"][0]["amount_cents"] == 1250


def test_a_settlement_whose_claim_was_undone_leaves_nothing():
    gone = after(9, 3, "undone", {"event_id": f"{1:032x}"})
    events = [
        MADE,
        after(5, 1, "sale_claimed", LATER["sale_claimed"]),
        after(7, 2, "claim_settled", LATER["claim_settled"]),
        gone,
    ]
    assert present_sale(events)["claims"] == []


def test_a_sale_that_was_undone_is_no_sale():
    assert present_sale([MADE, after(1, 1, "undone", {"event_id": MADE.id})]) is None


def test_a_loss_counts_where_the_animal_was_unless_somebody_says_otherwise():
    lost = after(5, 1, "lost", {"cause": "pest"})
    assert present_specimen([BORN, lost])["loss_stage"] == "healing"
    assert present_specimen([BORN, after(2, 2, "status_set", {"status": "for_sale"}), lost])["loss_stage"] == "rack"
    assert present_specimen([BORN, after(5, 1, "lost", {"cause": "pest", "stage": "dip"})])["loss_stage"] == "dip"
    back = after(9, 3, "returned", {"status": "quarantine"})
    assert present_specimen([BORN, lost, back])["loss_cause"] == ""


def test_a_sold_animal_knows_its_sale_and_a_deposit_ends_with_the_hold():
    until = (START + timedelta(days=3)).isoformat()
    held = after(1, 1, "held", {"word": "pearl", "until": until, "deposit_cents": 500})
    assert present_specimen([BORN, held])["deposit_cents"] == 500
    sold = present_specimen([BORN, held, after(2, 2, "sold", {"hold_word": "pearl", "price_cents": 1250, "sale": 7})])
    assert (sold["sale_number"], sold["deposit_cents"], sold["open_conflicts"]) == (7, None, 0)
    other = present_specimen([BORN, held, after(2, 2, "sold", {"price_cents": 1250, "sale": 7})])
    assert other["open_conflicts"] == 1
