"""The tapped hole as the drawing needs it: diameters and depths in millimetres, from the reply and the hole asked for.

Depths are counted from the entry face. Numbers here are already rounded figures of the reply; nothing is computed anew
but what lies between them (where a cone meets a cylinder).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from borewright.core.finishing import as_cut
from borewright.core.plan.specification import Specification

_MM = {"in": 25.4, "mm": 1.0}


@dataclass(frozen=True, slots=True)
class HoleShape:
    """Every length in millimetres, angles in degrees; ``thickness_mm`` None where the wall is not known.

    ``bore_mm`` is the diameter of a counterbore with its floor ``floor_mm`` below the face, both 0 where none is sunk;
    ``both_sides``: the far face is countersunk too.
    """

    through: bool
    major_mm: float
    minor_mm: float
    drill_mm: float
    taper_ratio: float
    countersink_mm: float
    countersink_deg: float
    point_deg: float
    full_thread_mm: float
    run_out_mm: float
    drill_depth_mm: float
    tip_mm: float
    thickness_mm: float | None
    bore_mm: float = 0.0
    floor_mm: float = 0.0
    both_sides: bool = False

    def major_at(self, depth_mm: float) -> float:
        """Major diameter at a depth; the taper counts on the diameter."""
        return self.major_mm - self.taper_ratio * (depth_mm - self.floor_mm)

    def minor_at(self, depth_mm: float) -> float:
        """Diameter of the crests at a depth: the cone of the thread, but never inside the drilled hole."""
        if not self.taper_ratio:
            return self.minor_mm
        return max(self.drill_mm, self.minor_mm - self.taper_ratio * (depth_mm - self.floor_mm))

    @property
    def crests_begin_mm(self) -> float:
        """Depth at which the countersink meets the crests."""
        meets = self.floor_mm + self._cone_depth(self.minor_mm, self.taper_ratio)
        if self.minor_at(meets) > self.drill_mm or not self.taper_ratio:
            return meets
        return self.floor_mm + self._cone_depth(self.drill_mm, 0.0)

    @property
    def roots_begin_mm(self) -> float:
        """Depth at which the countersink meets the major diameter."""
        return self.floor_mm + self._cone_depth(self.major_mm, self.taper_ratio)

    @property
    def far_edge_mm(self) -> float:
        """Depth at which the hole of a through wall ends, or the countersink of its far face begins."""
        wall = self.thickness_mm or self.drill_depth_mm
        return wall - self._cone_depth(self.drill_mm, 0.0) if self.both_sides else wall

    @property
    def full_end_mm(self) -> float:
        """Depth to which the full thread is drawn: to the countersink of the far face where that comes before it."""
        wall = self.thickness_mm or self.drill_depth_mm
        far = wall - self._cone_depth(self.major_mm, 0.0)
        return min(self.full_thread_mm, far) if self.both_sides else self.full_thread_mm

    def _cone_depth(self, diameter_mm: float, taper_ratio: float) -> float:
        slope = 2 * math.tan(math.radians(self.countersink_deg / 2)) - taper_ratio
        return max(0.0, (self.countersink_mm - diameter_mm) / slope)

    @property
    def thread_end_mm(self) -> float:
        """Depth where the last trace of thread ends."""
        end = self.full_thread_mm + self.run_out_mm
        bottom = self.thickness_mm if self.through else self.drill_depth_mm
        if self.both_sides:
            bottom = self.far_edge_mm
        return end if bottom is None else min(end, bottom)


def _run_out(reply: Mapping[str, Any]) -> float:
    """Thread that is not full: the tap's chamfer; on a taper all that its tap cuts beyond the useful thread."""
    depths = reply["depths"]
    if not reply["thread"]["taper"]:
        return float(depths["chamfer_length"])
    return max(0.0, float(depths["tap_travel"] - depths["full_thread_depth"]))


def drilled_diameter(reply: Mapping[str, Any]) -> float:
    """Diameter of the hole before it is threaded; the basic minor diameter where no drill is planned."""
    drill = reply["drill"]
    if drill is None:
        return float(reply["thread"]["basic"]["minor_diameter"])
    return float(drill["ream_diameter"] or drill["recommended"]["diameter"])


def _overtap(spec: Specification) -> float:
    """How much larger than basic a thread is cut that is tapped after hot-dip zinc, in millimetres; 0 for others."""
    larger = as_cut(spec.thread, spec.allowance).basic.major_diameter - spec.thread.basic.major_diameter
    return float(larger) * _MM[spec.thread.unit]


def hole_shape(spec: Specification, reply: Mapping[str, Any]) -> HoleShape:
    """The shape of the hole of a specification, as its reply prints it."""
    mm = _MM[reply["units"]["length"]]
    thread, depths, drill = reply["thread"], reply["depths"], reply["drill"]
    cut = drill is None or drill["method"] == "cut"
    hole = spec.request.hole
    drilled = drilled_diameter(reply) * mm
    wall = None if hole.thickness is None else float(hole.thickness.to(spec.thread.unit)) * _MM[spec.thread.unit]
    basic, larger = thread["basic"], _overtap(spec)
    through = hole.kind == "through"
    floor = (depths.get("counterbore_depth") or 0.0) * mm
    return HoleShape(
        through=through,
        major_mm=basic["major_diameter"] * mm + larger,
        minor_mm=drilled if cut and not thread["taper"] else basic["minor_diameter"] * mm + larger,
        drill_mm=drilled,
        taper_ratio=thread["taper"] or 0.0,
        countersink_mm=depths["countersink_diameter"] * mm,
        countersink_deg=depths["countersink_angle"],
        point_deg=float(hole.point_angle_deg),
        full_thread_mm=depths["full_thread_depth"] * mm,
        run_out_mm=_run_out(reply) * mm,
        drill_depth_mm=depths["drill_depth"] * mm,
        tip_mm=depths["drill_tip_depth"] * mm,
        thickness_mm=depths["drill_depth"] * mm if through and wall is None else wall,
        bore_mm=depths["counterbore_diameter"] * mm if floor else 0.0,
        floor_mm=floor,
        both_sides=through and hole.countersink is not None and hole.countersink.sides == "both",
    )
