"""What tests of whole threads compare: the limits, the words and how well each figure is known."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from borewright.core.errors import BorewrightError, Fault
from borewright.core.model import Diameters, Range, Thread

#: A diameter that no limit is stated of.
OPEN = (None, None)


def ends(limits: Range) -> tuple[str | None, str | None]:
    """Both limits as printed."""
    return tuple(None if end is None else str(end) for end in (limits.min, limits.max))


def limits(member: Diameters) -> tuple[tuple[str | None, str | None], ...]:
    """Limits of major, pitch and minor diameter as printed."""
    return ends(member.major_diameter), ends(member.pitch_diameter), ends(member.minor_diameter)


def basic(thread: Thread) -> tuple[str, ...]:
    """Basic major, pitch and minor diameter as printed."""
    found = thread.basic
    return str(found.major_diameter), str(found.pitch_diameter), str(found.minor_diameter)


def head(thread: Thread) -> tuple[object, ...]:
    """Designation, series, size, class and class of the mate."""
    return thread.designation, thread.series, thread.size, thread.thread_class, thread.mating_class


def form(thread: Thread) -> tuple[object, ...]:
    """Unit, diameter, pitch, threads an inch, lead, starts, angle and taper: figures as text."""
    figures = (thread.nominal_diameter, thread.pitch, thread.threads_per_inch, thread.lead, thread.starts)
    told = (*figures, thread.thread_angle, thread.taper)
    return (thread.unit, *(None if one is None else str(one) for one in told))


def codes(thread: Thread) -> tuple[str, ...]:
    """Codes of its cautions in their order."""
    return tuple(caution.code for caution in thread.notes.cautions)


def text_of(thread: Thread, code: str) -> str:
    """The one caution of a code, with plain blanks."""
    (text,) = (caution.text for caution in thread.notes.cautions if caution.code == code)
    return text.replace("\N{NO-BREAK SPACE}", " ")


def statuses(thread: Thread, start: str = "") -> dict[str, str]:
    """How well each figure is known whose name begins so."""
    return {source.field: source.status for source in thread.notes.sources if source.field.startswith(start)}


def refused(do: Callable[[], object]) -> Fault:
    """The first fault of what must be refused."""
    with pytest.raises(BorewrightError) as error:
        do()
    return error.value.faults[0]
