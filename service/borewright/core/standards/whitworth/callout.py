"""Whitworth threads BSW and BSF (BS 84)."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.callout import listed_sizes
from borewright.core.callout.inch_thread import SHAPE, fill
from borewright.core.callout.series_meant import series_meant
from borewright.core.callout.text import unreadable
from borewright.core.callout.thread_as_written import Written, finish, refuse_unused
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, nearest, shortened
from borewright.core.model import ThreadCallout
from borewright.core.rounding import plain

from .thread import SERIES, sizes

_CLASSES = ("close", "medium", "normal")
_GRADE = re.compile(r"[-| ]{0,2}\(? ?(?P<grade>CLOSE|MEDIUM|NORMAL) ?\)?")
_SHAPE = re.compile(SHAPE)


def take_grade(text: str, written: Written) -> str:
    """Move a class that is a word in ``text`` into ``written``; returned is the rest of the callout in capitals."""
    found = _GRADE.search(text)
    if found is None:
        return text
    written.thread_class = found["grade"].lower()
    return (text[: found.start()] + text[found.end() :]).strip(" -|")


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose series ``word`` is already cut out.

    Raises:
        CalloutError: the rest is not size and threads per inch.
    """
    written.series = word.series
    found = _SHAPE.fullmatch(take_grade(text.upper(), written))
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not a size of {word.series}, such as 1/2 or 1/2-12.")
    fill(found, written)


def settle(system: str, written: Written) -> ThreadCallout:
    """The one BSW or BSF thread that was ``written``, settled or refused.

    Args:
        system: ``whitworth``.
        written: fields as read from text or given one by one.

    Raises:
        CalloutError: unknown series, size, pitch or class.

    Source: BS 84 (designation, classes).
    """
    series = (written.series or "").upper()
    if series not in SERIES:
        raise CalloutError(
            "thread_series_mismatch" if series else "thread_field_missing",
            "Say whether BSW (coarse) or BSF (fine) is meant.",
            pointer="/series",
            allowed=SERIES,
            did_you_mean=series_meant(series, SERIES),
        )
    refuse_unused(written, "starts", "lead", title=series)
    thread_class = _class(series, written)

    def name(label: str, tpi: Decimal) -> str:
        return f"{label}-{plain(tpi)} {series}{' LH' if written.hand == 'left' else ''}"

    known = sizes(series)
    label = listed_sizes.inch_label(series, written, known, name)
    tpi = listed_sizes.inch_pitch(series, written, label, known, name)
    return finish(
        system,
        written,
        size=label,
        diameter=known[label].diameter,
        unit="in",
        threads_per_inch=tpi,
        series=series,
        thread_class=thread_class,
    )


def known_series(system: str) -> tuple[str, ...]:
    """Names of the series of ``system``, ``whitworth``: coarse and fine."""
    return SERIES


def _class(series: str, written: Written) -> str:
    if written.thread_class is None:
        written.assumptions.append("No class written: medium; its limits also hold for normal.")
        return "medium"
    thread_class = written.thread_class.casefold()
    if thread_class not in _CLASSES:
        raise CalloutError(
            "thread_class_unknown",
            f"{series} has no class {shortened(written.thread_class)!r}.",
            pointer="/class",
            allowed=_CLASSES,
            did_you_mean=nearest(thread_class, _CLASSES),
        )
    return thread_class
