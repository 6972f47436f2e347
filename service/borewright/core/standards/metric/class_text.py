"""Tolerance classes of ISO 965-1 and ISO 965-5: which are internal, and what leaving the class out means."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.callout.classes import members
from borewright.core.callout.thread_as_written import Written
from borewright.core.errors import CalloutError
from borewright.core.rounding import plain

_PARTS = re.compile(r"([0-9]{1,2})([A-Za-z]{1,2})(?:([0-9]{1,2})([A-Za-z]{1,2}))?")
_INTERNAL_GRADES = frozenset("45678")
_EXTERNAL_GRADES = frozenset("3456789")
_MAJOR_GRADES = frozenset("468")
_INTERNAL_POSITIONS = frozenset("GH")
_EXTERNAL_POSITIONS = frozenset("abcdefgh")
_AFTER_GALVANIZING = ("6AZ", "6AX")
_MEDIUM = {"S": "5H", "N": "6H", "L": "7H"}
_USUAL = ("4H", "5H", "6H", "7H", "6G", "6AZ", "6AX")
_USUAL_MJ = ("4H5H", "4H6H", "6H", "4G6G")


def internal_class(system: str, thread: str, written: Written, *, diameter_mm: Decimal, pitch_mm: Decimal) -> str:
    """The class of the hole of ``system``, ``diameter_mm`` and ``pitch_mm``; the default and its assumption where none
    is written; the mate's goes to ``extra``.

    Raises:
        CalloutError: not a class of ISO 965-1, or a class of the external thread only.

    Source: ISO 965-1 (positions, grades, class that an omission means), ISO 965-5 (6AZ, 6AX), ASME B1.21M (MJ).
    """
    default, why = _default(system, diameter_mm, pitch_mm, written.engagement_group)
    if written.thread_class is None:
        written.assumptions.append(f"No class written: {default}, {why}.")
        return default
    found = members(written.thread_class)
    inside = [name for part in found if (name := internal_name(part))]
    outside = [part for part in found if _is_external(part)]
    if not found or len(inside) + len(outside) != len(found) or len(inside) > 1:
        raise CalloutError(
            "thread_class_unknown",
            f"Class {written.thread_class} does not exist for an internal ISO metric thread"
            f"{_hint(written.thread_class)}.",
            pointer="/class",
            allowed=_USUAL_MJ if system == "metric_j" else _USUAL,
            did_you_mean=(f"{thread}-{default}",),
        )
    if not inside:
        raise CalloutError(
            "thread_class_external",
            f"{outside[0]} is a class of the external thread (lower-case letter); the hole has an upper-case one.",
            pointer="/class",
            allowed=_USUAL_MJ if system == "metric_j" else _USUAL,
            did_you_mean=(f"{thread}-{default}",),
        )
    written.extra += [("mating_class", part) for part in outside]
    (internal,) = inside
    return internal


def _hint(written: str) -> str:
    return ": 1B, 2B and 3B are Unified classes" if written.upper() in ("1B", "2B", "3B", "1A", "2A", "3A") else ""


def internal_name(part: str) -> str | None:
    """The class ``part`` in its shortest form (``6H6H`` -> ``6H``) when it is one of an internal thread."""
    if part in _AFTER_GALVANIZING:
        return part
    found = _PARTS.fullmatch(part)
    if found is None:
        return None
    pitch_grade, position, minor_grade, minor_position = found.groups()
    if pitch_grade not in _INTERNAL_GRADES or position not in _INTERNAL_POSITIONS:
        return None
    if minor_grade is None or (minor_grade, minor_position) == (pitch_grade, position):
        return f"{pitch_grade}{position}"
    return part if minor_grade in _INTERNAL_GRADES and minor_position == position else None


def _is_external(part: str) -> bool:
    found = _PARTS.fullmatch(part)
    if found is None:
        return False
    grade, position, major_grade, major_position = found.groups()
    if (grade, position) == ("6", "az"):
        return major_grade is None
    if grade not in _EXTERNAL_GRADES or position not in _EXTERNAL_POSITIONS:
        return False
    return major_grade is None or (major_grade in _MAJOR_GRADES and major_position == position)


def _default(system: str, diameter_mm: Decimal, pitch_mm: Decimal, group: str | None) -> tuple[str, str]:
    if system == "metric_j":
        return "4H5H", "the aerospace class of ASME B1.21M (ISO 5855-2 may ask 4H6H up to MJ5: see the drawing)"
    if pitch_mm == Decimal("0.2"):
        return "4H", "the only grade ISO 965-1 has at pitch 0.2 mm"
    if diameter_mm <= Decimal("1.4"):
        return "5H", "what ISO 965-1 means by no class up to M1.4"
    if pitch_mm == Decimal("0.25"):
        return "5H", "the coarsest grade ISO 965-1 has at pitch 0.25 mm"
    if group == "L" and pitch_mm < Decimal("0.5"):
        return "6H", f"the coarsest grade ISO 965-1 has at pitch {plain(pitch_mm)} mm"
    if group in ("S", "L"):
        return _MEDIUM[group], f"the medium class of ISO 965-1 for engagement group {group}"
    return "6H", "what ISO 965-1 means by no class from M1.6"
