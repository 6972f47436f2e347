"""Taps in the crib: each entry, a limit or a full shank marking, weighed for the thread."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from borewright.core.errors import BorewrightError, TapError
from borewright.core.model import Range, RejectedTap, Thread
from borewright.core.requests import TapLimits

from . import fit, limits
from .limit_choice import Picks, misfit, most_accepted
from .tap_candidates import Candidate, ChamferRoom, TapMarking, Weighed

_LABEL_SHAPE = re.compile(r"[A-Za-z]{1,3}[ -]?[0-9]{1,4}")
_SHOWN = 60
_SYSTEM_SIGNS: dict[TapLimits, re.Pattern[str]] = {
    "metric_d": re.compile(r"(?<![A-Z0-9])G?DU? ?[0-9]{1,2}(?![0-9])"),
    "iso_class": re.compile(r"ISO ?[123](?![0-9])|(?<![A-Z0-9])[4-8][GH](?![A-Z0-9])"),
}


class CribTap(NamedTuple):
    """An entry that can make the thread: as written, weighed where limits apply, and what its shank says."""

    text: str
    weighed: Weighed | None
    shank: TapMarking | None


class Crib(NamedTuple):
    """The crib for one thread: what would do (best first), and what would not."""

    usable: tuple[CribTap, ...]
    rejected: tuple[RejectedTap, ...]


class _Window(NamedTuple):
    thread: Thread
    limits: Range
    oversize: Decimal | None
    room: ChamferRoom | None
    picks: Picks


def system_of(stock: Sequence[str]) -> TapLimits | None:
    """The system of metric tap limits that a crib, ``stock``, speaks; None where its entries name none, or more than
    one.

    Source: our own (a crib of D taps is answered in D limits).
    """
    found = {name for entry in stock for name, sign in _SYSTEM_SIGNS.items() if sign.search(entry.upper())}
    return found.pop() if len(found) == 1 else None


def look(
    thread: Thread,
    stock: Sequence[str],
    *,
    window: Range,
    oversize: Decimal | None,
    room: ChamferRoom | None,
    picks: Picks,
) -> Crib:
    """Every entry of the crib ``stock``, weighed for ``thread``.

    Args: ``window`` pitch diameter to be made; ``oversize`` expected, None where it cannot be told; ``room`` for the
        chamfer, None = free; all in the thread's unit; ``picks`` of the limits without a crib.
    Raises: TapError ``tap_limit_unknown`` for an entry that has the shape of a limit but is none.
    Source: the limit tables of :mod:`.limits`.
    """
    around = _Window(thread, window, oversize, room, picks)
    usable: list[CribTap] = []
    rejected: list[RejectedTap] = []
    for index, entry in enumerate(stock):
        found = _weighed_entry(around, entry, index)
        if isinstance(found, CribTap):
            usable.append(found)
        else:
            rejected.append(found)
    wanted = picks.best.candidate.limit.label if picks.best is not None else None
    usable.sort(key=lambda tap: _rank(tap, wanted))
    return Crib(tuple(usable), tuple(rejected))


def _rank(tap: CribTap, wanted: str | None) -> tuple[bool, float, Decimal]:
    if tap.weighed is None:
        return (False, 0.0, Decimal(0))
    return (tap.weighed.candidate.limit.label != wanted, *most_accepted(tap.weighed))


def _weighed_entry(around: _Window, entry: str, index: int) -> CribTap | RejectedTap:
    from .marking import read_shank  # loaded by the first crib: the start does not need it

    label = limits.normal_label(entry[:_SHOWN])
    if label is not None:
        candidate = limits.labelled(around.thread, label)
        if candidate is None:
            return RejectedTap(label, f"{label} is no limit of taps for {around.thread.designation}")
        return _judged(around, entry, candidate, None)
    try:
        shank = read_shank(entry).marking
    except BorewrightError as error:
        _refuse_label(entry, index, around.thread)
        return RejectedTap(entry[:_SHOWN], error.faults[0].detail)
    return _judged_shank(around, entry, shank)


def _refuse_label(entry: str, index: int, thread: Thread) -> None:
    if _LABEL_SHAPE.fullmatch(entry.strip()[:_SHOWN]):
        letters = limits.letters_for(thread)
        raise TapError(
            "tap_limit_unknown",
            f"{entry.strip()!r} is neither a tap limit nor a marking",
            pointer=f"/stock/taps/{index}",
            allowed=tuple(f"{letter} and a number" for letter in letters),
        )


def _judged_shank(around: _Window, entry: str, shank: TapMarking) -> CribTap | RejectedTap:
    name = entry.strip()[:_SHOWN]
    if not _same_thread(around.thread, shank.thread):
        return RejectedTap(name, f"is for {shank.thread.designation}")
    if around.room is not None and shank.chamfer is not None:
        needed = shank.chamfer.threads_max * around.thread.pitch
        if not around.room.fits(needed):
            return RejectedTap(name, f"its {shank.chamfer.name.replace('_', '-')} chamfer has no room in the hole")
    if limits.family(around.thread) is None:
        return CribTap(entry.strip(), None, shank)
    if shank.candidate is not None:
        return _judged(around, entry, shank.candidate, shank)
    if shank.limit is None:
        return RejectedTap(name, "no limit is etched on it")
    return RejectedTap(name, f"{shank.limit.label} is the maker's own position: take its limits from his list")


def _judged(around: _Window, entry: str, candidate: Candidate, shank: TapMarking | None) -> CribTap | RejectedTap:
    low, high = around.limits.min, around.limits.max
    if low is None or high is None or around.oversize is None:
        wanted = around.picks.best
        if wanted is not None and wanted.candidate.limit.label == candidate.limit.label:
            return CribTap(entry.strip(), wanted, shank)
        return RejectedTap(entry.strip()[:_SHOWN], "is not the limit printed for the thread's class")
    weighed = fit.weigh(
        candidate, low=low, high=high, window=around.limits, oversize=around.oversize, judge=around.picks.judge
    )
    if weighed.margin < 0:
        return RejectedTap(entry.strip()[:_SHOWN], misfit(weighed, around.thread.unit))
    return CribTap(entry.strip(), weighed, shank)


def _same_thread(wanted: Thread, found: Thread) -> bool:
    if (limits.family(wanted) or wanted.system) != (limits.family(found) or found.system):
        return False
    return (wanted.unit, wanted.nominal_diameter, wanted.pitch, wanted.hand, wanted.starts) == (
        found.unit,
        found.nominal_diameter,
        found.pitch,
        found.hand,
        found.starts,
    )
