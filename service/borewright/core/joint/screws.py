"""Strength of screws by grade: the text of a grade as people type it, and the minimum strengths for a size."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import cast

from borewright import tables
from borewright.core import quantity_text
from borewright.core.caches import cached, read_once
from borewright.core.errors import MaterialError, nearest
from borewright.core.model import MM_PER_INCH, Status, Unit

MPA_PER_KSI = 6.894757
POINTER = "/mating_screw/grade"

_LIMIT = 60
_SIGNS = re.compile(r"[^a-z0-9.]+")
_SAYS_NOTHING = re.compile(
    r"\b(?:sae|astm|iso|din|j ?429|898(?:-1)?(?::\d{4})?|3506(?:-1)?(?::\d{4})?|a193|ifi-?104|grade|gr|property|class|"
    r"cl|sockets?|heads?|bolts?|screws?|studs?|capscrews?|cap|hex|steel|stainless)\b\.?"
)
_GLUED = re.compile(r"\b(?:gr|g)\.? ?(?=\d)")


@dataclass(frozen=True, slots=True)
class ScrewGrade:
    """Minimum strengths of a grade in one size range, in MPa."""

    label: str
    standard: str
    tensile_mpa: float
    proof_mpa: float | None
    yield_mpa: float | None
    shear_mpa: float | None
    sizes: str
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of the grade table with its range of nominal diameters in mm, infinite where none is printed."""

    grade: ScrewGrade
    from_mm: float
    to_mm: float


@cached(256)
def find_grade(text: str, *, diameter_mm: float) -> ScrewGrade:
    """The grade that a text names, for a screw of nominal diameter ``diameter_mm``.

    Raises: MaterialError ``screw_grade_unknown``, ``screw_size_out_of_grade``.

    Source: screw_grades table (SAE J429, ISO 898-1, ISO 3506-1, ASTM A574, A307, A325, A354, A449, A490, A193, F593).
    """
    rows = _named(text)
    if diameter_mm >= rows[0].from_mm - _TOLERANCE_MM:
        for row in rows:
            if diameter_mm <= row.to_mm + _TOLERANCE_MM:
                return row.grade
    raise MaterialError(
        "screw_size_out_of_grade",
        f"{rows[0].grade.standard} {rows[0].grade.label} does not cover a screw of"
        f" {quantity_text.length(Decimal(str(diameter_mm)), 'mm', 2)}.",
        pointer=POINTER,
        allowed=tuple(row.grade.sizes for row in rows),
    )


_TOLERANCE_MM = 0.001


def check_grade(text: str) -> None:
    """Refuse a text that names no grade held, whatever the size of the screw.

    Raises: MaterialError ``screw_grade_unknown``.

    Source: screw_grades table.
    """
    _named(text)


def _named(text: str) -> tuple[_Row, ...]:
    """The size rows of the grade that a text names."""
    folded = _fold(text)
    rows = _grades().get(_SIGNS.sub("", folded)) or _grades().get(_bare(folded))
    if rows and len(text) <= _LIMIT:
        return rows
    raise MaterialError(
        "screw_grade_unknown",
        f"The screw grade {text[:_LIMIT]!r} is not in the tables.",
        pointer=POINTER,
        allowed=shown_grades(),
        did_you_mean=nearest(_bare(folded), shown_grades()),
    )


def usual_grade(*, diameter_mm: float, unit: Unit) -> str | None:
    """The grade assumed where none is stated: a common medium-strength screw of ``diameter_mm`` and ``unit``.

    Source: common practice.
    """
    if unit == "mm":
        return "8.8" if 1.6 <= diameter_mm <= 39 else None
    diameter_in = diameter_mm / float(MM_PER_INCH)
    if diameter_in < 0.0599:
        return None
    for limit, grade in ((0.2499, "A574"), (1.5001, "5"), (3.0001, "A449"), (4.0001, "A354 BD")):
        if diameter_in <= limit:
            return grade
    return None


@read_once
def shown_grades() -> tuple[str, ...]:
    """Names of every grade, to suggest from.

    Source: screw_grades table.
    """
    return tuple(dict.fromkeys(name for row in tables.load("screw_grades").rows for name in row["names"].split(";")))


def _fold(text: str) -> str:
    return _GLUED.sub("", " ".join(text.casefold().replace(",", ".").split()))


def _bare(folded: str) -> str:
    """A grade without the words that only say what kind of text it is."""
    return _SIGNS.sub("", _SAYS_NOTHING.sub(" ", folded))


@read_once
def _grades() -> Mapping[str, tuple[_Row, ...]]:
    """Every name of a grade, bare, with its size rows from small to large."""
    found: dict[str, tuple[_Row, ...]] = {}
    for row in tables.load("screw_grades").rows:
        for name in row["names"].split(";"):
            folded = _fold(name)
            entry = _row(row, name)
            for key in {_SIGNS.sub("", folded), _bare(folded)} - {""}:
                found[key] = (*found.get(key, ()), entry)
    return found


def _row(row: Mapping[str, str], name: str) -> _Row:
    in_ksi = row["strength_unit"] == "ksi"

    def strength(kind: str) -> float | None:
        text = row[f"{kind}_ksi" if in_ksi else f"{kind}_mpa"]
        return None if not text else float(text) * (MPA_PER_KSI if in_ksi else 1.0)

    factor = float(MM_PER_INCH) if row["size_unit"] == "in" else 1.0
    tensile = strength("tensile")
    assert tensile is not None
    grade = ScrewGrade(
        label=name,
        standard=row["standard"],
        tensile_mpa=tensile,
        proof_mpa=strength("proof"),
        yield_mpa=strength("yield"),
        shear_mpa=float(row["shear_ksi"]) * MPA_PER_KSI if row["shear_ksi"] else None,
        sizes=row["size_printed"],
        source=row["source"],
        status=cast("Status", row["status"]),
    )
    return _Row(
        grade,
        float(row["size_from"] or "-inf") * factor,
        float(row["size_to"] or "inf") * factor,
    )
