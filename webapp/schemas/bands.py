"""A band and its basis as JSON: {"unit", "limits": [low, high], "ideal": [low, high], "basis": {"kind", ...}}."""

from typing import Any, get_args

from marshmallow import RAISE, Schema, ValidationError, fields, post_load, validate, validates_schema

from webapp.fit.profile import BANDED, Band, Basis, BasisKind
from webapp.schemas.datafiles import load_sources


class BasisSchema(Schema):
    """Where a range comes from. 'published' must name a citation of sources.json; nothing else may name one."""

    class Meta:
        unknown = RAISE

    kind = fields.String(required=True, validate=validate.OneOf(get_args(BasisKind)))
    source = fields.String(load_default="")
    note = fields.String(load_default="")

    @validates_schema
    def _cited(self, data: dict[str, Any], **_: Any) -> None:
        if data["kind"] == "published" and data["source"] not in load_sources():
            raise ValidationError("A published range names a citation of sources.json.", "source")
        if data["kind"] != "published" and data["source"]:
            raise ValidationError("Only a published range has a source; a remark belongs in the note.", "source")

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> Basis:
        return Basis(**data)


class BandSchema(Schema):
    """One range: the limits it bears around the ideal it does well in, with the unit written out."""

    class Meta:
        unknown = RAISE

    unit = fields.String(required=True)
    limits = fields.List(fields.Float(allow_nan=False), required=True, validate=validate.Length(equal=2))
    ideal = fields.List(fields.Float(allow_nan=False), required=True, validate=validate.Length(equal=2))
    basis = fields.Nested(BasisSchema, required=True)

    @validates_schema
    def _ordered(self, data: dict[str, Any], **_: Any) -> None:
        (limit_low, limit_high), (ideal_low, ideal_high) = data["limits"], data["ideal"]
        if not 0 <= limit_low <= ideal_low <= ideal_high <= limit_high or ideal_low == ideal_high:
            raise ValidationError("Lower limit, ideal low, ideal high, upper limit must rise in this order from 0.")


def band_to_json(factor: str, band: Band) -> dict[str, Any]:
    """A Band as the JSON form of BandSchema."""
    return {
        "unit": BANDED[factor],
        "limits": [band.limit_low, band.limit_high],
        "ideal": [band.ideal_low, band.ideal_high],
        "basis": basis_to_json(band.basis),
    }


def basis_to_json(basis: Basis) -> dict[str, str]:
    """A Basis as JSON; empty parts are left out."""
    parts = {"kind": basis.kind, "source": basis.source, "note": basis.note}
    return {name: value for name, value in parts.items() if value}


def bands_from_json(loaded: dict[str, dict[str, Any]]) -> dict[str, Band]:
    """Bands by factor from loaded BandSchema values. Raises ValidationError for a factor or unit that is not ours."""
    errors = {}
    for factor, band in loaded.items():
        if factor not in BANDED:
            errors[factor] = [f"Not a factor with a range; these are: {', '.join(BANDED)}."]
        elif band["unit"] != BANDED[factor]:
            errors[factor] = {"unit": [f"Must be {BANDED[factor]}."]}
    if errors:
        raise ValidationError(errors, "bands")
    return {
        factor: Band(band["limits"][0], *band["ideal"], band["limits"][1], band["basis"])
        for factor, band in loaded.items()
    }
