"""Where two hole specifications differ: field by field, by JSON pointer; items of lists by what they are."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Literal, NamedTuple

from borewright.contract.faults import step
from borewright.contract.sections.schema import FieldRows, NestedSection, ReplyField, SectionSchema, placed

from .subjects import subject

How = Literal["changed", "added", "removed", "not_kept", "no_longer_answered"]
#: Most fields that are named which no reply has any more: as many as a comparison shows.
MOST_GONE = 100
#: What an item of a list is known by, the first that it has.
_KEYS = ("code", "label", "marking", "for", "quantity", "operation")


class Difference(NamedTuple):
    """One place where two replies differ.

    ``pointer`` is that of the later reply; of what is ``removed`` that of the earlier one. ``not_kept``: the earlier
    reply lacks a field that every reply has now; ``no_longer_answered``: it has one that no reply has now.
    """

    pointer: str
    place: tuple[str, ...]
    how: How
    subject: str
    before: Any = None
    after: Any = None


class _Place(NamedTuple):
    """Where the walk is: its pointer, and the names on the way without places in lists."""

    pointer: str = ""
    names: tuple[str, ...] = ()

    def field(self, name: str) -> _Place:
        return _Place(self.pointer + step(name), (*self.names, name))

    def item(self, index: int) -> _Place:
        return _Place(f"{self.pointer}/{index}", self.names)


class Walk:
    """Walks through two replies of one kind. Args: ``texts_alone`` as :func:`~.subjects.subject` takes it."""

    def __init__(self, *, texts_alone: bool) -> None:
        self._texts_alone = texts_alone
        self._gone = 0

    def differences(
        self, schema: type[SectionSchema], before: Mapping[str, Any], after: Mapping[str, Any]
    ) -> Iterator[Difference]:
        """Where ``after``, a reply by ``schema``, differs from ``before``, an earlier one, in its order."""
        return self._objects(schema, before, after, _Place())

    def _objects(
        self, schema: type[SectionSchema] | None, before: Mapping[str, Any], after: Mapping[str, Any], at: _Place
    ) -> Iterator[Difference]:
        known = {} if schema is None else _fields(schema)
        closed = schema is not None and schema.further is None
        for name in dict.fromkeys((*after, *before)):
            field = known.get(name)
            gone = name not in after and field is None and closed
            if gone and not self._may_tell_gone():
                continue
            there = at.field(name)
            if name not in before:
                new = field is not None and field.required
                yield self._made(there, "not_kept" if new else "added", None, after[name])
            elif name not in after:
                yield self._made(there, "no_longer_answered" if gone else "removed", before[name], None)
            else:
                yield from self._values(field, before[name], after[name], there)

    def _may_tell_gone(self) -> bool:
        """Whether one more field is named that no reply has: of very many the first ones are."""
        self._gone += 1
        return self._gone <= MOST_GONE

    def _values(self, field: ReplyField | None, before: Any, after: Any, at: _Place) -> Iterator[Difference]:
        if before == after and _alike(before, after):
            return
        if isinstance(before, dict) and isinstance(after, dict):
            schema = field.schema_class if isinstance(field, NestedSection) else None
            yield from self._objects(schema, before, after, at)
        elif isinstance(before, list) and isinstance(after, list):
            row = field.row if isinstance(field, FieldRows) else None
            yield from self._rows(row, before, after, at)
        else:
            yield self._made(at, "changed", before, after)

    def _rows(
        self, row: ReplyField | None, before: Sequence[Any], after: Sequence[Any], at: _Place
    ) -> Iterator[Difference]:
        kept = dict(zip(_names(before), enumerate(before), strict=True))
        for index, (name, value) in enumerate(zip(_names(after), after, strict=True)):
            if name in kept:
                yield from self._values(row, kept.pop(name)[1], value, at.item(index))
            else:
                yield self._made(at.item(index), "added", None, value)
        for index, value in kept.values():
            yield self._made(at.item(index), "removed", value, None)

    def _made(self, at: _Place, how: How, before: Any, after: Any) -> Difference:
        about = subject(at.names, before, after, texts_alone=self._texts_alone)
        return Difference(at.pointer, at.names, how, about, before, after)


def _alike(before: Any, after: Any) -> bool:
    """Whether equal values are so in JSON too, where true is not 1."""
    if isinstance(before, dict):
        return all(_alike(value, after[name]) for name, value in before.items())
    if isinstance(before, list):
        return all(map(_alike, before, after))
    return isinstance(before, bool) is isinstance(after, bool)


def _fields(schema: type[SectionSchema]) -> Mapping[str, ReplyField]:
    """The fields of a schema by their names in JSON."""
    return {one.name: one.field for one in placed(schema)}


def _names(rows: Sequence[Any]) -> Iterator[tuple[object, int]]:
    """What each item is known by, and how many before it are known by the same."""
    seen = Counter[object]()
    for row in rows:
        name = _name(row)
        yield name, seen[name]
        seen[name] += 1


def _name(row: Any) -> object:
    if isinstance(row, dict):
        return next((str(row[key]) for key in _KEYS if key in row), None)
    return row if isinstance(row, str) else None
