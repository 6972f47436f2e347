"""`borewright fit`: a file of what the shop measured in, its own figures out."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import click

from ..client import Client, Reply
from . import holes
from .command import argument, command, option
from .exit_codes import WrongUse
from .fields import figure, given
from .options import QUANTITY

#: Columns whose bare numbers are numbers; all others hold names.
_FIGURES = frozenset(
    [
        "measured",
        "before",
        "after",
        "drill_diameter",
        "tap_pitch_diameter",
        "torque",
        "expected_torque",
        "checked",
        "go_refused",
        "not_go_entered",
        "holes",
        "broken",
        "gauge_uncertainty",
        "gauge_uncertainty.repeatability",
        "gauge_uncertainty.calibration",
        "gauge_uncertainty.resolution",
        "limits.min",
        "limits.max",
    ]
)
_NUMBER = re.compile(r"-?[0-9]*\.?[0-9]+")


@command(
    "fit", "the shop's own figures from what it measured: drills, taps, coats, torque",
    argument("measurements", "FILE"),
    option("--gauge", metavar="LENGTH", help=f"repeatability of the gauge, one standard deviation: {QUANTITY}"),
    option("--selection", type=click.Choice(("all", "good_only")), help="which pieces were measured"),
    option("--confidence", type=float, metavar="CHANCE", help="chance that each interval holds (default 0.95)"),
    option("--exclude-flagged", is_flag=True, help="leave out what lies outside of what the others tell"),
    option("--keep", type=click.Path(), metavar="FILE", help="write `shop_figures` there, to send with later requests"),
    examples=("measurements.csv", "measurements.csv --selection all --keep figures.json", "measurements.ndjson --json"),
    more="FILE is .csv with the fields of a measurement in its head (kind, drill, measured, material, machine ...),\n"
    "a piece a row or several behind semicolons; or .ndjson, a measurement a line; - reads standard input.\n"
    "kind is drilled_hole, tapped_thread, coat, tapping_torque, go_no_go or taps_used.\n",
)  # fmt: skip
def fit(client: Client, options: SimpleNamespace) -> Reply:
    """Fit the measurements of a file, and keep the figures where asked."""
    with ExitStack() as files:
        listed = list(_measurements(Path(holes.kept(files, options.measurements))))
    if not listed:
        raise WrongUse(f"{options.measurements}: no measurements")
    asked = given(
        {
            "unit_system": options.unit_system,
            "gauge_uncertainty": figure(options.gauge),
            "selection": options.selection,
            "confidence": options.confidence,
            "exclude_flagged": options.exclude_flagged or None,
        }
    )
    reply = client.fit_shop_figures(listed, **asked)
    if options.keep:
        Path(options.keep).write_text(json.dumps(reply["shop_figures"], indent=1) + "\n", encoding="utf-8")
    return reply


def _measurements(source: Path) -> Iterator[dict[str, Any]]:
    with source.open(encoding="utf-8-sig", newline="") as opened:
        if source.suffix == ".ndjson":
            yield from (json.loads(line) for line in opened if line.strip())
            return
        for row in csv.DictReader(opened, restkey=""):
            if row.get(""):
                raise WrongUse(f"{source.name}: a row has more cells than the head")
            yield _measurement(row)


def _measurement(row: dict[str, str]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, cell in row.items():
        if not (cell or "").strip():
            continue
        path, _, last = name.strip().rpartition(".")
        (found.setdefault(path, {}) if path else found)[last] = _value(name.strip(), cell.strip())
    return found


def _value(name: str, cell: str) -> Any:
    if name not in _FIGURES:
        return cell
    values = [float(one) if _NUMBER.fullmatch(one) else one for one in map(str.strip, cell.split(";")) if one]
    values = [int(one) if isinstance(one, float) and one.is_integer() else one for one in values]
    return values if len(values) > 1 else values[0]
