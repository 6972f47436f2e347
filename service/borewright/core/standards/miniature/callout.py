"""Unified miniature threads UNM (ASME B1.10)."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.callout.text import NUMBER, number, unreadable
from borewright.core.callout.thread_as_written import Written, finish, refuse_unused
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import ThreadCallout
from borewright.tables import load

_SHAPE = re.compile(rf"(?P<size>{NUMBER})(?:(?: ?[-X|] ?| )(?P<pitch>{NUMBER}))?")


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose ``word`` UNM is already cut out.

    Raises:
        CalloutError: the rest is not a diameter in mm, with or without pitch.
    """
    found = _SHAPE.fullmatch(text.upper())
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not a miniature size such as 0.80.")
    written.size = found["size"]
    written.pitch = number(found["pitch"]) if found["pitch"] else None


def known_series(system: str) -> tuple[str, ...]:
    """Names of the series of ``system``, ``unified_miniature``."""
    return ("UNM",)


def settle(system: str, written: Written) -> ThreadCallout:
    """The one miniature thread that was ``written``, settled or refused.

    Args:
        system: ``unified_miniature``.
        written: fields as read from text or given one by one; size and pitch in mm.

    Raises:
        CalloutError: unknown size or pitch, or a class.

    Source: ASME B1.10 (sizes 0.30 to 1.40 mm, one tolerance class).
    """
    refuse_unused(written, "thread_class", "starts", "lead", "threads_per_inch", title="UNM")
    if written.series is not None and written.series.upper() != "UNM":
        raise CalloutError(
            "thread_series_mismatch",
            f"{shortened(written.series)!r} is no series of UNM.",
            pointer="/series",
            allowed=known_series(system),
            did_you_mean=known_series(system),
        )
    size = written.size.upper().removesuffix("UNM").strip()
    value = number(size) if re.fullmatch(NUMBER, size) else None
    rows = load("unified_miniature").rows
    row = next((row for row in rows if Decimal(row["diameter_mm"]) == value), None)
    if row is None:
        near = sorted(rows, key=lambda one: abs(Decimal(one["diameter_mm"]) - (value or 0)))[:3]
        raise CalloutError(
            "thread_size_unknown",
            f"UNM has no size {shortened(size)!r}.",
            pointer="/size",
            allowed=tuple(one["size"] for one in rows),
            did_you_mean=tuple(f"{one['size']} UNM" for one in near),
        )
    pitch = Decimal(row["pitch_mm"])
    if written.pitch not in (None, pitch):
        raise CalloutError(
            "thread_pitch_unknown",
            f"{row['size']} UNM has pitch {pitch} mm.",
            pointer="/pitch",
            did_you_mean=(f"{row['size']} UNM",),
        )
    return finish(
        system,
        written,
        size=row["size"],
        diameter=Decimal(row["diameter_mm"]),
        unit="mm",
        pitch=pitch,
        series="UNM",
    )
