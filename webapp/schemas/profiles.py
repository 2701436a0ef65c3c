"""Profiles as data: what ships with the program, and the JSON form in which a shop's own revisions are kept."""

from dataclasses import fields as parts_of
from functools import cache
from types import MappingProxyType
from typing import Any, get_args

from marshmallow import RAISE, Schema, ValidationError, fields, post_load, validate, validates_schema

from webapp.fit.profile import BANDED, Profile, Severity
from webapp.schemas.bands import BandSchema, band_to_json, bands_from_json
from webapp.schemas.datafiles import read_data

GROUPS = ("corallimorph", "zoanthid", "soft", "gorgonian", "lps", "sps", "anemone", "clam")
PLACEMENTS = ("bottom", "lower", "middle", "upper", "anywhere")
#: What a kind may require before a blank counts: a banded water quantity, 'nutrient' (nitrate or phosphate, either),
#: 'age' (of the tank), 'light' and 'flow' (any way of knowing), 'feeding' (days a week), 'tankmates'.
REQUIRABLE = (
    "temp",
    "salinity",
    "alk",
    "ca",
    "mg",
    "ph",
    "no3",
    "po4",
    "nutrient",
    "age",
    "light",
    "flow",
    "feeding",
    "tankmates",
)

_LEVEL = {"strict": True, "required": True}


class ProfileSchema(Schema):
    """One profile. Nothing is guessed: every field is required except the notes and lists that may be empty."""

    class Meta:
        unknown = RAISE

    key = fields.String(required=True, validate=validate.Regexp(r"^[a-z][a-z0-9_]{1,60}\Z"))
    revision = fields.Integer(**_LEVEL, validate=validate.Range(min=1))
    scientific = fields.String(required=True, validate=validate.Length(min=1))
    trade_name = fields.String(required=True, validate=validate.Length(min=1))
    group = fields.String(required=True, validate=validate.OneOf(GROUPS))
    bands = fields.Dict(keys=fields.String(), values=fields.Nested(BandSchema), required=True)
    placement = fields.String(required=True, validate=validate.OneOf(PLACEMENTS))
    adult_cm = fields.Float(
        required=True, allow_nan=False, validate=validate.Range(min=0, min_inclusive=False, max=300)
    )
    sting_reach_cm = fields.Float(required=True, allow_nan=False, validate=validate.Range(min=0, max=100))
    aggression = fields.Integer(**_LEVEL, validate=validate.Range(0, 5))
    stung_easily = fields.Integer(**_LEVEL, validate=validate.Range(0, 3))
    skeleton = fields.Boolean(required=True)
    calcium_demand = fields.Integer(**_LEVEL, validate=validate.Range(0, 3))
    feeding = fields.String(required=True)
    feeding_days_per_week = fields.Float(required=True, allow_nan=False, validate=validate.Range(0, 7))
    hardiness = fields.Integer(**_LEVEL, validate=validate.Range(1, 5))
    toxicity_note = fields.String(required=True)
    cites = fields.String(required=True, validate=validate.OneOf(("I", "II", "III", "not listed")))
    propagation_methods = fields.String(required=True)
    attach_days = fields.Tuple((fields.Integer(strict=True), fields.Integer(strict=True)), required=True)
    min_tank_age_months = fields.Float(required=True, allow_nan=False, validate=validate.Range(0, 120))
    nipped_by = fields.Dict(
        keys=fields.String(), values=fields.String(validate=validate.OneOf(get_args(Severity))), load_default=dict
    )
    catches = fields.Dict(
        keys=fields.String(), values=fields.String(validate=validate.OneOf(get_args(Severity))), load_default=dict
    )
    requires = fields.List(fields.String(validate=validate.OneOf(REQUIRABLE)), load_default=list)
    toxic = fields.Boolean(load_default=False)
    stings = fields.Boolean(load_default=False)
    basis_note = fields.String(load_default="")

    @validates_schema
    def _days_in_order(self, data: dict[str, Any], **_: Any) -> None:
        low, high = data["attach_days"]
        if not 0 <= low <= high:
            raise ValidationError("Days to hold on: the first must not exceed the second.", "attach_days")

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> Profile:
        bands = bands_from_json(data["bands"])
        return Profile(**{**data, "bands": bands, "requires": frozenset(data["requires"])})


#: Made once: to make the schema takes longer than to read a profile with it.
_SCHEMA = ProfileSchema()


def profile_from_json(form: dict[str, Any]) -> Profile:
    """A Profile from its JSON form. Raises marshmallow ValidationError whose messages name the field."""
    return _SCHEMA.load(form)


def profile_to_json(profile: Profile) -> dict[str, Any]:
    """The JSON form of a Profile, plain values only; `profile_from_json` gives the same Profile back."""
    form = {part.name: getattr(profile, part.name) for part in parts_of(Profile)}
    form["bands"] = {
        factor: band_to_json(factor, profile.bands[factor]) for factor in BANDED if factor in profile.bands
    }
    form["attach_days"] = list(profile.attach_days)
    form["nipped_by"], form["catches"] = dict(profile.nipped_by), dict(profile.catches)
    form["requires"] = [name for name in REQUIRABLE if name in profile.requires]
    return form


@cache
def load_profiles() -> MappingProxyType[str, Profile]:
    """The profiles that ship with the program, by key, read once."""
    shipped = read_data("profiles.json")
    return MappingProxyType({key: profile_from_json({"key": key, **form}) for key, form in shipped.items()})
