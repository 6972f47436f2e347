"""`borewright plan`: a file of the holes of a part in, one plan with the fewest tools out."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import click

from ..client import Client, Reply
from . import holes
from .batch import opened
from .command import argument, command, option
from .fields import given

_OBJECTIVES = ("fewest_tools", "least_time", "as_specified")


@command(
    "plan", "one plan for all tapped holes of a part: the fewest tools, order, time",
    argument("holes", "FILE"),
    option("--part", help="name of the part (default: that of the file)"),
    option("--material", help="material of every hole that does not name its own"),
    option("--objective", type=click.Choice(_OBJECTIVES), help="default: fewest_tools"),
    option("--least-acceptance", type=float, metavar="CHANCE", help="least chance of acceptance (default 0.95)"),
    option("--lot-size", type=int, metavar="PARTS", help="parts of the lot (default 1)"),
    option("--tool-change-time", type=float, metavar="SECONDS", help="chip to chip (default 6)"),
    option("--positioning-time", type=float, metavar="SECONDS", help="hole to hole (default 1)"),
    examples=("part.csv", "part.csv --lot-size 40 --least-acceptance 0.97", "part.ndjson --csv"),
    more="FILE is .csv, or .ndjson with a hole a line; - reads standard input. The columns of a .csv are those of\n"
    "batch, and count: how many of a hole the part has.\n",
)  # fmt: skip
def plan(client: Client, options: SimpleNamespace) -> Reply:
    """Plan the holes of a file."""
    with ExitStack() as files:
        source = Path(holes.kept(files, options.holes))
        listed = [hole.request for hole in opened(source, further=("count",))]
    times = {"tool_change_time": options.tool_change_time, "positioning_time": options.positioning_time}
    machine = {name: value for name, value in times.items() if value is not None}
    asked: dict[str, Any] = {
        "part": options.part or source.stem,
        "holes": listed,
        "least_acceptance": options.least_acceptance,
        "objective": options.objective,
        "lot_size": options.lot_size,
        "machine": machine or None,
        "unit_system": options.unit_system,
        "defaults": {"material": options.material} if options.material else None,
        "detail": "full" if options.json else "routing",
    }
    return client.plan_part(given(asked))
