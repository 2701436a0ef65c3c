"""Groups of animals a buyer may keep: what they bite, and what would catch them."""

from dataclasses import dataclass, field
from functools import cache
from types import MappingProxyType
from typing import Any, get_args

from marshmallow import RAISE, Schema, fields, post_load, validate

from webapp.fit.profile import Profile, Severity
from webapp.schemas.datafiles import read_data


@dataclass(frozen=True, slots=True)
class Tankmate:
    """One group. `nips`: profile key or group -> severity, a key overriding its group; `caught_by`: profile keys."""

    key: str
    plain_name: str
    note: str
    basis: str
    nips: dict[str, Severity] = field(default_factory=dict)
    caught_by: dict[str, Severity] = field(default_factory=dict)

    def bites(self, profile: Profile) -> Severity | None:
        """How bad it would be for this animal: 'risk', 'never', or None where nothing speaks against it."""
        return self.nips.get(profile.key, self.nips.get(profile.group))


class TankmateSchema(Schema):
    """One group as it stands in tankmates.json."""

    class Meta:
        unknown = RAISE

    key = fields.String(required=True)
    plain_name = fields.String(required=True)
    note = fields.String(required=True)
    basis = fields.String(required=True)
    nips = fields.Dict(keys=fields.String(), values=fields.String(validate=validate.OneOf(get_args(Severity))))
    caught_by = fields.Dict(keys=fields.String(), values=fields.String(validate=validate.OneOf(get_args(Severity))))

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> Tankmate:
        return Tankmate(**data)


@cache
def load_tankmates() -> MappingProxyType[str, Tankmate]:
    """The groups that ship with the program, by key, in the order a form shows them; read once."""
    shipped = read_data("tankmates.json")
    return MappingProxyType({key: TankmateSchema().load({"key": key, **form}) for key, form in shipped.items()})
