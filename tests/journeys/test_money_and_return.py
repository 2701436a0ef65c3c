"""At the till and after it: which of several is meant, what is settled with money, what comes back into which water."""

import pytest

from tests.shop_client import Visitor
from webapp.services import intake, places
from webapp.services.recording import new_deed
from webapp.services.tagging import live_code


@pytest.fixture
def sold(stage):
    """A mushroom of 12.50, sold as number 1: its id."""
    given = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale",
             "price_cents": 1250, "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""}  # fmt: skip
    with stage.database.saving() as session:
        (one,) = intake.take_in(session, stage.owner, new_deed(), given, 1)
        code = live_code(session, one)
    Visitor(stage).sign_in().open("/till").send("/till/add", code=code).send("/till/sell")
    return one


def quarantine(stage, *names):
    with stage.database.saving() as session:
        return [places.add_tank(session, stage.owner, new_deed(), {"name": name, "purpose": "quarantine"})
                for name in names]  # fmt: skip


def test_of_two_quarantine_tanks_a_person_chooses_one(sold, stage):
    first, second = quarantine(stage, "Quiet", "Quieter")
    staff = Visitor(stage).sign_in().open("/sale/1")
    staff.send("/return", **{"return-reason": "too large"})
    assert staff.status == 422
    assert "Choose one: which quarantine tank it goes into." in staff.text and 'value="too large"' in staff.page
    staff.send("/return", **{"return-tank": second})
    assert "It is back, and its quarantine in Quieter begins." in staff.text
    assert "Quieter" in staff.open(f"/s/{sold}").text


def test_with_one_quarantine_tank_nothing_is_asked_and_with_none_it_is_said(sold, stage):
    staff = Visitor(stage).sign_in().open("/sale/1")
    assert "return-tank" not in staff.page
    staff.send("/return")
    assert "Move it out of the stock's water." in staff.text
    staff.send("/undo/")
    quarantine(stage, "Quiet")
    assert "return-tank" not in staff.open("/sale/1").page


def test_money_given_back_stands_on_the_sale_and_goes_with_undo(sold, stage):
    staff = Visitor(stage).sign_in().open("/sale/1").send("/return", **{"return-refund": "5"})
    assert "; €\N{NO-BREAK SPACE}5.00 given back." in staff.page
    staff.send("/undo/").open("/sale/1")
    assert "given back." not in staff.page


@pytest.mark.parametrize(("outcome", "amount", "taken"), [
    ("credit", "", False), ("refund", "0", False), ("credit", "12.50", True), ("advice", "", True),
])  # fmt: skip
def test_a_claim_is_not_settled_by_a_credit_of_nothing(sold, stage, outcome, amount, taken):
    staff = Visitor(stage).sign_in().open("/sale/1").send("/claim", claim__specimen_id=sold, claim__trouble="died")
    staff.send("/settle", settle__outcome=outcome, settle__amount=amount)
    assert ("Claim settled." in staff.text) is taken
    assert ("Give the amount, or settle it another way." in staff.text) is not taken


def test_two_of_a_name_on_the_till_are_told_apart(sold, stage):
    given = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale",
             "price_cents": 1250, "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""}  # fmt: skip
    with stage.database.saving() as session:
        ids = intake.take_in(session, stage.owner, new_deed(), given, 2)
        codes = [live_code(session, one) for one in ids]
    staff = Visitor(stage).sign_in().open("/till").send("/till/add", code=" ".join(codes))
    staff.send("/till/sell", **{f"price-{ids[1]}": "9"})
    assert f"Blue Disc {codes[1]} has another price on its tag. Say why it differs." in staff.text
