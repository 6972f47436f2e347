"""Columns of CSV: those of a list of holes that is read, those that each command writes.

A name is the dotted name of a field of the contract. Those of a batch are in a file that the service's contract makes.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple


class Column(NamedTuple):
    """A column that is read: ``kind`` is text, figure (a number or text with its unit), flag or list (by ``;``).

    ``words`` are all that it may hold, if there is such a list; ``text_of`` is the field that its text becomes where
    dotted columns say more of the same object; ``requests`` are those that have the field.
    """

    kind: str
    words: tuple[str, ...]
    text_of: str
    requests: tuple[str, ...]
    meaning: str


def _rows(use: str) -> Iterator[dict[str, str]]:
    with Path(__file__).with_name("batch_columns.csv").open(encoding="utf-8", newline="") as lines:
        yield from (row for row in csv.DictReader(lines) if row["use"] == use)


def _column(row: dict[str, str]) -> Column:
    words = tuple(row["words"].split(";")) if row["words"] else ()
    return Column(row["kind"], words, row["text_of"], tuple(row["requests"].split(";")), row["meaning"])


COLUMNS: dict[str, Column] = {row["name"]: _column(row) for row in _rows("read")}
#: Columns of the service's own CSV.
BATCH = tuple(row["name"] for row in _rows("written"))
_OF_A_BATCH = ("index", "row", "same_id_as_row", "id", "status")
#: What is known of a hole that is specified.
HOLE = tuple(name for name in BATCH if name not in _OF_A_BATCH and not name.startswith("problem."))


def _limits(*names: str) -> tuple[str, ...]:
    return tuple(f"{name}.{side}" for name in names for side in ("min", "max"))


_DIAMETERS = ("major_diameter", "pitch_diameter", "minor_diameter")
_CHOICE = ("choice", "thread", "units.length")

#: The columns that a command writes with --csv. ``choice`` is recommended, alternative or rejected.
_OF_A_PROOF = ("envelope", "cleans_up", "radial_clean_up", "percent_left", "percent_of_thread", "over_by", "short_by",
               "wall_before", "wall_after", "safety_factor", "fails_first")  # fmt: skip
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
    "rework": (
        "id", "condition", "stage", "way", "disposition", "needs_authority", "authority", "conforms", "thread", "text",
        "units.length", *(f"proof.{name}" for name in _OF_A_PROOF), "operations.text", "cautions.code",
        "cautions.text", "tables_version", "problem.code", "problem.detail",
    ),
    "fit": (
        "figure", "group", "unit", "count", "prior.mean", "prior.standard_deviation", "data.mean", "posterior.mean",
        "posterior.standard_deviation", "posterior.weight", "interval.mean.low", "interval.mean.high",
        "interval.next.low", "interval.next.high", "counted.share", "counted.exact_upper", "outliers.value", "next",
        "remarks.code", "shop_figures.id",
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
    "plan": (
        "step", "stage", "operation", "tool", "holes", "count", "spindle_speed", "feed", "units.feed", "time",
        "tool_change", "positioning", "text",
    ),
    "note": (
        "thread", "count", "hole.type", "hole.full_thread_depth", "hole.thickness", "hole.drill_depth_limit", "finish",
        "dimensions_apply", "unit_system", "ready", "missing", "as_written.drill", "as_written.drill_depth",
        "as_written.countersink.diameter", "as_written.countersink.angle", "as_written.counterbore.diameter",
        "as_written.counterbore.depth", "as_written.sides", "assumptions",
    ),
    "compare": (
        "id", "status", "verdict", "subject", "matters", "pointer", "how", "before", "after", "why", "problem.code",
        "problem.detail",
    ),
    "audit": ("id", "verdict", "severity", "code", "field", "text", "planned", "expected"),
}  # fmt: skip
