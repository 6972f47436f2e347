"""ISO metric trapezoidal threads Tr 7H, 8H, 9H (ISO 2901 to 2904), one or several starts. Millimetres, 30 degrees.

Callout: ``size`` is the nominal diameter (``40``), ``pitch`` in mm (never the lead); class ``7H``, ``8H``, ``9H`` is
the class of the pitch diameter. ``engagement_group`` ``L`` is carried into the designation.

Designations: ``Tr 40x7-7H``, ``Tr 40x7LH-7H``, ``Tr 40x14(P7)-7H``, ``Tr 40x7-7H-L``.
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
    Standard,
    Thread,
    ThreadCallout,
)
from borewright.core.rounding import half_up, plain
from borewright.core.standards import family
from borewright.core.standards.coverage import Coverage, tables_of
from borewright.core.standards.evidence import Evidence
from borewright.core.standards.family import Size
from borewright.tables import load

CLASSES: tuple[str, ...] = ("7H", "8H", "9H")

#: External class of the same quality.
_MATES = {"7H": "7e", "8H": "8e", "9H": "9c"}
_STANDARD = Standard("ISO 2901 to ISO 2904", "tolerances ISO 2903:2016 and earlier")
_POSITION_H = Cite("ISO 2901", "1993", "profile; position H of ISO 2903:2016 clause 6", "computed")
#: Minor diameter (mm) of nuts to DIN 103 where ISO has the same pair with a smaller one.
_OLD_MINOR = {("16", Decimal(4)): "12.5"}


@dataclass(frozen=True, slots=True)
class _Row:
    """A diameter and pitch of ISO 2904 with its tolerances (mm, tolerances um)."""

    size: str
    diameter: Decimal
    pitch: Decimal
    clearance: Decimal
    pitch_tolerance_um: Mapping[str, Decimal]
    minor_tolerance_um: Decimal
    place: Cite


@read_once
def _rows() -> Mapping[tuple[str, Decimal], _Row]:
    table = load("trapezoidal")
    rows = (
        _Row(
            size=row["diameter_mm"],
            diameter=Decimal(row["diameter_mm"]),
            pitch=Decimal(row["pitch_mm"]),
            clearance=Decimal(row["crest_clearance_mm"]),
            pitch_tolerance_um={grade: Decimal(row[f"tolerance_d2_{grade.lower()}_um"]) for grade in CLASSES},
            minor_tolerance_um=Decimal(row["tolerance_d1_4h_um"]),
            place=cite(table.name),
        )
        for row in table.rows
    )
    return MappingProxyType({(row.size, row.pitch): row for row in rows})


@read_once
def sizes() -> Mapping[str, Size]:
    """Diameters in mm by label, smallest first; the preferred pitch of each comes first."""
    found: dict[str, list[Decimal]] = {}
    for row in _rows().values():
        found.setdefault(row.size, []).append(row.pitch)
    return MappingProxyType({name: Size(Decimal(name), pitches_mm=tuple(pitches)) for name, pitches in found.items()})


def resolve(callout: ThreadCallout, engagement: Length | None) -> Thread:
    """The trapezoidal nut thread of ``callout`` with its limits in mm; ``engagement`` changes nothing.

    Source: ISO 2901 (profile), ISO 2904 (sizes), ISO 2903 (tolerances, from memory).
    """
    proof = Evidence(callout.assumptions)
    row = _rows()[callout.size, family.pitch_mm(callout)]
    thread_class, starts = family.thread_class(callout), callout.starts
    lead = starts * row.pitch
    group = "-L" if callout.engagement_group == "L" else ""
    family.engagement_unused(engagement, proof=proof)
    _cautions(row, proof)
    basic = _basic(row, proof)
    several = family.multi_start(starts=starts, lead=lead, pitch_diameter=basic.pitch_diameter, unit="mm", proof=proof)
    return Thread(
        callout=callout,
        designation=_designation(callout, row, thread_class, lead=lead, starts=starts) + group,
        system="trapezoidal",
        series=None,
        size=row.size,
        thread_class=thread_class,
        hand=callout.hand,
        starts=starts,
        unit="mm",
        nominal_diameter=row.diameter,
        pitch=row.pitch,
        threads_per_inch=None,
        lead=lead,
        thread_angle=Decimal(30),
        taper=None,
        standard=_STANDARD,
        basic=basic,
        internal=_internal(row, thread_class, proof),
        external=None,
        mating_class=_MATES[thread_class],
        tensile_stress_area=None,
        extra=MappingProxyType(several),
        notes=proof.notes(),
    )


def _designation(callout: ThreadCallout, row: _Row, thread_class: str, *, lead: Decimal, starts: int) -> str:
    pitch = f"{plain(lead)}(P{plain(row.pitch)})" if starts > 1 else plain(row.pitch)
    return f"Tr {row.size}x{pitch}{family.left(callout, 'LH')}-{thread_class}"


def _basic(row: _Row, proof: Evidence) -> BasicDiameters:
    sheet = proof.sheet(unit="mm", place=_POSITION_H, d=row.diameter, P=row.pitch)
    return BasicDiameters(
        sheet.put("basic.major_diameter", half_up(row.diameter, 3), formula="half_up(d, 3)"),
        sheet.put("basic.pitch_diameter", half_up(row.diameter - row.pitch / 2, 3), formula="half_up(d - 0.5 * P, 3)"),
        sheet.put("basic.minor_diameter", half_up(row.diameter - row.pitch, 3), formula="half_up(d - P, 3)"),
    )


def _internal(row: _Row, thread_class: str, proof: Evidence) -> Diameters:
    """Position H on every diameter; the major diameter has no upper limit, the minor diameter grade 4 only."""
    d, p = row.diameter, row.pitch
    pitch_um, minor_um = row.pitch_tolerance_um[thread_class], row.minor_tolerance_um
    form = proof.sheet(unit="mm", place=_POSITION_H, d=d, P=p)
    of_table = proof.sheet(unit="mm", place=row.place, d=d, P=p, a_c=row.clearance, TD2_um=pitch_um, TD1_um=minor_um)
    return Diameters(
        Range(
            of_table.put(
                "internal.major_diameter.min", half_up(d + 2 * row.clearance, 3), formula="half_up(d + 2 * a_c, 3)"
            ),
            None,
        ),
        Range(
            form.put("internal.pitch_diameter.min", half_up(d - p / 2, 3), formula="half_up(d - 0.5 * P, 3)"),
            of_table.put(
                "internal.pitch_diameter.max",
                half_up(d - p / 2 + pitch_um / 1000, 3),
                formula="half_up(d - 0.5 * P + TD2_um / 1000, 3)",
            ),
        ),
        Range(
            form.put("internal.minor_diameter.min", half_up(d - p, 3), formula="half_up(d - P, 3)"),
            of_table.put(
                "internal.minor_diameter.max",
                half_up(d - p + minor_um / 1000, 3),
                formula="half_up(d - P + TD1_um / 1000, 3)",
            ),
        ),
    )


def _cautions(row: _Row, proof: Evidence) -> None:
    proof.caution(
        "tr_lead_screw_play",
        text="The tolerances are not meant for threads with special requirements on axial play, such as lead screws of"
        " machine tools (ISO 2903:2016 scope).",
    )
    old = _OLD_MINOR.get((row.size, row.pitch))
    if old is not None:
        proof.caution(
            "tr_old_din_103",
            text=f"Nuts to the withdrawn DIN 103 had a minor diameter of {old} mm in this size: check which form the"
            " mating screw has.",
        )


def catalogue() -> tuple[CatalogueEntry, ...]:
    """Every diameter and pitch held of ISO 2904, one start."""
    return tuple(
        CatalogueEntry(
            designation=f"Tr {row.size}x{plain(row.pitch)}-7H",
            system="trapezoidal",
            series=None,
            size=row.size,
            unit="mm",
            nominal_diameter=row.diameter,
            pitch=row.pitch,
            threads_per_inch=None,
            classes=CLASSES,
        )
        for row in _rows().values()
    )


def coverage() -> Coverage:
    """What is held of ISO trapezoidal threads."""
    return Coverage(
        "trapezoidal",
        _STANDARD.document,
        _STANDARD.edition,
        covers="Tr 8 to 100 mm, 7H, 8H, 9H, several starts with the tolerances of one start",
        does_not_cover="above 100 mm; external limits; wider tolerances of several starts; DIN 103 old forms",
        tables=tables_of("trapezoidal", "tap_drill_trapezoidal"),
    )
