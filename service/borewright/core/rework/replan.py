"""The hole of a way specified anew: with another thread, tool or depth, everything else as the drawing has it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core import callout
from borewright.core.errors import BorewrightError
from borewright.core.model import Hole, Length, ThreadCallout
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest, MatingScrew, Stock

from .rework_case import ReworkCase
from .rework_way import Changed, Replanned


class NotPlanned(Exception):
    """No hole can be planned so; its text says why."""


def replanned(case: ReworkCase, changed: Changed) -> Replanned:
    """The hole of ``case`` specified with what was ``changed``.

    Raises: NotPlanned where no such hole can be specified, or nothing cuts it.
    Source: the specification.
    """
    try:
        found = specify(_asked(case, changed))
    except BorewrightError as error:
        raise NotPlanned(str(error)) from None
    if found.drill is None:
        raise NotPlanned(" ".join(one.text for one in found.review if one.blocks))
    if changed.drill not in (None, found.drill.recommended.drill.label):
        raise NotPlanned(
            f"a drill as large as the old thread ({changed.drill}) cuts over the limit: only a reamer would do"
        )
    return Replanned(found, changed)


def _asked(case: ReworkCase, changed: Changed) -> HoleSpecRequest:
    asked = replace(case.request.hole, id=None)
    if changed.thread is not None:
        asked = _of_thread(asked, callout.read(changed.thread))
    stock = Stock(
        asked.stock.drills if changed.drill is None else (changed.drill,),
        asked.stock.taps if changed.tap is None else (changed.tap,),
    )
    asked = replace(asked, stock=stock, method=changed.method or asked.method)
    if changed.bare:
        asked = replace(asked, finish=None)
    if changed.drilled_otherwise:
        asked = replace(asked, hole=replace(asked.hole, drill=None))
    if changed.full_thread_depth is not None:
        asked = replace(asked, hole=_deeper(asked, changed.full_thread_depth, case))
    return asked


def _of_thread(asked: HoleSpecRequest, thread: ThreadCallout) -> HoleSpecRequest:
    """Another thread has other drills and taps than the crib lists for the drawn one, and a screw of its own class."""
    screw = asked.mating_screw
    return replace(
        asked,
        thread=thread,
        edition=None,
        percent_thread=None,
        objective="chart",
        drill_series=None,
        tap_limits=None,
        stock=Stock(),
        mating_screw=None if screw is None or screw.grade is None else MatingScrew(grade=screw.grade),
    )


def _deeper(asked: HoleSpecRequest, depth: Decimal, case: ReworkCase) -> Hole:
    return replace(asked.hole, full_thread_depth=Length(depth, case.unit))
