"""`borewright batch`: a file of holes in, a file of specifications out, CSV or NDJSON by suffix."""

from __future__ import annotations

import argparse
import csv
import json
import sys
from collections.abc import Iterable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import IO, Any

from ..client import Client, Reply

#: Columns that hold numbers where they look like numbers; the others are text.
_FIGURES = frozenset(
    (
        "hole.full_thread_depth", "hole.thickness", "hole.drill_depth_limit", "hole.point_angle", "hole.access_depth",
        "hole.clearance_diameter", "material.tensile_strength", "finish.thickness", "finish.growth_fraction",
        "percent_thread", "length_of_engagement",
    )
)  # fmt: skip
_LISTS = frozenset(("drill_series", "stock.drills", "stock.taps"))
_FLAGS = {"true": True, "false": False}
#: Name of the text in an object that further dotted columns say more of.
_TEXT_OF = {"material": "name", "finish": "specification"}
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_COLUMNS = (
    "index", "id", "status", "units.length", "thread.designation", "drill.recommended.label",
    "drill.recommended.diameter", "drill.recommended.percent_thread", "tap.recommended.style",
    "tap.recommended.limit.label", "tap.recommended.marking", "depths.drill_depth", "depths.drill_tip_depth",
    "depths.full_thread_depth", "depths.tap_travel", "operations.text", "cautions.code", "spec_id", "problem.code",
    "problem.detail",
)  # fmt: skip


def ask(client: Client, options: argparse.Namespace) -> Reply:
    """Specify every hole of a file. Returns counts: items, ok, failed."""
    defaults = {"unit_system": options.units} if options.units else None
    counts = {"items": 0, "ok": 0, "failed": 0}
    with ExitStack() as opened:
        source = opened.enter_context(Path(options.holes).open(encoding="utf-8-sig", newline=""))
        target = sys.stdout
        if options.output:
            target = opened.enter_context(Path(options.output).open("w", encoding="utf-8", newline=""))
        write = _csv_writer(target) if _is_csv(options.output or options.holes) else _line_writer(target)
        items = _rows(source) if _is_csv(options.holes) else map(json.loads, filter(str.strip, source))
        for result in client.batch(items, defaults=defaults, progress=bool(options.output)):
            write(result)
            counts["items"] += 1
            counts["ok" if result["status"] == "ok" else "failed"] += 1
    return counts


def text(reply: Reply) -> str:
    """The counts in a line."""
    return f"{reply['items']} holes: {reply['ok']} specified, {reply['failed']} with a problem"


def _is_csv(name: str) -> bool:
    return name.lower().endswith(".csv")


def _rows(source: Iterable[str]) -> Iterator[dict[str, Any]]:
    for row in csv.DictReader(source, strict=True):
        item: dict[str, Any] = {}
        for name, cell in row.items():
            if name and cell and cell.strip():
                _put(item, name.strip(), cell.strip())
        if item:
            yield item


def _put(item: dict[str, Any], name: str, cell: str) -> None:
    value = _value(name, cell)
    path, _, last = name.rpartition(".")
    if not path:
        item[name] = value
        return
    inner = item.setdefault(path, {})
    if not isinstance(inner, dict):
        inner = item[path] = {_TEXT_OF.get(path, path): inner}
    inner[last] = value


def _value(name: str, cell: str) -> object:
    if name in _LISTS:
        return [part.strip() for part in cell.split(";") if part.strip()]
    if name in _FIGURES:
        try:
            return float(cell)
        except ValueError:
            return cell
    return _FLAGS.get(cell.lower(), cell)


def _line_writer(target: IO[str]) -> Any:
    return lambda result: target.write(json.dumps(result, ensure_ascii=False) + "\n")


def _csv_writer(target: IO[str]) -> Any:
    writer = csv.writer(target)
    writer.writerow(_COLUMNS)

    def write(result: Reply) -> None:
        known = {**result.get("spec", {}), **result}
        writer.writerow([_cell(_found(known, name.split("."))) for name in _COLUMNS])

    return write


def _found(value: Any, path: list[str]) -> Any:
    for name in path:
        if isinstance(value, list):
            value = " | ".join(str(part.get(name, "")) for part in value)
        else:
            value = value.get(name) if isinstance(value, dict) else None
    return value


def _cell(value: Any) -> Any:
    """A text that a spreadsheet would take for a formula gets an apostrophe."""
    return "'" + value if isinstance(value, str) and value.startswith(_FORMULA) else value
