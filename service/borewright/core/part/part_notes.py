"""What accompanies the plan of a part: where its times are from, which drills it keeps to, and whose cautions hold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import floor

from borewright.core.drilling import USUAL
from borewright.core.model import Notes, Source

from .model import PartRequest, PlannedHole

#: From here on one decimal of a percentage would say 100.
_NEARLY_1 = 0.9995
#: Times of a part that a request may state, with the words for them.
_STATED = {
    "tool_changes": ("a tool change from chip to chip", "machine.tool_change_time"),
    "positioning": ("going to the next hole and settling there", "machine.positioning_time"),
}


def notes(request: PartRequest, planned: Iterable[PlannedHole]) -> Notes:
    """Notes of the holes ``planned``: the plan's own, and the cautions of the holes, each once.

    Source: common practice for the times that the request does not give; cutting times as the holes say.
    """
    planned = tuple(planned)
    cautions = dict.fromkeys(caution for one in planned for caution in one.specification.cautions())
    least = f"every hole keeps at least {percent(request.least_acceptance)} chance of acceptance where it is known"
    said = (*_times(request), least, *_of_other_series(planned))
    return Notes(assumptions=said, cautions=tuple(cautions), sources=tuple(_sources(request, planned)))


def percent(chance: float) -> str:
    """``chance``, from 0 to 1, in percent; one near to 1 is not rounded up to it.

    Source: definition.
    """
    return f"{100 * chance:.1f} %" if chance < _NEARLY_1 or chance == 1 else f"{floor(1e6 * chance) / 1e4:g} %"


def _times(request: PartRequest) -> Iterator[str]:
    seconds = {"tool_changes": request.times.tool_change_s, "positioning": request.times.positioning_s}
    for name, (words, field) in _STATED.items():
        if name in request.times.usual:
            yield f"{words} takes {seconds[name]:g} s, as shops usually reckon: state the machine's own as {field}"


def _of_other_series(planned: Iterable[PlannedHole]) -> Iterator[str]:
    """Drills that an inch shop may not have."""
    unnamed = (one.specification for one in planned if one.specification.request.drill_series is None)
    drills = [(each.thread.unit, each.drill) for each in unnamed]
    found = {
        drill.recommended.drill.label: None
        for unit, drill in drills
        if drill is not None and not drill.recommended.in_stock and drill.recommended.drill.series not in USUAL[unit][0]
    }
    if found:
        yield (
            f"drills of another series than the threads': {', '.join(found)}, where no drill of their own holds the"
            " limits, or another hole of the part has the drill; a shop without them names its drills in stock or"
            " drill_series"
        )


def _sources(request: PartRequest, planned: Iterable[PlannedHole]) -> Iterator[Source]:
    for name, (words, _) in _STATED.items():
        if name in request.times.usual:
            yield Source(f"time.{name}", "common practice", "", words, "common_practice")
    if any(one.specification.process.cutting is not None for one in planned):
        yield Source("time.cutting", "cutting data of the holes", "", "travel over feed rate", "computed")
