"""What every reply carries beside its figures: units, assumptions, cautions, sources, tables version, derivation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

import orjson

from ... import tables
from ...core.model import Caution, Notes, Range, Source, Step
from ..unit_view import Json, UnitView, number
from .fixed import Fixed


@dataclass(frozen=True, slots=True)
class Part:
    """A finished section of a reply with its notes, their field names under the section's prefix."""

    fixed: Fixed[Json]
    assumptions: tuple[str, ...]
    cautions: tuple[Caution, ...]
    sources: Fixed[list[Json]]

    @property
    def body(self) -> Json:
        """The section itself."""
        return self.fixed.value


def part(body: Json, notes: Notes, prefix: str = "") -> Part:
    """A section of a reply; ``prefix`` is its dotted place in a larger reply (``drill.``)."""
    sources = [_source(source, prefix) for source in notes.sources]
    return Part(Fixed(body), notes.assumptions, notes.cautions, Fixed(sources))


def close(
    body: Json,
    parts: Sequence[Part],
    view: UnitView,
    derivation: Iterable[tuple[str, Notes]] | None,
    *,
    written: bool = False,
) -> Json:
    """Add to ``body`` what every reply carries, joined from its ``parts``; the same remark is made once.

    Args:
        derivation: the notes whose steps are shown, each with its prefix; None where they were not asked for.
        written: whether the reply is written next, so that texts may stand for values.
    """
    body["units"] = view.units
    body["assumptions"] = list(dict.fromkeys(text for section in parts for text in section.assumptions))
    cautions = dict.fromkeys(caution for section in parts for caution in section.cautions)
    body["cautions"] = [{"code": caution.code, "text": caution.text} for caution in cautions]
    body["sources"] = _joined(parts) if written else [source for section in parts for source in section.sources.value]
    body["tables_version"] = tables.version()
    if derivation is not None:
        body["derivation"] = [_step(step, prefix) for prefix, notes in derivation for step in notes.steps]
    return body


def _joined(parts: Sequence[Part]) -> orjson.Fragment:
    """The sources of all parts as one JSON array, made of their texts."""
    return orjson.Fragment(b"[%s]" % b",".join(part.sources.text[1:-1] for part in parts if part.sources.value))


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
    if isinstance(value, Decimal):
        return number(value)
    if isinstance(value, Range):
        return {"min": _plain(value.min), "max": _plain(value.max)}
    if isinstance(value, Mapping):
        return {name: _plain(inner) for name, inner in value.items()}
    if isinstance(value, (tuple, list)):
        return [_plain(inner) for inner in value]
    return value
