"""Strict fields: what a JSON type may hold, nothing coerced, every refusal a coded fault, every field documented.

Each field knows its own JSON Schema, so that the published document and the running check cannot drift apart. A null
for an optional field means the same as leaving it out.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any, NoReturn

from marshmallow import ValidationError, fields

from borewright.contract.faults import RequestInvalid, shown
from borewright.core.errors import Fault, nearest

from . import units
from .ranges import Range
from .request_units import BARE_UNITS, RequestUnits
from .units import Dimension, Quantity

JsonSchema = dict[str, Any]

_TYPE_NAMES = {bool: "boolean", str: "string", int: "number", float: "number", dict: "object", list: "array"}


def refuse(code: str, detail: str, *, allowed: Sequence[str] = (), did_you_mean: Sequence[str] = ()) -> NoReturn:
    """Refuse the value of a field; the field's place is added by whoever holds it."""
    raise refused((Fault(code, detail, "", tuple(allowed), tuple(did_you_mean)),))


def refused(faults: Iterable[Fault]) -> ValidationError:
    """The refusal of a field as marshmallow carries it; it keeps whatever a message is made of."""
    return ValidationError(list(faults))


def json_type(value: object) -> str:
    """Name that JSON Schema gives the type of a parsed value."""
    return _TYPE_NAMES.get(type(value), "null")


class StrictField(fields.Field[Any]):
    """Base of all fields: a description, and null as the same as absent where the field is optional."""

    #: JSON type a value must have; other types never reach :meth:`take`.
    takes: tuple[str, ...] = ()

    def __init__(
        self,
        description: str,
        *,
        required: bool = False,
        nullable: bool | None = None,
        data_key: str | None = None,
        examples: Sequence[object] = (),
    ) -> None:
        super().__init__(
            required=required,
            allow_none=not required if nullable is None else nullable,
            data_key=data_key,
            metadata={"description": description, **({"examples": list(examples)} if examples else {})},
            error_messages={
                "required": [Fault("field_missing", "This field is needed.")],
                "null": [Fault("field_type_wrong", f"Expected {self._expected()}, not null.")],
            },
        )

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        return self.accept(value)

    def accept(self, value: Any) -> Any:
        """What the request gets from a JSON value of any type, or a refusal."""
        if value is None and self.allow_none:
            return None
        if _TYPE_NAMES.get(type(value)) not in self.takes:
            refuse("field_type_wrong", f"Expected {self._expected()}, not {json_type(value)}.")
        return self.take(value)

    def take(self, value: Any) -> Any:
        """The value a request gets from a JSON value of the right type, or a refusal."""
        return value

    def convert(self, value: Any, units: RequestUnits) -> Any:
        """What the domain gets of a value that the request got, which is not None. Raises RequestInvalid."""
        return value

    @property
    def converts(self) -> bool:
        """Whether the domain gets anything else than the request."""
        return type(self).convert is not StrictField.convert

    def json_schema(self, converter: Any) -> JsonSchema:
        """JSON Schema (2020-12) of the field. ``converter`` is apispec's, it names nested schemas."""
        raise NotImplementedError

    def _expected(self) -> str:
        return " or ".join(self.takes)


class Text(StrictField):
    """A text of bounded length."""

    takes = ("string",)

    #: Codes of a text that is blank, and of one that is too long.
    blank, too_long = "text_length_wrong", "text_length_wrong"

    def __init__(self, description: str, *, longest: int = 200, **given: Any) -> None:
        super().__init__(description, **given)
        self.longest = longest

    def take(self, value: str) -> str:
        """The text as it was written."""
        if len(value) > self.longest:
            refuse(self.too_long, f"Expected at most {self.longest} characters, not {len(value)}.")
        if not value.strip():
            refuse(self.blank, "Expected a text that is not blank.")
        return value

    def json_schema(self, converter: Any) -> JsonSchema:
        """A string with its limits."""
        return {"type": "string", "minLength": 1, "maxLength": self.longest, "pattern": r"\S"}


class CalloutText(Text):
    """A thread callout; how it reads is the domain's matter."""

    blank, too_long = "callout_empty", "callout_too_long"


class Choice(StrictField):
    """One word of a closed list."""

    takes = ("string",)

    def __init__(self, description: str, words: Sequence[str], **given: Any) -> None:
        super().__init__(description, **given)
        self.words = tuple(words)

    def take(self, value: str) -> str:
        """The word."""
        if value not in self.words:
            refuse(
                "field_value_unknown",
                f"{shown(value)} is not one of the words that are known here.",
                allowed=self.words,
                did_you_mean=nearest(value, self.words),
            )
        return value

    def json_schema(self, converter: Any) -> JsonSchema:
        """A string with its list."""
        return {"type": "string", "enum": list(self.words)}


class Boolean(StrictField):
    """True or false, no word for them."""

    takes = ("boolean",)

    def json_schema(self, converter: Any) -> JsonSchema:
        """A boolean."""
        return {"type": "boolean"}


class Number(StrictField):
    """A number inside its range, as an exact decimal."""

    takes = ("number",)

    def __init__(self, description: str, range_: Range, **given: Any) -> None:
        super().__init__(description, **given)
        self.range = range_

    def take(self, value: float) -> Any:
        """The number as it was written, an exact decimal."""
        return _in_range(value, self.range)

    def json_schema(self, converter: Any) -> JsonSchema:
        """A number with its bounds."""
        return self.range.json_schema()


class FloatNumber(Number):
    """A number that the domain takes as a float."""

    def convert(self, value: Decimal, units: RequestUnits) -> float:
        """The float nearest to the decimal."""
        return float(value)


class Whole(Number):
    """A whole number inside its range."""

    def take(self, value: float) -> Any:
        """The number as an integer."""
        exact = super().take(value)
        if exact != int(exact):
            refuse("field_type_wrong", "Expected a whole number.")
        return int(exact)

    def json_schema(self, converter: Any) -> JsonSchema:
        """An integer with its bounds."""
        return {**super().json_schema(converter), "type": "integer"}


class QuantityField(StrictField):
    """A number in the unit of ``unit_system``, or text with a unit of the closed list."""

    takes = ("number", "string")

    def __init__(self, description: str, dimension: Dimension, range_: Range, **given: Any) -> None:
        super().__init__(f"{description} Allowed {range_.words()}.", **given)
        self.dimension, self.range = dimension, range_

    def take(self, value: float | str) -> Quantity:
        """The quantity in a base unit, or as a bare number."""
        if not isinstance(value, str):
            return Quantity(_in_range(value, self.range), None)
        try:
            quantity = units.read(value, self.dimension)
            self.range.check(quantity.value, quantity.unit, written=value)
        except RequestInvalid as error:
            raise refused(error.faults) from None
        return quantity

    def convert(self, value: Quantity, units: RequestUnits) -> Any:
        """A length in the unit of the thread's standard, a ratio as it is, any other quantity as a float."""
        if self.dimension == "length":
            return units.length(value, self.range)
        if self.dimension in BARE_UNITS:
            return units.physical(value, self.dimension, self.range)
        return value.value

    def json_schema(self, converter: Any) -> JsonSchema:
        """A number with its bounds, or a text that follows the grammar of quantities."""
        pattern = units.pattern(self.dimension, signed=self.range.signed, zero=self.range.zero)
        text = {"type": "string", "maxLength": units.LONGEST, "pattern": pattern}
        return {"anyOf": [self.range.json_schema(), text]}


def _in_range(value: float, allowed: Range) -> Decimal:
    exact = Decimal(value) if isinstance(value, int) else Decimal(repr(value))
    try:
        allowed.check(exact, None, written=value)
    except RequestInvalid as error:
        raise refused(error.faults) from None
    return exact


def describe(field: StrictField, converter: Any) -> JsonSchema:
    """Complete JSON Schema of a field: its own, with null where it may be left out, and its description."""
    schema = field.json_schema(converter)
    if field.allow_none:
        schema = _or_null(schema)
    return {**schema, **field.metadata}


def _or_null(schema: JsonSchema) -> JsonSchema:
    if "anyOf" in schema:
        return {**schema, "anyOf": [*schema["anyOf"], {"type": "null"}]}
    if "$ref" in schema or "enum" in schema:  # null inside an enum makes three enums of one in generated clients
        return {"anyOf": [schema, {"type": "null"}]}
    if "type" not in schema:
        return schema
    kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    return {**schema, "type": [*kinds, "null"]}
