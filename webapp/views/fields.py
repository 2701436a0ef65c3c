"""Form fields that read what people type on a phone: a comma for a point, spaces, nothing at all."""

from typing import Any

from wtforms import DecimalField, Field, Form, IntegerField, StringField
from wtforms.validators import DataRequired, InputRequired, Length, NumberRange, Optional, StopValidation

from webapp.errors import BadInput


class NumberField(DecimalField):
    """A number, with a decimal point or comma. `data` is a float or None."""

    def __init__(self, label: str, low: float, high: float, unit: str = "", required: bool = False, **more: Any):
        self.unit = unit
        needed = InputRequired(f"Give a number: {label.lower()}.") if required else Optional()
        message = f"Give a number from {low:g} to {high:g}{' ' + unit if unit else ''}."
        super().__init__(label, [needed, NumberRange(low, high, message)], **more)

    def process_formdata(self, valuelist: list[Any]) -> None:
        """Read the text; anything that is no number is kept as typed and named in the error."""
        if not valuelist or not str(valuelist[0]).strip():
            self.data = None
            return
        text = str(valuelist[0]).strip().replace("\u202f", "").replace(" ", "").replace(",", ".")
        try:
            self.data = float(text)
        except ValueError:
            self.data = None
            raise ValueError(f"'{valuelist[0][:20]}' is not a number. Type digits, as 8.2.") from None
        if self.data != self.data or self.data in (float("inf"), float("-inf")):
            self.data = None
            raise ValueError("Type an ordinary number, as 8.2.")

    def _value(self) -> str:
        if self.raw_data:
            return str(self.raw_data[0])
        return "" if self.data is None else f"{self.data:g}"


class CountField(IntegerField):
    """A whole number. `data` is an int or None."""

    def __init__(self, label: str, low: int, high: int, required: bool = False, **more: Any):
        needed = InputRequired(f"Give a whole number: {label.lower()}.") if required else Optional()
        super().__init__(label, [needed, NumberRange(low, high, f"Give a whole number from {low} to {high}.")], **more)

    def process_formdata(self, valuelist: list[Any]) -> None:
        """Read the text; anything that is no whole number is named in the error."""
        text = str(valuelist[0]).strip() if valuelist else ""
        if not text:
            self.data = None
            return
        if not text.lstrip("+-").isdecimal() or len(text) > 12:
            self.data = None
            raise ValueError(f"'{text[:20]}' is not a whole number.")
        self.data = int(text)


class MoneyField(NumberField):
    """An amount in the shop's currency; `cents` is a whole number or None."""

    def __init__(self, label: str, **more: Any):
        super().__init__(label, 0, 100_000, **more)

    @property
    def cents(self) -> int | None:
        """The amount in cents."""
        return None if self.data is None else round(self.data * 100)


class TextField(StringField):
    """A line or more of text with a greatest length, stripped."""

    def __init__(self, label: str, most: int, required: bool = False, **more: Any):
        needed = [DataRequired(f"Fill in: {label.lower()}.")] if required else [Optional()]  # blanks are nothing
        too_long = Length(max=most, message=f"At most {most} characters.")
        super().__init__(label, [*needed, too_long], filters=[_stripped], **more)


class ChoiceField(StringField):
    """One of `choices`, pairs of value and label; '' where nothing need be chosen. Drawn by our own parts."""

    def __init__(self, label: str, choices: list[tuple[str, str]] | None = None, required: bool = False, **more: Any):
        super().__init__(label, [InputRequired(f"Choose one: {label.lower()}.")] if required else [], **more)
        self.choices = choices or []

    def pre_validate(self, form: Form) -> None:
        """The value must be on the list."""
        if (self.data or "") not in [value for value, _label in self.choices] + ([] if self.flags.required else [""]):
            raise StopValidation("Choose one from the list.")


def asked(choices: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """The choices with none of them chosen, so that a hurried tap chooses nothing; a single one needs no asking."""
    return choices if len(choices) == 1 else [("", "Choose…"), *choices]


def _stripped(text: str | None) -> str:
    return (text or "").strip()


def put_error(form: Form, error: BadInput) -> None:
    """Show an error from below at the field it belongs to, or for the whole form."""
    field: Field | None = form._fields.get(error.field or "")
    if field is not None:
        field.errors = [*field.errors, str(error)]
    else:
        form.form_errors = [*form.form_errors, str(error)]
