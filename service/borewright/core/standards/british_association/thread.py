"""British Association threads, 0 to 16 BA (BS 93). Millimetres, 47.5 degrees.

Callout: ``size`` is the number (``2``), ``pitch`` may be left out. Nuts have one class and are written without one;
``close`` or ``normal`` is the class of the bolt. Designations: ``2 BA``, ``2 BA LH``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.citation import Cite, cite
from borewright.core.model import (
    BasicDiameters,
    CatalogueEntry,
    Diameters,
    Length,
    Range,
    Thread,
    ThreadCallout,
)
from borewright.core.rounding import half_up
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.evidence import Evidence
from borewright.core.standards.family import Size
from borewright.tables import load

MATING_CLASSES: tuple[str, ...] = ("close", "normal")

_STANDARD = cite("british_association").standard
_LIMITS = Cite(
    _STANDARD.document,
    f"{_STANDARD.edition} Annex B",
    "nut tolerances: effective 0.12 p + 0.03 mm, minor 0.375 p mm",
    "computed",
)


@dataclass(frozen=True, slots=True)
class _Row:
    """A size of BS 93 (mm); ``height`` is the depth of thread, rounded as the standard does."""

    size: str
    pitch: Decimal
    height: Decimal
    major: Decimal
    place: Cite


@read_once
def _rows() -> Mapping[str, _Row]:
    table = load("british_association")
    return MappingProxyType(
        {
            row["size"]: _Row(
                row["size"],
                Decimal(row["pitch_mm"]),
                Decimal(row["height_mm"]),
                Decimal(row["major_mm"]),
                cite(table.name),
            )
            for row in table.rows
        }
    )


@read_once
def sizes() -> Mapping[str, Size]:
    """Numbers 0 to 16 with their major diameter and pitch in mm, largest thread first."""
    return MappingProxyType({name: Size(row.major, pitches_mm=(row.pitch,)) for name, row in _rows().items()})


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The BA nut thread of ``callout`` with its limits in mm; ``engagement`` changes nothing.

    Source: BS 93:1951 and BS 93:2008 Annex B.
    """
    proof = Evidence(callout.assumptions)
    row = _rows()[callout.size]
    mating_class = _mating_class(callout, proof)
    family.engagement_unused(engagement, proof=proof)
    proof.caution("ba_is_metric", "BA threads are metric; threads per inch printed for them are approximations only.")
    return Thread(
        callout=callout,
        designation=f"{row.size} BA{family.left(callout, ' LH')}",
        system="british_association",
        series=None,
        size=row.size,
        thread_class=None,
        hand=callout.hand,
        starts=1,
        unit="mm",
        nominal_diameter=row.major,
        pitch=row.pitch,
        threads_per_inch=None,
        lead=row.pitch,
        thread_angle=Decimal("47.5"),
        taper=None,
        standard=_STANDARD,
        basic=_basic(row, proof),
        internal=_internal(row, proof),
        external=None,
        mating_class=mating_class,
        tensile_stress_area=None,
        notes=proof.notes(),
    )


def _mating_class(callout: ThreadCallout, proof: Evidence) -> str | None:
    given = callout.thread_class
    if given is None:
        return None
    proof.assume(f"class {given} read as that of the bolt: BA nuts have one class only")
    return given


def _basic(row: _Row, proof: Evidence) -> BasicDiameters:
    sheet = proof.sheet(unit="mm", place=row.place, D=row.major, h=row.height)
    return BasicDiameters(
        proof.read("basic.major_diameter", row.major, unit="mm", place=row.place),
        sheet.put("basic.pitch_diameter", half_up(row.major - row.height, 3), formula="half_up(D - h, 3)"),
        sheet.put("basic.minor_diameter", half_up(row.major - 2 * row.height, 2), formula="half_up(D - 2 * h, 2)"),
    )


def _internal(row: _Row, proof: Evidence) -> Diameters:
    """Basic size is the least; the standard sets no greatest major diameter."""
    d, h, p = row.major, row.height, row.pitch
    sheet = proof.sheet(unit="mm", place=row.place, D=d, h=h, p=p)
    return Diameters(
        Range(proof.read("internal.major_diameter.min", d, unit="mm", place=row.place), None),
        Range(
            sheet.put("internal.pitch_diameter.min", half_up(d - h, 3), formula="half_up(D - h, 3)"),
            sheet.put(
                "internal.pitch_diameter.max",
                half_up(d - h + Decimal("0.12") * p + Decimal("0.03"), 3),
                formula="half_up(D - h + 0.12 * p + 0.03, 3)",
                place=_LIMITS,
            ),
        ),
        Range(
            sheet.put("internal.minor_diameter.min", half_up(d - 2 * h, 2), formula="half_up(D - 2 * h, 2)"),
            sheet.put(
                "internal.minor_diameter.max",
                half_up(d - 2 * h + Decimal("0.375") * p, 3),
                formula="half_up(D - 2 * h + 0.375 * p, 3)",
                place=_LIMITS,
            ),
        ),
    )


def catalogue() -> tuple[CatalogueEntry, ...]:
    """0 to 16 BA."""
    return tuple(
        CatalogueEntry(
            designation=f"{row.size} BA",
            system="british_association",
            series=None,
            size=row.size,
            unit="mm",
            nominal_diameter=row.major,
            pitch=row.pitch,
            threads_per_inch=None,
            classes=(),
        )
        for row in _rows().values()
    )


def coverage() -> Coverage:
    """What is held of BS 93."""
    return Coverage(
        "british_association",
        _STANDARD.document,
        _STANDARD.edition,
        covers="0 to 16 BA nuts",
        does_not_cover="bolts; numbers 17 to 25 of older lists",
        tables=tables_of("british_association", "tap_drill_british_association"),
    )
