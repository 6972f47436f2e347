"""Whether a hole that no drill makes is reamed or bored."""

from __future__ import annotations

from borewright.core.model import DrillChoice, Unit
from borewright.core.practice import sizes

_MOST_REAMED = sizes("most_reamed")


def is_bored(choice: DrillChoice, unit: Unit) -> bool:
    """Whether more is left on diameter behind the drill of ``choice``, in ``unit``, than a reamer takes.

    Source: practice table (our decision, each row with its reason).
    """
    return choice.hole_diameter - choice.recommended.diameter > _MOST_REAMED[unit]
