"""Sub-commands, their options and their help."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from typing import Any

from .. import __version__
from ..client import CATALOGS
from . import asking, batch, part
from .columns import COLUMNS
from .options import further

_QUANTITY = "a number in the thread's unit, or text such as '0.75 in', '3/8 in', '20 mm'"
#: How shtab completes the name of a file, a shell each.
_A_FILE = {"bash": "_shtab_compgen_files", "zsh": "_files", "tcsh": "f"}
_EXIT_CODES = """\
exit codes:
  0    answered: every hole is specified, the plan is accepted or to be reviewed
  1    refused: the service says which field is wrong; in a batch, at least one hole
  2    wrong use: an option, a file or a column that cannot be used; nothing was asked
  3    no answer: the service is not reachable, or cannot answer now
  4    audit: the plan is rejected
  130  interrupted
"""
_ENVIRONMENT = """\
environment:
  BOREWRIGHT_CLIENT_URL  address of the service (default http://127.0.0.1:8080)
  BOREWRIGHT_CLIENT_KEY  API key
  NO_COLOR               any text: no colours on a terminal either
"""


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    top = argparse.ArgumentParser(
        prog="borewright",
        description="Tapped holes: from a thread callout to the shop floor.",
        epilog=f"{_EXIT_CODES}\n{_ENVIRONMENT}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"borewright-client {__version__}")
    top.add_argument(
        "--completion",
        choices=("bash", "zsh", "tcsh"),
        metavar="SHELL",
        help="print what makes bash, zsh or tcsh complete this command; needs the extra borewright-client[completion]",
    )
    commands = top.add_subparsers(dest="command", metavar="COMMAND")
    for add in (
        _add_spec, _add_thread, _add_drill, _add_allowance, _add_tap, _add_note, _add_audit, _add_batch,
        _add_plan, _add_catalog,
    ):  # fmt: skip
        add(commands)
    return top


def _add_spec(commands: Any) -> None:
    command = _command(commands, "spec", "complete specification of one tapped hole", asking.spec, examples=(
        '"1/2-13 UNC-2B" --blind 0.75 --material 6061-T6',
        'M8 --through 12 --drawing section.svg',
        '"3/8-16 UNC-2B" --blind 0.75 --material 4140 --hardness "28 HRC" --finish "ASTM B633 Fe/Zn 8" --json',
    ))  # fmt: skip
    _hole(command)
    _detail(command)
    _file(command, "--drawing", metavar="FILE", help="write a section to scale as well: .svg, .pdf or .png")


def _add_thread(commands: Any) -> None:
    command = _command(commands, "thread", "limits of size of a thread callout", asking.thread, examples=(
        "M8x1.25-6H", '"1/2-13 UNC-2B" --units metric', '"1/4-20 UNC-2B" --engagement "0.5 in" --csv'))  # fmt: skip
    _edition(command)
    _further(command, "thread")


def _add_drill(commands: Any) -> None:
    command = _command(commands, "drill", "drill for a thread, and others that would do", asking.drill, examples=(
        '"1/2-13 UNC-2B"', "M10 --percent 65 --material 304", '"#10-32 UNF-2B" --objective acceptance'))  # fmt: skip
    _drilling(command)
    _oversize(command)
    _edition(command)
    _finish(command)
    _further(command, "drill")


def _add_allowance(commands: Any) -> None:
    command = _command(
        commands, "allowance", "limits before a coating, plating or heat treatment", asking.allowance,
        examples=('"1/4-28 UNF-2B" "ASTM B633 Fe/Zn 5"', 'M10 "ISO 10684"'),
    )  # fmt: skip
    command.add_argument("finish", metavar="FINISH", help="specification, e.g. 'ASTM B633 Fe/Zn 8'")
    _tap_limits(command)
    _edition(command)
    _material(command)
    _further(command, "allowance")


def _add_tap(commands: Any) -> None:
    command = _command(
        commands, "tap", "tap for a thread, or with --decode what a marking says", asking.tap, thread=False,
        examples=("M8x1.25-6H --material 304", '--decode "1/2-13 NC HSS G H3"'),
    )  # fmt: skip
    command.add_argument("thread", metavar="THREAD", help="thread callout, or the marking with --decode")
    command.add_argument("--decode", action="store_true", help="read the text as a marking etched on a tap's shank")
    _depths(command, required=False)
    _tap_limits(command)
    _edition(command)
    _finish(command)
    _method(command)
    _material(command)
    _further(command, "tap")


def _add_note(commands: Any) -> None:
    command = _command(
        commands, "note", "holes of a note as a drawing prints it", asking.note, thread=False,
        examples=('"4X Ø.201 THRU / 1/4-20 UNC-2B ↧.50"', '"4x M8 - 16 tief, Kernloch Ø6,8 - 20 tief" --json',
                  '"1/4-20 UNC THRU" --general "ALL THREADS CLASS 3B UNLESS OTHERWISE SPECIFIED"'),
    )  # fmt: skip
    command.add_argument("note", metavar="NOTE", help="the note, its lines as they are; - reads it from standard input")
    command.add_argument(
        "--general", action="append", metavar="NOTE", help="a general note of the drawing; once for each"
    )
    command.add_argument("--material", help="part material of the holes, e.g. 4140 or 6061-T6")
    command.add_argument("--thickness", metavar="LENGTH", help=f"thickness of the part for through holes: {_QUANTITY}")


def _add_audit(commands: Any) -> None:
    command = _command(commands, "audit", "check what a routing plans for a tapped hole", asking.audit, examples=(
        '"3/8-16 UNC-2B" --blind 0.75 --material 4140 --drill 5/16 --tap "3/8-24 NF HSS G H3"',
        'M8 --through 12 --drill "6.8 mm" --tap "M8x1.25 HSS G D5" --order drill,tap,plate',
    ))  # fmt: skip
    _hole(command)
    _detail(command)
    command.add_argument("--drill", required=True, help="planned drill, e.g. 27/64, '#7' or '6.8 mm'")
    command.add_argument("--tap", required=True, help="marking of the planned tap, e.g. '1/2-13 NC HSS G H3'")
    command.add_argument("--tap-style", metavar="STYLE", help="style of the tap, e.g. spiral_point")
    command.add_argument("--tap-chamfer", metavar="CHAMFER", help="chamfer of the tap, e.g. plug or bottoming")
    command.add_argument("--second-tap", metavar="MARKING", help="tap that finishes what the first one leaves")
    command.add_argument("--drill-depth", metavar="DEPTH", help=f"planned depth of full drill diameter: {_QUANTITY}")
    command.add_argument("--spindle-speed", type=float, metavar="RPM", help="planned spindle speed of the drill")
    command.add_argument("--tap-spindle-speed", type=float, metavar="RPM", help="planned spindle speed of the tap")
    command.add_argument("--order", metavar="WORDS", help="planned operations in order, e.g. drill,tap,plate")


def _add_batch(commands: Any) -> None:
    command = _command(
        commands, "batch", "specification of every hole of a file", batch.ask, thread=False,
        examples=("holes.csv -o specs.csv", "holes.csv -o specs.ndjson --units metric", "holes.ndjson --csv"),
        more="columns of a .csv that is read (a cell left blank is not sent):\n" + _columns(),
    )  # fmt: skip
    _file(command, "holes", metavar="HOLES", help="file of holes: .csv, or .ndjson with a request a line")
    _file(
        command, "-o", "--output", metavar="FILE", help="file to write, .csv or .ndjson (else shown, as the input is)"
    )
    command.add_argument(
        "--only", choices=("review",), help="write only the holes that leave something to decide, and problems"
    )
    _detail(command)


def _add_plan(commands: Any) -> None:
    command = _command(
        commands, "plan", "one plan for all tapped holes of a part: the fewest tools, order, time", part.ask,
        thread=False, examples=("part.csv", "part.csv --lot-size 40 --least-acceptance 0.97", "part.ndjson --csv"),
        more="columns of a .csv that is read are those of batch, and count: how many of a hole the part has.\n",
    )  # fmt: skip
    _file(command, "holes", metavar="HOLES", help="file of the part's holes: .csv, or .ndjson with a request a line")
    command.add_argument("--part", help="name of the part (default: that of the file)")
    command.add_argument("--material", help="material of every hole that does not name its own")
    command.add_argument(
        "--objective", choices=("fewest_tools", "least_time", "as_specified"), help="default: fewest_tools"
    )
    command.add_argument(
        "--least-acceptance", type=float, metavar="CHANCE", help="least chance of acceptance, 0 to 1 (default 0.95)"
    )
    command.add_argument("--lot-size", type=int, metavar="PARTS", help="parts of the lot (default 1)")
    command.add_argument("--tool-change-time", type=float, metavar="SECONDS", help="chip to chip (default 6)")
    command.add_argument("--positioning-time", type=float, metavar="SECONDS", help="hole to hole (default 1)")


def _columns() -> str:
    return "".join(f"  {name:<26} {column.meaning}\n" for name, column in COLUMNS.items())


def _add_catalog(commands: Any) -> None:
    command = _command(commands, "catalog", "what the tables hold", asking.catalog, thread=False, examples=(
        "materials", "thread-systems", "drills --csv"))  # fmt: skip
    command.add_argument("name", choices=CATALOGS, metavar="NAME", help=", ".join(CATALOGS))


def _command(
    commands: Any, name: str, text: str, call: Callable[..., Any], *, examples: Sequence[str], thread: bool = True,
    more: str = "",
) -> argparse.ArgumentParser:  # fmt: skip
    shown = "".join(f"  borewright {name} {example}\n" for example in examples)
    command: argparse.ArgumentParser = commands.add_parser(
        name,
        help=text,
        description=text.capitalize() + ".",
        epilog="\n".join(filter(None, (f"examples:\n{shown}", more, _EXIT_CODES))),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    if thread:
        command.add_argument("thread", metavar="THREAD", help="thread callout, e.g. '1/2-13 UNC-2B' or M8x1.25-6H")
    command.add_argument(
        "--url", help="address of the service (else BOREWRIGHT_CLIENT_URL, else http://127.0.0.1:8080)"
    )
    command.add_argument(
        "--units", choices=COLUMNS["unit_system"].words, help="unit system (default: the thread's own)"
    )
    form = command.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print the reply as JSON")
    form.add_argument("--csv", action="store_true", help="print a flat table as CSV")
    command.set_defaults(call=call)
    return command


def _file(command: argparse.ArgumentParser, *names: str, **told: str) -> None:
    vars(command.add_argument(*names, **told))["complete"] = _A_FILE  # type: ignore[arg-type]


def _drilling(command: argparse.ArgumentParser) -> None:
    command.add_argument("--percent", type=float, metavar="PERCENT", help="percent of thread wanted, 0.75 H basis")
    command.add_argument(
        "--objective",
        choices=COLUMNS["objective"].words,
        help="what the drill is chosen for: the shop's wall chart (default), least tapping torque, most holes inside",
    )
    _method(command)
    _material(command)


def _method(command: argparse.ArgumentParser) -> None:
    command.add_argument("--method", choices=COLUMNS["method"].words, help="cut (default) or form the thread")


def _material(command: argparse.ArgumentParser) -> None:
    command.add_argument("--material", help="part material, e.g. 4140 or 6061-T6")
    command.add_argument("--hardness", help="its hardness with the scale, e.g. '28 HRC' or '200 HB'")


def _tap_limits(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--tap-limits", choices=COLUMNS["tap_limits"].words,
        help="system of the tap's limits: metric taps in ISO classes unless metric_d is asked for",
    )  # fmt: skip


def _edition(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--edition",
        choices=COLUMNS["edition"].words,
        help="edition of ASME B1.1 (default: the newest held)",
    )


def _oversize(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--drill-oversize", metavar="LENGTH", help=f"mean oversize of your own drilled holes: {_QUANTITY}"
    )
    command.add_argument(
        "--drill-deviation", metavar="LENGTH", help="standard deviation of their diameter, with --drill-oversize"
    )


def _finish(command: argparse.ArgumentParser) -> None:
    command.add_argument("--finish", help="coating or plating, e.g. 'ASTM B633 Fe/Zn 8'")


def _further(command: argparse.ArgumentParser, request: str) -> None:
    command.add_argument("--explain", action="store_true", help="add the derivation (with --json)")
    group = command.add_argument_group("what is rarely asked for")
    for option, name in further(request).items():
        column = COLUMNS[name]
        if column.kind == "flag":
            group.add_argument(option, dest=name, action="store_const", const="true", help=column.meaning)
        else:
            group.add_argument(option, dest=name, metavar=column.kind.upper(), help=column.meaning)


def _detail(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--detail", choices=COLUMNS["detail"].words, help="how much of a specification is shown as JSON"
    )


def _depths(command: argparse.ArgumentParser, *, required: bool) -> None:
    kind = command.add_mutually_exclusive_group(required=required)
    kind.add_argument("--blind", metavar="DEPTH", help=f"blind hole, depth of full thread: {_QUANTITY}")
    kind.add_argument("--through", metavar="THICKNESS", help=f"through hole, wall thickness: {_QUANTITY}")
    command.add_argument("--wall", metavar="THICKNESS", help=f"wall of a blind hole: {_QUANTITY}")
    command.add_argument("--drill-depth-limit", metavar="DEPTH", help=f"deepest full drill diameter: {_QUANTITY}")


def _hole(command: argparse.ArgumentParser) -> None:
    _depths(command, required=True)
    command.add_argument("--id", help="your own name of the hole")
    _drilling(command)
    _finish(command)
    _tap_limits(command)
    _oversize(command)
    _edition(command)
    command.add_argument("--screw-class", metavar="CLASS", help="class of the screw, e.g. 2A or 6g")
    command.add_argument(
        "--screw-grade", metavar="GRADE", help="strength grade of the screw, e.g. 8.8: adds the strength"
    )
    _further(command, "hole_spec")
