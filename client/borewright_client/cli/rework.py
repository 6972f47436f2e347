"""`borewright rework`: a tapped hole that went wrong in, the ways to go on out."""

from __future__ import annotations

import json
from pathlib import Path
from types import SimpleNamespace

import click

from ..client import Client, Reply
from . import workbooks
from .command import command, option
from .exit_codes import REFUSED, WrongUse
from .fields import figure, given
from .options import QUANTITY

_CONDITIONS = ("drilled_oversize", "tapped_oversize", "go_does_not_enter", "too_shallow", "wrong_thread", "stripped",
               "broken_tap", "cross_threaded")  # fmt: skip
_STAGES = {"before": "before_finish", "after": "after_finish"}
_SHEETS = (".csv", ".xlsx", ".ndjson")
_TAPS = ("high_speed_steel", "carbon_steel", "carbide")
_MEASURED = ("hole_diameter", "pitch_diameter", "major_diameter", "full_thread_depth", "drill_depth", "coat")


def _length(name: str, text: str) -> click.Option:
    return option(name, metavar="LENGTH", help=f"{text}: {QUANTITY}")


@command(
    "rework", "ways to go on with a tapped hole that went wrong",
    option("--found", "condition", type=click.Choice(_CONDITIONS), help="what is wrong"),
    option("--stage", type=click.Choice(tuple(_STAGES)), help="found before or after the finish was put on"),
    _length("--hole-diameter", "hole, or minor diameter, measured"),
    _length("--pitch-diameter", "pitch diameter measured"),
    _length("--major-diameter", "major diameter measured"),
    _length("--sound-thread", "full, sound thread measured"),
    _length("--drilled", "drilled depth measured"),
    _length("--coat", "thickness of the coat on a surface"),
    option("--not-go-enters", is_flag=True, help="NOT GO enters, too"),
    option("--wrong-thread", metavar="CALLOUT", help="thread that was tapped"),
    _length("--edge-distance", "from the axis of the hole to the nearest edge"),
    _length("--least-wall", "wall that must stay"),
    option("--tap-material", type=click.Choice(_TAPS), help="what the broken tap is made of"),
    option("--proud/--below", "stands_proud", default=None, help="the broken tap stands above or below the face"),
    option("--criticality", type=click.Choice(("flight", "pressure", "lifting", "safety")), help="kind of hardware"),
    option("--drawing-allows", multiple=True, type=click.Choice(("insert", "formed_thread", "chased_coat")),
           help="what the drawing lists beside the thread; once for each"),
    option("-o", "--output", metavar="FILE", type=click.Path(), help="of a file: file to write, .csv or .ndjson"),
    request="hole_spec",
    examples=(
        '"3/8-16 UNC-2B" --blind 0.75 --material 6061-T6 --found stripped --edge-distance 0.5',
        'M8 --blind 20 --material 6061-T6 --found drilled_oversize --hole-diameter 7.4',
        '"3/8-16 UNC-2B" --blind 0.75 --found wrong_thread --wrong-thread "3/8-24 UNF"',
        "went-wrong.csv -o ways.csv",
    ),
    more="In place of THREAD a file, .csv, .xlsx or .ndjson: a hole a row with the columns of batch and those of what\n"
    "was found (found.condition, found.stage, found.edge_distance, found.measured.hole_diameter ...).\n"
    "A disposition is proposed, never given: each way says who decides.\n",
    judge=lambda reply: REFUSED if reply.get("summary", {}).get("failed") else 0,
)  # fmt: skip
def rework(client: Client, options: SimpleNamespace) -> Reply:
    """The ways, best first, and those that are none."""
    request = options.request
    if Path(str(request.get("thread"))).suffix.lower() in _SHEETS:
        return _of_file(client, options)
    if options.condition is None:
        raise WrongUse("--found is needed: what is wrong with the hole")
    if options.output:
        raise WrongUse("-o is for a file of holes")
    if "type" not in request.get("hole", {}):
        raise WrongUse("one of --blind DEPTH and --through THICKNESS is needed")
    request.pop("detail", None)
    return client.rework({**request, "found": _found(options)})


def _of_file(client: Client, options: SimpleNamespace) -> Reply:
    """The ways of every hole of a file, which says itself what was found; written where that is asked for."""
    source, path = Path(options.request.pop("thread")), "/v1/rework/batch"
    query = {name: options.request.pop(name, None) for name in ("unit_system", "detail")}
    if options.request or _found(options):
        raise WrongUse(f"{source} says of each hole what was found: leave the other options out")
    if options.output:
        form = workbooks.form(options.output)
        Path(options.output).write_bytes(workbooks.answer(client, path, source, query, form))
    lines = workbooks.answer(client, path, source, query, workbooks.NDJSON).splitlines()
    results = [json.loads(line) for line in lines]
    failed = sum("problem" in one for one in results)
    return {"summary": {"items": len(results), "failed": failed}, "results": results}


def _found(options: SimpleNamespace) -> dict[str, object]:
    lengths = (options.hole_diameter, options.pitch_diameter, options.major_diameter, options.sound_thread,
               options.drilled, options.coat)  # fmt: skip
    measured = given(dict(zip(_MEASURED, map(figure, lengths), strict=True)))
    if options.not_go_enters:
        measured["not_go_enters"] = True
    return given(
        {
            "condition": options.condition,
            "stage": _STAGES.get(options.stage),
            "measured": measured or None,
            "wrong_thread": options.wrong_thread,
            "edge_distance": figure(options.edge_distance),
            "least_wall": figure(options.least_wall),
            "broken_tap": given({"material": options.tap_material, "stands_proud": options.stands_proud}) or None,
            "criticality": options.criticality,
            "drawing_allows": [*options.drawing_allows] or None,
        }
    )
