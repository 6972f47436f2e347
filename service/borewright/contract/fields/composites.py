"""Fields that hold other fields: objects, lists, and fields that may be written in several JSON types."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, ClassVar

from marshmallow import EXCLUDE, RAISE, Schema, ValidationError

from borewright.contract.faults import RequestInvalid, below, collect, invalid, unknown_fields
from borewright.core.errors import Fault

from .request_units import RequestUnits
from .strict import JsonSchema, StrictField, describe, json_type, refuse, refused


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
            raise refused(error.faults) from None

    def convert(self, value: dict[str, Any], units: RequestUnits) -> Any:
        """What the object's schema makes of it."""
        return self._schema.convert(value, units)

    def json_schema(self, converter: Any) -> JsonSchema:
        """A reference to the schema of the object."""
        return dict(converter.resolve_nested_schema(self.schema_class))


class Array(StrictField):
    """A list of bounded length. Args: ``most_characters`` of all its texts together, None = as its items allow."""

    takes = ("array",)

    def __init__(
        self,
        description: str,
        item: StrictField,
        *,
        least: int = 0,
        most: int | None = None,
        unique: bool = False,
        most_characters: int | None = None,
        **given: Any,
    ) -> None:
        if most_characters is not None:
            description = f"{description} At most {most_characters} characters together."
        super().__init__(description, **given)
        self.item, self.least, self.most, self.unique = item, least, most, unique
        self.most_characters = most_characters
        item.allow_none = False  # null stands for an absent field; a list has no absent items

    def take(self, value: list[Any]) -> tuple[Any, ...]:
        """The items in order."""
        if len(value) < self.least or (self.most is not None and len(value) > self.most):
            refuse("list_length_wrong", f"Expected {self.least} to {self.most} items, not {len(value)}.")
        if self.unique and len({repr(item) for item in value}) < len(value):
            refuse("list_not_unique", "An item stands in the list twice.")
        found = tuple(self._item(index, item) for index, item in enumerate(value))
        if (
            self.most_characters is not None
            and (characters := sum(len(str(item)) for item in found)) > self.most_characters
        ):
            refuse("list_length_wrong", f"Expected at most {self.most_characters} characters, not {characters}.")
        return found

    def _item(self, index: int, value: object) -> object:
        try:
            return self.item.deserialize(value)
        except ValidationError as error:
            raise refused(below(index, _faults(error))) from None

    def convert(self, value: tuple[Any, ...], units: RequestUnits) -> tuple[Any, ...]:
        """The items, each converted."""
        return tuple(self.item.convert(item, units) for item in value)

    @property
    def converts(self) -> bool:
        """Whether the domain gets other items."""
        return self.item.converts

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
            found += schema.get("anyOf", [schema])
        return {"anyOf": found}


class ShortForm(OneOf):
    """An object, or one of its fields ``alone``; ``short`` is that field's name in what the object makes."""

    def __init__(self, description: str, alone: StrictField, whole: Object, *, short: str, **given: Any) -> None:
        super().__init__(description, alone, whole, **given)
        self.alone, self.whole, self.short = alone, whole, short

    def convert(self, value: Any, units: RequestUnits) -> Any:
        """What the object makes, of all its fields or of the one that stands alone."""
        if isinstance(value, dict):
            return self.whole.convert(value, units)
        return self.whole.schema_class.makes(**{self.short: self.alone.convert(value, units)})


class ObjectSchema(Schema):
    """Schema of an object in a request: an unknown field is refused.

    It is read in two steps. :meth:`read` checks every field and collects all faults; :meth:`convert` turns what was
    read into what the domain takes, whose parameters have the names of the fields' attributes.
    """

    class Meta:
        """Refuse what is not declared."""

        unknown = RAISE

    #: Whether an object without any field is refused.
    needs_a_field = True
    #: The record, or the function, that the converted fields go to.
    makes: ClassVar[Callable[..., Any]] = dict

    def __init__(self) -> None:
        super().__init__()
        self._by_key = {field.data_key or name: (name, field) for name, field in self.fields.items()}
        self._needed = {name for name, field in self.fields.items() if field.required}
        self._convert = {
            name: field.convert
            for name, field in self.fields.items()
            if isinstance(field, StrictField) and field.converts
        }

    def read(self, body: Mapping[str, Any]) -> dict[str, Any]:
        """The fields of ``body`` in the order of their declaration. Raises RequestInvalid with every fault found."""
        found = self._good(body)
        if found is None:
            found = self._loaded(body)
        if self.needs_a_field and not found:
            raise invalid("field_missing", "At least one field is needed.", allowed=self.names())
        return found

    def convert(self, given: Mapping[str, Any], units: RequestUnits, **known: Any) -> Any:
        """What :attr:`makes` makes of fields that were read, each converted.

        Args: ``known`` are further arguments. A field that is null is left out.

        Raises: RequestInvalid for the first field that cannot be converted.
        """
        try:
            for name, value in given.items():
                if value is not None:
                    convert = self._convert.get(name)
                    known[name] = value if convert is None else convert(value, units)
        except RequestInvalid as error:
            raise RequestInvalid(below(self.fields[name].data_key or name, error.faults)) from None
        return self.makes(**known)

    def _loaded(self, body: Mapping[str, Any]) -> dict[str, Any]:
        known = {name: body[name] for name in self._by_key if name in body}
        try:
            found = dict(self.load(known))
        except ValidationError as error:
            raise RequestInvalid(collect(error.messages_dict, body, self.names())) from None
        if len(known) < len(body):
            raise RequestInvalid(unknown_fields(body, self.names()))
        return found

    def _good(self, body: Mapping[str, Any]) -> dict[str, Any] | None:
        """What ``load`` gives for a good body, for a third of its time."""
        found: dict[str, Any] = {}
        try:
            for key, (name, field) in self._by_key.items():
                if key in body:
                    found[name] = field.accept(body[key])  # type: ignore[attr-defined]
        except ValidationError:
            return None
        return found if len(found) == len(body) and self._needed <= found.keys() else None

    @classmethod
    def names(cls) -> tuple[str, ...]:
        """Names of the fields as they stand in JSON, in order."""
        return tuple(field.data_key or name for name, field in cls._declared_fields.items())


class ReplySchema(Schema):
    """Schema of an object in a reply: documentation and tests only; clients must bear fields they do not know."""

    class Meta:
        """More fields may come."""

        unknown = EXCLUDE


def _faults(error: ValidationError) -> list[Fault]:
    return [fault for fault in error.messages if isinstance(fault, Fault)]
