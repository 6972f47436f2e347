"""The kinds of fields that replies have: what a reader is told of each, and how its value is shown."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from borewright.contract.unit_view import number, significant

from .schema import FieldRows, NestedSection, ReplyField, SectionSchema, SharedRows

STRING, NUMBER, INTEGER, OBJECT = {"type": "string"}, {"type": "number"}, {"type": "integer"}, {"type": "object"}
#: Units of the reply by the dimension of a figure that the domain holds in N*m, N, MPa, kW or m/min.
_PHYSICAL = ("cutting_speed", "torque", "power", "force", "stress")


def word(description: str, **given: Any) -> ReplyField:
    """A text that is shown as it is: a name, a code, a word."""
    return ReplyField(description, STRING, **given)


def text(description: str, **given: Any) -> ReplyField:
    """A text whose quantities are shown in the units of the reply."""
    return ReplyField(description, STRING, show=lambda figures: figures.text, **given)


def choice(description: str, words: Sequence[str], **given: Any) -> ReplyField:
    """A word of a closed list."""
    return ReplyField(description, {"type": "string", "enum": list(words)}, **given)


def flag(description: str, **given: Any) -> ReplyField:
    """A truth value."""
    return ReplyField(description, {"type": "boolean"}, **given)


def length(description: str, unit: str = "in `units.length`", **given: Any) -> ReplyField:
    """A length that the record holds as a decimal in the thread's unit."""
    description = f"{description}, {unit}."
    return ReplyField(description, NUMBER, show=lambda figures: figures.length, dimension="length", **given)


def length_mm(description: str, *, dimension: str = "length", **given: Any) -> ReplyField:
    """A length, or a feed, of the cutting data: the record holds it as a float in millimetres."""
    description = f"{description}, in `units.{dimension}`."
    return ReplyField(description, NUMBER, show=lambda figures: figures.millimetres, dimension=dimension, **given)


def area(description: str, **given: Any) -> ReplyField:
    """An area that the record holds as a decimal in the square of the thread's unit."""
    description = f"{description}, in the square of `units.length`."
    return ReplyField(description, NUMBER, show=lambda figures: figures.area, dimension="area", **given)


def physical(description: str, dimension: str, **given: Any) -> ReplyField:
    """A cutting speed, torque, power, force or stress that the record holds in m/min, N*m, kW, N, MPa."""
    assert dimension in _PHYSICAL
    description = f"{description}, in `units.{dimension}`."
    return ReplyField(
        description, NUMBER, show=lambda figures: figures.physical(dimension), dimension=dimension, **given
    )


def exact(description: str, unit: str, dimension: str, **given: Any) -> ReplyField:
    """A figure that is the same in every unit view, with all its digits; ``unit`` is told in the description."""
    return ReplyField(f"{description}, {unit}.", NUMBER, show=lambda _: number, dimension=dimension, **given)


def angle(description: str, **given: Any) -> ReplyField:
    """An angle in degrees."""
    return exact(description, "in degrees", "angle", **given)


def percent(description: str, **given: Any) -> ReplyField:
    """A percent of thread."""
    return exact(description, "percent on `percent_basis`", "percent", **given)


def rounded(description: str, unit: str, dimension: str, **given: Any) -> ReplyField:
    """A computed figure that is the same in every unit view, to four significant digits."""
    return ReplyField(f"{description}, {unit}.", NUMBER, show=lambda _: significant, dimension=dimension, **given)


def ratio(description: str, **given: Any) -> ReplyField:
    """A ratio."""
    return rounded(description, "a ratio", "ratio", **given)


def chance(description: str, **given: Any) -> ReplyField:
    """A chance from 0 to 1."""
    return rounded(description, "from 0 to 1", "chance", **given)


def seconds(description: str, **given: Any) -> ReplyField:
    """A time in seconds."""
    return rounded(description, "in seconds", "time", **given)


def whole(description: str, unit: str, dimension: str, **given: Any) -> ReplyField:
    """A whole number."""
    return ReplyField(f"{description}, {unit}.", INTEGER, dimension=dimension, **given)


def count(description: str, unit: str = "a count", **given: Any) -> ReplyField:
    """A count."""
    return whole(description, unit, "count", **given)


def free(description: str, **given: Any) -> ReplyField:
    """An object whose fields differ from case to case; its decimals are lengths in the thread's unit."""
    return ReplyField(description, OBJECT, show=lambda figures: figures.mapping, **given)


def section(description: str, schema: type[SectionSchema], **given: Any) -> NestedSection:
    """An object with its own schema."""
    return NestedSection(description, schema, **given)


def rows(description: str, schema: type[SectionSchema], *, row: str = "One of them.", **given: Any) -> FieldRows:
    """A list of objects; ``row`` says what one is."""
    return FieldRows(description, NestedSection(row, schema), **given)


def shared_rows(description: str, schema: type[SectionSchema], **given: Any) -> SharedRows:
    """A list of objects that several choices share."""
    return SharedRows(description, NestedSection("One of them.", schema), **given)


def words(description: str, **given: Any) -> FieldRows:
    """A list of texts that are shown as they are."""
    return FieldRows(description, word("One of them."), **given)


def texts(description: str, **given: Any) -> FieldRows:
    """A list of texts whose quantities are shown in the units of the reply."""
    return FieldRows(description, text("One of them."), **given)


class Limits(SectionSchema):
    """Two limits of a length."""

    min = length("Lower limit, null where the standard sets none", nullable=True)
    max = length("Upper limit, null where the standard sets none", nullable=True)


class Span(SectionSchema):
    """A range of a number without unit."""

    min = ReplyField("Lower end, a ratio or count.", NUMBER, show=lambda _: number, dimension="ratio", nullable=True)
    max = ReplyField("Upper end, a ratio or count.", NUMBER, show=lambda _: number, dimension="ratio", nullable=True)


def limits(description: str, **given: Any) -> NestedSection:
    """Two limits of a length."""
    return section(f"{description}, in `units.length`.", Limits, **given)


class DiameterLimits(SectionSchema):
    """Limits of the three diameters of a thread."""

    major_diameter = limits("Major diameter")
    pitch_diameter = limits("Pitch diameter")
    minor_diameter = limits("Minor diameter")
