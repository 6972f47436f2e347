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
    "hole.run_out": Column("text", "chamfer, din_76_1 or bs_1936: rule for the depth below the full thread"),
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
    "machine.tapping": Column("text", "rigid, floating or hand"),
    "machine.drill_oversize": Column("figure", f"mean oversize of the shop's own drilled holes; {_UNIT}"),
    "machine.max_spindle_speed": Column("figure", "highest spindle speed, rev/min"),
    "machine.max_torque": Column("figure", "highest torque; a bare number is in lbf*in or N*m"),
    "machine.max_power": Column("figure", "highest power; a bare number is in hp or kW"),
    "safety_factor": Column("figure", "how much stronger than the screw the threads stay for least_torque, a ratio"),
    "edition": Column("text", "2019 or 1989: edition of ASME B1.1 for Unified threads"),
    "strict": Column("flag", "refuse where data are missing"),
    "tap_limits": Column("text", "inch_h, metric_d or iso_class"),
    "unit_system": Column("text", "inch or metric"),
    "explain": Column("flag", "add the derivation; not shown in CSV"),
    "detail": Column("text", "full, figures or routing; CSV shows the same columns"),
}

#: Columns of an answer, each the dotted name of a field of the reply; lists are joined by `` | ``.
OUTPUT: dict[str, str] = {
    "index": "place of the item, a count from 0",
    "id": "as it was sent",
    "status": "ok or error",
    "spec_id": "name of the specification",
    "verdict": "ready, review or infeasible",
    "review.code": "codes of what a person must decide",
    "review.text": "what a person must decide",
    "headline.drill": "drill, and how deep",
    "headline.tap": "tap, or what makes the thread instead",
    "headline.depth": "full thread and drilled depth",
    "headline.speed": "speeds and feed",
    "headline.gauge": "what is gauged after tapping",
    "limits.gauge_now": "to_tap or finished: the limits that are gauged after tapping",
    "limits.to_tap.pitch_diameter.min": "limit that the tap must make",
    "limits.to_tap.pitch_diameter.max": "limit that the tap must make",
    "limits.to_tap.minor_diameter.min": "limit that the tap must make",
    "limits.to_tap.minor_diameter.max": "limit that the tap must make",
    "limits.finished.pitch_diameter.min": "limit of the finished part",
    "limits.finished.pitch_diameter.max": "limit of the finished part",
    "limits.finished.minor_diameter.min": "limit of the finished part",
    "limits.finished.minor_diameter.max": "limit of the finished part",
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
    "cautions.text": "what can cost money or hurt people",
    "tables_version": "fingerprint of the tables",
    "rules_version": "fingerprint of the rules",
    "problem.code": "code of the problem",
    "problem.detail": "what is wrong",
    "problem.errors.pointer": "fields that are refused",
}
