"""Pipe threads: NPT, NPTF, NPSM, NPSC, NPSF, NPSI (ASME B1.20.1, B1.20.3), Rc, Rp (ISO 7-1), G (ISO 228-1)."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal

from borewright.core.callout import listed_sizes
from borewright.core.callout.classes import take_class
from borewright.core.callout.inch_thread import SHAPE, fill
from borewright.core.callout.series_meant import series_meant
from borewright.core.callout.text import unreadable
from borewright.core.callout.thread_as_written import Written, finish, refuse_unused
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import ThreadCallout, Unit
from borewright.core.rounding import plain
from borewright.core.standards.family import Size

from . import american_straight, american_taper, iso_7, iso_228

_SERIES = {
    "npt": ("NPT", "ANPT"),
    "nptf": ("NPTF", "PTF-SAE SHORT"),
    "npsm": ("NPSM",),
    "npsc": ("NPSC",),
    "npsf": ("NPSF",),
    "npsi": ("NPSI",),
    "iso_7": ("Rc", "Rp"),
    "iso_228": ("G",),
}
_MILLIMETRE = ("iso_7", "iso_228")
_SHAPE = re.compile(rf"(?![^|]*\|[12]$){SHAPE}(?:[-| ]{{0,2}}(?P<letter>[ABT]))?")
_DIGIT_CLASS = re.compile(r"(?P<thread>.*[0-9])[-| ]{1,2}(?P<digit>[12])")


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose system ``word`` is already cut out.

    Raises:
        CalloutError: the rest is not a pipe size with or without threads per inch.
    """
    written.series = word.series
    folded = text.upper()
    classed = _DIGIT_CLASS.fullmatch(folded) if "|" in text else None
    if classed:
        folded, written.thread_class = classed["thread"], classed["digit"]
    found = _SHAPE.fullmatch(folded)
    if found is None:
        rest, written.thread_class = take_class(text)
        found = _SHAPE.fullmatch(rest.upper())
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not a pipe size such as 1/2 or 1 1/4.")
    fill(found, written)
    written.thread_class = found["letter"] or written.thread_class


def settle(system: str, written: Written) -> ThreadCallout:
    """The one pipe thread that was ``written``, settled or refused.

    Args:
        system: one of the eight pipe systems.
        written: fields as read from text or given one by one.

    Raises:
        CalloutError: unknown size, pitch, class or series, or the external thread.

    Source: ASME B1.20.1, ANSI B1.20.3, ISO 7-1, ISO 228-1 (designation).
    """
    series = _series(system, written)
    refuse_unused(written, "starts", "lead", title=series)

    def name(label: str, tpi: Decimal) -> str:
        hand = " LH" if written.hand == "left" else ""
        return f"{series} {label}{hand}" if system in _MILLIMETRE else f"{label}-{plain(tpi)} {series}{hand}"

    if system in _MILLIMETRE and written.pitch is not None:
        written.pitch /= Decimal("25.4")
    known = _sizes(system)
    label = listed_sizes.inch_label(series, written, known, name)
    said = len(written.assumptions)
    tpi = listed_sizes.inch_pitch(series, written, label, known, name)
    thread_class = _class(system, series, name(label, tpi), written)
    unit: Unit = "in"
    if system in _MILLIMETRE:
        unit = "mm"
        del written.assumptions[said:]  # the standard's own designation has no threads per inch
    return finish(
        system,
        written,
        size=label,
        diameter=known[label].diameter,
        unit=unit,
        threads_per_inch=tpi,
        series=series,
        thread_class=thread_class,
    )


def _sizes(system: str) -> Mapping[str, Size]:
    if system == "iso_7":
        return iso_7.sizes()
    if system == "iso_228":
        return iso_228.sizes()
    return american_taper.sizes(system) if system in ("npt", "nptf") else american_straight.sizes(system)


def known_series(system: str) -> tuple[str, ...]:
    """Names of the series of ``system``, the plain one first."""
    return _SERIES[system]


def _series(system: str, written: Written) -> str:
    """The series of the system: the only one, the plain one, or the one that was written."""
    known = _SERIES[system]
    meant = tuple(f"{series} {written.size}" for series in _SERIES["iso_7"])
    if system == "iso_7" and written.series is None:
        raise CalloutError(
            "thread_field_missing",
            "ISO 7-1 has a taper (Rc) and a parallel (Rp) internal thread: say which.",
            pointer="/series",
            allowed=known,
            did_you_mean=meant,
        )
    if system == "iso_7" and written.series == "R":
        raise CalloutError(
            "thread_class_external",
            "R is the external taper thread; the hole that takes it is Rc (taper) or Rp (parallel).",
            pointer="/series",
            allowed=known,
            did_you_mean=meant,
        )
    asked = (written.series or known[0]).casefold()
    series = next((one for one in known if one.casefold() == asked), None)
    if series is None:
        raise CalloutError(
            "thread_series_mismatch",
            f"{shortened(asked)!r} is no series of {known[0]}.",
            pointer="/series",
            allowed=known,
            did_you_mean=series_meant(asked, known),
        )
    return series


def _class(system: str, series: str, thread: str, written: Written) -> str | None:
    """Dryseal class 1 or 2, the mate's A or B of a G thread; every other pipe thread has no class."""
    given = written.thread_class
    if given is None:
        return None
    if system == "iso_228" and given.upper() == "T":
        raise CalloutError(
            "thread_data_missing",
            "The limits of G threads with truncated crests (T) are not held.",
            pointer="/class",
            did_you_mean=(thread,),
        )
    allowed = {"iso_228": ("A", "B"), "nptf": ("1", "2") if series == "NPTF" else ()}.get(system, ())
    if given.upper() in allowed:
        return given.upper()
    raise CalloutError(
        "thread_class_unknown",
        f"{series} has no class {shortened(given)!r}"
        + (": the internal thread has one class, A and B are the mate's." if system == "iso_228" else "."),
        pointer="/class",
        allowed=allowed,
        did_you_mean=(thread,),
    )
