"""What accompanies the plan of a part: what was assumed of machine and gauges, and whose cautions hold."""

from __future__ import annotations

from collections.abc import Iterable

from borewright.core.model import Notes, Source

from .model import PartRequest, PlannedHole

_TIMES = (
    "Times of tool changes and positioning are those of the request, or what shops usually reckon with: replace them by"
    " the machine's own"
)


def notes(request: PartRequest, planned: Iterable[PlannedHole]) -> Notes:
    """Notes of the holes ``planned``: the plan's own, and the cautions of the holes, each once.

    Source: common practice for the times that the request does not give.
    """
    cautions = dict.fromkeys(caution for one in planned for caution in one.specification.cautions())
    least = f"every hole keeps at least {100 * request.least_acceptance:.1f} % chance of acceptance where it is known"
    source = Source("time", "common practice", "", "tool change and positioning", "common_practice")
    return Notes(assumptions=(_TIMES, least), cautions=tuple(cautions), sources=(source,))
