"""The invented shop: as large as promised, told only through the history, nothing in the future, nothing real."""

import re
from collections import Counter
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest
from sqlalchemy import func, select

from demo.scenario import DAYS, PEOPLE, RACK, SHOP
from demo.strains import STRAIN
from demo.water import WATERS
from tests.demo.clock import NOW
from tests.house.test_words import PATTERN
from webapp import create_app
from webapp.config import Config
from webapp.fit.findings import ORDER
from webapp.fit.specimen import Specimen
from webapp.fit.tank import BuyerTank
from webapp.schemas.events import EVENT_KINDS
from webapp.services import cards, fitting, people
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import load_shop, revision
from webapp.services.used_to import used_to
from webapp.storage.event import Event
from webapp.storage.history import PRESENT, rebuild
from webapp.storage.place import RackRow, ReadingRow, TankRow
from webapp.storage.specimen import Photo, SpecimenRow, TagRow
from webapp.tags.codes import is_valid

pytestmark = pytest.mark.long

GROUPS = {"corallimorph", "zoanthid", "soft", "gorgonian", "lps", "sps", "anemone", "clam"}


def _number(session, what, *where):
    return session.scalar(select(func.count()).select_from(what).where(*where))


def test_it_is_as_large_as_promised(session):
    assert _number(session, TankRow) == 6
    assert _number(session, RackRow) == 8
    assert 170 <= _number(session, SpecimenRow) <= 230
    kinds = set(session.scalars(select(SpecimenRow.profile_key).distinct()))
    assert len(kinds) >= 25
    profiles = newest_profiles(session, Memory(), revision(session))
    assert {profiles[kind].group for kind in kinds} == GROUPS


def test_every_status_and_every_way_to_go_is_in_it(session):
    found = Counter(session.scalars(select(SpecimenRow.status)))
    assert set(found) == {"quarantine", "healing", "for_sale", "mother", "kept", "sold", "lost", "merged"}
    assert found["for_sale"] > 60
    causes = {event["cause"] for event in session.scalars(select(Event.payload).where(Event.kind == "lost"))}
    assert len(causes) >= 4
    kinds = set(session.scalars(select(Event.kind).distinct()))
    assert kinds >= {
        "cut",
        "born",
        "split",
        "merged",
        "absorbed",
        "corrected",
        "undone",
        "held",
        "released",
        "returned",
    }


def test_readings_run_over_all_days_with_gaps(session):
    first, last = session.execute(select(func.min(ReadingRow.taken_at), func.max(ReadingRow.taken_at))).one()
    assert timedelta(days=DAYS - 1) <= last - first <= timedelta(days=DAYS + 1)
    assert NOW - last < timedelta(days=2)
    for tank in session.scalars(select(TankRow)):
        days = Counter(
            moment.date() for moment in session.scalars(
                select(ReadingRow.taken_at).where(ReadingRow.tank_id == tank.id, ReadingRow.quantity == "temp"))
        )  # fmt: skip
        assert 70 <= len(days) < DAYS, tank.name
    kept = {"temp", "salinity", "alk", "ca", "mg", "no3", "po4", "ph", "par", "flow_speed"}
    assert set(session.scalars(select(ReadingRow.quantity).distinct())) == kept
    assert len(set(session.scalars(select(ReadingRow.unit).where(ReadingRow.quantity == "alk").distinct()))) == 3
    lit = set(session.scalars(select(ReadingRow.rack_id).where(ReadingRow.quantity == "par").distinct()))
    assert lit == set(session.scalars(select(RackRow.id)))


def test_nothing_is_in_the_future_or_before_the_shop(session):
    first, last = session.execute(select(func.min(Event.occurred_at), func.max(Event.occurred_at))).one()
    assert last <= NOW
    assert first >= NOW - timedelta(days=DAYS + 1)
    assert session.scalar(select(func.max(Photo.taken_at))) <= NOW
    assert set(session.scalars(select(Event.kind).distinct())) <= set(EVENT_KINDS)


def test_nobody_works_at_night(session):
    zone = ZoneInfo(SHOP["time_zone"])
    hours = {moment.astimezone(zone).hour for moment in session.scalars(select(Event.occurred_at))}
    assert hours <= set(range(8, 20))


def test_no_frag_is_older_than_its_cut_and_no_slot_is_taken_twice(session):
    taken = session.execute(
        select(SpecimenRow.rack_id, SpecimenRow.slot).where(
            SpecimenRow.status.not_in(("sold", "lost", "merged")), SpecimenRow.slot != ""
        )
    ).all()
    assert len(taken) == len(set(taken))
    starts = dict(session.execute(select(SpecimenRow.id, SpecimenRow.started_at)).all())
    for row in session.scalars(select(SpecimenRow).where(SpecimenRow.mother_id.is_not(None))):
        assert starts[row.mother_id] < row.started_at


def test_one_conflict_waits_to_be_settled_and_three_holds_are_open(session):
    conflicts = [one for found in session.scalars(select(SpecimenRow.conflicts)) for one in found]
    assert [one["code"] for one in conflicts] == ["sold_after_sold"]
    assert all(not found for found in session.scalars(select(TagRow.conflicts)))
    assert _number(session, SpecimenRow, SpecimenRow.held_until > NOW) == 3


def test_the_wrong_kind_was_put_right_for_the_frags_too(session):
    kinds = Counter(session.scalars(select(SpecimenRow.profile_key).where(SpecimenRow.name == "Frost Crumb")))
    assert set(kinds) == {"leptastrea"}
    assert kinds["leptastrea"] > 1


def test_all_codes_are_valid_and_everything_has_its_own(session):
    codes = list(session.scalars(select(TagRow.code)))
    assert all(is_valid(code) for code in codes)
    on_things = [
        code for table in (SpecimenRow, TankRow, RackRow) for code in session.scalars(select(table.code)) if code
    ]
    assert len(on_things) == len(set(on_things)) == _number(session, SpecimenRow) + 6 + 8
    assert _number(session, TagRow, TagRow.state == "blank") == 8


def test_what_is_for_sale_has_a_price_and_a_picture(session):
    for row in session.scalars(select(SpecimenRow).where(SpecimenRow.status == "for_sale")):
        assert row.price_cents, row.name
        assert row.photo_id, row.name
        assert row.rack_id, row.name
    assert _number(session, SpecimenRow, SpecimenRow.status == "mother", SpecimenRow.photo_id.is_(None)) == 0


def test_names_are_plain_words_and_no_text_holds_what_is_barred(session):
    profiles = newest_profiles(session, Memory(), revision(session))
    terms = {
        word.strip("(),.").casefold() for profile in profiles.values()
        for word in f"{profile.scientific} {profile.trade_name}".replace("/", " ").split()
    }  # fmt: skip
    for name in STRAIN:
        assert re.fullmatch(r"[A-Z][a-z]+( [A-Za-z]+){1,2}", name)
        # A name of the trade in a strain's name would look like one that is really sold.
        assert not terms & {word.casefold() for word in name.split()} - {"of"}, name
    texts = [str(SHOP), *(str(payload) for payload in session.scalars(select(Event.payload)))]
    assert not [text for text in texts if PATTERN.search(text) or re.search(r"[™®©@]|https?:|\+\d{6}", text)]


def test_every_strain_lives_where_its_kind_can(session):
    profiles = newest_profiles(session, Memory(), revision(session))
    for strain in STRAIN.values():
        rack, profile = RACK[strain.rack], profiles[strain.key]
        water = WATERS[rack.tank]
        kept = {"par": rack.par, "flow": rack.flow_cm_s} | {
            name: getattr(water, name) for name in ("temp", "salinity", "alk", "no3", "po4")
        }
        for factor, value in kept.items():
            band = profile.bands.get(factor)
            assert band is None or band.limit_low <= value <= band.limit_high, (strain.name, factor)
        if strain.sessions:
            assert profile.attach_days[0] <= strain.heal_days <= profile.attach_days[1], strain.name


def test_the_shop_is_open_and_its_people_get_in(database, said):
    with database.saving() as session:
        assert load_shop(session).name == SHOP["name"]
        for name, pin, role in PEOPLE:
            token = people.sign_in(session, name, pin, "test", NOW).token
            assert people.author_for(session, token, NOW).role == role
    assert re.search(rf"day {DAYS} of {DAYS}", said[-1])


def test_the_fit_check_answers_for_every_specimen(session):
    memory, at = Memory(), revision(session)
    profiles = newest_profiles(session, memory, at)
    for row in session.scalars(select(SpecimenRow)):
        used = used_to(session, memory, at, row.lived, row.ended_at or NOW)
        if NOW - row.started_at > timedelta(days=10):
            assert used.keys() >= {"temp", "alk", "salinity"}, row.name
        specimen = Specimen(profiles[row.profile_key], row.size_mm / 10 if row.size_mm else None, used)
        report = fitting.check_specimen(session, memory, specimen, BuyerTank())
        assert report.whole in ORDER


def test_every_card_and_list_opens(database):
    url = str(database.engine.url)
    client = create_app(Config(url, "a secret of the test", testing=True), database).test_client()
    with database.reading() as session:
        rows = session.execute(select(SpecimenRow.code, SpecimenRow.name)).all()
        assert cards.find(session, rows[0].code).kind == "specimen"
    for code, name in rows:
        answer = client.get(f"/{code}")
        assert answer.status_code == 200, name
        assert name in answer.text
    assert client.get("/for-sale").status_code == 200


def test_rebuilding_from_the_history_changes_nothing(database):
    def present(session):
        return {
            table: {
                getattr(row, key): {column.name: getattr(row, column.name) for column in table.__table__.columns}
                for row in session.scalars(select(table))
            }
            for presents in PRESENT.values()
            for table, key, _fold in presents
        }

    with database.saving() as session:
        before = present(session)
        rebuild(session)
        session.expire_all()
        assert present(session) == before
