"""The catalogue of tap limits: every row of the limit tables, with source and status."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import cast

from borewright.core.caches import read_once
from borewright.core.model import Range, Status
from borewright.tables import Table, load

from . import metric
from .tap_candidates import TapLimitEntry


@read_once
def limits_catalogue() -> tuple[TapLimitEntry, ...]:
    """Every tap limit that is held: ground inch, over 1 in, cut-thread, insert, metric D and ISO classes.

    Source: ASME B94.9, ISO 2857, as each row says.
    """
    return (
        *_ground_inch(),
        *_over_1_in(),
        *_cut_inch(),
        *_insert("tap_limits_sti_inch"),
        *_insert("tap_limits_sti_metric"),
        *_metric_d(),
        *_iso(),
    )


def _ground_inch() -> Iterator[TapLimitEntry]:
    table = load("tap_limits_ground_inch")
    for row in table.rows:
        over = f"over {row['over_in']} in" if row["over_in"] else ""
        through = f"through {row['through_in']} in" if row["through_in"] else ""
        pitch = f", {row['coarsest_tpi']} tpi and finer" if row["coarsest_tpi"] else ""
        yield TapLimitEntry(
            table.head["system"],
            row["label"],
            " ".join(part for part in (over, through) if part) + pitch,
            "in",
            _band(row),
            None,
            cast(Status, row["status"]),
            table.head["document"],
            row["edition"],
            row["locator"],
        )


def _over_1_in() -> Iterator[TapLimitEntry]:
    table = load("tap_limits_over_1in")
    for row in table.rows:
        size = f"{row['nominal_in']}-{row['tpi']}"
        band = _band(row)
        yield _entry(table, label=row["label"], applies_to=size, unit="in", band=band)


def _cut_inch() -> Iterator[TapLimitEntry]:
    table = load("tap_limits_cut_inch")
    for row in table.rows:
        basic = Decimal(row["basic_pitch_in"])
        band = Range(Decimal(row["pitch_min_in"]) - basic, Decimal(row["pitch_max_in"]) - basic)
        size = f"{row['nominal_in']}-{row['tpi']}"
        yield _entry(table, label="cut", applies_to=size, unit="in", band=band)


def _insert(name: str) -> Iterator[TapLimitEntry]:
    table = load(name)
    for row in table.rows:
        size = f"{row['nominal_in']}-{row['tpi']}" if "tpi" in row else f"M{row['nominal_mm']}x{row['pitch_mm']}"
        where = f"{size}, class {row['class']}: pitch diameter {row['pitch_min_in']} to {row['pitch_max_in']} in"
        entry = _entry(table, label=row["label"], applies_to=where, unit="in", band=None)
        yield replace(entry, status=cast(Status, row.get("status") or entry.status))


def _metric_d() -> Iterator[TapLimitEntry]:
    table = load("tap_limits_metric_d")
    for row in table.rows:
        for thread_class in ("6H", "4H"):
            label = row[f"limit_{thread_class}"]
            if label:
                high = int(label[1:]) * metric.STEP_MM
                band = Range(high - Decimal(row["tolerance_um"]) / 1000, high)
                where = f"M{row['nominal_mm']}x{row['pitch_mm']}, recommended for {thread_class}"
                yield _entry(table, label=label, applies_to=where, unit="mm", band=band)


def _iso() -> Iterator[TapLimitEntry]:
    table = load("tap_classes_iso2857")
    for found in metric.iso_classes():
        where = f"threads {', '.join(found.thread_classes)}; multiples of t"
        head = table.head
        yield TapLimitEntry(
            head["system"],
            found.label,
            where,
            "mm",
            None,
            Range(found.min_t, found.max_t),
            "from_memory",
            head["document"],
            head["edition"],
            head["table"],
        )


def _entry(table: Table, *, label: str, applies_to: str, unit: str, band: Range | None) -> TapLimitEntry:
    head = table.head
    return TapLimitEntry(
        head["system"],
        label,
        applies_to,
        unit,
        band,
        None,
        cast(Status, head["status"]),
        head["document"],
        head["edition"],
        head["table"],
    )


def _band(row: Mapping[str, str]) -> Range:
    return Range(Decimal(row["min_over_basic_in"]), Decimal(row["max_over_basic_in"]))


__all__ = ["limits_catalogue"]
