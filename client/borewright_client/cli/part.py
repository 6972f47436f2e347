"""`borewright plan`: a file of the holes of a part in, one plan with the fewest tools out."""

from __future__ import annotations

import json
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import click

from ..call import post_for
from ..client import Client, Reply
from . import holes, workbooks
from .batch import opened
from .columns import COLUMNS
from .command import argument, command, option
from .exit_codes import WrongUse
from .fields import given
from .shop_figures import kept_figures, shop_figures_option

_OBJECTIVES = ("fewest_tools", "least_time", "as_specified")


@command(
    "plan", "one plan for all tapped holes of a part: the fewest tools, order, time",
    argument("holes", "FILE"),
    option("-o", "--output", metavar="FILE", type=click.Path(), help="file to write too: .xlsx, .csv, .xml (B2MML)"),
    option("--part", help="name of the part (default: that of the file)"),
    option("--material", help="material of every hole that does not name its own"),
    option("--objective", type=click.Choice(_OBJECTIVES), help="default: fewest_tools"),
    option("--least-acceptance", type=float, metavar="CHANCE", help="least chance of acceptance (default 0.95)"),
    option("--lot-size", type=int, metavar="PARTS", help="parts of the lot (default 1)"),
    option("--tool-change-time", type=float, metavar="SECONDS", help="chip to chip (default 6)"),
    option("--positioning-time", type=float, metavar="SECONDS", help="hole to hole (default 1)"),
    option("--stock-drills", metavar="LIST", help="drills at hand by label, with ; between: '27/64; #7; 6.8 mm'"),
    option("--stock-taps", metavar="LIST", help="taps at hand by limit (H3) or shank marking, with ; between"),
    shop_figures_option(),
    examples=("part.csv --lot-size 40 --least-acceptance 0.97", "part.xlsx -o plan.xlsx", "part.ndjson --csv"),
    more="FILE is .csv, .xlsx, or .ndjson with a hole a line; - reads standard input. The columns of a sheet are\n"
    "those of batch, and count: how many of a hole the part has.\n",
)  # fmt: skip
def plan(client: Client, options: SimpleNamespace) -> Reply:
    """Plan the holes of a file."""
    with ExitStack() as files:
        source = Path(holes.kept(files, options.holes))
        theirs = workbooks.is_left_to_the_service(str(source), (*COLUMNS, "count"))
        if (theirs or options.output) and not options.shop_figures:
            return _sent_whole(client, options, source)
        found = workbooks.read(client, source) if theirs else list(opened(source, further=("count",)))
        listed = [hole.request for hole in _readable(source, found)]
    times = {"tool_change_time": options.tool_change_time, "positioning_time": options.positioning_time}
    crib = _crib(options)
    machine = {name: value for name, value in times.items() if value is not None}
    asked: dict[str, Any] = {
        "part": options.part or source.stem,
        "holes": listed,
        "least_acceptance": options.least_acceptance,
        "objective": options.objective,
        "lot_size": options.lot_size,
        "machine": machine or None,
        "stock": crib or None,
        "unit_system": options.unit_system,
        "defaults": {"material": options.material} if options.material else None,
        "detail": "full" if options.json else "routing",
        **kept_figures(options.shop_figures),
    }
    if options.output:
        content = client.run(post_for("/v1/part-plans", given(asked), _form(options.output)))
        Path(options.output).write_bytes(content)
    return client.plan_part(given(asked))


def _crib(options: SimpleNamespace) -> dict[str, list[str]]:
    """What the options list of the crib."""
    said = {"drills": options.stock_drills, "taps": options.stock_taps}
    return {
        name: [text.strip() for text in listed.split(";") if text.strip()]
        for name, listed in said.items()
        if listed is not None
    }


def _form(name: str) -> str:
    """Media type of the file to write."""
    return "application/xml" if Path(name).suffix.lower() == ".xml" else workbooks.form(name)


def _readable(source: Path, found: Sequence[holes.Hole]) -> Sequence[holes.Hole]:
    """The holes that were found. Raises WrongUse where a row could not be read."""
    faults = [
        f"{source} row {hole.row}, column {fault.get('column')}: {fault['detail']}"
        for hole in found
        for fault in (hole.problem or {}).get("errors", ())
    ]
    if faults:
        raise WrongUse("\n".join(faults))
    return found


def _sent_whole(client: Client, options: SimpleNamespace, source: Path) -> Reply:
    """Let the service read the file, and write the plan where that is asked for."""
    names = ("material", "objective", "least_acceptance", "lot_size", "tool_change_time", "positioning_time")
    query = {name: getattr(options, name) for name in (*names, "unit_system")}
    between = {"drills": ", ", "taps": "; "}
    query |= {name: between[name].join(listed) for name, listed in _crib(options).items()}
    query |= {"part": options.part or source.stem, "detail": "full" if options.json else "routing"}
    if options.output:
        content = workbooks.answer(client, "/v1/part-plans", source, query, _form(options.output))
        Path(options.output).write_bytes(content)
    return dict(json.loads(workbooks.answer(client, "/v1/part-plans", source, query, "application/json")))
