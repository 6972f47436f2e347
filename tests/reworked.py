"""A hole that went wrong, with lengths in the unit of its thread, and what is answered."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.model import FinishInput, Hole, Length, LengthRange, MaterialInput
from borewright.core.requests import HoleSpecRequest
from borewright.core.rework import FaultFound, Measured, ReworkRequest, rework
from borewright.core.rework.rework_way import Rework


class Answer:
    """The ways in their order and by name, and why the others are none."""

    def __init__(self, found: Rework) -> None:
        self.found, self.names = found, [one.name for one in found.ways]
        self.ways = {one.name: one for one in found.ways}
        self.ruled_out = {one.name: plain(one.why) for one in found.ruled_out}

    def __getitem__(self, name):
        return self.ways[name]

    def codes(self, name):
        return [one.code for one in self.ways[name].cautions]

    def work(self, name):
        return [one.line.operation for one in self.ways[name].operations]


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def answer(
    thread, condition, *, hole=None, measured=(), stage=None, finish=None, material="6061-T6", asked=(), **found
):
    """What is answered to ``condition`` of a blind hole of 0.75 in or 16 mm, or of ``hole``: kind, and its lengths."""
    named = callout.read(thread)
    kind, sizes = hole or ("blind", {"full_thread_depth": 0.75 if named.unit == "in" else 16})
    sizes = {name: length(value, named.unit) for name, value in sizes.items()}
    figures = {
        name: value if isinstance(value, bool) else length(value, named.unit) for name, value in dict(measured).items()
    }
    lengths = {name: length(value, named.unit) if isinstance(value, float) else value for name, value in found.items()}
    request = HoleSpecRequest(
        named,
        Hole(kind, **sizes),
        material=None if material is None else MaterialInput(name=material),
        finish=FinishInput(text=finish) if isinstance(finish, str) else finish,
        **dict(asked),
    )
    return Answer(rework(ReworkRequest(request, FaultFound(condition, stage, Measured(**figures), **lengths))))


def length(value, unit):
    return Length(Decimal(str(value)), unit)


def coat(low, high, unit="in"):
    """A coat of these thicknesses that grows outward altogether."""
    return FinishInput(thickness=LengthRange(length(low, unit), length(high, unit)), growth_fraction=Decimal(1))
