"""`borewright fit`: a file of what the shop measured in, its own figures out."""

from __future__ import annotations

import json
from contextlib import ExitStack
from pathlib import Path
from types import SimpleNamespace

import click

from ..client import Client, Reply
from . import holes, workbooks
from .command import argument, command, option
from .fields import figure
from .options import QUANTITY


@command(
    "fit", "the shop's own figures from what it measured: drills, taps, coats, torque",
    argument("measurements", "FILE"),
    option("--gauge", metavar="LENGTH", help=f"repeatability of the gauge, one standard deviation: {QUANTITY}"),
    option("--selection", type=click.Choice(("all", "good_only")), help="which pieces were measured"),
    option("--confidence", type=float, metavar="CHANCE", help="chance that each interval holds (default 0.95)"),
    option("--exclude-flagged", is_flag=True, help="leave out what lies outside of what the others tell"),
    option("--keep", type=click.Path(), metavar="FILE",
           help="write `shop_figures` there; --shop-figures FILE sends them with later requests"),
    examples=("measurements.csv", "measurements.xlsx --selection all --keep figures.json", "lines.ndjson --json"),
    more="FILE is .csv or .xlsx with the fields of a measurement in its head (kind, drill, measured, material,\n"
    "machine ...), a piece a row or several behind semicolons; or .ndjson, a measurement a line; - reads\n"
    "standard input. Headings may carry units: Measured (in).\n"
    "kind is drilled_hole, tapped_thread, coat, tapping_torque, go_no_go or taps_used.\n",
)  # fmt: skip
def fit(client: Client, options: SimpleNamespace) -> Reply:
    """Fit the measurements of a file, and keep the figures where asked."""
    query = {
        "unit_system": options.unit_system,
        "gauge_uncertainty": _in_query(figure(options.gauge)),
        "selection": options.selection,
        "confidence": options.confidence,
        "exclude_flagged": "true" if options.exclude_flagged else None,
    }
    with ExitStack() as files:
        source = Path(holes.kept(files, options.measurements))
        answer = workbooks.answer(client, "/v1/shop-figures/fit", source, query, "application/json")
    reply: Reply = json.loads(answer)
    if options.keep:
        Path(options.keep).write_text(json.dumps(reply["shop_figures"], indent=1) + "\n", encoding="utf-8")
    return reply


def _in_query(value: float | str | None) -> str | None:
    """A bare number without an exponent, which a query has none of."""
    return f"{value:.9f}" if isinstance(value, float) else value
