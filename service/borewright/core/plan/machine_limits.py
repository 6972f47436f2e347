"""What a request states of the machine, judged whether or not anything else of the request needs it."""

from __future__ import annotations

from borewright.core.errors import DrillingError
from borewright.core.model import Length, Thread
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.requests import Machine

#: Largest oversize of drilled holes that is believed, as a share of the thread's diameter.
_MOST_OVERSIZE = figure("most_drill_oversize_share")


def judge(thread: Thread, machine: Machine) -> None:
    """Refuse a drill oversize of ``machine``, or its spread, that no drill of ``thread`` makes.

    Raises: DrillingError ``value_out_of_range``.
    Source: our own limit.
    """
    stated = machine.drill_oversize
    if stated is None:
        return
    beside = stated.standard_deviation is not None
    _believed(thread, stated.mean, "/mean" if beside else "")
    if stated.standard_deviation is not None:
        _believed(thread, stated.standard_deviation, "/standard_deviation")


def _believed(thread: Thread, stated: Length, under: str) -> None:
    own, most = stated.to(thread.unit), _MOST_OVERSIZE * thread.nominal_diameter
    if own > most:
        raise DrillingError(
            "value_out_of_range",
            f"{length(own, thread.unit)} is no oversize of a hole drilled for {thread.designation}: more than a tenth"
            " of its diameter.",
            pointer=f"/machine/drill_oversize{under}",
            allowed=(f"0 to {length(most, thread.unit)}",),
        )
