"""Holes of a part whose lines and figures are set by hand, upon the real specification of a hole."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from borewright.core import callout
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.part.model import PartHole, PlannedHole
from borewright.core.part.used_tools import used_tools
from borewright.core.plan.operation import Line, Operation
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest

#: What a tool of an operation is called beside its kind, where a case does not say.
USUAL = {
    "drill": {"kind": "twist drill", "label": "#7", "point_angle": Decimal(118)},
    "pilot_drill": {"kind": "twist drill", "label": "1/8"},
    "tap": {"kind": "tap", "marking": "1/4-20", "style": "spiral_flute", "chamfer": "plug", "surface": "bright"},
    "spot_drill": {"kind": "spot drill", "included_angle": Decimal(120)},
    "countersink": {"kind": "countersink", "included_angle": Decimal(90)},
}


def inch(value):
    return Length(Decimal(str(value)), "in")


def mm(value):
    return Length(Decimal(str(value)), "mm")


def asked(thread="1/4-20 UNC-2B", hole=None, material="6061-T6", **more):
    hole = hole or Hole("blind", full_thread_depth=inch(0.5))
    named = None if material is None else MaterialInput(name=material)
    return HoleSpecRequest(callout.read(thread), hole, material=named, **more)


@cache
def specified(*given, **more):
    return specify(asked(*given, **more))


def line(operation, text="", *, time_s=None, parameters=(), **tool):
    """A line of a routing with the usual tool of its operation but for what is said of it."""
    named = {**USUAL.get(operation, {"kind": operation}), **tool}
    return Line(operation, named, dict(parameters), text or operation, time_s)


def planned(name, *lines, count=1, of=None, **changed):
    """A hole made by ``lines`` (names of operations, or whole lines) upon the specification ``of``."""
    own = specified() if of is None else of
    lines = [line(one) if isinstance(one, str) else one for one in lines]
    steps = tuple(Operation(10 * number, one) for number, one in enumerate(lines, start=1))
    found = own._replace(operations=steps, **changed)
    return PlannedHole(PartHole(name, found.request, count), found, used_tools(found))
