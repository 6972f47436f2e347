"""Deviations, tolerances and engagement groups of ISO 965-1, looked up; what the tables lack is refused (micrometres).

The published tables follow preferred-number ranks with exceptions, so they are stored and not computed.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple, cast

from borewright.core.caches import cached, read_once
from borewright.core.errors import ThreadError, shortened
from borewright.core.model import Status
from borewright.core.quantity_text import length
from borewright.core.rounding import plain
from borewright.tables import load

POINTER = "/thread"
#: Tolerances that depend on the diameter range as well as on the pitch.
_BY_RANGE = frozenset({"TD2", "Td2", "LE_N_min", "LE_N_max"})
_WHAT = {
    "TD2": "pitch-diameter tolerance (internal)",
    "TD1": "minor-diameter tolerance (internal)",
    "Td2": "pitch-diameter tolerance (external)",
    "Td": "major-diameter tolerance (external)",
    "EI": "fundamental deviation (internal)",
    "es": "fundamental deviation (external)",
}

#: Coarse threads of ISO 965-5:1998 and ISO 965-4:1998 by diameter in mm; M8 is in ISO 10684 Annex B only.
GALVANIZED_MM = frozenset(
    map(Decimal, (10, 12, 14, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 42, 45, 48, 52, 56, 60, 64))
)
GALVANIZED_ANNEX_MM = frozenset({Decimal(8)})


class Cell(NamedTuple):
    """A tabulated value, in micrometres (mm for engagement), and whether it was seen in print or is from memory."""

    value: Decimal
    status: Status


@dataclass(frozen=True, slots=True)
class ToleranceClass:
    """A tolerance class of the M thread: grade and position of the pitch diameter, then of the crest diameter."""

    text: str
    pitch_grade: str
    pitch_position: str
    crest_grade: str
    crest_position: str

    @property
    def galvanized(self) -> bool:
        """Whether the position is one of ISO 965-4 or ISO 965-5 (AZ, AX, az)."""
        return len(self.pitch_position) == 2


_INTERNAL = re.compile(r"([4-8])([GH])(?:([4-8])([GH]))?|(6)(AZ|AX)")
_EXTERNAL = re.compile(r"([3-9])([efgh])(?:([3-9])([efgh]))?|(6)(az)")
_CLASS_SHAPE = re.compile(r"[1-9][A-Za-z]{1,2}(?:[1-9][A-Za-z]{1,2})?")
USUAL_EXTERNAL = ("4h", "6h", "6g", "6f", "6e", "8g", "4g6g", "5g6g", "7g6g", "6az")


@cached(64)
def internal_class(text: str) -> ToleranceClass:
    """The internal class that ``text`` names, such as ``6H``, ``4H5H``, ``6AZ`` (second half: minor diameter), as the
    reader settles it.

    Source: ISO 965-1 designation; ISO 965-5.
    """
    found = _INTERNAL.fullmatch(text)
    assert found is not None
    return _parts(found)


@cached(64)
def external_class(text: str, pointer: str = POINTER) -> ToleranceClass:
    """The external class that ``text`` names, such as ``6g`` or ``4g6g`` (second half: major diameter).

    Args: ``pointer`` to its field for an error.
    Raises: ThreadError ``thread_data_missing`` for positions a to d, ``thread_class_unknown``.
    Source: ISO 965-1 designation; ISO 965-4.
    """
    found = _EXTERNAL.fullmatch(text)
    if found is not None:
        return _parts(found)
    if _CLASS_SHAPE.fullmatch(text) and any(letter in text for letter in "abcd"):
        raise ThreadError(
            "thread_data_missing",
            f"positions a, b, c and d of ISO 965-1:2013 exist, but their deviations are not held ({text})",
            pointer=pointer,
            allowed=USUAL_EXTERNAL,
        )
    raise ThreadError(
        "thread_class_unknown",
        f"ISO 965-1 has no external class {shortened(text)!r}",
        pointer=pointer,
        allowed=USUAL_EXTERNAL,
        did_you_mean=tuple(name for name in USUAL_EXTERNAL if name.casefold() == text.casefold()),
    )


def _parts(found: re.Match[str]) -> ToleranceClass:
    grade, position, crest_grade, crest_position, zinc_grade, zinc_position = found.groups()
    if zinc_grade:
        return ToleranceClass(found[0], zinc_grade, zinc_position, zinc_grade, zinc_position)
    if crest_grade is None or (crest_grade, crest_position) == (grade, position):
        return ToleranceClass(grade + position, grade, position, grade, position)
    return ToleranceClass(found[0], grade, position, crest_grade, crest_position)


# --- tables ------------------------------------------------------------------------------------------

_Key = tuple[str, Decimal | None, Decimal, str]


@read_once
def _cells() -> Mapping[_Key, Cell]:
    cells: dict[_Key, Cell] = {}
    for row in load("iso965_tolerances").rows:
        upper = Decimal(row["d_to_mm"]) if row["d_to_mm"] else None
        cells[row["quantity"], upper, Decimal(row["pitch_mm"]), row["grade"]] = Cell(
            Decimal(row["value"]), cast(Status, row["status"])
        )
    return cells


@read_once
def _ranges() -> tuple[tuple[Decimal, Decimal], ...]:
    rows = (row for row in load("iso965_tolerances").rows if row["quantity"] == "TD2")
    return tuple(sorted({(Decimal(row["d_over_mm"]), Decimal(row["d_to_mm"])) for row in rows}))


def upper_of(d_mm: Decimal) -> Decimal:
    """Upper end of the diameter range of ISO 965-1 that holds ``d_mm`` over 0.99 to 355, in mm."""
    return next(upper for over, upper in _ranges() if over < d_mm <= upper)


def cell(quantity: str, grade: str, *, d_mm: Decimal, pitch_mm: Decimal) -> Cell:
    """A tolerance (``TD2``, ``TD1``, ``Td2``, ``Td``) by grade, or a deviation (``EI``, ``es``) by position, in um.

    Args: ``quantity`` of those; ``d_mm``; ``pitch_mm``.
    Raises: ThreadError ``thread_cell_undefined`` naming the grades and pitches that exist.
    Source: ISO 965-1 tables.
    """
    upper = upper_of(d_mm) if quantity in _BY_RANGE else None
    found = _cells().get((quantity, upper, pitch_mm, grade))
    if found is None:
        raise _undefined(quantity, upper, pitch_mm, grade)
    return found


def has_cell(quantity: str, grade: str, *, d_mm: Decimal, pitch_mm: Decimal) -> bool:
    """Whether ISO 965-1 tabulates ``quantity`` in ``grade`` at ``d_mm`` and ``pitch_mm``."""
    upper = upper_of(d_mm) if quantity in _BY_RANGE else None
    return (quantity, upper, pitch_mm, grade) in _cells()


def _undefined(quantity: str, upper: Decimal | None, pitch_mm: Decimal, grade: str) -> ThreadError:
    row = [key for key in _cells() if key[0] == quantity and key[1] == upper]
    grades = tuple(sorted(key[3] for key in row if key[2] == pitch_mm))
    pitches = tuple(plain(pitch) for pitch in sorted({key[2] for key in row}))
    where = f" for diameters up to {length(upper, 'mm')}" if upper is not None else ""
    if grades:
        detail = (
            f"ISO 965-1 has no {_WHAT[quantity]} {grade} at pitch {plain(pitch_mm)} mm{where}, only {', '.join(grades)}"
        )
    else:
        detail = f"ISO 965-1 has no pitch {plain(pitch_mm)} mm{where}: {', '.join(pitches)} exist"
    return ThreadError("thread_cell_undefined", detail, pointer=POINTER, allowed=grades or pitches)


def zinc_deviation_um(position: str, pitch_mm: Decimal) -> Decimal:
    """Fundamental deviation for hot-dip galvanized threads of ``pitch_mm``, in micrometres, sign included.

    Args: ``position`` AZ or AX (internal), az (external).
    Source: ISO 965-5:1998 scope (300 + 20 P, 220 P - 20); ISO 965-4:1998 (-(300 + 20 P)).
    """
    if position == "AX":
        return 220 * pitch_mm - 20
    clearance = 300 + 20 * pitch_mm
    return clearance if position == "AZ" else -clearance


def normal_engagement_mm(*, d_mm: Decimal, pitch_mm: Decimal) -> tuple[Decimal, Decimal]:
    """Limits of engagement group N in mm at ``d_mm`` and ``pitch_mm`` (over, up to and including).

    Raises: ThreadError ``thread_cell_undefined`` for a pitch that the diameter has neither groups nor tolerances of.
    Source: ISO 965-1 lengths of thread engagement.
    """
    upper, cells = upper_of(d_mm), _cells()
    if ("LE_N_min", upper, pitch_mm, "N") not in cells:
        raise _undefined("TD2", upper, pitch_mm, "of any grade")
    return cells["LE_N_min", upper, pitch_mm, "N"].value, cells["LE_N_max", upper, pitch_mm, "N"].value


def grades_of(*quantities: str, d_mm: Decimal, pitch_mm: Decimal) -> tuple[str, ...]:
    """Grades that every one of ``quantities`` is tabulated for at ``d_mm`` and ``pitch_mm``, finest first."""
    return tuple(
        grade
        for grade in "3456789"
        if all(has_cell(quantity, grade, d_mm=d_mm, pitch_mm=pitch_mm) for quantity in quantities)
    )
