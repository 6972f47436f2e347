"""Through or blind, and how deep: what a note says of a hole's extent, and what it leaves open."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.model import Length
from borewright.core.rounding import half_even, plain

from .case import NoteCase
from .grammar import Element
from .parts import Depth

_NEEDED = "give the full thread depth"
_PLACES = {"in": 6, "mm": 5}
_NOT = re.compile(r"(?<![A-Z])(?:NOT|NEVER|NO|NICHT|KEINE?|NON|PAS|SIN)(?![A-Z.])", re.IGNORECASE)
_CLAUSE_END = frozenset(",;\n")


@dataclass(slots=True)
class Extent:
    """How deep a hole goes, in its unit; None = not fixed by the note. ``drill_limit``: no deeper than that;
    ``drill_bound`` whether its depth is a least or a greatest one.
    """

    kind: Literal["blind", "through"] | None
    full_thread_depth: Decimal | None = None
    drill_depth: Decimal | None = None
    drill_limit: Decimal | None = None
    drill_bound: Literal["", "MIN", "MAX"] = ""


def settle(case: NoteCase) -> Extent:
    """Extent of the hole of ``case``; what can mean two things is asked.

    Source: rules P1 to P6 and Y1 to Y13 of the reference notes.
    """
    kind, drill = _kind(case), case.parts.drill_depth
    found = Extent(kind, _thread_depth(case), case.depth(drill))
    if drill is not None:
        found.drill_bound = drill.limit
        found.drill_limit = found.drill_depth if drill.limit == "MAX" else None
    if kind == "blind" and found.full_thread_depth is None:
        _ask_depth(case, found)
    if case.parts.loose:
        _ask_loose(case)
    return found


def _kind(case: NoteCase) -> Literal["blind", "through"] | None:
    parts = case.parts
    blind = parts.has("blind", "to_bottom", "bottoming")
    if parts.through and parts.has("blind"):
        case.questions.ask("depth_of_what", "The note says both through and blind.", ("through", "blind"))
        return None
    if parts.through and _is_negated(case):
        case.questions.ask("depth_of_what", "A word before THRU says not: is the hole through?", ("through", "blind"))
        return None
    if parts.through:
        drilled = parts.drill_depth is not None and parts.has("drill_depth", "hole_depth", "drill")
        if drilled and not any(drill.through for drill in parts.drills):
            case.questions.ask(
                "depth_of_what", "The thread goes through, the drilled hole does not.", ("through", "blind")
            )
        return "through"
    if blind or parts.thread_depth is not None or parts.drill_depth is not None or parts.has("turns"):
        return "blind"
    if parts.has("depth_without_number") or parts.loose:
        return "blind"
    if any(any(sign.isdigit() for sign in span.read_as) for span in case.unread):
        texts = " and ".join(repr(span.read_as) for span in case.unread)
        case.questions.ask(
            "depth_of_what", f"No depth was read, and {texts} was not read: is it one?", ("through", _NEEDED)
        )
        return None
    case.assumptions.append("No depth and no THRU is written: the hole is read as through.")
    return "through"


def _is_negated(case: NoteCase) -> bool:
    """Whether a word that says not stands unread before THRU in its clause."""
    places = [one.start for one in case.parts.others.get("thru", ())]
    negations = [span.end for span in case.unread if _NOT.search(span.read_as)]
    text = case.copy.text
    return any(end <= place and _CLAUSE_END.isdisjoint(text[end:place]) for end in negations for place in places)


def _thread_depth(case: NoteCase) -> Decimal | None:
    """Full thread depth where the note fixes it and nothing else can be meant."""
    depth = case.parts.thread_depth
    turns = case.parts.others.get("turns", ())
    if turns and depth is None:
        return _depth_of_turns(case, turns)
    value = case.depth(depth)
    if depth is None or value is None:
        return None
    if depth.limit == "MAX":
        case.questions.ask(
            "depth_of_what",
            f"{case.length(value)} is the most that the thread may be deep: how deep must it be full?",
            (_NEEDED,),
        )
        return None
    if _is_of_both(case, depth):
        case.questions.ask(
            "depth_of_what",
            f"{case.length(value)} stands behind drill and thread: whose depth is it?",
            ("thread", "drill", "both"),
        )
        return None
    return value


def _depth_of_turns(case: NoteCase, turns: Sequence[Element]) -> Decimal | None:
    """Depth of the full threads that are counted, where the note says one number of them."""
    numbers = tuple(dict.fromkeys(one.named["n"].number for one in turns))
    if len(numbers) > 1:
        text = "Different numbers of full threads are written for one hole: how deep is the full thread?"
        case.questions.ask("depth_of_what", text, (*(f"{plain(one)} full threads" for one in numbers), _NEEDED))
        return None
    if case.thread is None:
        return None
    (number,) = numbers
    exact = number * Length(case.thread.pitch, case.thread.unit).to(case.unit)
    case.assumptions.append(f"{plain(number)} full threads are {case.length(exact)}.")
    return Decimal(plain(half_even(exact, _PLACES[case.unit])))


def _is_of_both(case: NoteCase, depth: Depth) -> bool:
    """DRILL AND TAP ... n DEEP, with no word that says whose depth it is."""
    parts = case.parts
    worded = depth.element is not None and depth.element.reads == "thread_depth"
    return parts.has("drill_and_tap") and not parts.drills and not worded and not parts.through


def _ask_depth(case: NoteCase, found: Extent) -> None:
    parts = case.parts
    depth = parts.thread_depth
    if depth is not None and depth.choices:
        options = tuple(case.length(case.value(token)) for token in depth.choices)
        case.questions.ask(
            "depth_of_what", "Two depths are written as a range: which is the full thread depth?", options
        )
    elif parts.has("to_bottom"):
        case.questions.ask("depth_of_what", "TAP TO BOTTOM gives no depth of full thread.", (_NEEDED,))
    elif found.drill_depth is not None:
        text = f"{case.length(found.drill_depth)} is the depth of the drilled hole: how deep is the full thread?"
        case.questions.ask("depth_of_what", text, ("thread", "both", _NEEDED))
    elif not parts.has("turns"):
        case.questions.ask("depth_of_what", "The hole is blind and no depth of full thread was read.", (_NEEDED,))


def _ask_loose(case: NoteCase) -> None:
    values = tuple(case.length(case.value(one.size)) for one in case.parts.loose if one.size is not None)
    case.questions.ask(
        "depth_of_what", f"More depths are written than there are parts: {', '.join(values)}.", ("thread", "drill")
    )
