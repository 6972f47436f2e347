"""The notes of the sections of a reply: sources and steps under the section's place, remarks once a reply."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import orjson

from borewright.contract.texts import in_units
from borewright.contract.unit_view import UnitView, view
from borewright.core.caches import cached
from borewright.core.model import Caution, Notes, Source, Step, Unit
from borewright.core.plan import caution_order

from .note_items import PlacedSource, PlacedStep, SourceItem, StepItem
from .schema import SectionSchema, writer
from .section_text import SharedText, members, shared

_CACHED = 256


class SectionNotes:
    """The notes of a section whose dotted place in the reply is ``prefix`` (``drill.``).

    The texts of its sources and steps are made when they are first asked for, and kept with the section.
    """

    __slots__ = ("_sources", "_steps", "notes", "prefix")

    def __init__(self, notes: Notes, prefix: str) -> None:
        self.notes, self.prefix = notes, prefix
        self._sources: SharedText | None = None
        self._steps: bytes | None = None

    @property
    def sources(self) -> SharedText:
        """Where its figures come from, row after row."""
        if self._sources is None:
            self._sources = _sources(self.notes.sources, self.prefix)
        return self._sources

    @sources.setter
    def sources(self, text: SharedText) -> None:
        """Take them from a part that has the same."""
        self._sources = text

    @property
    def steps(self) -> bytes:
        """How its figures were worked out, row after row."""
        if self._steps is None:
            self._steps = _steps(self.notes.steps, self.prefix)
        return self._steps


def assumptions(sections: Iterable[SectionNotes], figures: UnitView) -> Sequence[bytes]:
    """The assumptions of all sections, each once."""
    return _present(_assumptions(figures.asked, *(section.notes.assumptions for section in sections)))


def cautions(schema: type[SectionSchema], sections: Iterable[SectionNotes], figures: UnitView) -> Sequence[bytes]:
    """The cautions of all sections, each once, what hurts people first, each by a schema."""
    return _present(_cautions(schema, figures, *(section.notes.cautions for section in sections)))


def sources(sections: Iterable[SectionNotes], figures: UnitView) -> Sequence[bytes]:
    """The sources of all sections."""
    return _present(*(section.sources for section in sections))


def steps(sections: Iterable[SectionNotes], figures: UnitView) -> Sequence[bytes]:
    """The steps of all sections."""
    return _present(*(section.steps for section in sections))


def _present(*texts: bytes) -> Sequence[bytes]:
    return [text for text in texts if text]


@cached(_CACHED)
def _assumptions(asked: Unit, *stated: tuple[str, ...]) -> bytes:
    return members(shared(list(dict.fromkeys(in_units(text, asked) for texts in stated for text in texts))))


@cached(_CACHED)
def _cautions(schema: type[SectionSchema], figures: UnitView, *stated: tuple[Caution, ...]) -> bytes:
    write = writer(schema, figures)
    found = caution_order.ordered(caution for cautions in stated for caution in cautions)
    return members(shared([write(caution) for caution in found]))


@cached(_CACHED)
def _sources(named: tuple[Source, ...], prefix: str) -> SharedText:
    write = writer(SourceItem, _AS_MADE)
    return SharedText(members(shared([write(PlacedSource(prefix, source)) for source in named])))


def _steps(made: Iterable[Step], prefix: str) -> bytes:
    write = writer(StepItem, _AS_MADE)
    return members(orjson.dumps([write(PlacedStep(prefix, step)) for step in made]))


#: Sources and steps are the same in every unit view.
_AS_MADE = view("in", "in")
