"""The rows of what accompanies the figures of a reply: cautions, decisions, sources, steps of a derivation."""

from __future__ import annotations

from typing import Any, NamedTuple

from borewright.contract.unit_view import plain
from borewright.core.model import STATUSES, Source, Step

from .reply_fields import choice, text, word
from .schema import ReplyField, SectionSchema


class CautionItem(SectionSchema):
    """Something that can cost money or hurt people."""

    code = word("Stable code.")
    text = text("What to look out for, in plain words.")


class DecisionItem(SectionSchema):
    """What a person must decide before the hole goes to the shop."""

    code = word("Stable code.")
    text = text("The question and the choices, in plain words.")
    pointer = word("JSON pointer of the field of the request it hangs on; empty for the whole hole.")


class PlacedSource(NamedTuple):
    """A source, and the dotted place in the reply of the section that it belongs to (``drill.``)."""

    prefix: str
    source: Source


class SourceItem(SectionSchema):
    """Where a figure comes from."""

    field = word(
        "Dotted name of the field this source speaks for, in this reply. Names under `thread.` or `finish.` that this"
        " reply does not show are those of the replies of /v1/threads/resolve and /v1/allowances.",
        data_key="for",
        source=lambda placed: placed.prefix + placed.source.field,
    )
    document = word("Document.", source="source.document")
    edition = word("Edition or year; empty where it is not known.", source="source.edition")
    locator = word("Clause, table or page.", source="source.locator")
    status = choice(
        " ".join(f"{status}: {meaning}." for status, meaning in STATUSES.items()),
        tuple(STATUSES),
        source="source.status",
    )


class PlacedStep(NamedTuple):
    """A step, and the dotted place in the reply of the section that it belongs to."""

    prefix: str
    step: Step


def _as_made(description: str, json: dict[str, Any], **given: Any) -> ReplyField:
    """Figures as they were made: they stay in the step's own unit, so that it can be redone."""
    return ReplyField(description, json, show=lambda _: plain, **given)


class StepItem(SectionSchema):
    """One step of a derivation; its figures are in its own `unit`, that of the standard, not of `unit_system`."""

    quantity = word("Dotted name of the figure.", source=lambda placed: placed.prefix + placed.step.quantity)
    formula = word(
        "Arithmetic over the names in `inputs`, or `table` where the value was read from one.", source="step.formula"
    )
    inputs = _as_made(
        "Values of the names in the formula, in the unit of the step.", {"type": "object"}, source="step.inputs"
    )
    value = _as_made("The figure, in `unit`.", {}, source="step.value", nullable=True)
    unit = word("Unit of the figure; empty for a ratio or count.", source="step.unit")
    source = word("Document and clause or table of the formula.", source="step.source")
