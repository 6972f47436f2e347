"""Multi-start threads: the number of starts from lead and pitch."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.errors import CalloutError
from borewright.core.practice import count, figure

from .thread_as_written import Written

_MOST_STARTS = count("most_starts")
_LEAD_SLACK = figure("lead_slack_share")


def starts_of(written: Written, *, pitch: Decimal | None = None, threads_per_inch: Decimal | None = None) -> int:
    """Number of starts.

    Args:
        written: the callout's fields; ``lead`` in the same unit as ``pitch``.
        pitch: axial distance between neighbouring threads, in the system's unit; or
        threads_per_inch: its inverse.

    Raises:
        CalloutError: the lead is not a whole multiple of the pitch, or contradicts the starts written.
    """
    if written.starts is not None and not 1 <= written.starts <= _MOST_STARTS:
        raise CalloutError("value_out_of_range", f"A thread has 1 to {_MOST_STARTS} starts.", pointer="/starts")
    if written.lead is None:
        return written.starts or 1
    pitch = 1 / threads_per_inch if threads_per_inch is not None else pitch or written.lead
    ratio = written.lead / pitch
    starts = int(ratio.to_integral_value())
    if not 1 <= starts <= _MOST_STARTS or abs(ratio - starts) > _LEAD_SLACK * starts:
        raise CalloutError(
            "thread_lead_invalid",
            f"The lead {written.lead} is not 1 to {_MOST_STARTS} times the pitch {pitch.normalize():f}.",
            pointer="/lead",
        )
    if written.starts not in (None, starts):
        raise CalloutError(
            "thread_lead_invalid",
            f"Lead {written.lead} and pitch {pitch.normalize():f} make {starts} starts, not {written.starts}.",
            pointer="/starts",
        )
    return starts
