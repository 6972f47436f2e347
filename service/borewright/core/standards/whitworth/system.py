"""The record of Whitworth threads BSW and BSF; classes of the screw are those of BS 84 (from memory)."""

from __future__ import annotations

from borewright.core.standards import mates
from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import callout, thread

SYSTEMS = (
    System(
        "whitworth",
        reader=Reader(callout.parse, callout.settle, "in", callout.known_series),
        resolve=one_edition("whitworth", thread.resolve),
        mate=mates.without_limits("close", "medium", "free"),
        catalogue=thread.catalogue,
        coverage=thread.coverage,
        traits=Traits(etched="threads_per_inch"),
    ),
)
