"""The limits of the other systems that hold the same limits of a thread, so that any shop finds its tap."""

from __future__ import annotations

from borewright.core.caches import OF_THREADS, cached
from borewright.core.model import Range, TapLimit, Thread
from borewright.core.requests import TapLimits

from . import fit, limits
from .availability import Method, stocked_limits
from .limit_choice import most_accepted
from .tap_candidates import Judge, Weighed


@cached(OF_THREADS)
def equivalents(
    thread: Thread, window: Range, *, method: Method, system: TapLimits | None, judge: Judge | None
) -> tuple[TapLimit, ...]:
    """The stocked limits for ``method`` of every other system that fit a window, best first; of a system without one
    the best other.

    Args: ``window`` pitch diameter to be made, in the thread's unit; ``system`` the reply is told in; ``judge`` of
        their chances, None = the order is that of their margins.
    Source: as :func:`limits.listed` and :func:`availability.stocked_limits`.
    """
    used = limits.system_for(thread, system)
    found: list[TapLimit] = []
    for other in limits.systems_for(thread):
        if other != used:
            found.extend(_of(thread, window, other, method=method, judge=judge))
    return tuple(found)


def _of(
    thread: Thread, window: Range, system: TapLimits, *, method: Method, judge: Judge | None
) -> tuple[TapLimit, ...]:
    oversize = fit.expected_oversize(thread)
    low, high = window.min, window.max
    if low is None or high is None or oversize is None:
        return ()
    amount = fit.cut_amount(thread, method, oversize, None if judge is None else judge.measured)
    weighed = (
        fit.weigh(candidate, low=low, high=high, window=window, oversize=amount, judge=judge)
        for candidate in limits.limits_of_tables(thread, system)
    )
    fitting: list[Weighed] = sorted((one for one in weighed if one.margin >= 0), key=most_accepted)
    stocked = stocked_limits(thread, method)
    listed = [one for one in fitting if one.candidate.limit.label in stocked]
    return tuple(one.candidate.limit for one in (listed or fitting[:1]))


__all__ = ["equivalents"]
