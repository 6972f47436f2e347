"""The one front of all readers: fold the text, take the common words, pick the reader by the words that are left."""

from __future__ import annotations

import re
from dataclasses import replace

from borewright.core.caches import cached
from borewright.core.errors import BorewrightError, CalloutError, nearest
from borewright.core.model import ThreadCallout, Unit
from borewright.core.requests import ThreadFields
from borewright.core.standards import systems

from . import hole_words, phrases, unit_words
from .citations import check
from .dispatch import choose
from .fields import from_object
from .text import normalise
from .thread_as_written import Written
from .vocabulary import WORDS

_RUN = re.compile(r"[A-Z]+")


@cached(512)
def read(text: str) -> ThreadCallout:
    """Read a thread callout as people type it and as drawings print it.

    Args:
        text: at most 200 characters.

    Returns:
        The thread the text names, in its system's own unit; what was taken by default is in ``assumptions``.

    Raises:
        CalloutError: pointer ``/thread``; what is not a callout, is ambiguous, or does not exist.
    """
    try:
        written = Written()
        plain_text = hole_words.take(normalise(text), written)
        phrases.refuse_hole_text(plain_text)
        try:
            return _thread(plain_text, written)
        except CalloutError as error:
            if error.code == "callout_unreadable":
                phrases.refuse_trailing_length(plain_text, _is_callout)
                _suggest(error, plain_text)
            raise
    except BorewrightError as error:
        fault, *_ = error.faults
        meant = tuple(name for name in fault.did_you_mean if _is_callout(name))
        error.faults = (replace(fault, pointer="/thread", did_you_mean=meant),)
        raise


def _thread(text: str, written: Written) -> ThreadCallout:
    """The thread of a normalised text without hole text."""
    if "(" in text or not phrases.PHRASE_WORDS.isdisjoint(_RUN.findall(text.upper())):
        text = phrases.take_phrases(text, written)
    word, rest = choose(text)
    if word.assumption:
        written.assumptions.append(word.assumption)
    reader = systems.of(word.system).reader
    reader.parse(rest, word, written)
    found = reader.settle(word.system, written)
    if written.unit_words:
        unit_words.check(found, written.unit_words, text)
    return check(found, written) if written.cited else found


def _is_callout(text: str) -> bool:
    """Whether a suggestion can be read itself."""
    try:
        plain_text = normalise(text)
        phrases.refuse_hole_text(plain_text)
        _thread(plain_text, Written())
    except BorewrightError:
        return False
    return True


def _suggest(error: CalloutError, text: str) -> None:
    """Add callouts with a misspelled series word put right to an error that has no suggestion."""
    fault, *_ = error.faults
    if fault.did_you_mean:
        return
    found: list[str] = []
    for run in _RUN.finditer(text.upper()):
        if len(run[0]) > 1 and run[0] not in WORDS:
            tried = (text[: run.start()] + name + text[run.end() :] for name in nearest(run[0], WORDS))
            found += [candidate for candidate in tried if _is_callout(candidate)]
    error.faults = (replace(fault, did_you_mean=tuple(found)),)


def from_fields(fields: ThreadFields, *, default_unit: Unit | None = None) -> ThreadCallout:
    """The thread that is given field by field: the same verdicts as for text, pointed at the field.

    Args:
        fields: the thread object of a request.
        default_unit: unit of bare lengths; None means the unit of the thread's own standard.

    Raises:
        CalloutError: pointer ``/thread/<field>``.
    """
    reader = systems.of(fields.system).reader
    try:
        return reader.settle(fields.system, from_object(fields, reader, default_unit))
    except BorewrightError as error:
        raise error.under("/thread") from None
