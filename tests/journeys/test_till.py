"""A sale through the pages: several tags, prices, a hold's word, packing, a claim, a return."""

import io
import re

import pytest
from PIL import Image

from tests.shop_client import Visitor
from webapp.services import fragging, updating
from webapp.services.recording import NewEvent, new_deed, record
from webapp.services.tagging import live_code


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


def code_of(stage, specimen_id):
    with stage.database.saving() as session:
        return live_code(session, specimen_id)


def rang_up(staff, plugs):
    staff.open("/till").send("/till/add", code=" ".join(plugs.values()))
    return staff


def test_three_tags_are_one_sale_with_one_number(staff, plugs):
    rang_up(staff, plugs)
    assert "3 on the till, € 37.50 by their tags" in staff.text
    form = staff.page
    staff.send("/till/sell")
    assert "Sold as number 1" in staff.text
    assert "Together € 37.50" in staff.text
    staff.page, staff.path = form, "/till"
    staff.open("/till")
    assert "Nothing is on the till" in staff.text
    staff.open("/stock?state=sold")
    assert "3 specimens" in staff.text
    staff.open(f"/s/{next(iter(plugs))}")
    assert "Sold, as number 1." in staff.text


def test_a_double_tap_sells_once(staff, plugs):
    rang_up(staff, plugs)
    form = staff.page
    staff.send("/till/sell")
    with staff._client.session_transaction() as cookie:
        cookie["till"] = list(plugs)
    staff.page, staff.path = form, "/till"
    staff.send("/till/sell")
    assert staff.open("/sales").page.count("/sale/") == 1


def test_the_whole_sale_is_undone_with_one_tap_and_its_number_is_not_used_again(staff, plugs):
    rang_up(staff, plugs).send("/till/sell").send("/undo/")
    staff.open("/stock?state=for_sale")
    assert "3 specimens" in staff.text
    assert "No sale to show" in staff.open("/sales").text
    rang_up(staff, plugs).send("/till/sell")
    assert "Sold as number 2" in staff.text


def test_another_price_needs_a_reason_and_both_are_kept(staff, plugs):
    one = next(iter(plugs))
    rang_up(staff, plugs).send("/till/sell", **{f"price-{one}": "10"})
    assert staff.status == 422
    assert "Say why it differs" in staff.text
    staff.send("/till/sell", **{f"price-{one}": "10", f"reason-{one}": "three together"})
    assert "Together € 35.00" in staff.text
    assert "€ 12.50 on its tag, sold for € 10.00 (three together)" in staff.text


def test_what_is_on_hold_leaves_only_for_its_word(staff, stage, plugs):
    one = next(iter(plugs))
    with stage.database.saving() as session:
        until = stage.later(hours=20)
        updating.hold(session, stage.owner, new_deed(), one, "pearl", until, stage.later())
    staff.open("/holds")
    assert "Runs out within 24 hours" in staff.text
    staff.send("/till/add").send("/till/sell", **{f"word-{one}": "coral"})
    assert staff.status == 422
    assert "claim word" in staff.text
    staff.send("/till/sell", **{f"word-{one}": "Pearl"})
    assert staff.status == 200
    assert "To be settled" not in staff.open(f"/s/{one}").text


def test_a_poisonous_kind_leaves_only_after_the_talk(staff, stage):
    staff.open("/till").send("/till/add", code=code_of(stage, stage.mother))
    assert "Tell the buyer before it leaves" in staff.text
    staff.send("/till/sell")
    assert staff.status == 422
    staff.send("/till/sell", talk="y")
    assert "The dangers of handling were told" in staff.text


def test_what_is_gone_or_in_quarantine_does_not_leave(staff, stage, plugs):
    one, two, _three = plugs
    rang_up(staff, plugs)
    with stage.database.saving() as session:
        record(
            session,
            stage.owner,
            [NewEvent("lost", one, {"cause": "unknown"}), NewEvent("status_set", two, {"status": "quarantine"})],
        )
    staff.send("/till/sell")
    assert staff.status == 422
    assert "quarantine" in staff.text
    staff.open("/till").send("/till/drop", specimen_id=two)
    staff.send("/till/sell")
    assert staff.status == 422


def test_a_pest_that_stops_sale_stops_what_shared_its_water(staff, stage, plugs):
    with stage.database.saving() as session:
        found = {"tank_id": stage.tank, "pest": "acropora_flatworm", "stops_sale": True}
        record(session, stage.owner, [NewEvent("pest_found", new_deed(), found)])
    rang_up(staff, plugs).send("/till/sell")
    assert staff.status == 422
    assert "Its sale is stopped" in staff.text


def test_the_price_floor_is_worked_out_as_by_hand(staff, stage):
    """Mother 42.00 / 4 = 10.50; plug 0.60; 6 min at 20.00 an hour = 2.00; 3 of 4 live: 13.10 / 0.75 = 17.47."""
    with stage.database.saving() as session:
        said = fragging.FragSession(stage.mother, "scalpel", 4, stage.rack, price_cents=1000)
        ids = fragging.frag(session, stage.owner, new_deed(), said)
        record(session, stage.owner, [NewEvent("lost", ids[3], {"cause": "melt_after_cut"})])
    staff.open("/till").send("/till/add", code=code_of(stage, ids[0]))
    assert "It cost the shop € 17.47 so far" in staff.text
    assert "75 % of its batch that lived" in staff.text


def test_packing_is_kept_with_the_sale(staff, plugs):
    rang_up(staff, plugs).send("/till/sell").send("/bag", bag__case="air", bag__journey_h="1.5")
    assert "Carry it." in staff.text
    assert "Safe in its bag until" in staff.text
    staff.send("/bag", bag__case="air", bag__journey_h="9")
    assert (
        "Do not send it like this. Packed so it is safe for 2 hours, and the journey takes 9. "
        "It would do in: insulated box, oxygen."
        in staff.text
    )


def test_a_claim_with_a_picture_stands_against_the_sale_until_it_is_settled(staff, plugs):
    one = next(iter(plugs))
    rang_up(staff, plugs).send("/till/sell")
    picture = io.BytesIO()
    Image.effect_mandelbrot((320, 240), (-2, -1.5, 1, 1.5), 60).convert("RGB").save(picture, "JPEG")
    staff.send("/claim", files={"claim-picture": (io.BytesIO(picture.getvalue()), "x.jpg")},
               claim__specimen_id=one, claim__trouble="died", claim__readings="alk 5 dKH")  # fmt: skip
    assert staff.status == 200, staff.text
    assert "Water brought: alk 5 dKH" in staff.text
    assert staff.find(r"(/photo/[0-9a-f]{32})")
    assert "claim to settle" in staff.open("/sales?open=1").text
    staff.open("/sale/1").send("/settle", settle__outcome="credit", settle__amount="12.50")
    assert "credit, € 12.50" in staff.text
    assert "No sale to show" in staff.open("/sales?open=1").text


def test_a_claim_and_a_return_are_about_an_animal_that_was_chosen(staff, plugs):
    rang_up(staff, plugs).send("/till/sell")
    assert len(plugs) > 1
    assert staff.send("/claim").status == 422
    assert "Choose one: which one" in staff.text
    assert "Choose one: what is wrong" in staff.text
    assert staff.open("/sale/1").send("/return").status == 422


def test_what_came_back_comes_back_once_also_when_it_was_sold_again(staff, plugs):
    one = next(iter(plugs))
    rang_up(staff, plugs).send("/till/sell")
    first = staff.page
    staff.send("/return", return__specimen_id=one, return__refund="5")
    assert "Taken back" in staff.text
    staff.page = first  # a second tap of the same button
    assert staff.send("/return", return__specimen_id=one, return__refund="5").status == 200
    assert f"{plugs[one]}, came back" in staff.text
    assert staff.send("/return", return__specimen_id=one, return__refund="5").status == 422
    assert "came back already" in staff.text


@pytest.mark.parametrize("path", ["/sale/{}", "/sheet/{}"])
def test_a_number_that_no_paper_could_hold_is_a_page_that_is_not_there(staff, path):
    assert staff.open(path.format(10**20)).status == 404


def test_a_page_of_sales_that_is_not_there_is_the_last(staff, plugs):
    rang_up(staff, plugs).send("/till/sell")
    for page in (-3, 0, 2, 10**20):
        assert "Sale 1" in staff.open(f"/sales?page={page}").text


def test_what_comes_back_goes_into_quarantine(staff, stage, plugs):
    one = next(iter(plugs))
    with stage.database.saving() as session:
        from webapp.services import places

        places.add_tank(session, stage.owner, new_deed(), {"name": "Quiet", "purpose": "quarantine"})
    rang_up(staff, plugs).send("/till/sell").send("/return", return__specimen_id=one, return__reason="too large")
    assert "It is back, and its quarantine in Quiet begins." in staff.text
    staff.open(f"/s/{one}")
    assert "in quarantine" in staff.text
    assert "Quiet" in staff.text
    staff.open("/till").send("/till/add", code=plugs[one]).send("/till/sell")
    assert staff.status == 422


def test_a_sale_is_found_by_its_number_or_by_a_tag(staff, plugs):
    rang_up(staff, plugs).send("/till/sell")
    for asked in ("1", next(iter(plugs.values()))):
        staff.open("/sales").send("/sales", q=asked)
        assert "Sale 1" in staff.text
    staff.open("/sales").send("/sales", q="77")
    assert staff.status == 404
    assert staff.open("/sales?q=zzz").status == 422


def test_nothing_about_the_buyer_is_asked_for_or_kept(staff, plugs):
    rang_up(staff, plugs)
    names = set(re.findall(r'name="([a-z_]+)', staff.page))
    assert names <= {"csrf_token", "code", "deed", "price", "asked", "reason", "word", "sheet", "talk"} | {
        "specimen_id",
        "viewport",
        "color",
        "theme",
        "format",
    }


def test_a_picture_as_it_left_stands_with_the_receipt_and_can_be_undone(staff, plugs):
    rang_up(staff, plugs).send("/till/sell")
    bags = io.BytesIO()
    Image.effect_mandelbrot((320, 240), (-2, -1.5, 1, 1.5), 40).convert("RGB").save(bags, "JPEG")
    files = {"picture-picture": (io.BytesIO(bags.getvalue()), "bags.jpg")}
    staff.send("/picture", files=files, picture__note="three bags")
    assert "The picture is kept with the sale." in staff.text
    assert "As it left" in staff.text
    assert ": three bags" in staff.text
    staff.send("/undo/").open("/sale/1")
    assert "As it left" not in staff.text
    staff.send("/picture")
    assert staff.status == 422
    assert "Take or choose a picture." in staff.text


def sold(staff, plugs):
    rang_up(staff, plugs).send("/till/sell")
    return staff.open("/sale/1")


def test_one_animal_has_one_open_claim_which_is_settled_once(staff, plugs):
    """Two people at two phones: the second is told what the first did."""
    first = next(iter(plugs))
    before = sold(staff, plugs).page
    staff.send("/claim", claim__specimen_id=first, claim__trouble="died")
    claimed, staff.page = staff.page, before
    staff.send("/claim", claim__specimen_id=first, claim__trouble="died")  # the same deed: a second tap
    assert staff.status == 200 and staff.open("/sale/1").text.count("Settle it") == 1
    staff.send("/claim", claim__specimen_id=first, claim__trouble="died")
    assert staff.status == 422
    assert "A claim about this one is open already. Settle that first." in staff.text
    staff.page, staff.path = claimed, "/sale/1"
    staff.send("/settle", settle__outcome="refund", settle__amount="12.50")
    assert "Claim settled." in staff.text
    staff.page, staff.path = claimed.replace(deed_of(claimed, "settle"), new_deed()), "/sale/1"
    staff.send("/settle", settle__outcome="credit", settle__amount="12.50")
    assert staff.status == 422
    assert "This claim is settled already. Undo that first if it was wrong." in staff.text


def deed_of(page, name):
    return re.search(rf'name="{name}-deed" value="([0-9a-f]{{32}})"', page)[1]


@pytest.mark.parametrize("amount", ["37.51", "99999"])
def test_nobody_gets_more_back_than_the_whole_sale_took(staff, plugs, amount):
    """Three at 12.50 took 37.50."""
    first = next(iter(plugs))
    sold(staff, plugs).send("/claim", claim__specimen_id=first, claim__trouble="died")
    staff.send("/settle", settle__outcome="refund", settle__amount=amount)
    assert staff.status == 422 and "more than the whole sale took" in staff.text
    staff.send("/settle", settle__amount="37.50")
    assert staff.status == 200
    staff.send("/return", **{"return-specimen_id": first, "return-refund": amount})
    assert staff.status == 422 and "more than the whole sale took" in staff.text
