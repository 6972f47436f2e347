"""Taper pipe threads in the shop: their size is how deep the tap runs, their gauge a taper plug that stops at the face.

Words of the trade: the tap is run *to its gauge line* (the plane that is flush with the face when the thread is at
size); a coat that closes the thread is met by running it some turns *past* that line.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from borewright.core.model import Range, Tap, Thread
from borewright.core.quantity_text import length
from borewright.core.rounding import half_even, plain
from borewright.core.standards.systems import traits

_TURN_PLACES = 2


def pipe_length(thread: Thread, name: str) -> Decimal:
    """The length ``name`` of the ``pipe`` object of ``thread``, in its unit.

    Source: the thread's standard.
    """
    value = thread.extra["pipe"][name]
    assert isinstance(value, Decimal)
    return value


def useful_thread(thread: Thread, *, kind: Literal["blind", "through"]) -> Decimal:
    """Full thread that the standard asks of an internal thread, in its unit: L1 + L3; of Rc by where the thread ends.

    Args: ``kind`` of hole, blind or through.
    Source: ANSI/ASME B1.20.1 (L1 + L3); ISO 7-1 as JIS B 0203 prints its useful lengths.
    """
    with_relief = kind == "through" and traits(thread).taper_pipe == "iso"
    return pipe_length(thread, "full_thread_depth_with_relief" if with_relief else "full_thread_depth")


def least_thread(thread: Thread) -> Decimal:
    """Thread of ``thread`` in its unit below which the joint does not come up tight: L1, of Rc the useful thread that
    ends in a relief.

    Source: as of :func:`useful_thread`.
    """
    name = "full_thread_depth_with_relief" if traits(thread).taper_pipe == "iso" else "handtight_engagement"
    return pipe_length(thread, name)


def past_gauge_line(thread: Thread, to_make: Range) -> Decimal:
    """How far the tap runs past its gauge line to make a pitch diameter ``to_make``, in the thread's unit; 0 when bare.

    Source: taper of the thread, on the pitch diameter.
    """
    own = thread.internal.pitch_diameter
    if to_make == own or thread.taper is None:
        return Decimal(0)
    return (_middle(to_make) - _middle(own)) / thread.taper


def turns(thread: Thread, distance: Decimal) -> Decimal:
    """A ``distance`` along the axis, in the unit of ``thread``, in its turns, to two decimals.

    Source: definition of the lead.
    """
    return half_even(distance / thread.lead, _TURN_PLACES)


def taper_gauged(thread: Thread) -> bool:
    """Whether a taper plug judges the thread: every taper thread, and parallel ones that take a taper thread.

    Source: the thread's standard.
    """
    return thread.extra.get("pipe", {}).get("gauge_form") == "taper_plug"


def gauge_words(thread: Thread, pitch_diameter: Range) -> str:
    """How the thread is judged by its taper plug, with where the plug must stand before a finish.

    Args: ``pitch_diameter`` limits that hold now, at the face, in the thread's unit.
    Source: the thread's standard; taper 1:16.
    """
    gauge = str(thread.extra["pipe"]["gauge"])
    own = thread.internal.pitch_diameter
    if pitch_diameter == own or thread.taper is None:
        return gauge
    deeper = (_middle(pitch_diameter) - _middle(own)) / thread.taper
    either_way = (_end(pitch_diameter.max) - _end(pitch_diameter.min)) / 2 / thread.taper
    side = "deeper" if deeper > 0 else "less deep"
    moved = f"{plain(turns(thread, abs(deeper)))} turns ({length(abs(deeper), thread.unit, 3)}) {side}"
    within = f"within {plain(turns(thread, either_way))} turns either way"
    return f"{gauge.split(',')[0]}, {moved} than for the finished thread, {within}"


def travel_words(thread: Thread, travel: Decimal, *, to_make: Range) -> str:
    """How deep the tap runs, for its operation and the card.

    Args: ``travel`` of the tap's tip; ``to_make`` the pitch diameter at the face; both in the thread's unit.
    Source: words of the trade.
    """
    past = past_gauge_line(thread, to_make)
    line = "to the gauge line"
    if turns(thread, past):
        side = "past" if past > 0 else "short of"
        line = f"{plain(turns(thread, abs(past)))} turns {side} the gauge line"
    tip = length(travel, thread.unit, 3 if thread.unit == "in" else 2)
    return f"{line}, tip {tip} past the face"


def style_words(tap: Tap) -> str:
    """What a taper pipe tap is called.

    Source: words of the trade.
    """
    return "interrupted-thread taper pipe tap" if tap.style == "interrupted" else "taper pipe tap"


def tap_words(thread: Thread, tap: Tap, travel: Decimal, *, to_make: Range) -> str:
    """Style, chamfer and depth of a taper pipe ``tap``; its chamfer has none of the names of a straight tap's.

    Args: ``thread``, ``travel`` and ``to_make`` as of :func:`travel_words`, in the thread's unit.
    Source: words of the trade.
    """
    entry = tap.chamfer
    chamfer = f"chamfer of {plain(entry.threads_min)} to {plain(entry.threads_max)} threads"
    turned = plain(half_even(travel / thread.lead, 1))
    return (
        f"{style_words(tap)}, {chamfer}, {travel_words(thread, travel, to_make=to_make)} ({turned} turns at its lead)"
    )


def tap_turns(thread: Thread, travel: Decimal, *, to_make: Range) -> dict[str, object]:
    """Turns of a taper tap's travel and past its gauge line, for the parameters of its operation; else nothing.

    Args: ``thread``, ``travel`` and ``to_make`` as of :func:`travel_words`, in the thread's unit.
    Source: lead of the thread.
    """
    if thread.taper is None:
        return {}
    distances = {"turns": travel, "turns_past_gauge_line": past_gauge_line(thread, to_make)}
    return {name: float(turns(thread, distance)) for name, distance in distances.items()}


def _middle(limits: Range) -> Decimal:
    return (_end(limits.min) + _end(limits.max)) / 2


def _end(limit: Decimal | None) -> Decimal:
    assert limit is not None  # the pitch diameter of a taper thread has two limits
    return limit
