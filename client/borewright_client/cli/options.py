"""Options and arguments that set the fields of a request, each made of a column of CSV; the request they make.

A parameter is called by the dotted name of its field, with ``__`` for the dot.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Sequence
from typing import Any

import click

from .columns import COLUMNS, Column
from .exit_codes import WrongUse
from .fields import Request, figure, put, unit_system
from .shop_figures import kept_figures, shop_figures_option

QUANTITY = "a number in the thread's unit, a fraction of an inch, or '0.75 in', '20 mm'"
#: Fields that an argument or another option sets.
_OTHERWISE = ("thread", "hole.type", "hole.full_thread_depth", "hole.thickness")
#: Fields beside the thread that a command takes without an option.
_ARGUMENTS = {"allowance": ("finish",)}
#: Requests that take figures of the shop.
_MEASURABLE = ("hole_spec", "drill", "tap", "allowance")
#: Options that are not called by the last part of their field's name.
_CALLED = {
    "hole.drill": "--stated-drill",
    "hole.drill_depth": "--stated-drill-depth",
    "hole.counterbore.diameter": "--counterbore",
    "hole.counterbore.depth": "--counterbore-depth",
    "hole.countersink.diameter": "--countersink",
    "hole.countersink.angle": "--countersink-angle",
    "hole.countersink.sides": "--countersink-sides",
    "material.group": "--material-group",
    "machine.name": "--machine-name",
    "finish.class": "--finish-class",
    "finish.thickness": "--finish-thickness",
    "finish.reading": "--finish-reading",
    "length_of_engagement": "--engagement",
    "percent_thread": "--percent",
    "mating_screw.class": "--screw-class",
    "mating_screw.grade": "--screw-grade",
    "stock.drills": "--stock-drills",
    "stock.taps": "--stock-taps",
    "unit_system": "--units",
}


def options_of(request: str) -> dict[str, str]:
    """The options that set a field of a request as its column does, each with the name of the field."""
    return {
        _CALLED.get(name, "--" + name.rpartition(".")[2].replace("_", "-")): name
        for name, column in COLUMNS.items()
        if name not in _OTHERWISE and request in column.requests
    }


def parameters_of(request: str) -> Iterator[click.Parameter]:
    """What sets the fields of a request: its thread as an argument, all others as options."""
    arguments = ("thread", *_ARGUMENTS.get(request, ()))
    yield from (click.Argument([name], metavar=name.upper()) for name in arguments)
    if "hole.type" in (name for name, column in COLUMNS.items() if request in column.requests):
        yield from _depths()
    for option, name in options_of(request).items():
        if name in arguments:
            continue
        yield _option(option, name, COLUMNS[name])
        if name == "machine.drill_oversize":
            yield click.Option(
                ["--drill-deviation"],
                metavar="LENGTH",
                help="its standard deviation, with --drill-oversize",
            )
    if request in _MEASURABLE:
        yield shop_figures_option()


class _Units(click.Choice[str]):
    """``inch`` or ``metric``, in any spelling of the units."""

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The word of the contract."""
        return super().convert(unit_system(value), param, ctx)


def units_option() -> click.Option:
    """The option that every command has."""
    return _option(_CALLED["unit_system"], "unit_system", COLUMNS["unit_system"])


def _option(option: str, name: str, column: Column) -> click.Option:
    meaning = column.meaning.partition(f" ({', '.join(column.words[:-1])}")[0] if column.words else column.meaning
    told: dict[str, Any] = {"help": meaning.replace("`", "")}
    if column.kind == "flag":
        told |= {"is_flag": True, "flag_value": "true", "default": None}
    elif name == "unit_system":
        told |= {"type": _Units(column.words)}
    elif column.words and column.kind == "text":
        told |= {"type": click.Choice(column.words, case_sensitive=False)}
    else:
        told |= {"metavar": column.kind.upper()}
    return click.Option([option, name.replace(".", "__")], **told)


def _depths() -> Iterator[click.Option]:
    yield click.Option(["--blind"], metavar="DEPTH", help=f"blind hole, depth of full thread: {QUANTITY}")
    yield click.Option(["--through"], metavar="THICKNESS", help=f"through hole, wall thickness: {QUANTITY}")
    yield click.Option(["--wall"], metavar="THICKNESS", help=f"wall of a blind hole: {QUANTITY}")


def place_of(pointer: str, parameters: Sequence[click.Parameter]) -> str:
    """A pointer into a request, and before it the parameter that sets the field."""
    steps = pointer.split("/")[1:]
    known = {parameter.name: parameter for parameter in parameters}
    names = ["__".join(steps[:length]) for length in range(len(steps), 0, -1)]
    for name in (*names, *(_EXTENT[one] for one in names if one in _EXTENT)):
        if name in known:
            parameter = known[name]
            called = parameter.opts[0] if isinstance(parameter, click.Option) else parameter.human_readable_name
            return f"{called} {pointer}"
    return pointer or "/"


#: The options of a hole's extent by the field that they set.
_EXTENT = {"hole__full_thread_depth": "blind", "hole__thickness": "through"}


def request_of(given: dict[str, Any]) -> Request:
    """The request that parameters make; those that set a field are taken out of ``given``."""
    request: Request = _from_input() if given["thread"] == "-" else {}
    for parameter in list(given):
        name = parameter.replace("__", ".")
        if name in COLUMNS and (text := given.pop(parameter)) is not None and (name, text) != ("thread", "-"):
            put(request, name, text)
    blind, through, wall, deviation = (
        given.pop(name, None) for name in ("blind", "through", "wall", "drill_deviation")
    )
    request |= kept_figures(given.pop("shop_figures", None))
    _extent(request, blind, through, wall)
    if deviation is not None:
        machine = request.setdefault("machine", {})
        mean = machine.get("drill_oversize")
        spread = {"standard_deviation": figure(deviation)}
        machine["drill_oversize"] = spread if mean is None else {"mean": mean, **spread}
    return request


def _from_input() -> Request:
    """A request that standard input holds, to which options add."""
    try:
        request = json.load(sys.stdin)
    except ValueError as error:
        raise WrongUse(f"standard input is not JSON: {error}") from None
    if not isinstance(request, dict):
        raise WrongUse("standard input holds no request: an object, {...}")
    return request


def _extent(request: Request, blind: str | None, through: str | None, wall: str | None) -> None:
    """How deep the hole is."""
    if blind is not None and through is not None:
        raise WrongUse("--through is not allowed with --blind")
    depths = {"hole.full_thread_depth": blind, "hole.thickness": wall if through is None else through}
    kind = "blind" if blind is not None else None if through is None else "through"
    for name, text in {"hole.type": kind, **depths}.items():
        if text is not None:
            put(request, name, text)
