"""`borewright rework`: a tapped hole that went wrong in, the ways to go on out."""

from __future__ import annotations

from types import SimpleNamespace

import click

from ..client import Client, Reply
from .command import command, option
from .exit_codes import WrongUse
from .fields import figure, given
from .options import QUANTITY

_CONDITIONS = ("drilled_oversize", "tapped_oversize", "go_does_not_enter", "too_shallow", "wrong_thread", "stripped",
               "broken_tap", "cross_threaded")  # fmt: skip
_STAGES = {"before": "before_finish", "after": "after_finish"}
_TAPS = ("high_speed_steel", "carbon_steel", "carbide")
_MEASURED = ("hole_diameter", "pitch_diameter", "major_diameter", "full_thread_depth", "drill_depth", "coat")


def _length(name: str, text: str) -> click.Option:
    return option(name, metavar="LENGTH", help=f"{text}: {QUANTITY}")


@command(
    "rework", "ways to go on with a tapped hole that went wrong",
    option("--found", "condition", type=click.Choice(_CONDITIONS), required=True, help="what is wrong"),
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
    request="hole_spec",
    examples=(
        '"3/8-16 UNC-2B" --blind 0.75 --material 6061-T6 --found stripped --edge-distance 0.5',
        'M8 --blind 20 --material 6061-T6 --found drilled_oversize --hole-diameter 7.4',
        '"3/8-16 UNC-2B" --blind 0.75 --found wrong_thread --wrong-thread "3/8-24 UNF"',
    ),
    more="A disposition is proposed, never given: each way says who decides.\n",
)  # fmt: skip
def rework(client: Client, options: SimpleNamespace) -> Reply:
    """The ways, best first, and those that are none."""
    request = options.request
    if "type" not in request.get("hole", {}):
        raise WrongUse("one of --blind DEPTH and --through THICKNESS is needed")
    request.pop("detail", None)
    return client.rework({**request, "found": _found(options)})


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
