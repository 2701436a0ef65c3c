"""The report as JSON: everything the check found, as codes and values; the field names are those of fit.findings.

    name             value
    profile_key profile_revision
    whole            suits, close, not_known, change_first or not_here; whole_reasons: [note, ...]
    findings         [{factor, verdict, reasons: [note], required, near_edge, estimate, band, unit, used_to,
                     basis: [basis], advice: [note], plan}]
    questions        [{quantity, code, typed, unit, offers: [[unit, as typed, canonical value], ...], values}]
    spot             {zone, depth_cm, depth_range_cm: [from, to], light, flow, reasons: [note]}
    settle_next      [factor, ...]: the readings that would settle most, first the first
    schedule         [{day, action, amount, unit, expect: {quantity: value afterwards}}]; schedule_notes: [note]
    acclimation safety paperwork unknowable    [note, ...]

A note is {code, values}; an estimate, a light or a flow is {low, mid, high}; a band is {limit_low, ideal_low,
ideal_high, limit_high, basis}; a basis {kind, source, note}; a plan {action, total, unit, days, target, steps,
cautions}. Codes are listed in fit.codes and fit.plan_codes with the names of their values.
"""

from typing import Any, ClassVar, get_args

from marshmallow import RAISE, Schema, fields, post_load, validate

from webapp.fit import findings as found
from webapp.fit.profile import Band, Basis, BasisKind
from webapp.science.interval import Interval


class _Shape(Schema):
    """A dataclass of the check, field by field; lists come back as tuples."""

    makes: ClassVar[type]

    class Meta:
        unknown = RAISE

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> Any:
        return self.makes(**{name: _tupled(value) for name, value in data.items()})


class _Values(fields.Field):
    """Values of a code: plain numbers, words, and lists of them."""

    def _serialize(self, value: dict[str, Any], attr: str | None, obj: Any, **_: Any) -> dict[str, Any]:
        return {name: _listed(part) for name, part in value.items()}

    def _deserialize(self, value: Any, attr: str | None, data: Any, **_: Any) -> dict[str, Any]:
        if not isinstance(value, dict):
            raise self.make_error("validator_failed")
        return {name: _tupled(part) for name, part in value.items()}


def _tupled(value: Any) -> Any:
    return tuple(_tupled(part) for part in value) if isinstance(value, list) else value


def _listed(value: Any) -> Any:
    return [_listed(part) for part in value] if isinstance(value, tuple) else value


def _float(**more: Any) -> fields.Float:
    return fields.Float(required=True, allow_nan=False, **more)


def _many(shape: type[Schema], **more: Any) -> fields.List:
    return fields.List(fields.Nested(shape), **more)


class BasisShape(_Shape):
    """fit.profile.Basis."""

    makes = Basis
    kind = fields.String(required=True, validate=validate.OneOf(get_args(BasisKind)))
    source = fields.String()
    note = fields.String()


class BandShape(_Shape):
    """fit.profile.Band; its unit is the finding's."""

    makes = Band
    limit_low, ideal_low, ideal_high, limit_high = (_float() for _ in range(4))
    basis = fields.Nested(BasisShape, required=True)


class IntervalShape(_Shape):
    """science.interval.Interval."""

    makes = Interval
    low, mid, high = (_float() for _ in range(3))


class NoteShape(_Shape):
    """fit.findings.Note."""

    makes = found.Note
    code = fields.String(required=True)
    values = _Values()


class QuestionShape(_Shape):
    """fit.findings.Question."""

    makes = found.Question
    quantity = fields.String(required=True)
    code = fields.String(required=True)
    typed = _float()
    unit = fields.String(required=True)
    offers = fields.List(fields.Tuple((fields.String(), _float(), _float())))
    values = _Values()


class StepShape(_Shape):
    """fit.findings.Step."""

    makes = found.Step
    day = fields.Integer(strict=True, required=True)
    action = fields.String(required=True)
    amount = _float()
    unit = fields.String(required=True)
    expect = fields.Dict(keys=fields.String(), values=fields.Float(allow_nan=False))


class PlanShape(_Shape):
    """fit.findings.Plan."""

    makes = found.Plan
    action = fields.String(required=True)
    total = _float()
    unit = fields.String(required=True)
    days = fields.Integer(strict=True, required=True)
    target = _float()
    steps = _many(StepShape)
    cautions = _many(NoteShape)


class SpotShape(_Shape):
    """fit.findings.Spot."""

    makes = found.Spot
    zone = fields.String(required=True)
    depth_cm = _float(allow_none=True)
    depth_range_cm = fields.Tuple((_float(), _float()), required=True, allow_none=True)
    light = fields.Nested(IntervalShape, required=True, allow_none=True)
    flow = fields.Nested(IntervalShape, required=True, allow_none=True)
    reasons = _many(NoteShape)


class FindingShape(_Shape):
    """fit.findings.Finding."""

    makes = found.Finding
    factor = fields.String(required=True)
    verdict = fields.String(required=True, validate=validate.OneOf(found.ORDER))
    reasons = _many(NoteShape, required=True)
    required = fields.Boolean()
    near_edge = fields.Boolean()
    estimate = fields.Nested(IntervalShape, allow_none=True)
    band = fields.Nested(BandShape, allow_none=True)
    unit = fields.String()
    used_to = fields.Float(allow_none=True, allow_nan=False)
    basis = _many(BasisShape)
    advice = _many(NoteShape)
    plan = fields.Nested(PlanShape, allow_none=True)


class ReportSchema(_Shape):
    """fit.findings.Report; see the table at the head of this file."""

    makes = found.Report
    profile_key = fields.String(required=True)
    profile_revision = fields.Integer(strict=True, required=True)
    whole = fields.String(required=True, validate=validate.OneOf(found.ORDER))
    whole_reasons = _many(NoteShape, required=True)
    findings = _many(FindingShape, required=True)
    questions = _many(QuestionShape)
    spot = fields.Nested(SpotShape, allow_none=True)
    settle_next = fields.List(fields.String())
    schedule = _many(StepShape)
    schedule_notes = _many(NoteShape)
    acclimation = _many(NoteShape)
    safety = _many(NoteShape)
    paperwork = _many(NoteShape)
    unknowable = _many(NoteShape)


def report_to_json(report: found.Report) -> dict[str, Any]:
    """The JSON form of a report, plain values only."""
    return ReportSchema().dump(report)


def report_from_json(form: dict[str, Any]) -> found.Report:
    """The report of a JSON form, as an issued sheet keeps it. Raises marshmallow ValidationError."""
    return ReportSchema().load(form)
