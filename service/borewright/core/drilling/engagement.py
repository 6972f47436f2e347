"""Lengths of engagement between which the choice of a drill does not change.

Every rule on drills looks at the engagement in steps, so all lengths between two steps share one choice.
"""

from __future__ import annotations

from bisect import bisect_left
from decimal import Decimal

from borewright.core.caches import cached
from borewright.core.model import Thread

from .hole_limits import RANGES
from .practice import LONG, SHORT

_STEPS = (Decimal(0), *sorted({SHORT, LONG, *(reach.to for reach in RANGES)}))


def like(thread: Thread, engagement: Decimal) -> Decimal:
    """An engagement that asks for the same drill: the same one for all that lie between two steps.

    Args: ``engagement`` in the thread's unit, above zero. Returns: in the same unit.
    Source: steps of FED-STD-H28/2B (1991) 30.1 and of common practice.
    """
    steps = _steps(thread)
    above = bisect_left(steps, engagement)
    if above == len(steps):
        return 2 * steps[-1]
    return engagement if steps[above] == engagement else (steps[above - 1] + steps[above]) / 2


@cached(4096)
def _steps(thread: Thread) -> tuple[Decimal, ...]:
    return tuple(step * thread.nominal_diameter for step in _STEPS)
