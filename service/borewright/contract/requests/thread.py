"""The thread of a request: callout text, or an object. It is read once, here."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Object, ObjectSchema, OneOf
from borewright.contract.fields.request_units import RequestUnits
from borewright.contract.fields.strict import CalloutText, Choice, Number, Text, Whole
from borewright.core import callout
from borewright.core.caches import cached
from borewright.core.model import ThreadCallout, Unit
from borewright.core.requests import ThreadFields
from borewright.core.rounding import plain

from .lengths import length

THREAD_EXAMPLES = ("3/8-16 UNC-2B", "M8", "M10x1-6H LH", "#10-24", "1/4-18 NPT")
_CACHED = 512


class _Size(OneOf):
    """A size as text or as a number; the domain takes text."""

    def convert(self, value: str | Decimal, units: RequestUnits) -> str:
        """The size as the trade writes it."""
        return value if isinstance(value, str) else plain(value)


class ThreadObject(ObjectSchema):
    """A thread field by field."""

    makes = ThreadFields

    system = Text(
        "Thread system, e.g. unified, iso_metric, npt, iso_228; `GET /v1/catalog/thread-systems` lists them.",
        longest=40,
        required=True,
        examples=("unified", "iso_metric"),
    )
    size = _Size(
        "Size as the trade writes it: `1/2`, `#10`, `M8` or a bare nominal diameter in the system's own unit.",
        Text("Size as text.", longest=40),
        Number("Nominal diameter in the system's own unit (in or mm).", ranges.LENGTH),
        required=True,
        examples=("1/2", "#10", "M8"),
    )
    threads_per_inch = Number("Threads per inch, a count (inch systems).", ranges.THREADS_PER_INCH)
    pitch = length("Pitch (metric systems).")
    series = Text("Series symbol, e.g. UNC, UNF, UN.", longest=20)
    thread_class = Text("Class of the internal thread, e.g. 2B or 6H.", longest=20, data_key="class")
    hand = Choice("Hand of the thread. Default: right.", ("right", "left"))
    starts = Whole("Number of starts, a count. Default: 1.", ranges.STARTS)
    lead = length("Lead of a multi-start thread: starts times pitch.")


_FIELDS = ThreadObject()


def thread(*, required: bool = True) -> OneOf:
    """The field that names a thread."""
    return OneOf(
        "Thread: callout text as drawings print it, or an object. Text that can mean two threads is refused.",
        CalloutText("Callout as drawings print it."),
        Object("Thread field by field.", ThreadObject),
        required=required,
        examples=THREAD_EXAMPLES,
    )


def settled(given: str | dict[str, Any], unit: Unit | None) -> ThreadCallout:
    """The thread that the field of a request names, as its reader settles it.

    Args: ``unit`` is that of bare lengths of the object, None = the own unit of the standard.

    Raises: BorewrightError.
    """
    if isinstance(given, str):
        return callout.read(given)
    fields: ThreadFields = _FIELDS.convert(given, RequestUnits(unit, None))
    return _read_fields(fields)


@cached(_CACHED)
def _read_fields(fields: ThreadFields) -> ThreadCallout:
    return callout.from_fields(fields)
