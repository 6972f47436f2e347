"""The record of British Association threads; classes of the screw are those of BS 93 (from memory)."""

from __future__ import annotations

from borewright.core.standards import mates
from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import callout, thread

SYSTEMS = (
    System(
        "british_association",
        reader=Reader(callout.parse, callout.settle, "mm"),
        resolve=one_edition("british_association", thread.resolve),
        mate=mates.without_limits("close", "normal"),
        catalogue=thread.catalogue,
        coverage=thread.coverage,
        traits=Traits(),
    ),
)
