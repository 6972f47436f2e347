"""A whole reply: its sections, and what every computed reply carries beside its figures."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import Any, NamedTuple

import orjson

from borewright import tables
from borewright.contract.fields.strict import JsonSchema
from borewright.contract.unit_view import UnitView
from borewright.core.caches import cached, cached_apart
from borewright.core.plan import rules_version
from borewright.core.requests import is_long_list

from . import section_notes
from .note_items import CautionItem, SourceItem, StepItem
from .reply_fields import section, word
from .schema import (
    FieldRows,
    NestedSection,
    Placed,
    ReplyField,
    SectionSchema,
    Show,
    fields_writer,
    placed,
    the_record,
    value_of,
    writer,
)
from .section_notes import SectionNotes
from .section_text import members, shared

#: Sections of replies that are kept, and more than there are replies in all unit views.
_CACHED, _NOTES, _STEPS = 512, 64, 64
#: What holds for every hole, so that no caution has to say it.
NOTICE = (
    "The drawing, the standards it calls up and local codes govern; pressure, lifting and flight hardware need review"
    " by a licensed or authorised person. Guard rotating tools."
)


class Units(SectionSchema):
    """Units of the numbers in this reply. Angles are degrees, spindle speeds rev/min, times seconds."""

    length = word("Unit of lengths: in or mm. Areas are in its square.")
    cutting_speed = word("Unit of cutting speeds: ft/min or m/min.")
    feed = word("Unit of feeds: in/rev or mm/rev.")
    torque = word("Unit of torques: lbf*in or N*m.")
    power = word("Unit of powers: hp or kW.")
    force = word("Unit of forces: lbf or N.")
    stress = word("Unit of stresses: psi or MPa.")


class UnitsOfReply(NestedSection):
    """The units of the view, whatever the record."""

    def shown(self, figures: UnitView) -> Show | None:
        """The units of the view."""
        return lambda _: figures.units


class SectionText(NamedTuple):
    """A section that is written, with its notes."""

    json: bytes
    notes: SectionNotes


class WrittenField(ReplyField):
    """A field whose value is written as texts of its own, which other replies may share."""

    def written(self, name: str, figures: UnitView) -> Callable[[Any, list[SectionNotes]], Iterable[bytes]]:
        """What turns a value into texts; it adds the value's notes to those of the reply."""
        raise NotImplementedError


class Part(NestedSection, WrittenField):
    """A section of a reply with notes of its own, whose figures are named under its name.

    Args:
        shared: whether many replies have the same record; its text is then kept.
        noted: False where the notes come with others.
        sources_of: dotted place in the record of a part that many replies have, with the same sources.
    """

    def __init__(
        self,
        description: str,
        schema: type[SectionSchema],
        *,
        shared: bool = False,
        noted: bool = True,
        sources_of: str | None = None,
        **given: Any,
    ) -> None:
        super().__init__(description, schema, **given)
        self.shared, self.noted, self.sources_of = shared, noted, sources_of

    def written(self, name: str, figures: UnitView) -> Callable[[Any, list[SectionNotes]], Iterable[bytes]]:
        """The text of the section."""
        schema, prefix, noted = self.schema_class, f"{name}.", self.noted
        make = shared_section if self.shared else _own_section
        known = None if self.sources_of is None else value_of(self.sources_of)

        def write(record: Any, notes: list[SectionNotes]) -> Iterable[bytes]:
            section = make(schema, record, figures, prefix)
            if known is not None:
                section.notes.sources = _shared_notes(known(record), prefix).sources
            if noted:
                notes.append(section.notes)
            return (section.json,)

        return write


class WrittenRows(FieldRows, WrittenField):
    """A list whose rows are written one by one, or several in a text: ``texts`` makes them for a unit view."""

    def __init__(
        self, description: str, row: ReplyField, texts: Callable[[Any, UnitView], Sequence[bytes]], **given: Any
    ) -> None:
        super().__init__(description, row, **given)
        self.texts = texts

    def written(self, name: str, figures: UnitView) -> Callable[[Any, list[SectionNotes]], Iterable[bytes]]:
        """The rows between brackets."""
        return lambda value, _: _array(self.texts(value, figures))


class WrittenReply(WrittenField):
    """A reply inside another one, by one of several schemas: the value is its texts."""

    def __init__(self, description: str, *schemas: type[SectionSchema], **given: Any) -> None:
        super().__init__(description, {}, **given)
        self.schemas = schemas

    def json_schema(self, converter: Any) -> JsonSchema:
        """References to the schemas, side by side."""
        return {"anyOf": [dict(converter.resolve_nested_schema(schema)) for schema in self.schemas]}

    def written(self, name: str, figures: UnitView) -> Callable[[Any, list[SectionNotes]], Iterable[bytes]]:
        """The texts as they are."""
        return lambda value, _: value


class Closing(NamedTuple):
    """What the end of a reply is written from."""

    notes: Sequence[SectionNotes]
    explain: bool

    @property
    def explained(self) -> Sequence[SectionNotes] | None:
        """The notes whose steps are shown."""
        return self.notes if self.explain else None


class Ending(SectionSchema):
    """What replies of a kind carry after their own fields: it is written from a :class:`Closing`."""


class Reply(Ending):
    """What every computed reply carries."""

    units = UnitsOfReply("Units of the numbers in this reply.", Units, source=the_record)
    notice = word("What governs every hole, whatever this reply says.", source=lambda _: NOTICE)
    assumptions = WrittenRows(
        "Everything that was not asked for in words and was taken by default.",
        word("One of them."),
        section_notes.assumptions,
        source="notes",
    )
    cautions = WrittenRows(
        "What can cost money or hurt people.",
        section("One of them.", CautionItem),
        partial(section_notes.cautions, CautionItem),
        source="notes",
    )
    sources = WrittenRows(
        "Where the figures come from.", section("One of them.", SourceItem), section_notes.sources, source="notes"
    )
    tables_version = word(
        "Fingerprint of the tables: the same request and tables_version give the same bytes.",
        source=lambda _: tables.version(),
    )
    rules_version = word(
        "Fingerprint of the rules and of the tables that they read; it enters `spec_id`.",
        source=lambda _: rules_version.version(),
    )
    derivation = WrittenRows(
        "The steps by which every figure can be redone on paper; present when `explain` was asked for.",
        section("One step.", StepItem),
        section_notes.steps,
        source="explained",
        present=False,
    )


def reply_texts(
    schema: type[Ending],
    record: Any,
    figures: UnitView,
    *,
    before: Iterable[SectionNotes] = (),
    after: Iterable[SectionNotes] = (),
    explain: bool = False,
) -> list[bytes]:
    """The texts of a reply.

    Args: ``before`` and ``after`` are notes that come with those of the sections; ``explain`` whether steps are shown.
    """
    texts: list[bytes] = []
    notes = list(before)
    for write in _steps(schema, figures):
        write(record, texts, notes)
    closing = Closing([*notes, *after], explain)
    for write in _steps(_ending(schema), figures):
        write(closing, texts, notes)
    texts[0] = b"{" + texts[0].removeprefix(b",")
    texts.append(b"}")
    return texts


#: Adds the texts of one field, or of several, to those of a reply, and its notes to the reply's.
_Step = Callable[[Any, list[bytes], list[SectionNotes]], None]


def _ending(schema: type[Ending]) -> type[Ending]:
    return next(base for base in schema.__bases__ if issubclass(base, Ending))


@cached(_STEPS)
def _steps(schema: type[Ending], figures: UnitView) -> Sequence[_Step]:
    """How the fields of a reply are written: those of a section that it continues, then its own."""
    bases = [base for base in schema.__bases__ if issubclass(base, SectionSchema)]
    steps = [_continued(base, schema.inherited_from, figures) for base in bases if not issubclass(base, Ending)]
    known = {id(field) for base in bases for field in base._declared_fields.values()}
    plain: list[Placed] = []
    for one in placed(schema):
        if id(one.field) in known:
            continue
        if not isinstance(one.field, WrittenField):
            plain.append(one)
            continue
        if plain:
            steps.append(_plain(plain, figures))
            plain = []
        steps.append(_written(one, one.field.written(one.name, figures)))
    return [*steps, _plain(plain, figures)] if plain else steps


def _continued(base: type[SectionSchema], place: str | None, figures: UnitView) -> _Step:
    get = the_record if place is None else value_of(place)

    def step(record: Any, texts: list[bytes], notes: list[SectionNotes]) -> None:
        section = shared_section(base, get(record), figures, "")
        texts += (b",", members(section.json))
        notes.append(section.notes)

    return step


def _plain(fields: list[Placed], figures: UnitView) -> _Step:
    write = fields_writer(fields, figures)

    def step(record: Any, texts: list[bytes], _: list[SectionNotes]) -> None:
        texts += (b",", members(orjson.dumps(write(record))))

    return step


def _written(one: Placed, write: Callable[[Any, list[SectionNotes]], Iterable[bytes]]) -> _Step:
    get, start, optional = value_of(one.source), b',"%b":' % one.name.encode(), not one.field.required

    def step(record: Any, texts: list[bytes], notes: list[SectionNotes]) -> None:
        value = get(record)
        if value is not None:
            texts.append(start)
            texts += write(value, notes)
        elif not optional:
            texts.append(start + b"null")

    return step


def _of_crib(record: Any) -> bool:
    """Whether a choice tells of all the tools of a whole crib."""
    return is_long_list(getattr(record, "rejected", None)) or is_long_list(getattr(record, "alternatives", None))


@cached_apart(_CACHED, lambda _schema, record, _figures, _prefix: _of_crib(record))
def shared_section(schema: type[SectionSchema], record: Any, figures: UnitView, prefix: str) -> SectionText:
    """A section that many replies have."""
    return SectionText(shared(writer(schema, figures)(record)), SectionNotes(record.notes, prefix))


@cached_apart(_NOTES, lambda record, _prefix: _of_crib(record))
def _shared_notes(record: Any, prefix: str) -> SectionNotes:
    return SectionNotes(record.notes, prefix)


def _own_section(schema: type[SectionSchema], record: Any, figures: UnitView, prefix: str) -> SectionText:
    return SectionText(orjson.dumps(writer(schema, figures)(record)), SectionNotes(record.notes, prefix))


def _array(rows: Sequence[bytes]) -> Iterator[bytes]:
    yield b"["
    for place, row in enumerate(rows):
        if place:
            yield b","
        yield row
    yield b"]"
