"""The schema of a section of a reply: it documents the section, and it writes it from a record of the domain.

Each field says what it means, where its value is in the record and how it is shown. A schema is compiled once for each
unit view into a writer that turns a record into a JSON object.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from operator import attrgetter
from typing import Any, ClassVar, NamedTuple

import orjson

from borewright.contract.fields.composites import ReplySchema
from borewright.contract.fields.strict import JsonSchema, StrictField, describe
from borewright.contract.unit_view import Json, UnitView
from borewright.core.caches import Same, cached, cached_apart
from borewright.core.requests import is_long_list

#: More than there are schemas in all unit views.
_WRITERS = 512
_SHARED_ROWS = 512

#: What turns a value of the record into JSON.
Show = Callable[[Any], Any]
#: Where a value is: its dotted place in the record, or what takes it from the record.
Source = str | Callable[[Any], Any]


def the_record(record: Any) -> Any:
    """Source of an object that is made of the same record."""
    return record


class ReplyField(StrictField):
    """A field of a reply.

    Args:
        json: JSON Schema of the field, without its description.
        show: makes what turns a value into JSON for a unit view; None where a value is shown as it is.
        source: where the value is; None where the record has it under the field's own name.
        dimension: what a number measures, ``length`` or ``ratio`` say; published as ``x-dimension``.
        present: False where the field is left out when the record has no value for it.
    """

    def __init__(
        self,
        description: str,
        json: JsonSchema,
        *,
        show: Callable[[UnitView], Show] | None = None,
        source: Source | None = None,
        dimension: str | None = None,
        present: bool = True,
        nullable: bool = False,
        data_key: str | None = None,
    ) -> None:
        super().__init__(description, required=present, nullable=nullable, data_key=data_key)
        if dimension is not None:
            self.metadata = {**self.metadata, "x-dimension": dimension}
        self.source, self.dimension, self._json, self._show = source, dimension, json, show

    def json_schema(self, converter: Any) -> JsonSchema:
        """The schema that was declared."""
        return dict(self._json)

    def shown(self, figures: UnitView) -> Show | None:
        """What turns a value into JSON; None where it is shown as it is."""
        return None if self._show is None else self._show(figures)


class SectionSchema(ReplySchema):
    """Schema of an object of a reply that is written from a record."""

    #: Dotted place in the record of what the inherited fields are about; None where it is the record itself.
    inherited_from: ClassVar[str | None] = None
    #: Name of a mapping in the record whose entries are further fields; those declared with this source document them.
    further: ClassVar[str | None] = None
    #: Schema of the same object in the full reply; None where nothing is left out.
    in_full: ClassVar[type[SectionSchema] | None] = None


class NestedSection(ReplyField):
    """An object of a reply with its own schema."""

    def __init__(self, description: str, schema: type[SectionSchema], **given: Any) -> None:
        super().__init__(description, {}, **given)
        self.schema_class = schema

    def json_schema(self, converter: Any) -> JsonSchema:
        """A reference to the schema of the object."""
        return dict(converter.resolve_nested_schema(self.schema_class))

    def shown(self, figures: UnitView) -> Show | None:
        """The writer of the object."""
        return writer(self.schema_class, figures)


class FieldRows(ReplyField):
    """A list of values that are declared, and shown, alike."""

    def __init__(self, description: str, row: ReplyField, **given: Any) -> None:
        super().__init__(description, {}, **given)
        self.row = row

    def json_schema(self, converter: Any) -> JsonSchema:
        """An array with the schema of its rows."""
        return {"type": "array", "items": describe(self.row, converter)}

    def shown(self, figures: UnitView) -> Show | None:
        """All rows, one after the other."""
        show = self.row.shown(figures)
        return list if show is None else lambda rows: [show(row) for row in rows]


class SharedRows(FieldRows):
    """A list that several records have as the same object: its text is made once.

    Args: ``record`` makes of each of its values the record of a row.
    """

    def __init__(self, description: str, row: ReplyField, *, record: Show = the_record, **given: Any) -> None:
        super().__init__(description, row, **given)
        self.record = record

    def shown(self, figures: UnitView) -> Show | None:
        """The text of all rows."""
        show, record = super().shown(figures) or list, self.record

        def show_all(rows: Sequence[Any]) -> list[Any]:
            return show([record(one) for one in rows])

        return lambda rows: _rows_text(Same(rows), show_all)


@cached_apart(_SHARED_ROWS, lambda rows, _show: is_long_list(rows.value))
def _rows_text(rows: Same[Sequence[Any]], show: Callable[[Sequence[Any]], list[Any]]) -> orjson.Fragment:
    return orjson.Fragment(orjson.dumps(show(rows.value)))


class Placed(NamedTuple):
    """A field of a schema with its name in JSON and its source in the record of the schema."""

    name: str
    source: Source
    field: ReplyField


@cached(_WRITERS)
def writer(schema: type[SectionSchema], figures: UnitView) -> Callable[[Any], Json]:
    """What turns a record into the JSON object that ``schema`` declares, its fields in their order."""
    write = fields_writer([one for one in placed(schema) if one.source != schema.further], figures)
    if schema.further is None:
        return write
    further = attrgetter(schema.further)
    return lambda record: write(record) | figures.mapping(further(record))


def fields_writer(fields: Sequence[Placed], figures: UnitView) -> Callable[[Any], Json]:
    """What turns a record into a JSON object of ``fields``.

    It is compiled from text, as dataclasses are: one expression costs half of a loop over the fields.
    """
    used: dict[str, Any] = {}
    entries = ", ".join(_entry(place, one, figures, used) for place, one in enumerate(fields))
    write: Callable[[Any], Json] = eval(f"lambda record: {{{entries}}}", used)  # noqa: S307 - only our own declarations
    optional = [one.name for one in fields if not one.field.required]
    return _without_absent(write, optional) if optional else write


def _entry(place: int, one: Placed, figures: UnitView, used: dict[str, Any]) -> str:
    """The source text of an entry; what it calls is added to ``used``."""
    if isinstance(one.source, str):
        value = f"record.{one.source}"
    else:
        used[f"take_{place}"] = one.source
        value = f"take_{place}(record)"
    show = one.field.shown(figures)
    if show is not None:
        used[f"show_{place}"] = show
        value = f"None if (value := {value}) is None else show_{place}(value)"
    return f"{one.name!r}: {value}"


def _without_absent(write: Callable[[Any], Json], optional: Sequence[str]) -> Callable[[Any], Json]:
    """The object without those of the ``optional`` fields that have no value."""

    def write_present(record: Any) -> Json:
        body = write(record)
        for name in optional:
            if body[name] is None:
                del body[name]
        return body

    return write_present


def placed(schema: type[SectionSchema]) -> list[Placed]:
    """The fields of a schema, inherited ones first."""
    inherited = {id(field) for base in schema.__bases__ for field in getattr(base, "_declared_fields", {}).values()}
    found = []
    for name, field in schema._declared_fields.items():
        assert isinstance(field, ReplyField)
        source = field.source or name
        if schema.inherited_from is not None and id(field) in inherited:
            source = _within(schema.inherited_from, source)
        found.append(Placed(field.data_key or name, source, field))
    return found


def value_of(source: Source) -> Show:
    """What takes the value of a source from a record."""
    return attrgetter(source) if isinstance(source, str) else source


def _within(place: str, source: Source) -> Source:
    if isinstance(source, str):
        return f"{place}.{source}"
    get = attrgetter(place)
    return lambda record: source(get(record))
