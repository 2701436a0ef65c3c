"""What several stories begin with."""

import pytest

from webapp.services import intake
from webapp.services.recording import new_deed
from webapp.services.tagging import live_code


@pytest.fixture
def plugs(stage):
    """Three mushrooms for sale at 12.50, by id and code."""
    given = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale",
             "price_cents": 1250, "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""}  # fmt: skip
    with stage.database.saving() as session:
        ids = intake.take_in(session, stage.owner, new_deed(), given, 3)
        return {one: live_code(session, one) for one in ids}
