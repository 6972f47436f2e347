"""What a finish means for the tools: the limits they must make, and what the coat does to a size afterwards."""

from __future__ import annotations

from borewright.core.model import Allowance, Diameters, Thread


def limits_to_make(thread: Thread, allowance: Allowance | None) -> Diameters:
    """Limits the tools must make: oversize for hot-dip zinc, before the finish otherwise, the thread's own if masked.

    Source: the thread's standard, or that of its finish.
    """
    if allowance is None or not allowance.feasible:
        return thread.internal
    return allowance.before_finish if allowance.overtap is None else allowance.overtap.limits


def coat_to_come(allowance: Allowance | None) -> Diameters | None:
    """How the coat will move each diameter after the tools have made it, None where no coat reaches the thread.

    Source: that of the finish.
    """
    if allowance is None or not allowance.feasible or allowance.overtap is not None:
        return None
    return allowance.change if allowance.finish.applied == "before_finish" else None
