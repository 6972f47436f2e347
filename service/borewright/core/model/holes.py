"""The hole as asked for and its depths."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.practice import figure

from .notes import NO_NOTES, Notes
from .quantities import Length

USUAL_POINT_DEG = figure("drill_point_deg")


@dataclass(frozen=True, slots=True)
class Counterbore:
    """A counterbore at the entry of a hole, or with ``depth`` None a spotface, as deep as cleans up the face."""

    diameter: Length
    depth: Length | None = None


@dataclass(frozen=True, slots=True)
class StatedCountersink:
    """The countersink that a drawing states: ``diameter`` at the surface and included angle, None = as usual."""

    diameter: Length | None = None
    angle_deg: Decimal | None = None
    sides: Literal["one", "both"] = "one"


@dataclass(frozen=True, slots=True)
class Hole:
    """The hole as asked for; ``point_angle_deg`` is the drill's included point angle.

    ``run_out`` is the rule for the depth below the full thread; ``access_depth`` and ``clearance_diameter`` describe a
    bore or wall above the entry face that the tools must pass. Depths count from that face, also where a counterbore
    is sunk into it. ``drill`` (a label), ``drill_depth`` of full diameter and ``least_drill_depth`` are what a drawing
    states: they are planned so.
    """

    kind: Literal["blind", "through"]
    full_thread_depth: Length | None = None
    thickness: Length | None = None
    drill_depth_limit: Length | None = None
    point_angle_deg: Decimal = USUAL_POINT_DEG
    access_depth: Length | None = None
    clearance_diameter: Length | None = None
    run_out: Literal["chamfer", "din_76_1", "bs_1936"] = "chamfer"
    drill: str | None = None
    drill_depth: Length | None = None
    least_drill_depth: Length | None = None
    counterbore: Counterbore | None = None
    countersink: StatedCountersink | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Depths:
    """Depths from the entry face, in the thread's unit."""

    drill_depth: Decimal
    drill_tip_depth: Decimal
    full_thread_depth: Decimal
    tap_travel: Decimal
    chamfer_length: Decimal
    countersink_diameter: Decimal
    countersink_angle_deg: Decimal
    breakthrough: Decimal | None
    wall_left: Decimal | None
    notes: Notes = NO_NOTES
    counterbore_diameter: Decimal | None = None
    counterbore_depth: Decimal | None = None
