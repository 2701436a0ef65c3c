"""How others of its kind did here, beside the ranges of the card and in the answer."""

from sqlalchemy import select

from tests.shop_client import Visitor
from webapp.services import intake, updating
from webapp.services.readings import log_readings
from webapp.services.recording import new_deed
from webapp.storage.specimen import SpecimenRow


def test_the_card_and_the_answer_tell_what_the_shop_has_seen(stage):
    given = {"profile_key": "discosoma", "name": "Rust", "origin": "bought_in", "status": "for_sale",
             "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""}  # fmt: skip
    with stage.database.saving() as session:
        made = intake.take_in(session, stage.owner, new_deed(), given, 10, at=stage.later(days=-60))
        died = stage.later(days=-50)
        updating.update(session, stage.owner, new_deed(), "lost", [made[0]], {"cause": "unknown"}, died)
        water = [{"quantity": "salinity", "value": 34.0, "unit": "ppt", "method": ""}]
        log_readings(session, stage.owner, new_deed(), stage.tank, water)
        code = session.scalar(select(SpecimenRow.code).where(SpecimenRow.id == made[1]))
    buyer = Visitor(stage, "public").open(f"/{code}")
    assert "others here 34–34" in buyer.text
    for path in (f"/{code}", f"/{code}/answer?temp=25"):
        buyer.open(path)
        assert "10 animals of this kind have lived here; 1 died." in buyer.text
        assert "Alive after 30 days: 90 %." in buyer.text and "Salinity 34–34 ppt" in buyer.text
