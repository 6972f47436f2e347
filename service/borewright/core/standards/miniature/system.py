"""The record of Unified miniature threads."""

from __future__ import annotations

from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import callout, thread

SYSTEMS = (
    System(
        "unified_miniature",
        reader=Reader(callout.parse, callout.settle, "mm", callout.known_series),
        resolve=one_edition("unified_miniature", thread.resolve),
        mate=None,
        catalogue=thread.catalogue,
        coverage=thread.coverage,
        traits=Traits(hole_limits="asme_b1_10"),
    ),
)
