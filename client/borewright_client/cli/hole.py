"""`borewright spec` and `borewright audit`: one tapped hole specified, and what a routing plans for one checked."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import click

from ..client import Client, Reply
from .command import command, option
from .exit_codes import REJECTED, WrongUse
from .fields import Request, figure, given
from .options import QUANTITY

_DRAWINGS = {".svg": "image/svg+xml", ".pdf": "application/pdf", ".png": "image/png"}


@command(
    "spec", "complete specification of one tapped hole",
    option(
        "--drawing", metavar="FILE", type=click.Path(),
        help="write a section to scale (.svg, .png) or the machine sheet (.pdf) as well",
    ),
    option("--full", is_flag=True, help="show all of it, not only what a screen holds"),
    request="hole_spec",
    examples=(
        '"1/2-13 UNC-2B" --blind 0.75 --material 6061-T6',
        'M8 --through 12 --drawing section.svg',
        '"3/8-16 UNC-2B" --blind 0.75 --material 4140 --hardness "28 HRC" --finish "ASTM B633 Fe/Zn 8" --json',
    ),
)  # fmt: skip
def spec(client: Client, options: SimpleNamespace) -> Reply:
    """The specification; with ``--drawing`` the section is written as well."""
    request = _hole(options)
    reply = client.hole_spec(request)
    if options.drawing:
        target = Path(options.drawing)
        media_type = _DRAWINGS.get(target.suffix.lower())
        if media_type is None:
            raise WrongUse(f"--drawing {target}: a drawing is a file that ends in {', '.join(_DRAWINGS)}")
        target.write_bytes(client.drawing(request, media_type))
    return reply


@command(
    "audit", "check what a routing plans for a tapped hole",
    option("--drill", required=True, help="planned drill, e.g. 27/64, '#7' or '6.8 mm'"),
    option("--tap", required=True, help="marking of the planned tap, e.g. '1/2-13 NC HSS G H3'"),
    option("--tap-style", metavar="STYLE", help="style of the tap, e.g. spiral_point"),
    option("--tap-chamfer", metavar="CHAMFER", help="chamfer of the tap, e.g. plug or bottoming"),
    option("--second-tap", metavar="MARKING", help="tap that finishes what the first one leaves"),
    option("--drill-depth", metavar="DEPTH", help=f"planned depth of full drill diameter: {QUANTITY}"),
    option("--spindle-speed", type=float, metavar="RPM", help="planned spindle speed of the drill"),
    option("--tap-spindle-speed", type=float, metavar="RPM", help="planned spindle speed of the tap"),
    option("--order", metavar="WORDS", help="planned operations in order, e.g. drill,tap,plate"),
    request="hole_spec",
    examples=(
        '"3/8-16 UNC-2B" --blind 0.75 --material 4140 --drill 5/16 --tap "3/8-24 NF HSS G H3"',
        'M8 --through 12 --drill "6.8 mm" --tap "M8x1.25 HSS G D5" --order drill,tap,plate',
    ),
    judge=lambda reply: REJECTED if reply["verdict"] == "reject" else 0,
)  # fmt: skip
def audit(client: Client, options: SimpleNamespace) -> Reply:
    """The verdict on a plan, and its findings."""
    tap = {"marking": options.tap, "style": options.tap_style, "chamfer": options.tap_chamfer}
    planned = {
        "drill": options.drill,
        "tap": given(tap),
        "second_tap": options.second_tap,
        "drill_depth": figure(options.drill_depth),
        "spindle_speed": options.spindle_speed,
        "tap_spindle_speed": options.tap_spindle_speed,
        "operations_order": options.order and [word.strip() for word in options.order.split(",")],
    }
    return client.audit({**_hole(options), "as_planned": given(planned)})


def _hole(options: SimpleNamespace) -> Request:
    request: Request = options.request
    if "type" not in request.get("hole", {}):
        raise WrongUse("one of --blind DEPTH and --through THICKNESS is needed")
    if not options.json:
        request.pop("detail", None)
    return request
