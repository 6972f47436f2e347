"""Reach: a hole at the bottom of a bore or beside a wall, and what its tools must be like.

Lengths of tools differ from maker to maker and no table of them is held, so the reach that is needed is given and the
kind of tool it asks for, never a length of a tool.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from .errors import HoleError
from .model import Caution, Depths, Hole, Notes, Source, Step, Thread
from .rounding import half_even, plain

#: A shank no larger than the thread passes where the thread's own tap passes (geometry).
Shank = Literal["standard", "small_shank"]


@dataclass(frozen=True, slots=True, eq=False)
class Reach:
    """Reach from the top of the access to the deepest point of each tool, in the thread's unit."""

    access_depth: Decimal
    clearance_diameter: Decimal | None
    drill_reach: Decimal
    tap_reach: Decimal
    length: Literal["standard", "extended"]
    shank: Shank
    notes: Notes


def reach(thread: Thread, hole: Hole, *, depths: Depths, drill_diameter: Decimal) -> Reach | None:
    """What the tools must reach, None where nothing stands above the entry face.

    Raises: HoleError ``hole_not_reachable`` when the clearance is smaller than the tools themselves.
    Source: geometry; kinds of tool are common practice.
    """
    if hole.access_depth is None and hole.clearance_diameter is None:
        return None
    unit, places = thread.unit, 3 if thread.unit == "in" else 2
    access = hole.access_depth.to(unit) if hole.access_depth is not None else Decimal(0)
    clearance = hole.clearance_diameter.to(unit) if hole.clearance_diameter is not None else None
    widest = max(thread.internal.major_diameter.min or thread.nominal_diameter, drill_diameter)
    if clearance is not None and clearance < widest:
        missing, needed = (plain(half_even(size, places)) for size in (widest - clearance, widest))
        raise HoleError(
            "hole_not_reachable",
            f"the tap is {needed} {unit} wide: {missing} {unit} of clearance are missing",
            pointer="/hole/clearance_diameter",
            allowed=(f"at least {needed} {unit}",),
        )
    inputs = {"access": access, "tip": depths.drill_tip_depth, "travel": depths.tap_travel}
    return Reach(
        access_depth=access,
        clearance_diameter=clearance,
        drill_reach=access + depths.drill_tip_depth,
        tap_reach=access + depths.tap_travel,
        length="extended" if access > 0 else "standard",
        shank="small_shank" if clearance is not None and clearance < 2 * widest else "standard",
        notes=Notes(
            assumptions=("a clearance under twice the thread asks for tools whose shank is no larger than the thread",),
            cautions=(
                Caution(
                    "tool_length_not_held",
                    "Lengths of tools are not held: compare the reach with flute and shank length of the tool at hand;"
                    " long tools run slower and wander more.",
                ),
            ),
            sources=(Source("drill_reach", "geometry", "", "access depth plus depth of the tip", "computed"),),
            steps=(
                Step("drill_reach", "access + tip", inputs, access + depths.drill_tip_depth, unit, "geometry"),
                Step("tap_reach", "access + travel", inputs, access + depths.tap_travel, unit, "geometry"),
            ),
        ),
    )
