"""Whole forms through the door of what was done without signal, and deeds that are done now."""

import base64
import io
from datetime import UTC, datetime, timedelta

import pytest
from PIL import Image
from sqlalchemy import func, select

from tests.door import events, phone, row
from webapp.services import devices, fragging, people
from webapp.services.recording import new_deed
from webapp.services.tagging import fresh_codes
from webapp.storage.event import Event


def test_a_form_is_done_once_by_whoever_filled_it_in_when_it_was_filled_in(stage):
    one = phone(stage)
    then = datetime.now(UTC) - timedelta(seconds=30)
    form = one.form(
        f"/s/{stage.mother}/move", then, move__rack=f"{stage.other_tank}:{stage.other_rack}", move__slot="B2"
    )
    assert one.deliver(form) == ["accepted"]
    assert one.deliver(form, form) == ["known", "known"]
    [moved] = events(stage, kind="moved")
    assert (moved.occurred_at, moved.author_name, moved.deed_id) == (then, "Noor", form["deed_id"])
    assert row(stage).slot == "B2"


def test_a_form_that_cannot_be_used_comes_back_with_its_reason_and_the_next_goes_on(stage):
    one = phone(stage)
    bad = one.form(f"/s/{stage.mother}/move", move__rack=f"{stage.other_tank}:{stage.other_rack}", move__slot="Z9")
    good = one.form(f"/s/{stage.mother}/measure", measure__size_mm="31")
    assert one.deliver(bad, good) == ["refused", "accepted"]
    assert "S1 has no slot Z9" in one.reasons[0]


def test_a_frag_session_without_signal_draws_the_codes_that_were_promised(stage):
    one = phone(stage)
    promised = one._client.get("/outbox/codes", environ_overrides=one._environ()).json
    assert len(promised) == devices.DEEDS_A_DEVICE
    deed, codes = next(iter(promised.items()))
    with stage.database.saving() as session:
        drawn_meanwhile = fresh_codes(session, 50, new_deed())
        fragging.frag(session, stage.owner, new_deed(), fragging.FragSession(stage.mother, "saw", 4, stage.rack))
    form = one.form(f"/s/{stage.mother}/frag", method="scalpel", pieces=3, rack=stage.rack)
    form["deed_id"] = form["form"]["fields"][0][1] = deed
    assert one.deliver(form) == ["accepted"]
    bound = [event.subject_id for event in events(stage, kind="bound", deed_id=deed)]
    assert bound == codes[:3]
    assert not set(codes) & set(drawn_meanwhile)
    again = one._client.get("/outbox/codes", environ_overrides=one._environ()).json
    assert deed not in again
    assert len(again) == devices.DEEDS_A_DEVICE


def test_a_picture_waits_in_its_form_and_loses_where_it_was_taken(stage):
    one = phone(stage)
    picture = io.BytesIO()
    Image.new("RGB", (640, 480), "teal").save(picture, "JPEG")
    form = one.form(f"/s/{stage.mother}/photo", photo__x="")
    form["form"]["fields"] = [["photo-deed", form["deed_id"]]]
    data = base64.b64encode(picture.getvalue()).decode()
    form["form"]["files"] = [{"field": "photo-picture", "name": "a.jpg", "type": "image/jpeg", "data": data}]
    assert one.deliver(form, form) == ["accepted", "known"]
    assert row(stage).photo_id
    broken = form | {"id": new_deed(), "deed_id": new_deed()}
    broken["form"] = {"action": form["form"]["action"], "fields": [["photo-deed", broken["deed_id"]]],
                      "files": [{"field": "photo-picture", "data": "!!"}]}  # fmt: skip
    assert one.deliver(broken) == ["refused"]


@pytest.mark.parametrize(
    ("action", "status"),
    [("/people", "refused"), ("/sign-in", "refused"), ("/settings", "refused"), ("/outbox", "refused"),
     ("/nothing-here/at-all", "refused"), ("/devices", "refused")],
)  # fmt: skip
def test_who_may_come_in_is_never_decided_by_a_kept_form(stage, action, status):
    one = phone(stage)
    assert one.deliver(one.form(action, person="Mallory", role="owner", secret="314159")) == [status]
    with stage.database.reading() as session:
        assert [name for _id, name, _role, _active in people.people(session)] == ["Noor"]


def test_a_form_without_a_deed_of_its_own_is_refused(stage):
    one = phone(stage)
    form = one.form(f"/s/{stage.mother}/measure", measure__size_mm="31")
    form["form"]["fields"] = form["form"]["fields"][1:]
    assert one.deliver(form) == ["refused"]


def test_a_deed_done_now_is_told_with_its_way_back(stage):
    one = phone(stage)
    note = one.event("noted", stage.mother, {"text": "Now."})
    one.deliver(note, live=note["id"], told="Note kept.")
    one.open(f"/s/{stage.mother}")
    assert "Note kept." in one.text
    assert f"/undo/{note['deed_id']}" in one.page
    one.send(f"/undo/{note['deed_id']}")
    assert "Undone." in one.text
    with stage.database.reading() as session:
        assert session.scalar(select(func.count()).select_from(Event).where(Event.kind == "undone")) == 1
