"""The record of trapezoidal threads; classes of the screw are those of ISO 2903 (from memory)."""

from __future__ import annotations

from borewright.core.standards import mates
from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import callout, thread

SYSTEMS = (
    System(
        "trapezoidal",
        reader=Reader(callout.parse, callout.settle, "mm"),
        resolve=one_edition("trapezoidal", thread.resolve),
        mate=mates.without_limits("7e", "8e", "8c", "9c"),
        catalogue=thread.catalogue,
        coverage=thread.coverage,
        traits=Traits(),
    ),
)
