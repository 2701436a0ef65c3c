"""A phone has several requests under way: an answer that comes in late must not put back what was there before.

The order is made by hand: a browser keeps what the answer that arrives last says (RFC 6265, 5.3, step 11).
"""

import re

import pytest

from tests.door import ORIGIN, phone
from webapp.services import people
from webapp.storage.specimen import SpecimenRow

BEHIND_THE_SCENES = ["/till", "/do", "/do/list", "/switch", "/series", "/outbox/codes", "/outbox/people", "/healthz"]
SESSION = "__Host-rackside_staff"


@pytest.fixture
def one(stage):
    """A phone of Noor's that has looked at the till."""
    return phone(stage)


def get(one, path):
    answer = one._client.get(path, base_url=ORIGIN, environ_overrides=one._environ())
    assert answer.status_code in (200, 204), path
    return answer


def session_in(answer):
    return [said for said in answer.headers.getlist("Set-Cookie") if said.startswith(f"{SESSION}=")]


def arrives(one, answer):
    """The browser takes in what an answer says."""
    for said in session_in(answer):
        one._client.set_cookie(SESSION, said.partition("=")[2].partition(";")[0], domain="localhost", secure=True)


@pytest.mark.parametrize("path", BEHIND_THE_SCENES)
def test_an_answer_to_an_older_request_leaves_the_till_alone(stage, one, path):
    with stage.database.reading() as session:
        code = session.get(SpecimenRow, stage.mother).code
    get(one, "/till")
    late = get(one, path)
    one.open("/till").send("/till/add", code=code)
    assert "1 on the till" in one.page
    arrives(one, late)
    assert "1 on the till" in one.open("/till").page


def test_what_was_sent_before_a_change_of_person_does_not_change_back(stage):
    with stage.database.saving() as session:
        people.add_person(session, "Ines", "735102", "staff", stage.later())
    one = phone(stage, "Ines", "735102")
    get(one, "/till")
    late = [get(one, path) for path in BEHIND_THE_SCENES]
    note = one.event("noted", stage.mother, {"text": "under way"})
    late.append(one.post([note]))
    one.sign_in("Noor")
    noor = one.handle
    for answer in late:
        arrives(one, answer)
    assert one.handle == noor


def test_the_first_pages_after_a_sign_in_share_what_their_forms_are_known_by(stage, one):
    kept = one._client.get_cookie(SESSION, domain="localhost").value
    one.open(f"/s/{stage.mother}/ruler")
    data = {"csrf_token": re.search(r'name="csrf_token"[^>]* value="([^"]+)"', one.page)[1]}
    one._client.set_cookie(SESSION, kept, domain="localhost", secure=True)  # asked for at once, before that answer came
    late = [get(one, path) for path in ("/do", "/till", "/switch")]
    assert [session_in(answer) for answer in late] == [[]] * 3
    answer = one._client.post(f"/s/{stage.mother}/ruler", base_url=ORIGIN, data=data, environ_overrides=one._environ())
    assert "grown old" not in answer.get_data(as_text=True)


def test_a_session_is_kept_for_longer_than_the_shop_counts_it(one):
    assert one.app.permanent_session_lifetime > people.SESSION_IDLE
    with one._client.session_transaction(base_url=ORIGIN) as session:
        assert session.permanent
