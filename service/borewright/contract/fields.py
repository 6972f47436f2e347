"""Strict fields: what a JSON type may hold, nothing coerced, every refusal a coded fault, every field documented.

Each field knows its own JSON Schema, so that the published document and the running check cannot drift apart. A null
for an optional field means the same as leaving it out.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any, NoReturn

from marshmallow import EXCLUDE, RAISE, Schema, ValidationError, fields

from ..core.errors import Fault, nearest
from . import units
from .faults import RequestInvalid, collect, invalid, shown, step
from .units import Dimension, Quantity

JsonSchema = dict[str, Any]

_TYPE_NAMES = {bool: "boolean", str: "string", int: "number", float: "number", dict: "object", list: "array"}


def refuse(code: str, detail: str, *, allowed: Sequence[str] = (), did_you_mean: Sequence[str] = ()) -> NoReturn:
    """Refuse the value of a field; the field's place is added by whoever holds it."""
    raise ValidationError([Fault(code, detail, "", tuple(allowed), tuple(did_you_mean))])  # type: ignore[list-item]


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
                "required": [Fault("field_missing", "This field is needed.")],  # type: ignore[dict-item]
                "null": [Fault("field_type_wrong", f"Expected {self._expected()}, not null.")],  # type: ignore[dict-item]
            },
        )

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        if _TYPE_NAMES.get(type(value)) not in self.takes:
            self.refuse_type(value)
        return self.take(value)

    def refuse_type(self, value: object) -> NoReturn:
        """Refuse a value of another JSON type."""
        refuse("field_type_wrong", f"Expected {self._expected()}, not {json_type(value)}.")

    def take(self, value: Any) -> Any:
        """The value a request gets from a JSON value of the right type, or a refusal."""
        return value

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
    """A finite number between two bounds, as an exact decimal."""

    takes = ("number",)

    def __init__(
        self,
        description: str,
        *,
        above: int | None = None,
        least: int | None = None,
        most: int | None = None,
        whole: bool = False,
        **given: Any,
    ) -> None:
        super().__init__(description, **given)
        self.bounds = {"exclusiveMinimum": above, "minimum": least, "maximum": most}
        self.above, self.least, self.most, self.whole = above, least, most, whole

    def take(self, value: float) -> Decimal | int:
        """The number; a whole one stays an integer."""
        if not self._inside(value):
            refuse("value_out_of_range", f"{shown(value)} is out of range: {self._range_words()}.")
        if self.whole:
            if value != int(value):
                refuse("field_type_wrong", "Expected a whole number.")
            return int(value)
        return Decimal(value) if isinstance(value, int) else Decimal(repr(value))

    def _inside(self, value: float) -> bool:
        return (
            math.isfinite(value)
            and (self.above is None or value > self.above)
            and (self.least is None or value >= self.least)
            and (self.most is None or value <= self.most)
        )

    def _range_words(self) -> str:
        words = {"exclusiveMinimum": "above", "minimum": "at least", "maximum": "at most"}
        return ", ".join(f"{words[name]} {bound}" for name, bound in self.bounds.items() if bound is not None)

    def json_schema(self, converter: Any) -> JsonSchema:
        """A number with its bounds; an exclusive bound is published as exclusive."""
        bounds = {name: bound for name, bound in self.bounds.items() if bound is not None}
        return {"type": "integer" if self.whole else "number", **bounds}


class QuantityField(StrictField):
    """A number in the unit of ``unit_system``, or text with a unit of the closed list."""

    takes = ("number", "string")

    def __init__(
        self, description: str, dimension: Dimension, *, most: int, zero: bool = False, signed: bool = False, **given: Any
    ) -> None:
        super().__init__(description, **given)
        self.dimension, self.zero, self.signed = dimension, zero, signed
        least = {"least": -most} if signed else {"least": 0} if zero else {"above": 0}
        self._number = Number(description, most=most, **least)

    def take(self, value: float | str) -> Quantity:
        """The quantity in a base unit, or as a bare number."""
        if not isinstance(value, str):
            return Quantity(self._number.take(value), None)
        try:
            quantity = units.read(value, self.dimension)
        except RequestInvalid as error:
            raise ValidationError(list(error.faults)) from None  # type: ignore[arg-type]
        if not self.signed and (quantity.value < 0 or (quantity.value == 0 and not self.zero)):
            refuse("value_out_of_range", f"{shown(value)} is out of range: {'at least' if self.zero else 'above'} 0.")
        return quantity

    def json_schema(self, converter: Any) -> JsonSchema:
        """A number with its bounds, or a text that follows the grammar of quantities."""
        pattern = units.pattern(self.dimension, signed=self.signed, zero=self.zero)
        text = {"type": "string", "maxLength": units.LONGEST, "pattern": pattern}
        return {"anyOf": [self._number.json_schema(converter), text]}


class Object(StrictField):
    """An object with its own schema."""

    takes = ("object",)

    def __init__(self, description: str, schema: type[ObjectSchema], **given: Any) -> None:
        super().__init__(description, **given)
        self.schema_class = schema
        self._schema = schema()

    def take(self, value: dict[str, Any]) -> dict[str, Any]:
        """The fields of the object."""
        try:
            return self._schema.read(value)
        except RequestInvalid as error:
            raise ValidationError(list(error.faults)) from None  # type: ignore[arg-type]

    def json_schema(self, converter: Any) -> JsonSchema:
        """A reference to the schema of the object."""
        return dict(converter.resolve_nested_schema(self.schema_class))


class Array(StrictField):
    """A list of bounded length."""

    takes = ("array",)

    def __init__(
        self,
        description: str,
        item: StrictField,
        *,
        least: int = 0,
        most: int | None = None,
        unique: bool = False,
        **given: Any,
    ) -> None:
        super().__init__(description, **given)
        self.item, self.least, self.most, self.unique = item, least, most, unique

    def take(self, value: list[Any]) -> tuple[Any, ...]:
        """The items in order."""
        if len(value) < self.least or (self.most is not None and len(value) > self.most):
            refuse("list_length_wrong", f"Expected {self.least} to {self.most} items, not {len(value)}.")
        if self.unique and len({repr(item) for item in value}) < len(value):
            refuse("list_not_unique", "An item stands in the list twice.")
        return tuple(self._item(index, item) for index, item in enumerate(value))

    def _item(self, index: int, value: object) -> object:
        try:
            return self.item.deserialize(value)
        except ValidationError as error:
            faults = [Fault(f.code, f.detail, step(index) + f.pointer, f.allowed, f.did_you_mean) for f in _faults(error)]
            raise ValidationError(faults) from None  # type: ignore[arg-type]

    def json_schema(self, converter: Any) -> JsonSchema:
        """An array with the schema of its items."""
        limits: JsonSchema = {} if self.most is None else {"minItems": self.least, "maxItems": self.most}
        unique = {"uniqueItems": True} if self.unique else {}
        return {"type": "array", "items": describe(self.item, converter), **limits, **unique}


class OneOf(StrictField):
    """A field that may be written in several JSON types."""

    def __init__(self, description: str, *options: StrictField, **given: Any) -> None:
        self.options = {taken: option for option in options for taken in option.takes}
        self.takes = tuple(self.options)
        self._distinct = options
        super().__init__(description, **given)

    def take(self, value: Any) -> Any:
        """What the option for the value's type makes of it."""
        return self.options[json_type(value)].take(value)

    def json_schema(self, converter: Any) -> JsonSchema:
        """The schemas of the options, side by side."""
        found: list[JsonSchema] = []
        for option in self._distinct:
            schema = option.json_schema(converter)
            found += schema["anyOf"] if "anyOf" in schema else [schema]
        return {"anyOf": found}


class ObjectSchema(Schema):
    """Schema of an object in a request: an unknown field is refused."""

    class Meta:
        """Refuse what is not declared."""

        unknown = RAISE

    #: Whether an object without any field is refused.
    needs_a_field = True

    def read(self, body: Mapping[str, Any]) -> dict[str, Any]:
        """The fields of ``body``. Raises RequestInvalid with every fault found."""
        try:
            found = dict(self.load(body))
        except ValidationError as error:
            raise RequestInvalid(collect(error.messages_dict, self.names())) from None
        if self.needs_a_field and not found:
            raise invalid("field_missing", "At least one field is needed.", allowed=self.names())
        return found

    @classmethod
    def names(cls) -> tuple[str, ...]:
        """Names of the fields as they stand in JSON, in order."""
        return tuple(field.data_key or name for name, field in cls._declared_fields.items())


class ReplySchema(Schema):
    """Schema of an object in a reply: documentation and tests only; clients must bear fields they do not know."""

    class Meta:
        """More fields may come."""

        unknown = EXCLUDE


def describe(field: StrictField, converter: Any) -> JsonSchema:
    """Complete JSON Schema of a field: its own, with null where it may be left out, and its description."""
    schema = field.json_schema(converter)
    if field.allow_none:
        schema = _or_null(schema)
    return {**schema, **field.metadata}


def _or_null(schema: JsonSchema) -> JsonSchema:
    if "anyOf" in schema:
        return {**schema, "anyOf": [*schema["anyOf"], {"type": "null"}]}
    if "$ref" in schema:
        return {"anyOf": [schema, {"type": "null"}]}
    enum = {"enum": [*schema["enum"], None]} if "enum" in schema else {}
    return {**schema, "type": [schema["type"], "null"], **enum}


def _faults(error: ValidationError) -> list[Fault]:
    return [fault for fault in error.messages if isinstance(fault, Fault)]
