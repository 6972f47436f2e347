"""Sub-commands, their options and the request each of them makes."""

from __future__ import annotations

import argparse
from typing import Any

from .. import __version__
from ..client import Client, Reply
from . import batch

_QUANTITY = "a number in the thread's unit, or text such as '0.75 in', '3/8 in', '20 mm'"


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    top = argparse.ArgumentParser(
        prog="borewright", description="Tapped holes: from a thread callout to the shop floor."
    )
    top.add_argument("--version", action="version", version=f"borewright-client {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    _spec(_command(commands, "spec", "complete specification of one tapped hole", _ask_spec))
    _audit(_command(commands, "audit", "check what a routing plans for a tapped hole", _ask_audit))
    thread = _command(commands, "thread", "limits of size of a thread callout", _ask_thread)
    thread.add_argument("--engagement", metavar="LENGTH", help=f"length of engagement: {_QUANTITY}")
    drill = _command(commands, "drill", "drill for a thread", _ask_drill)
    _drilling(drill)
    drill.add_argument("--finish", help="coating or plating, e.g. 'ASTM B633 Fe/Zn 8'")
    allowance = _command(commands, "allowance", "limits before a coating, plating or heat treatment", _ask_allowance)
    allowance.add_argument("finish", help="specification text, e.g. 'ASTM B633 Fe/Zn 8'")
    tap = _command(commands, "tap", "tap for a thread, or --decode the marking on a shank", _ask_tap, thread=False)
    tap.add_argument("thread", help="thread callout, or the marking with --decode")
    tap.add_argument("--decode", action="store_true", help="read the text as a marking etched on a tap's shank")
    tap.add_argument("--finish", help="coating or plating that follows")
    tap.add_argument("--material", help="part material, e.g. 4140 or 6061-T6")
    tap.add_argument("--method", choices=("cut", "form"), help="cut (default) or form the thread")
    many = _command(commands, "batch", "specification of every hole of a file", batch.ask, thread=False)
    many.add_argument("holes", help="file of holes: .csv with dotted columns, or .ndjson with a request a line")
    many.add_argument("-o", "--output", help="file to write, .csv or .ndjson (default: the terminal, as the input)")
    catalog = _command(commands, "catalog", "what the tables hold", _ask_catalog, thread=False)
    catalog.add_argument("name", help="materials, finishes, drills, tap-limits, thread-systems or units")
    return top


def _command(commands: Any, name: str, text: str, call: Any, *, thread: bool = True) -> argparse.ArgumentParser:
    command: argparse.ArgumentParser = commands.add_parser(name, help=text, description=text.capitalize() + ".")
    if thread:
        command.add_argument("thread", help="thread callout, e.g. '1/2-13 UNC-2B' or M8x1.25-6H")
    command.add_argument(
        "--url", help="address of the service (else BOREWRIGHT_CLIENT_URL, else http://127.0.0.1:8080)"
    )
    command.add_argument("--units", choices=("inch", "metric"), help="unit system (default: the thread's own)")
    command.add_argument("--json", action="store_true", help="print the reply as JSON")
    command.set_defaults(call=call)
    return command


def _drilling(command: argparse.ArgumentParser) -> None:
    command.add_argument("--method", choices=("cut", "form"), help="cut (default) or form the thread")
    command.add_argument("--percent", type=float, metavar="PERCENT", help="percent of thread wanted, 0.75 H basis")
    command.add_argument(
        "--objective", choices=("chart", "least_torque", "acceptance"), help="what the drill is chosen for"
    )
    command.add_argument("--material", help="part material, e.g. 4140 or 6061-T6")


def _audit(command: argparse.ArgumentParser) -> None:
    _spec(command)
    command.add_argument("--drill", required=True, help="planned drill, e.g. 27/64, '#7' or '6.8 mm'")
    command.add_argument("--tap", required=True, help="marking of the planned tap, e.g. '1/2-13 NC HSS G H3'")
    command.add_argument("--tap-style", help="style of the tap, e.g. spiral_point")
    command.add_argument("--tap-chamfer", help="chamfer of the tap, e.g. plug or bottoming")
    command.add_argument("--second-tap", metavar="MARKING", help="tap that finishes what the first one leaves")
    command.add_argument("--drill-depth", metavar="DEPTH", help=f"planned depth of full drill diameter: {_QUANTITY}")
    command.add_argument("--spindle-speed", type=float, metavar="RPM", help="planned spindle speed of the drill")
    command.add_argument("--tap-spindle-speed", type=float, metavar="RPM", help="planned spindle speed of the tap")
    command.add_argument("--order", metavar="WORDS", help="planned operations in order, e.g. drill,tap,plate")


def _spec(command: argparse.ArgumentParser) -> None:
    kind = command.add_mutually_exclusive_group(required=True)
    kind.add_argument("--blind", metavar="DEPTH", help=f"blind hole, depth of full thread: {_QUANTITY}")
    kind.add_argument("--through", metavar="THICKNESS", help=f"through hole, wall thickness: {_QUANTITY}")
    command.add_argument("--wall", metavar="THICKNESS", help=f"wall of a blind hole: {_QUANTITY}")
    command.add_argument("--drill-depth-limit", metavar="DEPTH", help=f"deepest full drill diameter: {_QUANTITY}")
    _drilling(command)
    command.add_argument("--finish", help="coating or plating, e.g. 'ASTM B633 Fe/Zn 8'")
    command.add_argument("--explain", action="store_true", help="add the derivation (with --json)")


def quantity(text: str) -> float | str:
    """A bare number as a number, anything else as text for the service to read."""
    try:
        return float(text)
    except ValueError:
        return text


def _given(**fields: Any) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}


def _ask_spec(client: Client, options: argparse.Namespace) -> Reply:
    return client.hole_spec(_hole_spec(options))


def _ask_audit(client: Client, options: argparse.Namespace) -> Reply:
    tap = _given(marking=options.tap, style=options.tap_style, chamfer=options.tap_chamfer)
    planned = _given(
        drill=options.drill,
        tap=tap,
        second_tap=options.second_tap,
        drill_depth=None if options.drill_depth is None else quantity(options.drill_depth),
        spindle_speed=options.spindle_speed,
        tap_spindle_speed=options.tap_spindle_speed,
        operations_order=None if options.order is None else [word.strip() for word in options.order.split(",")],
    )
    return client.audit({**_hole_spec(options), "as_planned": planned})


def _hole_spec(options: argparse.Namespace) -> dict[str, Any]:
    if options.blind is not None:
        hole = _given(
            type="blind",
            full_thread_depth=quantity(options.blind),
            thickness=None if options.wall is None else quantity(options.wall),
        )
    else:
        hole = {"type": "through", "thickness": quantity(options.through)}
    if options.drill_depth_limit is not None:
        hole["drill_depth_limit"] = quantity(options.drill_depth_limit)
    request = _given(thread=options.thread, hole=hole, explain=options.explain or None, **_drilling_fields(options))
    return {**request, **_given(finish=options.finish)}


def _ask_thread(client: Client, options: argparse.Namespace) -> Reply:
    engagement = None if options.engagement is None else quantity(options.engagement)
    return client.resolve_thread(options.thread, **_given(length_of_engagement=engagement, unit_system=options.units))


def _ask_drill(client: Client, options: argparse.Namespace) -> Reply:
    return client.recommend_drill(options.thread, **_drilling_fields(options), **_given(finish=options.finish))


def _ask_allowance(client: Client, options: argparse.Namespace) -> Reply:
    return client.allowance(options.thread, options.finish, **_given(unit_system=options.units))


def _ask_tap(client: Client, options: argparse.Namespace) -> Reply:
    if options.decode:
        return client.decode_tap(options.thread, **_given(unit_system=options.units))
    fields = _given(finish=options.finish, material=options.material, method=options.method, unit_system=options.units)
    return client.recommend_tap(options.thread, **fields)


def _ask_catalog(client: Client, options: argparse.Namespace) -> Reply:
    return client.catalog(options.name)


def _drilling_fields(options: argparse.Namespace) -> dict[str, Any]:
    return _given(
        method=options.method,
        percent_thread=options.percent,
        objective=options.objective,
        material=options.material,
        unit_system=options.units,
    )
