"""ISO metric trapezoidal threads Tr (ISO 2901 to 2904)."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.callout import listed_sizes
from borewright.core.callout.classes import members, take_class
from borewright.core.callout.starts import starts_of
from borewright.core.callout.text import NUMBER, number, unreadable
from borewright.core.callout.thread_as_written import Written, finish
from borewright.core.callout.vocabulary import Word
from borewright.core.errors import CalloutError, shortened
from borewright.core.model import ThreadCallout
from borewright.core.rounding import plain
from borewright.core.standards.family import near_sizes

from .thread import sizes

_CLASSES = ("7H", "8H", "9H")
_EXTERNAL = ("7e", "8e", "8c", "9c")
_OLD_FORM = " The withdrawn DIN 103 paired other pitches (Tr 14x4, in ISO 2904 Tr 14x3)."
_SHAPE = re.compile(
    rf"(?P<size>{NUMBER})(?:(?: ?[-X|] ?| )(?P<first>{NUMBER})(?: ?(?P<bracket>\()? ?P ?(?P<pitch>{NUMBER}) ?\)?)?)?"
    r"(?:[-| ]{1,3}(?P<group>[NL]))?"
)


def parse(text: str, word: Word, written: Written) -> None:
    """Fill ``written`` from ``text``, a callout whose ``word`` Tr is already cut off.

    Raises:
        CalloutError: the rest is not diameter and pitch, or diameter, lead and pitch.
    """
    rest, written.thread_class = take_class(text)
    found = _SHAPE.fullmatch(rest.upper())
    if found is None:
        raise unreadable(f"{text.replace('|', ' ')!r} is not a trapezoidal thread such as 40x7 or 40x14(P7).")
    written.size = found["size"]
    written.engagement_group = found["group"]
    if found["pitch"]:
        written.lead, written.pitch = number(found["first"]), number(found["pitch"])
        if not found["bracket"]:
            written.assumptions.append("The older form without brackets is read as lead and pitch.")
    elif found["first"]:
        written.pitch = number(found["first"])


def settle(system: str, written: Written) -> ThreadCallout:
    """The one trapezoidal thread that was ``written``, settled or refused.

    Args:
        system: ``trapezoidal``.
        written: fields as read from text or given one by one; pitch and lead in mm.

    Raises:
        CalloutError: unknown diameter, pitch or class, or no pitch where there are several.

    Source: ISO 2904 (sizes), ISO 2903 (designation, classes).
    """
    if written.series is not None:
        raise CalloutError("thread_series_mismatch", "Trapezoidal threads have no series.", pointer="/series")

    def name(label: str, pitch: Decimal) -> str:
        grade = written.thread_class if written.thread_class in _CLASSES else "7H"
        return f"Tr {label}x{plain(pitch)}{'LH' if written.hand == 'left' else ''}-{grade}"

    known = sizes()
    label = _label(written, name)
    pitch = listed_sizes.metric_pitch("Tr", written, label, known[label].pitches_mm, name, hint=_OLD_FORM)
    return finish(
        system,
        written,
        size=label,
        diameter=known[label].diameter,
        unit="mm",
        pitch=pitch,
        thread_class=_class(name(label, pitch), written),
        starts=starts_of(written, pitch=pitch),
    )


def _label(written: Written, name: listed_sizes.Named) -> str:
    known = sizes()
    label = written.size.upper().removeprefix("TR").strip()
    label = plain(number(label)) if re.fullmatch(NUMBER, label) else label
    if label in known:
        return label
    raise CalloutError(
        "thread_size_unknown",
        f"ISO 2904 has no diameter {shortened(label)} mm.",
        pointer="/size",
        allowed=tuple(known),
        did_you_mean=tuple(name(one, known[one].pitches_mm[0]) for one in near_sizes(shortened(label), known)),
    )


def _class(thread: str, written: Written) -> str:
    """The class of the nut; ``7H/7e`` is a pair."""
    if written.thread_class is None:
        written.assumptions.append("No class written: 7H, the closest of the recommended classes 7H, 8H and 9H.")
        return "7H"
    found = members(written.thread_class)
    inside = [part.upper() for part in found if part.upper() in _CLASSES]  # no screw has position h
    outside = [part for part in found if part in _EXTERNAL]
    if len(inside) == 1 and len(inside) + len(outside) == len(found):
        return inside.pop()
    external = bool(outside) and len(outside) == len(found)
    raise CalloutError(
        "thread_class_external" if external else "thread_class_unknown",
        f"{shortened(written.thread_class)} is a class of the screw; the nut has 7H, 8H or 9H."
        if external
        else f"Trapezoidal nut threads have no class {shortened(written.thread_class)!r}.",
        pointer="/class",
        allowed=_CLASSES,
        did_you_mean=(thread,),
    )
