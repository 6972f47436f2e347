"""What every reply carries beside its figures: units, assumptions, cautions, sources, tables version, derivation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import cast

from borewright import tables
from borewright.contract.texts import in_units
from borewright.contract.unit_view import Json, UnitView, number
from borewright.core.caches import cached
from borewright.core.model import Caution, Notes, Range, Source, Step, Unit
from borewright.core.model.decision import Decision
from borewright.core.plan import caution_order, rules_version

from .fixed import Fixed
from .pieces import Array, Pieces, in_pieces

_CACHED = 256

#: What holds for every hole, so that no caution has to say it.
NOTICE = (
    "The drawing, the standards it calls up and local codes govern; pressure, lifting and flight hardware need review"
    " by a licensed or authorised person. Guard rotating tools."
)


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
            self._sources = _sources(self.notes.sources, self._prefix)
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


def close(body: Json, parts: Sequence[Part], view: UnitView, *, explain: bool = False) -> Json:
    """Add to ``body`` what every reply carries, joined from its ``parts``; the same remark is made once.

    Args: ``explain`` whether the steps of the parts are shown.
    """
    body["units"] = view.units
    body["notice"] = NOTICE
    body["assumptions"] = _assumptions(view.asked, *(section.notes.assumptions for section in parts)).value
    body["cautions"] = _cautions(view.asked, *(section.notes.cautions for section in parts)).value
    body["sources"] = [row for section in parts for row in section.sources.value]
    body["tables_version"] = tables.version()
    body["rules_version"] = rules_version.version()
    if explain:
        body["derivation"] = [row for section in parts for row in section.steps.value]
    return body


def close_in_pieces(body: Json, parts: Sequence[Part], view: UnitView, *, explain: bool = False) -> Pieces:
    """The same for a reply that is written: ``body`` may hold finished values, the reply comes as JSON in pieces."""
    body["units"] = view.units
    body["notice"] = NOTICE
    body["assumptions"] = _assumptions(view.asked, *(section.notes.assumptions for section in parts))
    body["cautions"] = _cautions(view.asked, *(section.notes.cautions for section in parts))
    body["sources"] = Array([rows for section in parts if (rows := section.sources.rows).json])
    body["tables_version"] = tables.version()
    body["rules_version"] = rules_version.version()
    if explain:
        body["derivation"] = Array([rows for section in parts if (rows := section.steps.rows).json])
    return in_pieces(body)


def review(decisions: Iterable[Decision], view: UnitView) -> list[Json]:
    """What a person must decide, as replies show it."""
    return [{"code": one.code, "text": view.text(one.text), "pointer": one.pointer} for one in decisions]


@cached(_CACHED)
def _sources(named: tuple[Source, ...], prefix: str) -> Fixed[list[Json]]:
    return Fixed([_source(source, prefix) for source in named])


@cached(_CACHED)
def _assumptions(asked: Unit, *said: tuple[str, ...]) -> Fixed[list[str]]:
    return Fixed(list(dict.fromkeys(in_units(text, asked) for texts in said for text in texts)))


@cached(_CACHED)
def _cautions(asked: Unit, *said: tuple[Caution, ...]) -> Fixed[list[Json]]:
    found = caution_order.ordered(caution for cautions in said for caution in cautions)
    return Fixed([{"code": caution.code, "text": in_units(caution.text, asked)} for caution in found])


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
