"""The thread of a hole of a note: its designation, class and hand that stand apart; the house's reader judges it."""

from __future__ import annotations

import re

from borewright.core import callout as callouts
from borewright.core import standards
from borewright.core.errors import BorewrightError, Fault
from borewright.core.model import Thread, ThreadCallout

from .case import NoteCase
from .designations import Designation
from .grammar import Element

_CLASS = re.compile(r"[1-3][AB]|[3-9][A-Ha-h]")
#: What makes a text one of a hole although its class is that of a screw.
_HOLE_WORDS = ("thru", "blind", "tap", "drill", "depth", "thread_depth", "drill_depth", "turns", "drill_and_tap")


def settle(case: NoteCase) -> None:
    """Find the thread of the hole of ``case``, or ask which one is meant.

    Source: rules H1 to H9, G1, G2, G6 of the reference notes.
    """
    part = case.parts.thread
    if part is None:
        _pipe_tap(case)
        return
    if part.element.reads == "size_and_tap":
        _size_alone(case, part.element)
        return
    (token,) = part.element.tokens
    found = token.designation
    if found is None:
        return
    case.assumptions += found.assumptions
    if _follows_unread(case, part.element) or (not found.stated_class and _goes_on_unread(case, part.element)):
        return
    if found.fault is not None:
        _ask(case, part.element, found.fault)
        return
    stated = _class(case, found, part.element)
    if case.questions.has("class_conflict"):
        return
    text = _with(found, stated)
    _judge(case, f"{text} LH" if case.parts.has("left_hand") else text, stated)


def _follows_unread(case: NoteCase, element: Element) -> bool:
    """Whether a number that no rule read stands right before the thread: it may be a part of its size."""
    for span in case.unread:
        between = case.copy.text[span.end : element.start]
        if (
            any(sign.isdigit() for sign in span.read_as)
            and element.start - span.end in range(4)
            and not between.strip(" -")
        ):
            text = f"{span.read_as!r} before {case.words(element)} was not read: is it a part of the thread?"
            case.questions.ask("thread_ambiguous", text, (case.words(element),), case.span(element))
            return True
    return False


def _goes_on_unread(case: NoteCase, element: Element) -> bool:
    """Whether a number that no rule read is written onto the thread with a dash: it may be its class."""
    for span in case.unread:
        if case.copy.text[element.end : span.start] == "-" and any(sign.isdigit() for sign in span.read_as):
            text = f"{span.read_as!r} behind {case.words(element)} was not read: is it the class of the thread?"
            case.questions.ask("thread_ambiguous", text, (case.words(element),), case.span(element))
            return True
    return False


def _class(case: NoteCase, found: Designation, element: Element) -> str | None:
    """The class of the thread at ``element``: its own, one that stands apart, or that of a general note."""
    apart = case.first("class")
    own = found.stated_class
    second = _second_class(case, element)
    if own and second:
        case.questions.ask("class_conflict", f"The note says both {own} and {second}.", (own, second))
        return None
    written = None if apart is None else _class_text(case, apart, found)
    general = case.general.thread_class
    if own and written and own.upper() != written.upper():
        case.questions.ask("class_conflict", f"The note says both {own} and {written}.", (own, written))
        return None
    local = own or written
    if general is None or not _can_have(found, general):
        return local
    if local is None:
        case.assumptions.append(f"The class {general} is that of a general note.")
        return general
    if not case.general.class_yields and local.upper() != general.upper():
        case.questions.ask(
            "class_conflict",
            f"The note says {local}, a general note says {general} and not that a class in a note stands before it.",
            (local, general),
        )
        return None
    return local


def _second_class(case: NoteCase, element: Element) -> str | None:
    """A class that stands unread right behind the thread."""
    for span in case.unread:
        between = case.copy.text[element.end : span.start]
        if span.start >= element.end and not between.strip(" -/") and _CLASS.fullmatch(span.read_as.strip()):
            return span.read_as.strip()
    return None


def _class_text(case: NoteCase, element: Element, found: Designation) -> str:
    letter = element.named.get("l")
    number = str(element.named["n"].value)
    if letter is not None:
        return number + letter.text.upper()
    ending = "H" if found.metric else "B"
    case.assumptions.append(
        f"Class {number} without a letter is read as {number}{ending}: the thread is that of a hole."
    )
    return number + ending


def _can_have(found: Designation, thread_class: str) -> bool:
    """Whether the thread's standard has a class at all of that name."""
    return _read(_with(found, thread_class)) is not None


def _with(found: Designation, thread_class: str | None) -> str:
    if not thread_class or found.stated_class:
        return found.text
    head, mark, tail = found.text.partition(" STI")
    return f"{head}-{thread_class}{mark}{tail}"


def _read(text: str) -> ThreadCallout | None:
    try:
        return callouts.read(text)
    except BorewrightError:
        return None


def _judge(case: NoteCase, text: str, stated: str | None) -> None:
    try:
        case.callout = callouts.read(text)
        thread = case.thread = standards.resolve(case.callout)
    except BorewrightError as error:
        fault, *_ = error.faults
        _ask(case, case.parts.thread.element, fault)  # type: ignore[union-attr]
        return
    if stated and thread.thread_class is None:  # that of the mate, as G 1/8 A: it goes with the request
        case.assumptions.append(
            f"Class {stated} is one of the external thread: the internal {thread.designation} has one class only."
        )
        case.thread_text = " ".join(text.split())
        return
    case.thread_text = _plain(thread, text, has_class=stated is not None)


def _plain(thread: Thread, text: str, *, has_class: bool) -> str:
    """The designation as the house writes it where that reads back to the same thread, else the note's ``text``."""
    name = thread.designation
    if not has_class and thread.thread_class:
        name = name.replace(f"-{thread.thread_class}", "")
    read = _read(name)
    same = read is not None and standards.resolve(read).designation == thread.designation
    return name if same else " ".join(text.split())


def _ask(case: NoteCase, element: Element, fault: Fault) -> None:
    options = fault.did_you_mean or fault.allowed
    if fault.code == "thread_class_external":
        if not case.parts.has(*_HOLE_WORDS):
            case.questions.ask("not_a_tapped_hole", fault.detail, (), case.span(element))
        else:
            case.questions.ask("class_conflict", fault.detail, options, case.span(element))
    elif fault.code == "thread_class_unknown":
        case.questions.ask("class_conflict", fault.detail, options, case.span(element))
    else:
        case.questions.ask("thread_ambiguous", fault.detail, options, case.span(element))


def _size_alone(case: NoteCase, element: Element) -> None:
    """``1/4 TAP`` names a size and no thread."""
    token = element.named["s"]
    pipe = " PIPE" if any("pipe_tap" in one.kinds for one in element.tokens) else ""
    try:
        callouts.read(f"{token.text.strip()}{pipe}")
    except BorewrightError as error:
        fault, *_ = error.faults
        case.questions.ask("thread_ambiguous", fault.detail, fault.did_you_mean or fault.allowed, case.span(element))
    else:
        case.questions.ask("thread_ambiguous", f"{token.text.strip()} names no thread.", (), case.span(element))


def _pipe_tap(case: NoteCase) -> None:
    element = case.first("pipe_tap")
    if element is not None:
        case.questions.ask(
            "thread_ambiguous", "PIPE TAP names neither the size nor the thread.", (), case.span(element)
        )
