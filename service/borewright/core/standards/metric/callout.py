"""ISO metric threads M and MJ (ISO 261, ISO 965-1 "Designation", ISO 965-5, ISO 5855; ASME B1.13M)."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.callout.classes import take_class
from borewright.core.callout.series_meant import series_meant
from borewright.core.callout.starts import starts_of
from borewright.core.callout.text import NUMBER, SEPARATOR, number, unreadable
from borewright.core.callout.thread_as_written import Written, finish
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import Length, ThreadCallout
from borewright.core.rounding import plain

from . import refusals as refusals
from . import sizes as series_table
from .class_text import internal_class

_LEAD_AND_PITCH = (
    rf"(?:PH ?(?P<lead>{NUMBER})[-| ]? ?P ?|L ?(?P<lead_us>{NUMBER}) ?[-|] ?P ?|(?P<lead_plain>{NUMBER}) ?\( ?P ?)"
    rf"(?P<pitch_of_lead>{NUMBER}) ?\)?"
)
_SHAPE = re.compile(
    rf"(?P<size>{NUMBER})"
    rf"(?:(?:\|?X ?| ?[-X] ?| )(?:{_LEAD_AND_PITCH}|P? ?(?P<pitch>{NUMBER})))?"
    r"(?:[-| ]{1,3}(?P<series>COARSE|FINE|SPL|SPECIAL))?"
    rf"(?:(?P<mark>{SEPARATOR})(?P<length>{NUMBER}))?"
    r"(?:[-| ]{1,3}(?P<group>[SNL]))?"
)
_SIZE = re.compile(rf"(?:M ?J?)? ?({NUMBER})")
_LARGEST_PITCH_MM = Decimal(8)
_SERIES_WORDS = {"COARSE": "coarse", "FINE": "fine", "SPL": "special", "SPECIAL": "special"}


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose ``word`` M or MJ is already cut off.

    Raises:
        CalloutError: the rest is not diameter and pitch, or it carries a length of screw or hole.
    """
    text, written.thread_class = take_class(text)
    found = _SHAPE.fullmatch(text.upper())
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not a metric thread such as M8x1.25 or M8x1.25-6H.")
    written.size = found["size"]
    written.series = _SERIES_WORDS.get(found["series"], word.series)
    written.engagement_group = found["group"]
    pitch = found["pitch"] or found["pitch_of_lead"]
    if pitch:
        written.pitch = number(pitch)
    if lead := found["lead"] or found["lead_us"] or found["lead_plain"]:
        written.lead = number(lead)
    _take_length(found, written)


def _take_length(found: re.Match[str], written: Written) -> None:
    """A number after the class is a length of engagement (ISO 965-1); anywhere else it is a screw or hole length."""
    screw_length = found["length"]
    if screw_length and written.thread_class and found["mark"].strip() in ("-", "|"):
        written.engagement = Length(number(screw_length), "mm")
        written.assumptions.append(
            f"{screw_length} mm after the class is the length of engagement (ISO 965-1), not the depth of the hole."
        )
        return
    if not screw_length and written.pitch is not None and written.lead is None and written.pitch > _LARGEST_PITCH_MM:
        screw_length, written.pitch = plain(written.pitch), None
    if screw_length:
        pitch = f"x{plain(written.pitch)}" if written.pitch is not None else ""
        raise CalloutError(
            "callout_has_depth",
            f"{screw_length} mm is a length of screw or hole: state it as full_thread_depth or thickness of the hole.",
            did_you_mean=(f"M{plain(number(written.size))}{pitch}",),
        )


def settle(system: str, written: Written) -> ThreadCallout:
    """The one ISO metric thread that was ``written``, settled or refused.

    Args:
        system: ``iso_metric`` or ``metric_j``.
        written: fields as read from text or given one by one; pitch and lead in mm.

    Raises:
        CalloutError: unknown diameter, pitch or class, or more than one meaning.

    Source: ISO 261; ISO 965-1 (designation, recommended classes); ISO 5855-1 and ASME B1.21M for MJ.
    """
    if written.threads_per_inch is not None:
        raise CalloutError(
            "thread_field_unexpected", "A metric thread is given by its pitch in mm.", pointer="/threads_per_inch"
        )
    found = _SIZE.fullmatch(written.size.upper())
    if found is None:
        raise CalloutError(
            "thread_size_unknown", f"{written.size!r} is not a metric size such as M8 or 8.", pointer="/size"
        )
    written.series = _graded(written.series, system)
    diameter = number(found[1])
    pitch = written.pitch if written.pitch is not None else _coarse(system, diameter, written)
    series = _series(system, diameter, pitch, written)
    letter = refusals.LETTER[system]
    return finish(
        system,
        written,
        size=plain(diameter),
        diameter=diameter,
        unit="mm",
        pitch=pitch,
        series=series,
        thread_class=internal_class(
            system, f"{letter}{plain(diameter)}x{plain(pitch)}", written, diameter_mm=diameter, pitch_mm=pitch
        ),
        starts=starts_of(written, pitch=pitch),
    )


def known_series(system: str) -> tuple[str, ...]:
    """Names of the series of ``system``, ``iso_metric`` or ``metric_j``."""
    return ("coarse", "fine", "special")


def _graded(series: str | None, system: str) -> str | None:
    """The name of the ``series``, in any case, that is asked for."""
    if series is None or series.lower() in known_series(system):
        return series and series.lower()
    raise CalloutError(
        "thread_series_mismatch",
        f"{shortened(series)!r} is no series of metric threads.",
        pointer="/series",
        allowed=known_series(system),
        did_you_mean=series_meant(series, known_series(system)),
    )


def _coarse(system: str, diameter: Decimal, written: Written) -> Decimal:
    """The pitch that leaving it out means: the coarse one, for M only."""
    coarse = series_table.coarse_pitch(diameter)
    if coarse is None or system == "metric_j" or written.series in ("fine", "special"):
        raise refusals.no_pitch(system, diameter, written)
    size = f"M{plain(diameter)}"
    written.assumptions.append(f"No pitch written: {size} is the coarse thread {size}x{plain(coarse)}.")
    return coarse


def _series(system: str, diameter: Decimal, pitch: Decimal, written: Written) -> str:
    """``coarse``, ``fine`` or ``special``; refused where no list has the thread and it is not marked special."""
    actual = refusals.series_of(system, diameter=diameter, pitch=pitch)
    if actual is None and written.series == "special" and refusals.can_be_special(diameter=diameter, pitch=pitch):
        return "special"
    if actual is None:
        raise refusals.not_listed(system, written, diameter=diameter, pitch=pitch)
    if written.series is not None and written.series not in (actual, "special"):
        raise CalloutError(
            "thread_series_mismatch",
            f"Pitch {plain(pitch)} mm is the {actual} one of M{plain(diameter)}, not the {written.series} one.",
            pointer="/series",
            did_you_mean=(f"{refusals.LETTER[system]}{plain(diameter)}x{plain(pitch)}",),
        )
    return actual
