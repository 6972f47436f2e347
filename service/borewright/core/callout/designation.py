"""A callout written out again, in the form the standard of its system prints."""

from __future__ import annotations

from ..model import ThreadCallout
from ..rounding import plain


def designation(callout: ThreadCallout) -> str:
    """Text that reads back to the same thread.

    Args:
        callout: a callout as the readers return it.

    Source: ASME B1.1 section 6; ISO 965-1 "Designation"; ASME B1.13M.
    """
    return _WRITERS[callout.system](callout)


def _hand(callout: ThreadCallout) -> str:
    return "-LH" if callout.hand == "left" else ""


def _class(callout: ThreadCallout) -> str:
    return f"-{callout.thread_class}" if callout.thread_class else ""


def _unified(callout: ThreadCallout) -> str:
    tpi = callout.threads_per_inch
    assert tpi is not None
    size = f"{callout.size}-{plain(tpi)} {(callout.series or '').lstrip('0123456789')}"
    starts = f" ({callout.starts} STARTS)" if callout.starts > 1 else ""
    return f"{size}{_class(callout)}{_hand(callout)}{starts}"


def _metric(callout: ThreadCallout) -> str:
    pitch = callout.pitch
    assert pitch is not None
    letter = "MJ" if callout.system == "metric_j" else "M"
    advance = f"Ph{plain(pitch * callout.starts)}P{plain(pitch)}" if callout.starts > 1 else plain(pitch)
    special = "-SPL" if callout.series == "special" else ""
    group = f"-{callout.engagement_group}" if callout.engagement_group else ""
    return f"{letter}{callout.size}x{advance}{_class(callout)}{group}{special}{_hand(callout)}"


_WRITERS = {
    "unified": _unified,
    "unified_j": _unified,
    "iso_metric": _metric,
    "metric_j": _metric,
}
