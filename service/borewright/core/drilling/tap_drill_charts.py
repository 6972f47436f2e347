"""Published tap drill charts: every table ``tap_drill_<name>.csv`` is read, whatever system its rows are for.

Columns: ``system``, ``series`` and ``class`` (blank or missing = any), ``size``, ``threads_per_inch`` or ``pitch_mm``,
``drill_label``, ``variant``, ``source``, ``status``. Variants: ``straight`` (the drill), ``choice`` (one of several
that can be drilled), ``reamed`` (drill, then taper ream) and ``shop`` (a larger hole of shop lists). A ``choice`` is
listed for its class only, any other drill for every class; but a drill may cut larger than the limits on average in
its own class only. A row of status ``computed`` is a size worked out, not a published one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, cast

from borewright.core.caches import OF_THREADS, cached, read_once
from borewright.core.model import Drill, Status, Thread
from borewright.tables import load, names

from .drill_sizes import find_drill

Variant = Literal["straight", "choice", "reamed", "shop"]
_VARIANTS: Mapping[str, Variant] = {
    "straight": "straight",
    "choice": "choice",
    "reamed": "reamed",
    "shop": "shop",
}


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One drill of a chart. ``for_class``: the row is meant for the thread's very class."""

    drill: Drill
    variant: Variant
    source: str
    status: Status
    for_class: bool


@read_once
def _rows() -> Mapping[tuple[str, str], tuple[Mapping[str, str], ...]]:
    found: dict[tuple[str, str], list[Mapping[str, str]]] = {}
    for name in names():
        if name.startswith("tap_drill_"):
            for row in load(name).rows:
                found.setdefault((row["system"], row["size"]), []).append(row)
    return {key: tuple(rows) for key, rows in found.items()}


@cached(OF_THREADS)
def chart_drills(thread: Thread) -> tuple[ChartRow, ...]:
    """Drills that a tap drill chart lists for a thread, smallest first; empty where no chart is held.

    Source: see the head and the rows of each ``tap_drill_`` table.
    """
    rows = (row for row in _rows().get((thread.system, thread.size), ()) if _fits(row, thread))
    drills = (
        ChartRow(
            find_drill(_label(row), thread.unit),
            _VARIANTS[row["variant"]],
            row["source"],
            cast(Status, row["status"]),
            _is_for_class(row, thread),
        )
        for row in rows
    )
    return tuple(sorted(drills, key=lambda row: row.drill.diameter_mm))


def _is_for_class(row: Mapping[str, str], thread: Thread) -> bool:
    classes = row.get("class", "")
    return not classes or thread.thread_class in classes.split("/")


def _label(row: Mapping[str, str]) -> str:
    """Label of a row; a whole number there is a fractional size, as metric ones are written with their unit."""
    label = row["drill_label"]
    return f"{label} in" if label.isdigit() else label


def _fits(row: Mapping[str, str], thread: Thread) -> bool:
    if row["series"] and thread.series and row["series"] != thread.series:
        return False
    if row["variant"] == "choice" and not _is_for_class(row, thread):
        return False
    tpi = row.get("threads_per_inch")
    if tpi and thread.threads_per_inch is not None:
        return Decimal(tpi) == thread.threads_per_inch
    pitch = row.get("pitch_mm")
    return not pitch or Decimal(pitch) == thread.pitch
