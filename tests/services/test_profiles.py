"""Packaged profiles: put in once, and renewed by a newer program where the shop has changed nothing."""

from dataclasses import replace

from sqlalchemy import select

from tests.stage import NOW
from webapp.schemas.profiles import load_profiles, profile_to_json
from webapp.services.profiles import install_profiles
from webapp.storage.shop import ProfileRow


def _of(session, key):
    return session.scalars(select(ProfileRow).where(ProfileRow.key == key).order_by(ProfileRow.revision)).all()


def _as_before(row, name):
    row.data = profile_to_json(replace(load_profiles()[row.key], trade_name=name, revision=row.revision))


def test_a_newer_program_brings_its_texts_but_not_over_what_the_shop_changed(stage):
    with stage.database.saving() as session:
        assert install_profiles(session, NOW) == 0
        (untouched,), (first,) = _of(session, "zoanthus"), _of(session, "acropora")
        _as_before(untouched, "an older name")
        _as_before(first, "an older name")
        session.add(
            ProfileRow(
                key="acropora", revision=2, data={**first.data, "revision": 2}, reason="our own", author_name="Noor",
                created_at=NOW,
            )
        )  # fmt: skip
        session.flush()
        assert install_profiles(session, NOW) == 1
        session.flush()
        assert [row.revision for row in _of(session, "zoanthus")] == [1, 2]
        newest = _of(session, "zoanthus")[-1]
        assert newest.data["trade_name"] == load_profiles()["zoanthus"].trade_name
        assert (newest.data["revision"], newest.reason) == (2, "as it comes with a newer program")
        assert [row.data["trade_name"] for row in _of(session, "acropora")] == ["an older name"] * 2
        assert install_profiles(session, NOW) == 0
