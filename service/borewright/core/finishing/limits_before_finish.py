"""What a finish means for the tools: the limits they must make, and what the coat does to a size afterwards."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core.caches import OF_THREADS, cached
from borewright.core.model import Allowance, BasicDiameters, Diameters, Thread


def limits_to_make(thread: Thread, allowance: Allowance | None) -> Diameters:
    """Limits of ``thread``, in its unit, that the tools must make with the finish ``allowance``: oversize for hot-dip
    zinc, before the finish otherwise, the thread's own if masked.

    Source: the thread's standard, or that of its finish.
    """
    if allowance is None or not allowance.feasible:
        return thread.internal
    return allowance.before_finish if allowance.overtap is None else allowance.overtap.limits


def coat_to_come(allowance: Allowance | None) -> Diameters | None:
    """How the coat of ``allowance`` will move each diameter before the limits judge it, in the thread's unit; None
    where no coat reaches the thread or its limits hold before.

    Source: that of the finish.
    """
    if allowance is None or not allowance.feasible or allowance.overtap is not None:
        return None
    is_to_come = allowance.finish.applied == "before_finish" and allowance.dimensions_apply == "after_finish"
    if not is_to_come:
        return None
    return allowance.change if allowance.measured_change is None else allowance.measured_change


def is_impossible(allowance: Allowance | None) -> bool:
    """Whether the finish of ``allowance`` cannot be put on the part's material at all.

    Source: finish_substrates.csv.
    """
    if allowance is None:
        return False
    return any(one.code == "finish_substrate_impossible" for one in allowance.notes.decisions)


def moves(allowance: Allowance) -> bool:
    """Whether the finish of ``allowance`` changes any diameter of the thread.

    Source: that of the finish.
    """
    change = allowance.change
    ranges = (change.major_diameter, change.pitch_diameter, change.minor_diameter)
    return any(end for one in ranges for end in (one.min, one.max))


def as_cut(thread: Thread, allowance: Allowance | None) -> Thread:
    """``thread`` with the basic diameters that the tap cuts: larger by the overtap of ``allowance`` after hot-dip zinc.

    Limits and names stay those of the thread; one object a thread and overtap, as threads are compared by identity.

    Source: ASTM A563; ISO 965-5:1998.
    """
    if allowance is None or allowance.overtap is None or _is_own_zone(thread):
        return thread
    return _larger(thread, allowance.overtap.amount)


def _is_own_zone(thread: Thread) -> bool:
    """Whether the thread's class is itself the oversize one (6AZ, 6AX)."""
    return (thread.thread_class or "").endswith(("AZ", "AX"))


@cached(OF_THREADS)
def _larger(thread: Thread, amount: Decimal) -> Thread:
    basic = thread.basic
    larger = BasicDiameters(basic.major_diameter + amount, basic.pitch_diameter + amount, basic.minor_diameter + amount)
    return replace(thread, basic=larger)
