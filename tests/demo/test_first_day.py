"""What the invented shop shows on its first start: every page of the day has something true on it."""

from collections import Counter
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from sqlalchemy import select

from demo.deliveries import AWAITED, DELIVERIES
from demo.diary import Diary
from demo.strains import STRAIN
from demo.till import parcel_sold, parcel_way_h
from tests.demo.clock import NOW
from webapp.services import count_report, insight, losses, pests, receiving, selling_after, sheets
from webapp.services.memory import Memory
from webapp.services.thresholds import load_thresholds
from webapp.services.today import page
from webapp.services.today.day import begin
from webapp.storage.event import Event
from webapp.storage.sale import SaleRow
from webapp.storage.specimen import SpecimenRow

pytestmark = pytest.mark.long


@pytest.fixture
def day(session):
    return begin(session, Memory(), NOW)


def test_today_asks_for_a_hand_here_and_there_and_drowns_nobody(day):
    found = {one.rule: len(one.due) for one in page.today(day)}
    assert set(found) >= {
        "off_sale", "dead_claim", "shipment", "conflict", "claims", "loose_check", "dip", "pest_look", "inspect",
        "ready", "low_stock", "feed", "batch_losses", "missing", "count_gap", "count_racks", "price_review",
    }  # fmt: skip
    assert max(found.values()) < 20
    assert found["dead_claim"] == found["claims"] == found["off_sale"] == found["missing"] == 1


def test_shipments_were_received_and_one_is_awaited(day):
    rules = (day.session, day.profiles, day.limits)
    done, waiting = receiving.shipments(*rules, is_done=True), receiving.shipments(*rules)
    assert [one.supplier for one in waiting] == ["a hatchery in the south"]
    assert sum(line.count for line in waiting[0].lines) == sum(one[2] for one in AWAITED)
    for found, told in zip(sorted(done, key=lambda one: one.opened_at), DELIVERIES, strict=True):
        assert found.dead == sum(line.dead for line in told.lines)
        assert found.alive == sum(STRAIN[line.strain].count for line in told.lines)
        assert found.transit_h == pytest.approx(told.way_h)
        assert (found.claimed == found.dead) is told.claimed
        assert all(line.plan and line.plan.way != "unknown" for line in found.lines)
        assert any(line.photo_id for line in found.lines) is (found.dead > 0)
    young = day.session.scalars(select(SpecimenRow).where(SpecimenRow.name == "Tarn Steps")).all()
    assert {one.shipment_id for one in young} <= {one.id for one in done}
    assert all(one.size_mm and one.dips for one in young)


def test_one_pest_is_gone_one_stops_sale_and_one_was_carried_into_another_tank(session):
    limits = load_thresholds(session)
    [gone] = pests.findings(session, is_open=False)
    assert gone.rule.met
    found = {one.pest: one for one in pests.findings(session)}
    assert {pest: one.stops_sale for pest, one in found.items()} == {"acropora_flatworm": True, "acoel_flatworm": False}
    carried = pests.exposure(session, found["acoel_flatworm"], limits)
    assert len(carried.tanks) == 2
    seen_on = session.get_one(SpecimenRow, found["acoel_flatworm"].specimen_id)
    assert (seen_on.tank_id, seen_on.status) == (found["acoel_flatworm"].tank_id, "kept")
    assert {seen_on.id, *_in_tank(session, "Rust Pocket")} <= {one.id for one in pests.exposed_list(session, carried)}
    assert len(pests.exposure(session, found["acropora_flatworm"], limits).tanks) == 1


def test_sales_carry_numbers_advice_packing_and_claims(session):
    rows = session.scalars(select(SaleRow).order_by(SaleRow.number)).all()
    assert [row.number for row in rows] == list(range(1, len(rows) + 1))
    assert len(rows) > 30
    assert all(line["price_cents"] for row in rows for line in row.lines)
    advised = [line["sheet"] for row in rows for line in row.lines if line["sheet"]]
    assert advised
    for number in set(advised):
        text = sheets.get_issued(session, number).html
        assert "What it wants" in text
        assert "From the bag into the tank" in text
    assert sum(row.bag is not None for row in rows) == 4
    claims = Counter(claim["outcome"] for row in rows for claim in row.claims)
    assert claims == {"credit": 1, "": 1}
    [back] = [row for row in rows if row.returns]
    assert selling_after.receipt(session, back.number).animals[0].status == "quarantine"


def test_one_parcel_came_lately_and_was_pictured_before_it_left(day):
    [due] = page.one_rule(day, "posted").due
    receipt = selling_after.receipt(day.session, int(due.id))
    assert receipt.sale.bag["carry"]
    assert [bool(one.note) for one in receipt.pictures] == [True]
    assert len(receipt.animals) == 2


@pytest.mark.parametrize("day", [datetime(2026, 3, 29), datetime(2026, 7, 1), datetime(2026, 10, 25)])
def test_the_parcel_has_just_come_at_whatever_hour_the_shop_is_first_opened(day):
    """On a plain day and on both on which clocks change: buyers of what is posted may claim for two hours."""
    zone, hour = ZoneInfo("Europe/Berlin"), timedelta(hours=1)
    for minutes in range(0, 24 * 60, 7):
        now = (day.replace(tzinfo=zone) + timedelta(minutes=minutes)).astimezone(UTC)
        diary = Diary(None, now, zone, {})
        sold = diary.moment(*parcel_sold(now.astimezone(zone)))
        packed = sold + hour
        way_h = parcel_way_h(packed, now)
        assert 4 <= way_h <= 24
        assert timedelta(0) <= now - (packed + way_h * hour) <= 1.5 * hour, now


def test_some_were_fed_by_hand_and_one_let_go_of_it(session):
    fed = session.scalars(select(Event).where(Event.kind == "hand_fed")).all()
    assert len({one.subject_id for one in fed}) == 3
    assert {one.payload["response"] for one in fed} == {"ate", "spat"}


def test_losses_insight_and_counts_have_something_to_tell(day):
    found = losses.losses(day.session, day.limits, NOW - timedelta(days=120), NOW)
    assert len(found.causes) >= 4
    assert set(found.stages) >= {"quarantine", "healing"}
    assert found.dead_on_arrival == 3
    for by in insight.BY:
        assert insight.survival(day.session, by, NOW - timedelta(days=120), NOW), by
    assert len(insight.growth_by_kind(day.session, day.limits, NOW)) > 5
    assert insight.turnover(day.session, day.profiles, NOW - timedelta(days=90), NOW)[0].sold
    counts = count_report.past_counts(day.session)
    assert [places for _id, _at, places in counts] == [5, 8]
    assert count_report.report(day.session, counts[0][0]).total("missing") == 1


def test_tanks_were_fed_changed_and_mended(session):
    kinds = Counter(session.scalars(select(Event.kind).where(Event.subject_kind == "tending")))
    assert set(kinds) == {"fed", "dosed", "water_changed", "serviced", "tank_noted"}
    assert kinds["fed"] > 50


def _in_tank(session, name):
    return session.scalars(select(SpecimenRow.id).where(SpecimenRow.name == name, SpecimenRow.status == "mother"))
