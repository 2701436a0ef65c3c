"""A photo that waited on a phone: what is read from it happened when it was taken."""

import io
from datetime import UTC, datetime, timedelta

import pytest

from tests.door import phone
from tests.views.test_measuring import jpeg, staff, tapped, view  # noqa: F401  fixtures
from webapp.storage.history import happened


def sizes(stage):
    with stage.database.reading() as session:
        return [one for one in happened(session, stage.mother) if one.kind == "measured"]


def measured(staff, stage, view, taken):  # noqa: F811
    staff.open(f"/s/{stage.mother}/ruler")
    photo = {"photo": (io.BytesIO(jpeg(view)), "a.jpg")}
    staff.send("/ruler", files=photo, waited="a" * 32, taken=taken)
    tapped(staff, stage, view, [(-12, 4), (14, 4)])
    assert f'name="waited" value="{"a" * 32}"' in staff.page
    return staff


def test_a_size_counts_for_the_moment_of_its_photo(staff, stage, view):  # noqa: F811
    taken = datetime.now(UTC) - timedelta(hours=3)
    measured(staff, stage, view, taken.isoformat()).send("/keep")
    [one] = sizes(stage)
    assert one.occurred_at == taken


@pytest.mark.parametrize("said", ["yesterday", "2126-01-01T00:00:00+00:00", "2001-01-01T00:00:00+00:00"])
def test_a_moment_that_cannot_be_is_not_believed(staff, stage, view, said):  # noqa: F811
    before = datetime.now(UTC)
    measured(staff, stage, view, said).send("/keep")
    [one] = sizes(stage)
    assert before <= one.occurred_at <= datetime.now(UTC)


def test_a_measurement_that_was_confirmed_without_signal_arrives_once(staff, stage, view):  # noqa: F811
    taken = datetime.now(UTC) - timedelta(hours=3)
    measured(staff, stage, view, taken.isoformat())
    one = phone(stage)
    points = staff.page.split('name="p" value="')[1:]
    form = one.form(f"{staff.path.partition('?')[0]}/keep", specimen=stage.mother, what="length", high=0, scale=1)
    form["form"]["fields"] += [["p", text.split('"')[0]] for text in points[:2]] + [["taken", taken.isoformat()]]
    assert one.deliver(form) == ["accepted"]
    assert one.deliver(form) == ["known"]
    [size] = sizes(stage)
    assert size.occurred_at == taken
