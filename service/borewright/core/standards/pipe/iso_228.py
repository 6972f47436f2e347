"""ISO 228-1 parallel pipe threads G: the joint is made beside the thread, not on it. Millimetres, 55 degrees.

Callout: ``size`` is the pipe size (``1/2``), ``threads_per_inch`` may be left out. The internal thread has one class
and is written without one; ``A`` or ``B`` is the class of the external mate (``A`` where none is written).
``nominal_diameter`` is the major diameter. Designations: ``G 1/2``, ``G 1/2 LH``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.citation import Cite, cite
from borewright.core.errors import ThreadError, shortened
from borewright.core.model import (
    BasicDiameters,
    CatalogueEntry,
    Diameters,
    Length,
    Range,
    Thread,
    ThreadCallout,
)
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.evidence import Evidence
from borewright.core.standards.family import Size
from borewright.tables import load

from . import cautions as pipe_cautions

#: Classes of the external mate; B has twice the tolerance of A on the pitch diameter.
MATING_CLASSES: tuple[str, ...] = ("A", "B")

_STANDARD = cite("iso_228").standard
_COLUMNS = (
    "major_mm",
    "pitch_diameter_mm",
    "minor_mm",
    "tolerance_d2_mm",
    "tolerance_d1_mm",
    "class_a_mm",
    "class_b_mm",
    "tolerance_major_external_mm",
)
_PIPE: Mapping[str, object] = MappingProxyType(
    {
        "sealing": "joint_not_on_thread: a washer, bonded seal or O-ring beside the thread seals",
        "tap_style": "straight_flute",
        "gauge_form": "parallel_plugs",
        "gauge": "ISO 228-2 GO and NOT GO parallel plugs; NOT GO may enter not more than one turn",
    }
)
_MATES: Mapping[str, object] = MappingProxyType(
    {
        "allowed": ("G A external", "G B external"),
        "not_allowed": ("R external where the joint must seal on the thread", "NPT, NPTF and NPSM external"),
    }
)


@dataclass(frozen=True, slots=True)
class _Row:
    """A size of ISO 228-1 Table 1; ``figures`` by column of the table, in mm."""

    size: str
    threads_per_inch: Decimal
    pitch: Decimal
    figures: Mapping[str, Decimal]
    place: Cite


@read_once
def _rows() -> Mapping[str, _Row]:
    table = load("iso_228")
    return MappingProxyType(
        {
            row["size"]: _Row(
                size=row["size"],
                threads_per_inch=Decimal(row["threads_per_inch"]),
                pitch=Decimal(row["pitch_mm"]),
                figures={name.removesuffix("_mm"): Decimal(row[name]) for name in _COLUMNS},
                place=cite(table.name),
            )
            for row in table.rows
        }
    )


@read_once
def sizes() -> Mapping[str, Size]:
    """Sizes by label, smallest first; the diameter is the major diameter in mm."""
    return MappingProxyType(
        {name: Size(row.figures["major"], (row.threads_per_inch,)) for name, row in _rows().items()}
    )


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The G thread of ``callout`` with its limits in mm, with the external thread of class A or B.

    Args: ``engagement`` changes nothing.
    Source: ISO 228-1:2000 Table 1.
    """
    proof = Evidence(callout.assumptions)
    row = _rows()[callout.size]
    mating_class = _mating_class(callout, proof)
    family.engagement_unused(engagement, proof=proof)
    _cautions(row, proof)
    return Thread(
        callout=callout,
        designation=f"G {row.size}{family.left(callout, ' LH')}",
        system="iso_228",
        series="G",
        size=row.size,
        thread_class=None,
        hand=callout.hand,
        starts=1,
        unit="mm",
        nominal_diameter=row.figures["major"],
        pitch=row.pitch,
        threads_per_inch=row.threads_per_inch,
        lead=row.pitch,
        thread_angle=Decimal(55),
        taper=None,
        standard=_STANDARD,
        basic=_basic(row, proof),
        internal=_internal(row, proof),
        external=_external(row, mating_class, proof),
        mating_class=mating_class,
        tensile_stress_area=None,
        extra=MappingProxyType({"pipe": _PIPE, "mates": _MATES}),
        notes=proof.notes(),
    )


def external_limits(thread: Thread, thread_class: str) -> Diameters:
    """Limits of the external G thread of ``thread_class``, ``A`` or ``B``, in mm.

    Raises: ThreadError ``thread_class_unknown``.
    Source: ISO 228-1:2000 Table 1.
    """
    chosen = thread_class.upper()
    if chosen not in MATING_CLASSES:
        raise ThreadError(
            "thread_class_unknown",
            f"external G threads have no class {shortened(thread_class)!r}",
            pointer="/mating_screw/class",
            allowed=MATING_CLASSES,
        )
    return _external(_rows()[thread.size], chosen, Evidence())


def _mating_class(callout: ThreadCallout, proof: Evidence) -> str:
    given = callout.thread_class
    if given is None:
        proof.assume("external mate taken as class A (class B has twice its pitch diameter tolerance)")
        return "A"
    proof.assume(f"class {given} read as that of the external mate: the internal G thread has one class only")
    return given


def _basic(row: _Row, proof: Evidence) -> BasicDiameters:
    names = ("major", "pitch_diameter", "minor")
    fields = ("basic.major_diameter", "basic.pitch_diameter", "basic.minor_diameter")
    values = (
        proof.read(field, row.figures[name], unit="mm", place=row.place)
        for field, name in zip(fields, names, strict=True)
    )
    return BasicDiameters(*values)


def _internal(row: _Row, proof: Evidence) -> Diameters:
    """Lower deviations are zero; the standard's open upper end of the major diameter is from memory."""
    major = proof.read("internal.major_diameter.min", row.figures["major"], unit="mm", place=row.place)
    return Diameters(
        major_diameter=Range(major, None),
        pitch_diameter=_above("pitch_diameter", row, proof, tolerance="tolerance_d2"),
        minor_diameter=_above("minor", row, proof, tolerance="tolerance_d1"),
    )


def _above(name: str, row: _Row, proof: Evidence, *, tolerance: str) -> Range:
    field = f"internal.{name.removesuffix('_diameter')}_diameter"
    base, width = row.figures[name], row.figures[tolerance]
    return Range(
        proof.read(f"{field}.min", base, unit="mm", place=row.place),
        proof.work(
            f"{field}.max",
            base + width,
            formula="d + T",
            inputs={"d": base, "T": width},
            unit="mm",
            place=row.place,
        ),
    )


def _external(row: _Row, mating_class: str, proof: Evidence) -> Diameters:
    """Upper deviations are zero; the minor diameter of the external thread has no tolerance."""
    return Diameters(
        major_diameter=_below("major", row, proof, tolerance="tolerance_major_external"),
        pitch_diameter=_below("pitch_diameter", row, proof, tolerance=f"class_{mating_class.lower()}"),
        minor_diameter=family.open_range(),
    )


def _below(name: str, row: _Row, proof: Evidence, *, tolerance: str) -> Range:
    field = f"external.{name.removesuffix('_diameter')}_diameter"
    base, width = row.figures[name], row.figures[tolerance]
    low = proof.work(
        f"{field}.min", base - width, formula="d - T", inputs={"d": base, "T": width}, unit="mm", place=row.place
    )
    return Range(low, proof.read(f"{field}.max", base, unit="mm", place=row.place))


def _cautions(row: _Row, proof: Evidence) -> None:
    pipe_cautions.pressure(proof)
    proof.caution(
        "g_is_not_rp",
        text="G does not seal on the thread. It has the basic size of Rp (ISO 7-1) but other limits: for a joint that"
        " seals on the thread with an R external thread specify Rp or Rc.",
    )
    pipe_cautions.american_against_iso(proof, size=row.size, tpi=row.threads_per_inch, other="npt")


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every size of ISO 228-1."""
    return tuple(
        CatalogueEntry(
            designation=f"G {row.size}",
            system="iso_228",
            series="G",
            size=row.size,
            unit="mm",
            nominal_diameter=row.figures["major"],
            pitch=row.pitch,
            threads_per_inch=row.threads_per_inch,
            classes=(),
        )
        for row in _rows().values()
    )


def coverage() -> Coverage:
    """What is held of ISO 228-1."""
    return Coverage(
        "iso_228",
        _STANDARD.document,
        _STANDARD.edition,
        covers="G 1/16 to 6: internal limits, external mate of class A and B",
        does_not_cover="threads with truncated crests (suffix T); gauge limits of ISO 228-2",
        tables=tables_of("iso_228", "tap_drill_iso_228"),
    )
