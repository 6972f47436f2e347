"""The marking reader: what is etched on a tap's shank, and the internal classes such a tap can make."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from borewright.core import callout as callouts
from borewright.core import standards
from borewright.core.caches import cached
from borewright.core.errors import BorewrightError
from borewright.core.model import Notes, Range, Source, Step, TapLimit, Thread, ThreadCallout
from borewright.core.quantity_text import printed_length

from . import fit, ground_inch, insert, limits, metric
from .limit_derivation import limit_source, limit_steps, oversize_assumption, oversize_source, oversize_step
from .marking_words import Marks, read_words
from .shank_size import LARGEST_WHOLE_IN, numbered_size
from .tap_build import Chamfer, chamfer
from .tap_candidates import Candidate, Hold, TapMarking

_CACHED = 64
_SPECIAL_WORDS = ("NS", "UNS")
#: Grades that cut-thread taps are made of; None = no grade etched.
_CUT_GRADES = (None, "HSS", "carbon_steel")


class _ClassWindow(NamedTuple):
    name: str
    low: Decimal
    high: Decimal
    window: Range


class Shank(NamedTuple):
    """A marking read, without the classes that its tap can hold: what a crib of many taps needs of each.

    ``callout`` of the thread; ``marking`` without ``holds`` and ``notes``; ``form`` of the chamfer; ``said``: what was
    taken for granted.
    """

    callout: ThreadCallout
    marking: TapMarking
    form: Chamfer | None
    said: tuple[str, ...]


@cached(_CACHED)
def decode(marking: str) -> TapMarking:
    """Read the text on a tap's shank, inch or metric.

    Args: ``marking`` as etched, at most 200 characters.
    Returns: thread, grade, limit, hand, coat and chamfer as far as they are etched, the classes the tap can hold with
    their margins (expected cut oversize included), and the words that were not understood.
    Raises: TapError ``tap_marking_unreadable`` when no size is found; CalloutError or ThreadError, pointer
    ``/marking``, when the size does not exist.
    Source: marks of ASME B94.9 and DIN 2197; limits as in :mod:`.limits`.
    """
    shank = read_shank(marking)
    candidate, thread = shank.marking.candidate, shank.marking.thread
    oversize = fit.expected_oversize(thread)
    return replace(
        shank.marking,
        holds=() if candidate is None or oversize is None else _holds(shank.callout, candidate, oversize.amount),
        notes=_notes(thread, candidate, oversize, shank.form, shank.said),
    )


@cached(_CACHED)
def read_shank(marking: str) -> Shank:
    """As :func:`decode`, without weighing the tap for every class of its thread.

    Args: ``marking`` as etched, at most 200 characters.
    Raises: as :func:`decode`.
    Source: marks of ASME B94.9 and DIN 2197; limits as in :mod:`.limits`.
    """
    marks = read_words(marking)
    try:
        found, thread = _callout(marks)
    except BorewrightError as error:
        error.faults = tuple(replace(fault, pointer="/marking") for fault in error.faults)
        raise
    candidate, limit, said = _limit(marks, thread)
    ground = _is_ground(marks, candidate)
    if candidate is None and not ground and limits.family(thread) == "inch":
        candidate = ground_inch.cut_thread(thread)
        limit = None if candidate is None else candidate.limit
        said = _cut_words(candidate)
    form = _chamfer(marks)
    read = TapMarking(
        marking=marking,
        thread=thread,
        substrate=marks.said.get("substrate"),
        ground=ground,
        limit=limit,
        hand=thread.hand,
        surface=marks.said.get("surface"),
        chamfer=None if form is None else form.chamfer,
        style=marks.said.get("style"),
        holds=(),
        unread=tuple(dict.fromkeys(marks.unread)),
        candidate=candidate,
    )
    return Shank(found, read, form, (*marks.notes, *said))


def _callout(marks: Marks) -> tuple[ThreadCallout, Thread]:
    """The thread that size, system words, hand and class name; a class the thread has not is left unread."""
    if marks.thread_class is not None:
        try:
            found = _read(marks, marks.thread_class)
            return found, standards.resolve(found)
        except BorewrightError:
            found = _read(marks, None)
        marks.unread.append(marks.position or marks.thread_class)
        marks.notes.append(f"{marks.thread_class} is no internal class of this thread")
        marks.thread_class = marks.position = None
    else:
        found = _read(marks, None)
    return found, standards.resolve(found)


def _read(marks: Marks, thread_class: str | None) -> ThreadCallout:
    """The callout; a size and pitch that no series holds is a special thread (UNS), which taps are made for too."""
    rest = [word for word in (thread_class, "LH" if marks.said.get("hand") == "left" else None) if word]
    try:
        found = callouts.read(" ".join((marks.size, *marks.systems, *rest)))
    except BorewrightError as error:
        special = _as_special(marks, error.code)
        if special is None:
            raise
    else:
        special = _as_number(marks, found)
        if special is None:
            return found
    found = callouts.read(" ".join((special, "UNS", *rest)))
    marks.notes.append("no Unified series holds this size and pitch: read as a special thread (UNS)")
    return found


def _as_special(marks: Marks, code: str) -> str | None:
    if code == "thread_pitch_unknown" and not marks.systems and not marks.metric:
        return numbered_size(marks.size) or marks.size
    if code == "thread_size_unknown" and _is_special(marks):
        return numbered_size(marks.size)
    return None


def _as_number(marks: Marks, found: ThreadCallout) -> str | None:
    """The size of a special thread whose machine-screw number was read as inches (``14-24 NS``)."""
    return numbered_size(marks.size) if _is_special(marks) and found.nominal_diameter > LARGEST_WHOLE_IN else None


def _is_special(marks: Marks) -> bool:
    return all(word in _SPECIAL_WORDS for word in marks.systems)


class _Limit(NamedTuple):
    """The limit of a tap with its arithmetic; a maker's own position has a label and no limits."""

    candidate: Candidate | None
    limit: TapLimit | None
    said: tuple[str, ...]


def _known(candidate: Candidate | None, *said: str) -> _Limit:
    return _Limit(candidate, None if candidate is None else candidate.limit, said)


def _limit(marks: Marks, thread: Thread) -> _Limit:
    """The limit etched, by number, class or amount, with what was taken for granted."""
    if marks.position is not None and (marks.limit_label is not None or marks.amount is not None):
        marks.unread.append(marks.position)
        marks.position = None
    if marks.limit_label is not None:
        return _labelled(marks, thread, marks.limit_label)
    if marks.amount is not None:
        return _basic_plus(marks, thread, marks.amount)
    if marks.position is not None:
        return _position(marks.position, thread)
    meant = metric.iso_class_for(marks.thread_class) if limits.family(thread) == "metric" else None
    if meant is None:
        return _known(None, "no pitch-diameter limit is etched")
    said = f"{marks.thread_class} is read as tap class {meant.label} (ISO 2857, from memory)"
    return _known(metric.classed(thread, int(meant.label[-1])), said)


def _labelled(marks: Marks, thread: Thread, label: str) -> _Limit:
    found = limits.labelled(thread, label)
    if found is None:
        marks.unread.extend([label, *([marks.amount_etched] if marks.amount is not None else [])])
        return _known(None, f"no limit {label} is held for taps of this thread")
    if marks.amount is None:
        return _known(found, *_printed_for(thread, found))
    marks.unread.append(marks.amount_etched)
    return _known(
        limits.raised(found, marks.amount),
        f"{marks.amount_etched} beside {label} is no marking of ASME B94.9: the tap is read as oversize by it over"
        f" {label}; measure the tap, or ask who made it",
    )


def _basic_plus(marks: Marks, thread: Thread, amount: Decimal) -> _Limit:
    tolerance = limits.plus_tolerance(thread)
    if tolerance is None:
        marks.unread.append(marks.amount_etched)
        return _known(None, f"basic plus {amount}: the tap's tolerance is not held")
    said = (
        "the amount is read as the least that the pitch diameter is over basic (ASME B94.9), with a tap tolerance of"
        f" {printed_length(tolerance, thread.unit)}"
    )
    return _known(limits.basic_plus(thread, amount=amount, tolerance=tolerance), said)


def _position(position: str, thread: Thread) -> _Limit:
    said = (
        f"{position} is the maker's own position for {thread.thread_class} threads, above the usual tap limit: for"
        " forming taps, hard and abrasive materials. Its limits stand in the maker's list, so no class is told as held"
    )
    return _Limit(None, TapLimit(position, Range(None, None), "common_practice"), (said,))


def _printed_for(thread: Thread, found: Candidate) -> tuple[str, ...]:
    if limits.family(thread) != "insert":
        return ()
    classes = [name for name, printed in insert.printed_limits(thread) if printed.limit.label == found.limit.label]
    return tuple(f"the limit printed for class {name}" for name in classes)


def _is_ground(marks: Marks, candidate: Candidate | None) -> bool:
    """G, a limit, a maker's class, a coat or a better grade marks a ground tap; else it is a cut-thread tap."""
    etched = marks.said.get("ground")
    if etched is not None:
        return etched == "yes"
    substrate = marks.said.get("substrate")
    limit = candidate is not None or bool(marks.limit_label or marks.amount_etched or marks.position)
    if limit or substrate not in _CUT_GRADES or "surface" in marks.said:
        return True
    if substrate != "carbon_steel":
        marks.notes.append("neither G nor a limit is etched, so a cut-thread tap is taken (common practice)")
    return False


def _cut_words(candidate: Candidate | None) -> tuple[str, ...]:
    if candidate is None:
        return ("cut-thread tap of a size whose limits are not held",)
    return ("limits of a cut-thread tap",)


def _chamfer(marks: Marks) -> Chamfer | None:
    """The chamfer by its form letter or its name; a name that the letter contradicts is left unread."""
    key = marks.form or marks.said.get("chamfer")
    found = None if key is None else chamfer(key)
    named = marks.said.get("chamfer")
    if found is not None and named is not None and found.chamfer.name != named:
        marks.unread.append(named)
    return found


def _holds(found: ThreadCallout, candidate: Candidate, oversize: Decimal) -> tuple[Hold, ...]:
    holds = []
    for name, low, high, window in _windows(replace(found, thread_class=None, assumptions=())):
        weighed = fit.weigh(candidate, low=low, high=high, window=window, oversize=oversize)
        if weighed.margin >= 0 and weighed.fit is not None:
            holds.append(Hold(name, weighed.margin, weighed.fit))
    return tuple(holds)


@cached(_CACHED)
def _windows(found: ThreadCallout) -> tuple[_ClassWindow, ...]:
    """Pitch-diameter limits of every class that the thread's standard defines at its size."""
    windows = []
    for name in standards.systems.of(found.system).traits.tap_classes:
        try:
            thread = standards.resolve(replace(found, thread_class=name))
        except BorewrightError:
            continue
        pitch = thread.internal.pitch_diameter
        if pitch.min is not None and pitch.max is not None:
            windows.append(_ClassWindow(name, pitch.min, pitch.max, pitch))
    return tuple(windows)


def _notes(
    thread: Thread,
    candidate: Candidate | None,
    oversize: fit.CutOversize | None,
    form: Chamfer | None,
    said: tuple[str, ...],
) -> Notes:
    if candidate is None:
        return Notes(assumptions=said, sources=_form_source(form))
    steps: tuple[Step, ...] = limit_steps(candidate, thread, "limit")
    sources: tuple[Source, ...] = (limit_source(candidate, "limit"), *_form_source(form))
    if oversize is not None:
        said = (*said, oversize_assumption(thread))
        steps = (*steps, oversize_step(thread, oversize, "cut_oversize"))
        sources = (*sources, oversize_source("holds"))
    if candidate.note is not None:
        said = (*said, candidate.note)
    return Notes(assumptions=said, sources=sources, steps=steps)


def _form_source(form: Chamfer | None) -> tuple[Source, ...]:
    return () if form is None else (replace(form.source, field="chamfer"),)
