"""The kinds of event. An event whose payload does not fit its kind is refused for its form."""

from dataclasses import dataclass
from typing import Any

from marshmallow import Schema

from webapp.schemas import payloads, payloads_care, payloads_places, payloads_sales, payloads_tags


@dataclass(frozen=True, slots=True)
class EventKind:
    """subject_kind '' means: whatever the event it speaks of is about. `creates`: it may be a subject's first."""

    subject_kind: str
    schema: type[Schema]
    creates: bool = False


EVENT_KINDS: dict[str, EventKind] = {
    "arrived": EventKind("specimen", payloads.Arrived, creates=True),
    "born": EventKind("specimen", payloads.Born, creates=True),
    "cut": EventKind("specimen", payloads.Cut),
    "split": EventKind("specimen", payloads.Split),
    "merged": EventKind("specimen", payloads.Merged),
    "absorbed": EventKind("specimen", payloads.Absorbed),
    "measured": EventKind("specimen", payloads.Measured),
    "status_set": EventKind("specimen", payloads.StatusSet),
    "moved": EventKind("specimen", payloads.Moved),
    "seen": EventKind("specimen", payloads.Sighted),
    "missing": EventKind("specimen", payloads.Sighted),
    "named": EventKind("specimen", payloads.Named),
    "priced": EventKind("specimen", payloads.Priced),
    "noted": EventKind("specimen", payloads.Noted),
    "pictured": EventKind("specimen", payloads.Pictured),
    "held": EventKind("specimen", payloads.Held),
    "released": EventKind("specimen", payloads.Released),
    "sold": EventKind("specimen", payloads.Sold),
    "returned": EventKind("specimen", payloads.Returned),
    "lost": EventKind("specimen", payloads.Lost),
    "undone": EventKind("", payloads.Undone),
    "corrected": EventKind("", payloads.Corrected),
    "tank_set": EventKind("tank", payloads_places.TankSet, creates=True),
    "tank_closed": EventKind("tank", payloads_places.Closed),
    "rack_set": EventKind("rack", payloads_places.RackSet, creates=True),
    "rack_closed": EventKind("rack", payloads_places.Closed),
    "rack_counted": EventKind("rack", payloads.Counted),
    "tank_counted": EventKind("tank", payloads.Counted),
    "reading": EventKind("reading", payloads_places.Reading, creates=True),
    "tag_made": EventKind("tag", payloads_tags.TagMade, creates=True),
    "bound": EventKind("tag", payloads_tags.Bound, creates=True),
    "unbound": EventKind("tag", payloads_tags.Unbound),
    "tag_retired": EventKind("tag", payloads_tags.TagRetired),
    "printed": EventKind("tag", payloads_tags.Printed),
    "checked": EventKind("specimen", payloads_care.Checked),
    "dipped": EventKind("specimen", payloads_care.Dipped),
    "hand_fed": EventKind("specimen", payloads_care.HandFed),
    "fed": EventKind("tending", payloads_care.Fed, creates=True),
    "dosed": EventKind("tending", payloads_care.Dosed, creates=True),
    "water_changed": EventKind("tending", payloads_care.WaterChanged, creates=True),
    "serviced": EventKind("tending", payloads_care.Serviced, creates=True),
    "tank_noted": EventKind("tending", payloads_care.TankNoted, creates=True),
    "pest_found": EventKind("pest", payloads_care.PestFound, creates=True),
    "pest_looked": EventKind("pest", payloads_care.PestLooked),
    "pest_treated": EventKind("pest", payloads_care.PestTreated),
    "pest_stop": EventKind("pest", payloads_care.PestStop),
    "pest_cleared": EventKind("pest", payloads_care.PestCleared),
    "pest_back": EventKind("pest", payloads_care.PestBack),
    "shipment_set": EventKind("shipment", payloads_care.ShipmentSet, creates=True),
    "shipment_line": EventKind("shipment", payloads_care.ShipmentLine),
    "line_dropped": EventKind("shipment", payloads_care.LineDropped),
    "bag_measured": EventKind("shipment", payloads_care.BagMeasured),
    "line_arrived": EventKind("shipment", payloads_care.LineArrived),
    "dead_claimed": EventKind("shipment", payloads_care.DeadClaimed),
    "shipment_done": EventKind("shipment", payloads_care.ShipmentDone),
    "sale_made": EventKind("sale", payloads_sales.SaleMade, creates=True),
    "sale_bagged": EventKind("sale", payloads_sales.SaleBagged),
    "sale_pictured": EventKind("sale", payloads_sales.SalePictured),
    "sale_claimed": EventKind("sale", payloads_sales.SaleClaimed),
    "claim_settled": EventKind("sale", payloads_sales.ClaimSettled),
    "sale_returned": EventKind("sale", payloads_sales.SaleReturned),
}


def check_payload(kind: str, payload: dict[str, Any]) -> dict[str, Any]:
    """The payload as it is stored (JSON types). Raises marshmallow.ValidationError with the fields that do not fit."""
    schema = EVENT_KINDS[kind].schema()
    return schema.dump(schema.load(payload))
