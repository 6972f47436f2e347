"""Cutting data of a tapped hole: drill, tap and fluid for a material, as far as the tables hold it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from borewright import tables
from borewright.core.caches import cached, read_once
from borewright.core.derivation import one_after_the_other, steps_made_again
from borewright.core.joint.geometry import in_mm
from borewright.core.materials.profile import CuttingProfile, groups_of, profile
from borewright.core.model import Notes, Status, Thread
from borewright.core.shop_figures import serving

from . import speeds
from .drill_cut import drill_cut, drill_time, peck
from .records import CuttingData, CuttingNotes, CuttingRequest, Fluid, ToolsData, ToolsRequest
from .tap_cut import tap_cut, tap_time
from .tap_torque import DEEP_D, packing, tap_form

_CACHED = 512


def recommend(thread: Thread, request: CuttingRequest) -> CuttingData | None:
    """Cutting data of the hole of ``request`` in ``thread``, or None where the material is not known well enough (its
    own cautions say so).

    Source: tables of speeds, feeds, forces and fluids; Machinery's Handbook 31st ed. p. 1152; chip-section model.
    """
    before, after = CuttingNotes(), CuttingNotes()
    tools = of_tools(thread, tools_request(thread, request, log=before))
    if tools is None:
        return None
    diameter_mm, depth_mm = in_mm(request.drill_diameter, thread), in_mm(request.drill_depth, thread)
    known = tools.notes
    pecks = None if tools.drill is None else peck(diameter_mm=diameter_mm, depth_mm=depth_mm)
    drilling_s = None if tools.drill is None else drill_time(tools.drill, depth_mm=depth_mm, log=after)
    travel_mm = in_mm(request.tap_travel, thread)
    tapping_s = None if tools.tap is None else tap_time(tools.tap, travel_mm=travel_mm, log=after)
    steps = one_after_the_other(tuple(before.steps), known.steps, tuple(after.steps))
    return CuttingData(
        tools, pecks, drilling_s, tapping_s, Notes(known.assumptions, known.cautions, known.sources, steps)
    )


def tools_request(thread: Thread, request: CuttingRequest, *, log: CuttingNotes) -> ToolsRequest:
    """The ``request`` for ``thread`` with the steps that its depths fall into, instead of the depths.

    Args: ``log`` takes the notes.
    Source: steps of the depth factors; geometry of the tap's chamfer.
    """
    form = tap_form(thread)
    depth_mm, chamfer_mm = in_mm(request.full_thread_depth, thread), float(request.chamfer_threads) * form.pitch_mm
    fill = min(depth_mm / chamfer_mm, 1.0)
    if request.tapped:
        log.work("tap.chamfer_fill", "min(depth / chamfer, 1)", {"depth": depth_mm, "chamfer": chamfer_mm}, fill, "")
    return ToolsRequest(
        material=request.material,
        hole_kind=request.hole_kind,
        drill_diameter=request.drill_diameter,
        hole_diameter=request.hole_diameter,
        drill_factors=speeds.depth_factors(float(request.drill_depth / request.drill_diameter)),
        deep=depth_mm > DEEP_D * form.major_mm,
        packing=packing(request, depth_over_diameter=depth_mm / form.major_mm, log=log),
        chamfer_fill=fill,
        method=request.method,
        style=request.style,
        chamfer_name=request.chamfer_name,
        chamfer_threads=request.chamfer_threads,
        coated=request.coated,
        machine=request.machine,
        measured_torque=serving.torque(request.shop_figures, request.material),
        tapped=request.tapped,
    )


@cached(_CACHED)
@steps_made_again
def of_tools(thread: Thread, request: ToolsRequest) -> ToolsData | None:
    """Cutting data of drill and tap of ``request`` for ``thread``, or None where the material is not known well enough.

    Source: as :func:`recommend`.
    """
    material = profile(request.material)
    if material is None:
        return None
    log = CuttingNotes()
    if material.stands_in is not None:
        log.assume(f"cutting data of {material.stands_in} stand for {material.name}")
    drill = None
    if speeds.drilling_speed(material) is not None:
        drill = drill_cut(material, request, diameter_mm=in_mm(request.drill_diameter, thread), log=log)
    else:
        log.caution("cutting_speed_not_held", f"No drilling speed is held for {material.name} of that hardness.")
    if request.tapped and speeds.tapping_speed(material) is None:
        log.caution("cutting_speed_not_held", f"No tapping speed is held for {material.name} of that hardness.")
    tap = tap_cut(material, request, thread, log=log) if request.tapped else None
    return ToolsData(drill, tap, _fluid(material, log), log.notes())


def _fluid(material: CuttingProfile, log: CuttingNotes) -> Fluid | None:
    row = _fluids().get(material.row.family)
    if row is None:
        return None
    log.source("fluid", row["source"], f"for {material.row.family}", cast("Status", row["status"]))
    if row["caution"] and row["harms"]:
        log.caution("cutting_fluid", f"{material.name}: {row['caution']}.")
    elif row["caution"]:
        log.assume(f"{material.name}: {row['caution']}")
    return Fluid(row["drilling"], row["tapping"])


@read_once
def _fluids() -> Mapping[str, Mapping[str, str]]:
    return {family: row for row in tables.load("cutting_fluids").rows for family in groups_of(row["family"])}


__all__ = ["CuttingData", "CuttingRequest", "recommend"]
