"""ISO 7-1 pipe threads: taper internal Rc, parallel internal Rp, and their external mate R. Millimetres, 55 degrees.

Callout: ``size`` is the pipe size (``1/2``), ``series`` is ``Rc``, ``Rp`` or ``R``; no class; ``threads_per_inch`` may
be left out. A hole cannot be an R thread, so ``R`` is refused with both internal threads as what may have been meant.
``nominal_diameter`` is the gauge diameter (the major diameter at the gauge plane). Designations: ``Rc 1/2``,
``Rp 3/4 LH``.

Limits of Rc are those at the face, the gauge plane at its basic place shifted by the axial tolerance; limits of Rp hold
anywhere. :mod:`.iso_7_object` documents the ``pipe`` object.
"""

from __future__ import annotations

from collections.abc import Mapping
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

from . import cautions as pipe_cautions
from .iso_7_object import Iso7Size, iso_7_rows, pipe_object

#: Internal series; ``R`` is the external mate of both.
SERIES: tuple[str, ...] = ("Rc", "Rp")

_STANDARD = cite("iso_7").standard
_MATES: Mapping[str, Mapping[str, object]] = MappingProxyType(
    {
        "Rc": {"allowed": ("R external",), "not_allowed": ("NPT and NPTF external", "G external")},
        "Rp": {
            "allowed": ("R external",),
            "not_allowed": ("NPT and NPTF external", "G external where the joint must seal"),
        },
    }
)


@read_once
def sizes() -> Mapping[str, Size]:
    """Sizes by label, smallest first; the diameter is the gauge diameter in mm."""
    return MappingProxyType(
        {name: Size(row.diameters["major_diameter"], (row.threads_per_inch,)) for name, row in iso_7_rows().items()}
    )


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The internal ISO 7-1 thread of ``callout``: limits, lengths and hole in mm, with the external R thread as its
    mate.

    Args: ``engagement`` changes nothing.
    Source: ISO 7-1:1994 Table 1 (reprint IS 554:1999); JIS B 0203:1999 Table 1 for useful internal lengths.
    """
    series = "Rp" if callout.series == "Rp" else "Rc"
    proof = Evidence(callout.assumptions)
    row = iso_7_rows()[callout.size]
    family.engagement_unused(engagement, proof=proof)
    pipe = pipe_object(series, row, proof)
    _cautions(series, row, proof)
    return Thread(
        callout=callout,
        designation=f"{series} {row.size}{family.left(callout, ' LH')}",
        system="iso_7",
        series=series,
        size=row.size,
        thread_class=None,
        hand=callout.hand,
        starts=1,
        unit="mm",
        nominal_diameter=row.diameters["major_diameter"],
        pitch=row.pitch,
        threads_per_inch=row.threads_per_inch,
        lead=row.pitch,
        thread_angle=Decimal(55),
        taper=Decimal("0.0625") if series == "Rc" else None,
        standard=_STANDARD,
        basic=_basic(row, proof),
        internal=_internal(series, row, proof),
        external=_external(row, proof),
        mating_class=None,
        tensile_stress_area=None,
        extra=MappingProxyType({"pipe": MappingProxyType(pipe), "mates": _MATES[series]}),
        notes=proof.notes(),
    )


def _basic(row: Iso7Size, proof: Evidence) -> BasicDiameters:
    return BasicDiameters(
        *(proof.read(f"basic.{name}", row.diameters[name], unit="mm", place=row.place) for name in row.diameters)
    )


def _internal(series: str, row: Iso7Size, proof: Evidence) -> Diameters:
    """Every diameter either way by the axial tolerance of the gauge plane over the taper (both series share it)."""
    place = row.place if series == "Rp" else row.place.computed("gauge plane at the face within its axial tolerance")
    shift = row.lengths["diameter_tolerance"]
    return Diameters(
        *(
            _shifted(f"internal.{name}", row.diameters[name], proof, shift=shift, text="T", place=place)
            for name in row.diameters
        )
    )


def _external(row: Iso7Size, proof: Evidence) -> Diameters:
    """R at its basic gauge plane: its gauge length may be longer or shorter, so diameters move by 1/16 of that."""
    place = row.gauge_place.computed("gauge length tolerance of the external thread over the taper 1:16")
    shift = half_up(row.turns["gauge_length_tolerance"] * row.pitch / 16, 3)
    text = f"half_up({row.turns['gauge_length_tolerance']} * {row.pitch} / 16, 3)"
    return Diameters(
        *(
            _shifted(f"external.{name}", row.diameters[name], proof, shift=shift, text=text, place=place)
            for name in row.diameters
        )
    )


def _shifted(field: str, base: Decimal, proof: Evidence, *, shift: Decimal, text: str, place: Cite) -> Range:
    sheet = proof.sheet(unit="mm", place=place, d=base, T=shift)
    return Range(
        sheet.put(f"{field}.min", base - shift, formula=f"d - {text}"),
        sheet.put(f"{field}.max", base + shift, formula=f"d + {text}"),
    )


def _cautions(series: str, row: Iso7Size, proof: Evidence) -> None:
    pipe_cautions.pressure(proof)
    pipe_cautions.american_against_iso(proof, size=row.size, tpi=row.threads_per_inch, other="npt")
    if series == "Rp":
        proof.caution(
            "g_is_not_rp",
            text="G (ISO 228-1) has the same basic size as Rp but all its tolerance on the plus side: a G hole at its"
            " high limit is too large to seal an R thread. Cut and gauge Rp as Rp.",
        )
    else:
        proof.caution(
            "rc_drill_lists",
            text="Lists headed 'taper thread' that give the Rp drills are wrong for Rc without reaming: those drills"
            " equal or exceed the minor diameter at the face.",
        )


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Rc and Rp, every standard size."""
    return tuple(
        CatalogueEntry(
            designation=f"{series} {row.size}",
            system="iso_7",
            series=series,
            size=row.size,
            unit="mm",
            nominal_diameter=row.diameters["major_diameter"],
            pitch=row.pitch,
            threads_per_inch=row.threads_per_inch,
            classes=(),
        )
        for series in SERIES
        for row in iso_7_rows().values()
    )


def coverage() -> Coverage:
    """What is held of ISO 7-1."""
    return Coverage(
        "iso_7",
        _STANDARD.document,
        _STANDARD.edition,
        covers="Rc and Rp 1/16 to 6 with R as the mate: diameters at the gauge plane, lengths, hole",
        does_not_cover="form tolerances; gauge limits of ISO 7-2 and of the older BS 21 system",
        tables=tables_of("iso_7", "tap_drill_iso_7"),
    )
