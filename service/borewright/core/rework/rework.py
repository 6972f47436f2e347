"""The door of rework: the hole as drawn, what was found, and every way to go on, best first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from borewright.core.model import Notes, Source

from . import (
    broken_tap,
    contradictions,
    damaged_thread,
    drilled_oversize,
    go_refused,
    last_ways,
    tapped_oversize,
    too_shallow,
    wrong_thread,
)
from .found import Condition, ReworkRequest
from .rework_case import Judge, ReworkCase, case_of
from .rework_way import Rework, ReworkWay, RuledOut

_WAYS: Mapping[Condition, Judge] = MappingProxyType(
    {
        "drilled_oversize": drilled_oversize.ways,
        "tapped_oversize": tapped_oversize.ways,
        "go_does_not_enter": go_refused.ways,
        "too_shallow": too_shallow.ways,
        "wrong_thread": wrong_thread.ways,
        "stripped": damaged_thread.stripped,
        "broken_tap": broken_tap.ways,
        "cross_threaded": damaged_thread.crossed,
    }
)
#: Dispositions from the drawing away, with what is still to be proven and the last resort.
_ORDER = ("rework", "use_as_is", "repair", "strength_open", last_ways.PLUG)
_DISPOSITIONS = Source("ways", "MIL-STD-1520C", "27 Jun 1986", "clauses 3.12 to 3.18", "from_memory")


def rework(request: ReworkRequest) -> Rework:
    """What can be done with the hole of ``request``. Nothing is accepted here: a disposition is proposed, and who
    decides is named.

    Raises: BorewrightError where the hole as drawn cannot be specified or a callout cannot be resolved; ReworkError
    where the figures contradict the condition.
    Source: that of each way.
    """
    case = case_of(request)
    contradictions.refuse(case)
    judged = tuple(_WAYS[request.found.condition](case))
    ways = _ordered(one for one in judged if isinstance(one, ReworkWay))
    ruled_out = [one for one in judged if isinstance(one, RuledOut)]
    if case.criticality is not None:
        ways, refused = _critical(case, ways)
        ruled_out += refused
    elif all(one.name == last_ways.PLUG for one in ways):
        ways = (*ways, last_ways.scrap(case))
    return Rework(request, case.thread, case.stage, ways, tuple(dict.fromkeys(ruled_out)), _notes(case))


def _ordered(ways: Iterator[ReworkWay]) -> tuple[ReworkWay, ...]:
    """What brings the part back to the drawing stands first; use as it is before what cuts more metal away only where
    its strength is proven.
    """
    return tuple(sorted(ways, key=_rank))


def _rank(one: ReworkWay) -> int:
    is_open = any(caution.code == "rework_strength_open" for caution in one.cautions)
    if one.disposition == "use_as_is" and is_open:
        return _ORDER.index("strength_open")
    return _ORDER.index(last_ways.PLUG if one.name == last_ways.PLUG else one.disposition)


def _critical(case: ReworkCase, ways: tuple[ReworkWay, ...]) -> tuple[tuple[ReworkWay, ...], list[RuledOut]]:
    """Of flight, pressure, lifting and safety hardware only rework is listed, and that not without authority."""
    kept = tuple(one for one in ways if one.disposition == "rework")
    why = f"{case.criticality} hardware: use as it is, repair and scrap are for engineering to propose"
    refused = [RuledOut(one.name, why) for one in ways if one not in kept]
    return (*kept, last_ways.refer(case)), refused


def _notes(case: ReworkCase) -> Notes:
    told = ["where the hole lies is not judged: its position is another question"]
    found = case.found
    if found.stage is None:
        told.append("the fault was found before any finish: the hole has none")
    if found.criticality is None and case.criticality is not None:
        told.append("a pipe thread is taken for pressure hardware")
    if found.edge_distance is None and found.wall is None:
        told.append("neither the distance to the edge nor the wall is given: the wall that is left is not judged")
    if found.condition == "broken_tap" and found.broken_tap.material is None:
        told.append("material of the broken tap not stated: high-speed steel taken")
    return Notes(assumptions=tuple(told), sources=(_DISPOSITIONS,))
