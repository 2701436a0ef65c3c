"""The kinds of event. An event whose payload does not fit its kind is refused for its form."""

from dataclasses import dataclass
from typing import Any

from marshmallow import Schema

from webapp.schemas import payloads


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
    "tank_set": EventKind("tank", payloads.TankSet, creates=True),
    "tank_closed": EventKind("tank", payloads.Closed),
    "rack_set": EventKind("rack", payloads.RackSet, creates=True),
    "rack_closed": EventKind("rack", payloads.Closed),
    "rack_counted": EventKind("rack", payloads.Counted),
    "tank_counted": EventKind("tank", payloads.Counted),
    "reading": EventKind("reading", payloads.Reading, creates=True),
    "tag_made": EventKind("tag", payloads.TagMade, creates=True),
    "bound": EventKind("tag", payloads.Bound, creates=True),
    "unbound": EventKind("tag", payloads.Unbound),
    "tag_retired": EventKind("tag", payloads.TagRetired),
    "printed": EventKind("tag", payloads.Printed),
}


def check_payload(kind: str, payload: dict[str, Any]) -> dict[str, Any]:
    """The payload as it is stored (JSON types). Raises marshmallow.ValidationError with the fields that do not fit."""
    schema = EVENT_KINDS[kind].schema()
    return schema.dump(schema.load(payload))
