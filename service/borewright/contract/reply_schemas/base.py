"""What the schemas of all replies are made of, and what every computed reply carries."""

from __future__ import annotations

from typing import Any

from borewright.contract.fields.composites import Array, ReplySchema
from borewright.contract.fields.strict import Boolean, Choice, JsonSchema, Number, StrictField, Whole

STATUSES = ("published", "computed", "common_practice", "from_memory")
LENGTH, STRESS = "in `units.length`", "in `units.stress`"


class Words(StrictField):
    """A text of a reply; its list of words may grow."""

    takes = ("string",)

    def json_schema(self, converter: Any) -> JsonSchema:
        """A string."""
        return {"type": "string"}


class Free(StrictField):
    """An object whose fields differ from case to case."""

    takes = ("object",)

    def json_schema(self, converter: Any) -> JsonSchema:
        """An object."""
        return {"type": "object"}


class Anything(StrictField):
    """A value of any type."""

    takes = ("boolean", "string", "number", "object", "array", "null")

    def json_schema(self, converter: Any) -> JsonSchema:
        """Any JSON value."""
        return {}


class Section(StrictField):
    """An object of a reply with its own schema."""

    takes = ("object",)

    def __init__(self, description: str, schema: type[ReplySchema], **given: Any) -> None:
        super().__init__(description, **given)
        self.schema_class = schema

    def json_schema(self, converter: Any) -> JsonSchema:
        """A reference to the schema of the object."""
        return dict(converter.resolve_nested_schema(self.schema_class))


def text(description: str, *, nullable: bool = False, **given: Any) -> Words:
    """A text that is always present."""
    return Words(description, required=True, nullable=nullable, **given)


def flag(description: str, *, nullable: bool = False) -> Boolean:
    """A truth value that is always present."""
    return Boolean(description, required=True, nullable=nullable)


def figure(description: str, unit: str, *, nullable: bool = False, whole: bool = False) -> Number:
    """A number that is always present, its unit in the description."""
    kind = Whole if whole else Number
    return kind(f"{description}, {unit}.", required=True, nullable=nullable)


def length(description: str, *, nullable: bool = False) -> Number:
    """A length that is always present."""
    return figure(description, LENGTH, nullable=nullable)


def section(description: str, schema: type[ReplySchema], *, nullable: bool = False) -> Section:
    """An object that is always present."""
    return Section(description, schema, required=True, nullable=nullable)


def rows(description: str, schema: type[ReplySchema]) -> Array:
    """A list of objects that is always present."""
    return Array(description, Section("One of them.", schema, required=True), required=True)


def texts(description: str) -> Array:
    """A list of texts that is always present."""
    return Array(description, text("One of them."), required=True)


class Limits(ReplySchema):
    """Two limits of a length."""

    min = length("Lower limit, null where the standard sets none", nullable=True)
    max = length("Upper limit, null where the standard sets none", nullable=True)


def limits(description: str, *, nullable: bool = False) -> Section:
    """Two limits of a length, always present."""
    return section(f"{description}, {LENGTH}.", Limits, nullable=nullable)


class Span(ReplySchema):
    """A range of a number without unit."""

    min = Number("Lower end, a ratio or count.", required=True, nullable=True)
    max = Number("Upper end, a ratio or count.", required=True, nullable=True)


class DiameterLimits(ReplySchema):
    """Limits of the three diameters of a thread."""

    major_diameter = limits("Major diameter")
    pitch_diameter = limits("Pitch diameter")
    minor_diameter = limits("Minor diameter")


class Units(ReplySchema):
    """Units of the numbers in this reply. Angles are degrees, spindle speeds rev/min, times seconds."""

    length = text("Unit of lengths: in or mm. Areas are in its square.")
    cutting_speed = text("Unit of cutting speeds: ft/min or m/min.")
    feed = text("Unit of feeds: in/rev or mm/rev.")
    torque = text("Unit of torques: lbf*in or N*m.")
    power = text("Unit of powers: hp or kW.")
    force = text("Unit of forces: lbf or N.")
    stress = text("Unit of stresses: psi or MPa.")


class CautionItem(ReplySchema):
    """Something that can cost money or hurt people."""

    code = text("Stable code.")
    text = text("What to look out for, in plain words.")


class DecisionItem(ReplySchema):
    """What a person must decide before the hole goes to the shop."""

    code = text("Stable code.")
    pointer = text("JSON pointer of the field of the request it hangs on; empty for the whole hole.")
    text = text("The question and the choices, in plain words.")


class SourceItem(ReplySchema):
    """Where a figure comes from."""

    field = Words(
        "Dotted name of the field this source speaks for, in this reply. Names under `thread.` or `finish.` that this"
        " reply does not show are those of the replies of /v1/threads/resolve and /v1/allowances.",
        required=True,
        data_key="for",
    )
    document = text("Document.")
    edition = text("Edition or year; empty where it is not known.")
    locator = text("Clause, table or page.")
    status = Choice(
        "published: seen in the document. computed: by the document's formula. common_practice: of the trade, without"
        " a document. from_memory: not seen, check before relying on it.",
        STATUSES,
        required=True,
    )


class StepItem(ReplySchema):
    """One step of a derivation; its figures are in its own `unit`, that of the standard, not of `unit_system`."""

    quantity = text("Dotted name of the figure.")
    formula = text("Arithmetic over the names in `inputs`, or `table` where the value was read from one.")
    inputs = Free("Values of the names in the formula, in the unit of the step.", required=True)
    value = Anything("The figure, in `unit`.", required=True, nullable=True)
    unit = text("Unit of the figure; empty for a ratio or count.")
    source = text("Document and clause or table of the formula.")


class Reply(ReplySchema):
    """What every computed reply carries."""

    units = section("Units of the numbers in this reply.", Units)
    notice = text("What governs every hole, whatever this reply says.")
    assumptions = texts("Everything that was not asked for in words and was taken by default.")
    cautions = rows("What can cost money or hurt people.", CautionItem)
    sources = rows("Where the figures come from.", SourceItem)
    tables_version = text("Fingerprint of the tables: the same request and tables_version give the same bytes.")
    rules_version = text("Fingerprint of the rules and of the tables that they read; it enters `spec_id`.")
    derivation = Array(
        "The steps by which every figure can be redone on paper; present when `explain` was asked for.",
        Section("One step.", StepItem, required=True),
        nullable=False,
    )
