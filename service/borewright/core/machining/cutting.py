"""Cutting data of a tapped hole: drill, tap and fluid for a material, as far as the tables hold it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import cast

from ... import tables
from ..joint import in_mm
from ..model import Status, Thread
from . import speeds
from .drill_cut import drill_cut
from .profile import Profile, groups_of, profile
from .records import CuttingData, CuttingRequest, Fluid, Log
from .tap_cut import tap_cut


def recommend(thread: Thread, request: CuttingRequest) -> CuttingData | None:
    """Cutting data of a hole, or None where the material is not known well enough (its own cautions say so).

    Source: tables of speeds, feeds, forces and fluids; Machinery's Handbook 31st ed. p. 1152; chip-section model.
    """
    material = profile(request.material)
    if material is None:
        return None
    log = Log()
    if material.stands_in is not None:
        log.assumptions.append(f"cutting data of {material.stands_in} stand for {material.name}")
    drill = None
    if speeds.drilling_speed(material) is not None:
        drill = drill_cut(
            material,
            request,
            diameter_mm=in_mm(request.drill_diameter, thread),
            depth_mm=in_mm(request.drill_depth, thread),
            log=log,
        )
    else:
        log.caution("cutting_speed_not_held", f"No drilling speed is held for {material.name} of that hardness.")
    if speeds.tapping_speed(material) is None:
        log.caution("cutting_speed_not_held", f"No tapping speed is held for {material.name} of that hardness.")
    tap = tap_cut(material, request, thread, log=log)
    return CuttingData(drill, tap, _fluid(material, log), log.notes())


def _fluid(material: Profile, log: Log) -> Fluid | None:
    row = _fluids().get(material.row.family)
    if row is None:
        return None
    log.source("fluid", row["source"], f"for {material.row.family}", cast("Status", row["status"]))
    if row["caution"]:
        log.caution("cutting_fluid", f"{material.name}: {row['caution']}.")
    return Fluid(row["drilling"], row["tapping"])


@cache
def _fluids() -> Mapping[str, Mapping[str, str]]:
    return {family: row for row in tables.load("cutting_fluids").rows for family in groups_of(row["family"])}


__all__ = ["CuttingData", "CuttingRequest", "recommend"]
