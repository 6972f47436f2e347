"""The columns of a batch as CSV: those that are read, those that are written."""

from __future__ import annotations

from typing import NamedTuple


class Column(NamedTuple):
    """A column: ``kind`` is text, figure (a number, or text with its unit), flag (true, false) or list (``;``)."""

    kind: str
    meaning: str


_UNIT = "a bare number is in the unit of unit_system, else of the thread; text carries its own unit"

COLUMNS: dict[str, Column] = {
    "id": Column("text", "the caller's own name of the hole"),
    "thread": Column("text", "callout"),
    "hole.type": Column("text", "blind or through"),
    "hole.full_thread_depth": Column("figure", f"depth of full thread; {_UNIT}"),
    "hole.thickness": Column("figure", f"wall at the hole; {_UNIT}"),
    "hole.drill_depth_limit": Column("figure", f"deepest full drill diameter; {_UNIT}"),
    "hole.point_angle": Column("figure", "included angle of the drill point, in degrees"),
    "hole.access_depth": Column("figure", f"depth of a bore above the entry face; {_UNIT}"),
    "hole.clearance_diameter": Column("figure", f"diameter free for shanks and holders; {_UNIT}"),
    "material": Column("text", "name of the part material"),
    "material.hardness": Column("text", "hardness with its scale"),
    "material.group": Column("text", "ISO 513 group letter"),
    "material.tensile_strength": Column("figure", "tensile strength; a bare number is in psi or MPa"),
    "finish": Column("text", "specification and class"),
    "finish.class": Column("text", "class, type or grade within the specification"),
    "finish.thickness": Column("figure", f"thickness on a surface; {_UNIT}"),
    "finish.growth_fraction": Column("figure", "part of the thickness above the old surface, a fraction"),
    "finish.masked": Column("flag", "the thread is masked"),
    "finish.reading": Column("text", "asme or iso"),
    "method": Column("text", "cut or form"),
    "percent_thread": Column("figure", "percent of thread wanted, 0.75 H basis"),
    "objective": Column("text", "chart, least_torque or acceptance"),
    "drill_series": Column("list", "fractional; number; letter; metric"),
    "length_of_engagement": Column("figure", f"length of engagement; {_UNIT}"),
    "mating_screw.class": Column("text", "class of the external thread"),
    "mating_screw.grade": Column("text", "strength grade"),
    "stock.drills": Column("list", "drills at hand by label"),
    "stock.taps": Column("list", "taps at hand by limit or marking"),
    "strict": Column("flag", "refuse where data are missing"),
    "tap_limits": Column("text", "inch_h, metric_d or iso_class"),
    "unit_system": Column("text", "inch or metric"),
    "explain": Column("flag", "add the derivation; not shown in CSV"),
}

#: Columns of an answer, each the dotted name of a field of the reply; lists are joined by `` | ``.
OUTPUT: dict[str, str] = {
    "index": "place of the item, a count from 0",
    "id": "as it was sent",
    "status": "ok or error",
    "spec_id": "name of the specification",
    "units.length": "unit of every length in this row",
    "thread.designation": "callout in the standard's own words",
    "thread.internal.pitch_diameter.min": "limit of size",
    "thread.internal.pitch_diameter.max": "limit of size",
    "thread.internal.minor_diameter.min": "limit of size",
    "thread.internal.minor_diameter.max": "limit of size",
    "drill.recommended.label": "drill",
    "drill.recommended.diameter": "diameter of the drill",
    "drill.recommended.percent_thread": "percent of thread of the drill's own diameter",
    "drill.recommended.operation": "drill or ream",
    "tap.recommended.style": "style of the tap",
    "tap.recommended.chamfer.name": "chamfer of the tap",
    "tap.recommended.limit.label": "pitch-diameter limit of the tap",
    "tap.recommended.marking": "what is etched on the tap's shank",
    "depths.drill_depth": "depth of full drill diameter",
    "depths.drill_tip_depth": "depth of the drill's tip",
    "depths.full_thread_depth": "depth of full thread",
    "depths.tap_travel": "travel of the tap's tip",
    "depths.countersink_diameter": "diameter of the countersink",
    "operations.text": "lines of the routing",
    "cautions.code": "codes of what can cost money or hurt people",
    "tables_version": "fingerprint of the tables",
    "problem.code": "code of the problem",
    "problem.detail": "what is wrong",
    "problem.errors.pointer": "fields that are refused",
}
