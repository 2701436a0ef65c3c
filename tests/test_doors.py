"""Which door a request came through is a property of the listener."""

import pytest

from webapp import doors


def answer(environ, start_response):
    return [doors.door_of(environ).encode()]


@pytest.mark.parametrize("door", [doors.PUBLIC, doors.STAFF])
def test_a_listener_marks_every_request_whatever_was_there_before(door):
    forged = {doors.KEY: "staff", "HTTP_RACKSIDE_DOOR": "staff", "REMOTE_ADDR": "127.0.0.1"}
    assert doors.through(answer, door)(forged, None) == [door.encode()]


def test_a_request_that_no_listener_marked_is_a_walk_in():
    assert doors.door_of({"REMOTE_ADDR": "127.0.0.1"}) == doors.PUBLIC


def test_there_are_two_doors():
    with pytest.raises(ValueError, match="no door"):
        doors.through(answer, "back")
