"""A section in figures: the schema of a section without texts and doubled figures, and without what has no value."""

from __future__ import annotations

from collections.abc import Iterator
from copy import copy
from typing import Any

from borewright.core.caches import read_once

from .reply import Part
from .reply_fields import Limits
from .schema import FieldRows, NestedSection, Placed, ReplyField, SectionSchema, placed


@read_once
def figures_only(schema: type[SectionSchema], left_out: frozenset[str] = frozenset()) -> type[SectionSchema]:
    """The schema without the places ``left_out``; fields that can be null are absent instead.

    Args: ``left_out`` are dotted, inside the section. Two limits stay two, also where one is open: they are a figure.
    """
    if schema is Limits:
        return schema
    fields = {one.name: absent_not_null(field) for one, field in kept_fields(schema, left_out)}
    if [*fields.values()] == [one.field for one in placed(schema)]:
        return schema
    own = {"__doc__": schema.__doc__, "further": schema.further, "in_full": schema}
    return type(f"{schema.__name__}InFigures", (SectionSchema,), {**own, **fields})


def kept_fields(schema: type[SectionSchema], left_out: frozenset[str]) -> Iterator[tuple[Placed, ReplyField]]:
    """The fields of a schema that are not left out, their own sections in figures only."""
    for one in placed(schema):
        if one.name not in left_out:
            inside = frozenset(name.partition(".")[2] for name in left_out if name.startswith(f"{one.name}."))
            yield one, _in_figures(one, inside)


def absent_not_null(field: ReplyField) -> ReplyField:
    """The field, left out where it would be null."""
    return _changed(field, required=False, allow_none=False) if field.allow_none else field


def _in_figures(one: Placed, left_out: frozenset[str]) -> ReplyField:
    field = one.field
    if one.source != (field.source or one.name):
        field = _changed(field, source=one.source)
    if isinstance(field, NestedSection):
        field = _changed(field, schema_class=figures_only(field.schema_class, left_out))
    elif isinstance(field, FieldRows) and isinstance(field.row, NestedSection):
        field = _changed(field, row=_in_figures(Placed("", "", field.row), left_out))
    return _changed(field, sources_of=None) if isinstance(field, Part) else field


def _changed(field: ReplyField, **given: Any) -> ReplyField:
    """The field with other attributes; the very field where they are what it has."""
    if all(getattr(field, name) == value for name, value in given.items()):
        return field
    field = copy(field)
    for name, value in given.items():
        setattr(field, name, value)
    return field
