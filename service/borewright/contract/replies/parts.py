"""What every reply carries beside its figures: units, assumptions, cautions, sources, tables version, derivation."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import cast

import orjson

from ... import tables
from ...core.model import Notes, Range, Source, Step
from ..unit_view import Json, UnitView, number
from .fixed import Fixed


class Part:
    """A finished section of a reply with its notes, their field names under the section's ``prefix``.

    Sources and steps are made when they are first asked for, and kept with the section.
    """

    __slots__ = ("_prefix", "_sources", "_steps", "fixed", "notes")

    def __init__(self, fixed: Fixed[Json], notes: Notes, prefix: str, sources: Fixed[list[Json]] | None = None) -> None:
        self.fixed, self.notes, self._prefix = fixed, notes, prefix
        self._sources, self._steps = sources, cast("Fixed[list[Json]] | None", None)

    @property
    def body(self) -> Json:
        """The section itself."""
        return self.fixed.value

    @property
    def sources(self) -> Fixed[list[Json]]:
        """Where its figures come from."""
        if self._sources is None:
            self._sources = Fixed([_source(source, self._prefix) for source in self.notes.sources])
        return self._sources

    @property
    def steps(self) -> Fixed[list[Json]]:
        """How its figures were worked out."""
        if self._steps is None:
            self._steps = Fixed([_step(step, self._prefix) for step in self.notes.steps])
        return self._steps


def part(body: Json, notes: Notes, prefix: str = "") -> Part:
    """A section of a reply; ``prefix`` is its dotted place in a larger reply (``drill.``)."""
    return Part(Fixed(body), notes, prefix)


def close(body: Json, parts: Sequence[Part], view: UnitView, *, explain: bool = False, written: bool = False) -> Json:
    """Add to ``body`` what every reply carries, joined from its ``parts``; the same remark is made once.

    Args:
        explain: whether the steps of the parts are shown.
        written: whether the reply is written next, so that texts may stand for values.
    """
    join = _joined_texts if written else _joined
    body["units"] = view.units
    body["assumptions"] = list(dict.fromkeys(text for section in parts for text in section.notes.assumptions))
    cautions = dict.fromkeys(caution for section in parts for caution in section.notes.cautions)
    body["cautions"] = [{"code": caution.code, "text": caution.text} for caution in cautions]
    body["sources"] = join([section.sources for section in parts])
    body["tables_version"] = tables.version()
    if explain:
        body["derivation"] = join([section.steps for section in parts])
    return body


def _joined(lists: Sequence[Fixed[list[Json]]]) -> object:
    return [row for rows in lists for row in rows.value]


def _joined_texts(lists: Sequence[Fixed[list[Json]]]) -> object:
    """The same as one JSON array, made of the texts of the lists."""
    return orjson.Fragment(b"[%s]" % b",".join(rows.text[1:-1] for rows in lists if rows.value))


def _source(source: Source, prefix: str) -> Json:
    return {
        "for": prefix + source.field,
        "document": source.document,
        "edition": source.edition,
        "locator": source.locator,
        "status": source.status,
    }


def _step(step: Step, prefix: str) -> Json:
    """A step of a derivation as it was made: its figures stay in its own unit, so that it can be redone."""
    return {
        "quantity": prefix + step.quantity,
        "formula": step.formula,
        "inputs": {name: _plain(value) for name, value in step.inputs.items()},
        "value": _plain(step.value),
        "unit": step.unit,
        "source": step.source,
    }


def _plain(value: object) -> object:
    if type(value) in _AS_THEY_ARE:
        return value
    if isinstance(value, Decimal):
        return number(value)
    if isinstance(value, Range):
        return {"min": _plain(value.min), "max": _plain(value.max)}
    if isinstance(value, Mapping):
        return {name: _plain(inner) for name, inner in value.items()}
    if isinstance(value, (tuple, list)):
        return [_plain(inner) for inner in value]
    return value


_AS_THEY_ARE = frozenset({float, int, str, bool, type(None)})
