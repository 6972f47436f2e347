"""Columns of CSV: those of a list of holes that is read, those that each command writes.

A name is the dotted name of a field of the contract.
"""

from __future__ import annotations

from typing import NamedTuple


class Column(NamedTuple):
    """A column that is read: ``kind`` is text, figure (a number or text with its unit), flag or list (by ``;``)."""

    kind: str
    meaning: str


COLUMNS: dict[str, Column] = {
    "id": Column("text", "your own name of the hole"),
    "thread": Column("text", "callout"),
    "hole.type": Column("text", "blind or through"),
    "hole.full_thread_depth": Column("figure", "depth of full thread"),
    "hole.thickness": Column("figure", "wall at the hole"),
    "hole.drill_depth_limit": Column("figure", "deepest full drill diameter"),
    "hole.point_angle": Column("figure", "included angle of the drill point, degrees"),
    "hole.access_depth": Column("figure", "depth of a bore above the entry face"),
    "hole.clearance_diameter": Column("figure", "diameter free for shanks and holders"),
    "hole.run_out": Column("text", "chamfer, din_76_1 or bs_1936: rule for the depth below the full thread"),
    "material": Column("text", "name of the part material"),
    "material.hardness": Column("text", "hardness with its scale"),
    "material.group": Column("text", "ISO 513 group letter"),
    "material.tensile_strength": Column("figure", "tensile strength, psi or MPa"),
    "finish": Column("text", "specification and class"),
    "finish.class": Column("text", "class, type or grade within the specification"),
    "finish.thickness": Column("figure", "thickness on a surface"),
    "finish.growth_fraction": Column("figure", "part of the thickness above the old surface"),
    "finish.masked": Column("flag", "the thread is masked"),
    "finish.reading": Column("text", "which limits a coat moves: asme (both) or iso (the lower)"),
    "method": Column("text", "cut or form"),
    "percent_thread": Column("figure", "percent of thread wanted, 0.75 H basis"),
    "objective": Column("text", "chart, least_torque or acceptance"),
    "drill_series": Column("list", "drill series to choose from: fractional; number; letter; metric"),
    "length_of_engagement": Column("figure", "length of engagement"),
    "mating_screw.class": Column("text", "class of the screw"),
    "mating_screw.grade": Column("text", "strength grade of the screw"),
    "stock.drills": Column("list", "drills at hand by label"),
    "stock.taps": Column("list", "taps at hand by limit or marking"),
    "machine.tapping": Column("text", "how the tap is driven: rigid, floating or hand"),
    "machine.drill_oversize": Column("figure", "mean oversize of your own drilled holes"),
    "machine.max_spindle_speed": Column("figure", "highest spindle speed, rev/min"),
    "machine.max_torque": Column("figure", "highest torque; a bare number is in lbf*in or N*m"),
    "machine.max_power": Column("figure", "highest power; a bare number is in hp or kW"),
    "safety_factor": Column("figure", "how much stronger than the screw the threads stay for least_torque, a ratio"),
    "edition": Column("text", "2019 or 1989: edition of ASME B1.1 for Unified threads"),
    "strict": Column("flag", "refuse where data are missing"),
    "tap_limits": Column("text", "inch_h, metric_d or iso_class"),
    "unit_system": Column("text", "inch or metric"),
    "explain": Column("flag", "true: add the derivation; not shown in CSV"),
    "detail": Column("text", "full, figures or routing, for output that is no CSV"),
}


def _limits(*names: str) -> tuple[str, ...]:
    return tuple(f"{name}.{side}" for name in names for side in ("min", "max"))


#: What is known of a hole that is specified.
HOLE = (
    "spec_id", "verdict", "review.code", "review.text",
    *(f"headline.{name}" for name in ("drill", "tap", "depth", "speed", "gauge")), "limits.gauge_now",
    *_limits(*(f"limits.{name}.{part}_diameter" for name in ("to_tap", "finished") for part in ("pitch", "minor"))),
    "units.length", "thread.designation",
    *_limits("thread.internal.pitch_diameter", "thread.internal.minor_diameter"),
    "drill.recommended.label", "drill.recommended.diameter", "drill.recommended.percent_thread",
    "drill.recommended.operation", "tap.recommended.style", "tap.recommended.chamfer.name",
    "tap.recommended.limit.label", "tap.recommended.marking", "depths.drill_depth", "depths.drill_tip_depth",
    "depths.full_thread_depth", "depths.tap_travel", "depths.countersink_diameter", "operations.text",
    "cautions.code", "cautions.text", "tables_version", "rules_version",
)  # fmt: skip
PROBLEM = ("problem.code", "problem.detail", "problem.errors.pointer")
#: Where the hole stood in the file that was read, then the columns of the service's own CSV.
BATCH = ("row", "index", "id", "status", *HOLE, *PROBLEM)

_DIAMETERS = ("major_diameter", "pitch_diameter", "minor_diameter")
_CHOICE = ("choice", "thread", "units.length")

#: The columns that a command writes with --csv. ``choice`` is recommended, alternative or rejected.
WRITTEN: dict[str, tuple[str, ...]] = {
    "spec": ("id", *HOLE),
    "thread": (
        "designation", "system", "series", "class", "hand", "starts", "nominal_diameter", "pitch", "lead",
        "units.length", *_limits(*(f"internal.{name}" for name in _DIAMETERS)), "mating_class",
        *_limits(*(f"external.{name}" for name in _DIAMETERS)), "standard.document", "standard.edition",
        "cautions.code", "cautions.text", "tables_version",
    ),
    "drill": (
        *_CHOICE, "label", "series", "diameter", "percent_thread", "expected_hole_diameter",
        "expected_percent_thread", "acceptance", "operation", "reasons", "reason",
    ),
    "allowance": (
        "thread", "finish.specification", "finish.class", "reading", "units.length",
        *_limits("finish.thickness", *(f"finished.{name}" for name in _DIAMETERS)),
        *_limits(*(f"before_finish.{name}" for name in _DIAMETERS)), "feasible", "tap.label",
        *_limits("tap.pitch_diameter"), "remedies", "cautions.code",
        "cautions.text", "tables_version",
    ),
    "tap": (
        *_CHOICE, "marking", "style", "chamfer.name", "limit.label", *_limits("limit.pitch_diameter"), "surface",
        "acceptance", "availability", "order_text", "reasons", "label", "reason",
    ),
    "decode": (
        "marking", "thread.designation", "units.length", "substrate", "ground", "hand", "limit.label",
        *_limits("limit.pitch_diameter"), "class", "margin", "unread",
    ),
    "audit": ("id", "verdict", "severity", "code", "field", "text", "planned", "expected"),
}  # fmt: skip
