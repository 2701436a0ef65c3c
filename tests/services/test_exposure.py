"""The exposure list, on hand-worked moves and against a plain simulation of who shared water with whom."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.services.exposure import exposure_of, spread
from webapp.services.recording import new_deed
from webapp.services.updating import move

START = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)


def hour(number):
    return START + timedelta(hours=number)


def lived(*homes):
    """(tank, from hour) in order; the last goes on."""
    ends = [start for _tank, start in homes[1:]] + [None]
    return [[tank, "", hour(start).isoformat(), hour(end).isoformat() if end is not None else None]
            for (tank, start), end in zip(homes, ends, strict=True)]  # fmt: skip


def follow(shop, tank, since, until=None):
    return spread(tank, hour(since), until, lambda _tank, _since: shop.items())


def test_hand_worked_moves():
    shop = {
        "stayed": lived(("a", 0)),
        "left before": lived(("a", 0), ("b", 4)),
        "left after": lived(("a", 0), ("c", 8)),
        "came later": lived(("b", 0), ("a", 9)),
        "met it in c": lived(("c", 0)),
        "left c in time": lived(("c", 0), ("b", 7)),
        "left c too late": lived(("c", 0), ("d", 10)),
        "never": lived(("b", 0)),
    }
    found = follow(shop, "a", 5)
    assert found.tanks == {"a": hour(5), "c": hour(8), "d": hour(10)}
    assert found.specimens == {
        "stayed": hour(5), "left after": hour(5), "came later": hour(9), "met it in c": hour(8),
        "left c too late": hour(8),
    }  # fmt: skip


@pytest.mark.parametrize(("moved_at", "exposed"), [(4.99, False), (5, False), (5.01, True)])
def test_one_step_either_side_of_the_finding(moved_at, exposed):
    assert ("one" in follow({"one": lived(("a", 0), ("b", moved_at))}, "a", 5).specimens) is exposed


def test_what_comes_after_it_is_over_is_not_exposed():
    shop = {"late": lived(("b", 0), ("a", 9)), "early": lived(("b", 0), ("a", 7))}
    assert set(follow(shop, "a", 5, hour(8)).specimens) == {"early"}


@st.composite
def shops(draw):
    shop = {}
    for number in range(draw(st.integers(1, 6))):
        hours = sorted(draw(st.sets(st.integers(0, 12), min_size=1, max_size=4)))
        shop[str(number)] = lived(*[(draw(st.sampled_from("abcd")), at) for at in hours])
    return shop


def simulated(shop, tank, since):
    """Hour by hour: whoever stands in marked water in an hour is marked, and marks the tank it stands in."""
    tanks, specimens = {tank}, set()
    for now in range(since, 14):
        here = {}
        for name, homes in shop.items():
            for home, _rack, start, end in homes:
                if datetime.fromisoformat(start) <= hour(now) and (
                    end is None or datetime.fromisoformat(end) > hour(now)
                ):
                    here[name] = home
        for _ in range(len(shop) + 1):
            specimens |= {name for name, home in here.items() if home in tanks}
            tanks |= {here[name] for name in specimens if name in here}
    return tanks, specimens


@given(shops(), st.integers(0, 12))
def test_against_a_simulation_hour_by_hour(shop, since):
    found = follow(shop, "a", since)
    assert (set(found.tanks), set(found.specimens)) == simulated(shop, "a", since)


def test_through_the_moves_of_a_real_shop(stage):
    with stage.database.saving() as session:
        from webapp.services.intake import take_in

        place = {"profile_key": "zoanthus", "name": "Other", "origin": "bought_in", "tank_id": stage.other_tank}
        other = take_in(session, stage.owner, new_deed(), place)[0]
        found = datetime.now(UTC) - timedelta(seconds=0)
        assert set(exposure_of(session, stage.tank, found).specimens) == {stage.mother}
        move(
            session, stage.owner, new_deed(), [stage.mother], {"tank_id": stage.other_tank, "rack_id": None, "slot": ""}
        )
        assert set(exposure_of(session, stage.tank, found).specimens) == {stage.mother, other}
        assert set(exposure_of(session, stage.tank, found).tanks) == {stage.tank, stage.other_tank}
