"""The operations of a hole, and its card at the machine."""

from __future__ import annotations

from collections.abc import Iterable

from borewright.contract.unit_view import UnitView
from borewright.core.caches import cached
from borewright.core.plan.operation import Line, Operation

from .reply_fields import NUMBER, free, text, whole, word
from .schema import ReplyField, SectionSchema, writer
from .section_text import SharedText, shared

_CACHED = 256


def _three_digits(time_s: float) -> float:
    return float(f"{time_s:.3g}")


class OperationItem(SectionSchema):
    """One line of a routing."""

    sequence = whole("Number of the line", "by tens", "number")
    operation = word(
        "spot_drill, pilot_drill, drill, ream, bore, counterbore, countersink, turn_over, tap, thread_mill,"
        " single_point_thread, harden,"
        " finish, mask, inspect ...",
        source="line.operation",
    )
    tool = free("The tool; lengths in `units.length`, angles in degrees.", source="line.tool")
    parameters = free("What it does; lengths in `units.length`.", source="line.parameters")
    time = ReplyField(
        "Time of the operation, in seconds; present where it is computed.",
        NUMBER,
        show=lambda _: _three_digits,
        source="line.time_s",
        dimension="time",
        present=False,
    )
    text = text("The line as it can be printed, in the units of the reply.", source="line.text")


def operation_texts(
    schema: type[SectionSchema], operations: Iterable[Operation], figures: UnitView
) -> list[SharedText]:
    """The lines of a routing as JSON; equal lines of two routings are one text."""
    return [_line(schema, one.sequence, one.line, figures) for one in operations]


@cached(_CACHED)
def _line(schema: type[SectionSchema], sequence: int, line: Line, figures: UnitView) -> SharedText:
    return shared(writer(schema, figures)(Operation(sequence, line)))


class HeadlineSection(SectionSchema):
    """The hole on a card at the machine: five short texts in the units of the reply."""

    drill = text("Drill, and how deep.")
    tap = text("Tap, or what makes the thread instead.")
    depth = text("Full thread and drilled depth.")
    speed = text("Speeds and feed, or that none are held.")
    gauge = text("What is gauged after tapping.")
