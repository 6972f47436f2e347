"""The record of square threads."""

from __future__ import annotations

from borewright.core.standards.system import Reader, System, Traits, one_edition

from . import callout, thread

SYSTEMS = (
    System(
        "square",
        reader=Reader(callout.parse, callout.settle, None),
        resolve=one_edition("square", thread.resolve),
        mate=None,
        catalogue=thread.catalogue,
        coverage=thread.coverage,
        traits=Traits(),
    ),
)
