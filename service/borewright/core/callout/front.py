"""The one front of all readers: fold the text, take the common words, pick the reader by the words that are left."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

from ..errors import BorewrightError, CalloutError, nearest
from ..model import ThreadCallout, Unit
from ..requests import ThreadFields, ThreadInput
from . import metric, phrases, unified
from .fields import from_object
from .text import MAX_LENGTH, cut, normalise
from .vocabulary import HEADS, SYSTEMS, WORDS, Word
from .written import Written

Parse = Callable[[str, Word | None, Written], None]
Settle = Callable[[str, Written], ThreadCallout]

_READERS: dict[str, tuple[Parse, Settle, Unit]] = {
    "unified": (unified.parse, unified.settle, "in"),
    "unified_j": (unified.parse, unified.settle, "in"),
    "iso_metric": (metric.parse, metric.settle, "mm"),
    "metric_j": (metric.parse, metric.settle, "mm"),
}
_RUN = re.compile(r"[A-Z]+")
#: Letters that open a callout, with nothing but a class before them.
_OPENING = re.compile(r"(?:[0-9][0-9A-Z/]{1,11}[-| ]{1,3})?([A-Z]{1,3}) ?[0-9.,]")


def read(text: str) -> ThreadCallout:
    """Read a thread callout as people type it and as drawings print it.

    Args:
        text: at most 200 characters.

    Returns:
        The thread the text names, in its system's own unit; what was taken by default is in ``assumptions``.

    Raises:
        CalloutError: pointer ``/thread``; what is not a callout, is ambiguous, or does not exist.
    """
    if len(text) > MAX_LENGTH:
        raise CalloutError(
            "callout_too_long", f"A thread callout has at most {MAX_LENGTH} characters.", pointer="/thread"
        )
    return _read(text)


@lru_cache(maxsize=4096)
def _read(text: str) -> ThreadCallout:
    try:
        plain_text = normalise(text)
        phrases.refuse_hole_text(plain_text, _reads)
        try:
            return _thread(plain_text)
        except CalloutError as error:
            _suggest(error, plain_text)
            raise
    except BorewrightError as error:
        error.faults = tuple(replace(fault, pointer="/thread") for fault in error.faults)
        raise


def _thread(text: str) -> ThreadCallout:
    """The thread of a normalised text without hole text."""
    written = Written()
    if "(" in text or not phrases.PHRASE_WORDS.isdisjoint(_RUN.findall(text.upper())):
        text = phrases.take_phrases(text, written)
    system, word, text = _system_of(text)
    parse, settle, _ = _READERS[system]
    if word is not None and word.assumption:
        written.assumptions.append(word.assumption)
    parse(text, word, written)
    return settle(system, written)


def _reads(text: str) -> bool:
    try:
        _thread(text)
    except BorewrightError:
        return False
    return True


def _suggest(error: CalloutError, text: str) -> None:
    """Add callouts with a misspelled series word put right to an error that has no suggestion."""
    fault = error.faults[0]
    if fault.code != "callout_unreadable" or fault.did_you_mean:
        return
    found: list[str] = []
    for run in _RUN.finditer(text.upper()):
        if len(run[0]) > 1 and run[0] not in WORDS:
            tried = (text[: run.start()] + name + text[run.end() :] for name in nearest(run[0], WORDS))
            found += [candidate for candidate in tried if _reads(candidate)]
    error.faults = (replace(fault, did_you_mean=tuple(found[:4])),)


def _system_of(text: str) -> tuple[str, Word | None, str]:
    """System, its word, and the text without the word."""
    folded = text.upper()
    opening = _OPENING.match(folded)
    system = HEADS[opening[1]].system if opening and opening[1] in HEADS else None
    named = [(WORDS[run[0]], run.start(), run.end()) for run in _RUN.finditer(folded) if run[0] in WORDS]
    if not named:
        return system or "unified", None, text
    word, start, end = named[0]
    others = {found.system for found, _, _ in named} | ({system} if system else set())
    if others != {word.system}:
        raise CalloutError("thread_series_mismatch", "The callout names more than one thread system.")
    return word.system, word, cut(text, start, end)


def from_fields(fields: ThreadFields, *, default_unit: Unit | None = None) -> ThreadCallout:
    """Read a thread given field by field: the same verdicts as for text, pointed at the field.

    Args:
        fields: the thread object of a request.
        default_unit: unit of bare lengths; None means the unit of the thread's own standard.

    Raises:
        CalloutError: pointer ``/thread/<field>``.
    """
    try:
        if fields.system not in _READERS:
            raise CalloutError(
                "thread_system_unknown",
                f"{fields.system!r} is not a thread system.",
                pointer="/system",
                allowed=SYSTEMS,
                did_you_mean=nearest(fields.system, SYSTEMS),
            )
        return _READERS[fields.system][1](fields.system, from_object(fields, _READERS[fields.system][2], default_unit))
    except BorewrightError as error:
        raise error.under("/thread") from None


def read_thread(thread: ThreadInput, default_unit: Unit | None = None) -> ThreadCallout:
    """Read a thread given as text or field by field."""
    return read(thread) if isinstance(thread, str) else from_fields(thread, default_unit=default_unit)
