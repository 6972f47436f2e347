"""Whitworth threads BSW and BSF (BS 84) and British Association threads (BS 93)."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.callout import listed_sizes
from borewright.core.callout.inch_thread import SHAPE, fill
from borewright.core.callout.text import NUMBER, number, unreadable
from borewright.core.callout.thread_as_written import Written, finish, refuse_unused
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, nearest
from borewright.core.model import ThreadCallout
from borewright.core.rounding import plain
from borewright.core.standards.family import near_sizes

_CLASSES = ("close", "medium", "normal")
_GRADE = re.compile(r"[-| ]{0,2}\(? ?(?P<grade>CLOSE|MEDIUM|NORMAL) ?\)?")
_BSW_SHAPE = re.compile(SHAPE)
_BA_SHAPE = re.compile(rf"(?:(?:#|NO\.?) ?)?(?P<size>[0-9]{{1,2}})(?:(?: ?[-X|] ?| )(?P<pitch>{NUMBER}))?")


def _take_grade(text: str, written: Written) -> str:
    found = _GRADE.search(text)
    if found is None:
        return text
    written.thread_class = found["grade"].lower()
    return (text[: found.start()] + text[found.end() :]).strip(" -|")


def parse_whitworth(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from a callout whose series word is already cut out.

    Raises:
        CalloutError: the rest is not size and threads per inch.
    """
    written.series = word.series
    found = _BSW_SHAPE.fullmatch(_take_grade(text.upper(), written))
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not a size of {word.series}, such as 1/2 or 1/2-12.")
    fill(found, written)


def settle_whitworth(system: str, written: Written) -> ThreadCallout:
    """Turn what was written into one BSW or BSF thread, or refuse.

    Args:
        system: ``whitworth``.
        written: fields as read from text or given one by one.

    Raises:
        CalloutError: unknown series, size, pitch or class.

    Source: BS 84 (designation, classes).
    """
    series = (written.series or "").upper()
    if series not in ("BSW", "BSF"):
        raise CalloutError(
            "thread_series_mismatch" if series else "thread_field_missing",
            "Say whether BSW (coarse) or BSF (fine) is meant.",
            pointer="/series",
            allowed=("BSW", "BSF"),
        )
    refuse_unused(written, "starts", "lead", title=series)
    thread_class = _class(series, written)

    def name(label: str, tpi: Decimal) -> str:
        return f"{label}-{plain(tpi)} {series}{' LH' if written.hand == 'left' else ''}"

    known = listed_sizes.sizes(system, series)
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


def _class(series: str, written: Written) -> str:
    if written.thread_class is None:
        written.assumptions.append("No class written: medium; its limits also hold for normal.")
        return "medium"
    thread_class = written.thread_class.casefold()
    if thread_class not in _CLASSES:
        raise CalloutError(
            "thread_class_unknown",
            f"{series} has no class {written.thread_class[:20]!r}.",
            pointer="/class",
            allowed=_CLASSES,
            did_you_mean=nearest(thread_class, _CLASSES),
        )
    return thread_class


def parse_ba(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from a callout whose ``BA`` is already cut out.

    Raises:
        CalloutError: the rest is not a BA number.
    """
    found = _BA_SHAPE.fullmatch(_take_grade(text.upper(), written))
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not a BA number, 0 to 16.")
    written.size = found["size"]
    written.pitch = number(found["pitch"]) if found["pitch"] else None


def settle_ba(system: str, written: Written) -> ThreadCallout:
    """Turn what was written into one BA thread, or refuse.

    Args:
        system: ``british_association``.
        written: fields as read from text or given one by one; ``close`` and ``normal`` are classes of the mate.

    Raises:
        CalloutError: unknown number, pitch or class.

    Source: BS 93 (numbers 0 to 16; one class of nut).
    """
    refuse_unused(written, "starts", "lead", "series", title="BA")
    if written.thread_class is not None and written.thread_class.casefold() not in ("close", "normal"):
        raise CalloutError(
            "thread_class_unknown",
            f"BA has no class {written.thread_class[:20]!r}: nuts have one class, bolts are close or normal.",
            pointer="/class",
            allowed=("close", "normal"),
        )
    known = listed_sizes.sizes(system)
    label = written.size.upper().removesuffix("BA").lstrip("#").strip()
    label = str(int(label)) if re.fullmatch("[0-9]{1,3}", label) else label
    if label not in known:
        older = " Numbers 17 to 25 stand in older lists, outside BS 93:2008." if label.isdigit() else ""
        raise CalloutError(
            "thread_size_unknown",
            f"BS 93 has no {label[:20]} BA.{older}",
            pointer="/size",
            allowed=tuple(known),
            did_you_mean=tuple(f"{one} BA" for one in near_sizes(label[:20], known)),
        )
    said = len(written.assumptions)
    pitch = listed_sizes.metric_pitch("BA", written, label, known[label].pitches_mm, lambda one, _: f"{one} BA")
    del written.assumptions[said:]  # the standard's own designation has no pitch
    return finish(
        system,
        written,
        size=label,
        diameter=known[label].diameter,
        unit="mm",
        pitch=pitch,
        thread_class=written.thread_class.casefold() if written.thread_class else None,
    )
