"""Which class ISO 965-1 means or recommends: by length of engagement, where none is written, and for the mate."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from borewright.core.model import Length, Range, ThreadCallout
from borewright.core.rounding import plain
from borewright.core.standards import family

from . import tolerance as tolerance
from .tolerance import ToleranceClass

#: How the readers open the assumption they leave when a class was not written but supplied.
SUPPLIED = "No class written"
_SMALL_MM = Decimal("1.4")
#: Medium quality by engagement group (ISO 965-1 recommended classes, from memory).
_MEDIUM = {"S": "5", "N": "6", "L": "7"}
_FINEST_OF_MEDIUM = {"S": 5, "N": 6, "L": 7}


@dataclass(frozen=True, slots=True)
class Engaged:
    """Engagement of a metric thread: group S, N or L, the length if given, and the limits of group N in mm."""

    group: str
    length_mm: Decimal | None
    normal_mm: Range
    assumption: str | None


def engaged(callout: ThreadCallout, engagement: Length | None, *, d_mm: Decimal, pitch_mm: Decimal) -> Engaged:
    """Engagement group of a length, of the callout, or N where neither is known, for ``d_mm`` and ``pitch_mm``.

    Source: ISO 965-1 lengths of thread engagement.
    """
    shortest, longest = tolerance.normal_engagement_mm(d_mm=d_mm, pitch_mm=pitch_mm)
    normal = Range(shortest, longest)
    if engagement is None:
        if callout.engagement_group is not None:
            return Engaged(callout.engagement_group, None, normal, None)
        return Engaged("N", None, normal, "length of engagement not given: group N (normal) taken")
    length = engagement.to("mm")
    group = "S" if length <= shortest else "N" if length <= longest else "L"
    return Engaged(group, length, normal, None)


@dataclass(frozen=True, slots=True)
class Chosen:
    """The internal class of a thread, with what was assumed and what to watch."""

    tolerance_class: ToleranceClass
    assumption: str | None = None
    caution: str | None = None


def choose(callout: ThreadCallout, engagement: Engaged, *, d_mm: Decimal, pitch_mm: Decimal) -> Chosen:
    """The class that ``callout`` has written, or the one ISO 965-1 recommends at ``d_mm`` and ``pitch_mm`` for the
    engagement group.

    Source: ISO 965-1 recommended classes (medium quality), from memory; defaults DIN 13-1, GB/T 9145-2003.
    """
    recommended, reason = recommended_class(engagement.group, d_mm=d_mm, pitch_mm=pitch_mm)
    written = tolerance.internal_class(family.thread_class(callout))
    supplied = any(text.startswith(SUPPLIED) for text in callout.assumptions)
    if supplied and engagement.length_mm is not None and written.text != recommended:
        return Chosen(tolerance.internal_class(recommended), f"{SUPPLIED}: {recommended}, {reason}.")
    if written.text == recommended or written.galvanized or engagement.group == "N":
        return Chosen(written)
    return Chosen(
        written,
        caution=f"ISO 965-1 recommends {recommended} for engagement group {engagement.group}; {written.text} as written"
        " is kept",
    )


def recommended_class(group: str, *, d_mm: Decimal, pitch_mm: Decimal) -> tuple[str, str]:
    """Internal class of medium quality at ``d_mm`` and ``pitch_mm`` for a group, stepped to the coarsest grade the
    tables have, and the reason.
    """
    wanted = "5" if d_mm <= _SMALL_MM else _MEDIUM[group]
    grades = tolerance.grades_of("TD2", "TD1", d_mm=d_mm, pitch_mm=pitch_mm)
    if wanted in grades:
        return f"{wanted}H", f"the medium class of ISO 965-1 for engagement group {group}"
    return f"{grades[-1]}H", f"the coarsest grade that ISO 965-1 has at pitch {plain(pitch_mm)} mm"


def mate(chosen: ToleranceClass, group: str, *, d_mm: Decimal, pitch_mm: Decimal) -> str:
    """External class of the quality of ``chosen`` in ``group``: 6h up to M1.4, 6g for medium, 4h for fine, 8g for
    coarse where the tables have it.

    Args: ``d_mm`` and ``pitch_mm`` of the thread.
    Source: ISO 965-1 recommended classes (from memory); ISO 965-5: 6AZ and 6AX take a 6g bolt.
    """
    medium = "6h" if d_mm <= _SMALL_MM else "6g"
    usual = recommended_class("N", d_mm=d_mm, pitch_mm=pitch_mm)[0]
    wanted = medium
    if not chosen.galvanized and chosen.text != usual and d_mm > _SMALL_MM:
        grade = int(chosen.pitch_grade)
        finest = _FINEST_OF_MEDIUM[group]
        wanted = "4h" if grade < finest else "8g" if grade > finest else medium
    return wanted if _has_external(wanted, d_mm=d_mm, pitch_mm=pitch_mm) else medium


def _has_external(text: str, *, d_mm: Decimal, pitch_mm: Decimal) -> bool:
    found = tolerance.external_class(text)
    grades = tolerance.grades_of("Td2", "Td", d_mm=d_mm, pitch_mm=pitch_mm)
    return found.pitch_grade in grades


def looser(thread_class: str) -> tuple[str, ...]:
    """Internal classes that leave more room than ``thread_class`` of position H: its grade in position G, then coarser
    grades.

    Source: ISO 965-1 (grades 4 to 8).
    """
    if not thread_class[:1].isdigit() or not thread_class.endswith("H"):
        return ()
    grade = int(thread_class[0])
    return (f"{grade}G", *(f"{number}H" for number in range(grade + 1, 9)))
