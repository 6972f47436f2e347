"""Unified miniature screw threads UNM (ASME B1.10), 0.30 to 1.40 mm, as far as figures are held, in millimetres.

Limits of the internal minor diameter are printed; the tolerance of the pitch diameter and the limits of the mate are
not held, so the pitch diameter has its basic minimum and no maximum, and the thread has no mate.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.model import (
    BasicDiameters,
    CatalogueEntry,
    Caution,
    Diameters,
    Length,
    Notes,
    Range,
    Source,
    Step,
    Thread,
    ThreadCallout,
)
from borewright.core.rounding import whole_um
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.evidence import Evidence

_STANDARD = cite("unified_miniature").standard
_TABLE = "Machinery's Handbook 31st ed. p. 2171 Table 6"
_PROFILE = "geometry of the 60 degree profile, 0.649519 P"
_INCOMPLETE = Caution(
    "limits_incomplete",
    "the largest pitch diameter and the limits of the screw are not held for UNM: gauge by ASME B1.10 itself",
)
_SOURCES = (
    cite("unified_miniature").at("Table 6").source("internal.minor_diameter"),
    Source("internal.pitch_diameter", _STANDARD.document, "", _PROFILE, "computed"),
)


@read_once
def _rows() -> Mapping[str, Mapping[str, str]]:
    return family.by_key("unified_miniature", "size")


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The miniature thread of a callout.

    Args: ``engagement`` changes no limit of size (it changes the recommended hole).
    Source: ASME B1.10, Machinery's Handbook 31st ed. (2020) p. 2171 Table 6.
    """
    row = _rows()[callout.size]
    size, pitch = Decimal(row["diameter_mm"]), Decimal(row["pitch_mm"])
    proof = Evidence()
    family.engagement_unused(engagement, proof=proof)
    minor = Range(Decimal(row["minor_min_mm"]), Decimal(row["minor_max_mm"]))
    basic = BasicDiameters(whole_um(size), whole_um(size - Decimal("0.649519") * pitch), Decimal(row["minor_min_mm"]))
    return Thread(
        callout=callout,
        designation=f"{row['size']} UNM{family.left(callout, ' LH')}",
        system="unified_miniature",
        series="UNM",
        size=row["size"],
        thread_class=None,
        hand=callout.hand,
        starts=1,
        unit="mm",
        nominal_diameter=size,
        pitch=pitch,
        threads_per_inch=None,
        lead=pitch,
        thread_angle=Decimal(60),
        taper=None,
        standard=_STANDARD,
        basic=basic,
        internal=Diameters(Range(basic.major_diameter, None), Range(basic.pitch_diameter, None), minor),
        external=None,
        mating_class=None,
        tensile_stress_area=None,
        notes=Notes(
            (*callout.assumptions, *proof.notes().assumptions),
            (_INCOMPLETE,),
            _SOURCES,
            _steps(size, pitch, basic, minor),
        ),
    )


def _steps(size: Decimal, pitch_mm: Decimal, basic: BasicDiameters, minor: Range) -> tuple[Step, ...]:
    return (
        Step(
            "basic.pitch_diameter",
            "half_even(D - 0.649519 * P, 3)",
            {"D": size, "P": pitch_mm},
            basic.pitch_diameter,
            "mm",
            _PROFILE,
        ),
        Step("internal.minor_diameter.min", "table", {"D": size}, minor.min, "mm", _TABLE),
        Step("internal.minor_diameter.max", "table", {"D": size}, minor.max, "mm", _TABLE),
    )


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every size of UNM."""
    return tuple(
        CatalogueEntry(
            designation=f"{size} UNM",
            system="unified_miniature",
            series="UNM",
            size=size,
            unit="mm",
            nominal_diameter=Decimal(row["diameter_mm"]),
            pitch=Decimal(row["pitch_mm"]),
            threads_per_inch=None,
            classes=(),
        )
        for size, row in _rows().items()
    )


def coverage() -> Coverage:
    """What is covered of ASME B1.10."""
    return Coverage(
        "unified_miniature",
        _STANDARD.document,
        _STANDARD.edition,
        "0.30 to 1.40 UNM: limits of the internal minor diameter, hole limits by length of engagement",
        "largest pitch diameter, limits of the screw, gauges; miniature threads S of ISO 1501",
        tables_of("unified_miniature"),
    )
