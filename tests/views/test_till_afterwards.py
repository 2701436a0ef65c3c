"""A sale made without signal that arrives later: it has happened, so it is kept, once, with what is to be told."""

from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import select

from tests.door import phone
from webapp.services import intake
from webapp.services.recording import NewEvent, new_deed, record
from webapp.storage.event import Event
from webapp.storage.sale import SaleRow
from webapp.storage.specimen import SpecimenRow


@pytest.fixture
def discs(stage):
    """Three mushrooms for sale at 12.50, by id."""
    given = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale",
             "price_cents": 1250, "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""}  # fmt: skip
    with stage.database.saving() as session:
        return intake.take_in(session, stage.owner, new_deed(), given, 3)


def sold_form(one, ids, at=None, **more):
    """The form of a sale as the phone keeps it: every animal named, with the price on its tag."""
    form = one.form("/till/sell", at)
    fields = form["form"]["fields"]
    for specimen_id in ids:
        fields += [["specimen_id", specimen_id], [f"price-{specimen_id}", "12.50"], [f"asked-{specimen_id}", "1250"]]
    fields += [[name, value] for name, value in more.items()]
    return form


def sales(stage):
    with stage.database.reading() as session:
        return list(session.scalars(select(SaleRow).order_by(SaleRow.number)))


def test_it_is_one_sale_however_often_it_comes_and_whatever_is_on_the_till_meanwhile(stage, discs):
    one = phone(stage)
    then = datetime.now(UTC) - timedelta(seconds=50)
    form = sold_form(one, discs[:2], then)
    one.open("/till").send("/till/add", code="x")
    with one._client.session_transaction(base_url="https://localhost") as cookie:
        cookie["till"] = [discs[2], discs[0]]
    assert one.deliver(form) == ["accepted"]
    assert one.deliver(form, form) == ["known", "known"]
    [sale] = sales(stage)
    assert [line["specimen_id"] for line in sale.lines] == discs[:2]
    assert sale.made_at == then
    assert f'value="{discs[2]}"' in one.open("/till").page
    assert "1 on the till" in one.text


def test_what_would_have_stopped_it_is_noted_and_never_loses_the_sale(stage, discs):
    one = phone(stage)
    form = sold_form(one, discs)
    with stage.database.saving() as session:
        record(session, stage.owner, [NewEvent("status_set", discs[0], {"status": "quarantine"}),
                                      NewEvent("sold", discs[1], {"price_cents": 1250}),
                                      NewEvent("priced", discs[2], {"price_cents": 1500})])  # fmt: skip
    assert one.deliver(form) == ["accepted"]
    with stage.database.reading() as session:
        assert session.get(SpecimenRow, discs[1]).conflicts
        assert session.get(SpecimenRow, discs[2]).status == "sold"
        [note] = session.scalars(select(Event).where(Event.kind == "noted"))
    assert note.payload["text"] == "Sold without signal. Blue Disc is in quarantine. Release it first."
    [sale] = sales(stage)
    assert [line["asked_cents"] for line in sale.lines] == [1250] * 3


def test_at_the_shop_itself_the_same_is_asked_as_ever(stage, discs):
    one = phone(stage)
    with stage.database.saving() as session:
        record(session, stage.owner, [NewEvent("status_set", discs[0], {"status": "quarantine"})])
    form = sold_form(one, discs)
    assert one.deliver(form, live=form["id"]) == ["refused"]
    assert "in quarantine" in one.reasons[0]
    assert sales(stage) == []


def test_what_a_phone_put_on_and_took_off_without_signal_is_told_in_one_go(stage, discs):
    one = phone(stage)
    with one._client.session_transaction(base_url="https://localhost") as cookie:
        cookie["till"] = discs[:2]
    one.open("/till").send("/till/add", put=discs[2], gone=discs[0])
    assert "2 on the till" in one.text
    assert f'value="{discs[0]}"' not in one.page
