"""The choices behind every answer: thread, material, finish, way of making, drill, tap and depths, one function each.

Whatever is worth keeping sits in a bounded cache keyed by canonical values, here or in the folder that it calls.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from borewright.core import drilling, finishing, tapping, way_of_making
from borewright.core.caches import cached, cached_apart
from borewright.core.drilling import DrillRequest
from borewright.core.drilling.part_remarks import as_drilled_in_plastic
from borewright.core.drilling.stated_drill import drill_of_drawing
from borewright.core.errors import DrillingError
from borewright.core.finishing.measured_coat import with_measured_coat
from borewright.core.hole import counterbore, depths, taper_pipe, taper_pipe_depths
from borewright.core.hole.tight_bottom import Room
from borewright.core.joint import least_torque
from borewright.core.materials import part_material
from borewright.core.model import (
    Allowance,
    Caution,
    Depths,
    Diameters,
    Drill,
    DrillChoice,
    FinishInput,
    Hole,
    Length,
    Material,
    MaterialInput,
    TapChoice,
    Thread,
)
from borewright.core.quantity_text import length
from borewright.core.requests import (
    DrillRecommendation,
    HoleSpecRequest,
    MatingScrew,
    Method,
    TapRecommendation,
    is_long_list,
)
from borewright.core.shop_figures import serving
from borewright.core.shop_figures.figures import ShopFigures
from borewright.core.tapping import ChamferRoom, TapRequest
from borewright.core.way_of_making import MakingQuestion, Way

_CACHED = 256


class JointDemand(NamedTuple):
    """The joint that a least-torque drill must leave strong enough. ``engagement`` in the thread's unit."""

    engagement: Decimal
    screw: MatingScrew
    safety_factor: float


class Tools(NamedTuple):
    """What was chosen: ``drill`` None where nothing can be planned, ``tap`` None where no tap makes the thread."""

    chart: DrillChoice | None
    drill: DrillChoice | None
    tap: TapChoice | None
    depths: Depths


def material_of(given: MaterialInput | None, *, strict: bool) -> Material | None:
    """The part material ``given`` as far as it is known; ``strict`` refuses one that is not. Raises MaterialError.

    Source: materials tables.
    """
    return None if given is None else part_material.find(given, strict=strict)


def allowance_of(
    thread: Thread, given: FinishInput | None, material: Material | None, figures: ShopFigures | None = None
) -> Allowance | None:
    """What the finish ``given`` does to ``thread`` in ``material``, None without one; ``figures`` of the shop tell
    how its coats spread. Raises FinishError.

    Source: the finish's specification.
    """
    if given is None:
        return None
    found = finish_of(thread, given, material)
    measured = serving.coat(figures, found, thread.unit)
    return found if measured is None else with_measured_coat(thread, found, measured)


@cached(_CACHED)
def finish_of(thread: Thread, given: FinishInput, material: Material | None) -> Allowance:
    """What the finish ``given`` does to ``thread`` in ``material``. Raises FinishError.

    Source: the finish's specification.
    """
    return finishing.allow(thread, given, material=material)


def way_of(
    thread: Thread,
    request: HoleSpecRequest,
    depth: Decimal,
    material: Material | None,
    allowance: Allowance | None,
) -> Way:
    """How ``thread`` is made, before any tool is chosen.

    Args: ``request`` as it came; ``depth``, the length of full thread in the thread's unit; ``material`` of the part;
        ``allowance`` of the finish.
    Source: as :func:`way_of_making.decide`.
    """
    wall = in_unit(request.hole.thickness, thread) if request.hole.kind == "through" else None
    percent = request.percent_thread
    asked = MakingQuestion(
        material=material,
        depth=depth,
        wall=None if wall is None else wall - counterbore.floor(thread, request.hole),
        has_tap=_has_tap(thread, request, material, allowance),
        percent=None if percent is None else percent.target,
    )
    return way_of_making.decide(thread, asked)


def _has_tap(thread: Thread, request: HoleSpecRequest, material: Material | None, allowance: Allowance | None) -> bool:
    """Whether the crib holds a tap for the thread."""
    if not request.stock.taps:
        return False
    wanted = tap_request(request, request.hole, None, thread, allowance, material)
    return tapping.recommend(thread, wanted).recommended.in_stock or False


def tools_of(
    thread: Thread, request: HoleSpecRequest, way: Way, *, engagement: Decimal, allowance: Allowance | None
) -> Tools:
    """Drill, tap and depths of ``thread`` for a ``way`` of making; a milled or single-pointed thread has the hole of a
    cut one.

    Args: ``request`` as it came; ``engagement`` in the thread's unit; ``allowance`` of the finish.
    Source: those of the folders that choose them.
    """
    if way.threading is not None and not way.tapped:
        request = replace(request, method="cut", objective="chart")
    chart, drill = drills_of(
        thread,
        drill_request(request, engagement, thread, way.material, allowance),
        JointDemand(engagement, request.mating_screw or MatingScrew(), request.safety_factor),
        allowance,
    )
    space = space_of(thread, request.hole, drill.recommended.diameter, request.machine.tapping)
    tap = None
    if way.tapped:
        tap = tapping.recommend(thread, tap_request(request, request.hole, space, thread, allowance, way.material))
    to_make = finishing.limits_to_make(thread, allowance)
    depth = _depths(thread, request, drill=drill, tap=tap, space=space, to_make=to_make)
    if request.hole.counterbore is not None:
        wide, deep = counterbore.sizes(thread, request.hole)
        depth = replace(depth, counterbore_diameter=wide, counterbore_depth=deep)
    if way.threading is None:
        silent = depth.notes._replace(cautions=(), decisions=())
        return Tools(None, None, None, replace(depth, notes=silent))
    return Tools(chart, drill, tap, depth)


def drill_request(
    request: DrillRecommendation | HoleSpecRequest,
    engagement: Decimal | None,
    thread: Thread,
    material: Material | None,
    allowance: Allowance | None,
) -> DrillRequest:
    """``request`` as the choice of drills for ``thread`` sees it.

    Args: ``engagement`` in the thread's unit; ``material`` of the part; ``allowance`` of the finish.
    Source: none.
    """
    return DrillRequest(
        method=request.method,
        percent=request.percent_thread,
        objective=request.objective,
        series=request.drill_series,
        engagement=engagement,
        minor_diameter=finishing.limits_to_make(thread, allowance).minor_diameter,
        stock=request.stock.drills,
        material=material,
        coat=finishing.coat_to_come(allowance),
        oversize=drilling.own_oversize(thread, request.machine, request.shop_figures, material),
        prescribed=request.prescribed.drill if isinstance(request, HoleSpecRequest) else None,
        stated=_stated(request, thread),
    )


def _stated(request: DrillRecommendation | HoleSpecRequest, thread: Thread) -> Drill | None:
    """The drill that the drawing of a hole states."""
    if not isinstance(request, HoleSpecRequest) or request.hole.drill is None:
        return None
    found = drill_of_drawing(request.hole.drill, thread.unit)
    if found.diameter(thread.unit) >= thread.basic.major_diameter:
        raise DrillingError(
            "drill_larger_than_thread",
            f"a hole of {request.hole.drill} leaves nothing to tap: {thread.designation} has a major diameter of"
            f" {length(thread.basic.major_diameter, thread.unit)}",
            pointer="/hole/drill",
            allowed=(f"less than {length(thread.basic.major_diameter, thread.unit)}",),
        )
    return found


def tap_request(
    request: TapRecommendation | HoleSpecRequest,
    hole: Hole | None,
    space: Room | None,
    thread: Thread,
    allowance: Allowance | None,
    material: Material | None,
) -> TapRequest:
    """``request`` as the choice of taps for ``thread`` sees it.

    Args: ``hole`` as asked for; ``space`` for the chamfer; ``allowance`` of the finish; ``material`` of the part.
    Source: none.
    """
    driven = (request.machine.tapping or "rigid") if isinstance(request, HoleSpecRequest) else "rigid"
    return TapRequest(
        hole_kind=hole.kind if hole is not None else None,
        material=material,
        method=request.method,
        limits=finishing.limits_to_make(thread, allowance),
        overtap=allowance.overtap if allowance is not None else None,
        stock=request.stock.taps,
        chamfer_room=_chamfer_room(thread, space),
        coat=finishing.coat_to_come(allowance),
        tapping=driven,
        tap_limits=request.tap_limits,
        measured=serving.cut(request.shop_figures, material, request.method, driven),
        prescribed=request.prescribed.tap_limit if isinstance(request, HoleSpecRequest) else None,
        build=request.prescribed.tap_build if isinstance(request, HoleSpecRequest) else None,
    )


def _chamfer_room(thread: Thread, space: Room | None) -> ChamferRoom | None:
    return None if space is None or space.chamfer is None else tapping.chamfer_room(thread, space.chamfer)


def drills_of(
    thread: Thread, request: DrillRequest, joint: JointDemand, allowance: Allowance | None
) -> tuple[DrillChoice | None, DrillChoice]:
    """The chart's drill where another objective was asked for (else None), and the drill to take.

    Args: ``thread`` to be made; ``request`` for its drill; ``joint`` with length of engagement and screw;
        ``allowance``.

    Source: as :func:`drilling.recommend`.
    """
    chart = None
    if request.objective != "least_torque" or request.stated is not None:
        drill = drilling.recommend(finishing.as_cut(thread, allowance), request)
    else:
        chart, drill = _least_torque(thread, request, joint, allowance)
        chart = as_drilled_in_plastic(chart, request.material)
    return chart, as_drilled_in_plastic(drill, request.material)


@cached_apart(8, lambda _thread, request, _joint, _allowance: is_long_list(request.stock))
def _least_torque(
    thread: Thread, request: DrillRequest, joint: JointDemand, allowance: Allowance | None
) -> tuple[DrillChoice, DrillChoice]:
    return least_torque.choose(
        thread,
        request,
        engagement=joint.engagement,
        screw=joint.screw,
        allowance=allowance,
        safety_factor=joint.safety_factor,
    )


def space_of(thread: Thread, hole: Hole, drill_diameter: Decimal | None, tapping_by: str | None = None) -> Room:
    """Room in the thread's unit below the full ``thread`` of ``hole`` for the tap's chamfer. Raises HoleError.

    Args: ``drill_diameter`` in the thread's unit; ``tapping_by`` how the tap is driven.
    Source: as :func:`depths.room`.
    """
    return depths.room(
        thread,
        hole,
        drill_diameter=drill_diameter or thread.basic.minor_diameter,
        clearance=_clearance(thread, tapping_by),
    )


def _depths(
    thread: Thread,
    request: HoleSpecRequest,
    *,
    drill: DrillChoice,
    tap: TapChoice | None,
    space: Room,
    to_make: Diameters,
) -> Depths:
    last = None if tap is None else tap.second_tap or tap.recommended
    if thread.taper is not None:
        return taper_pipe_depths.build(
            thread,
            request.hole,
            full=space.full_thread_depth,
            drill_diameter=drill.recommended.diameter,
            chamfer=None if last is None else last.chamfer,
            clearance=_clearance(thread, request.machine.tapping),
            past=taper_pipe.past_gauge_line(thread, to_make.pitch_diameter),
        )
    return depths.build(
        thread,
        request.hole,
        space=space,
        drill_diameter=drill.recommended.diameter,
        hole_diameter=drill.hole_diameter,
        chamfer=None if last is None else last.chamfer,
        clearance=_clearance(thread, request.machine.tapping),
        major_diameter=to_make.major_diameter.min or thread.nominal_diameter,
    )


def _clearance(thread: Thread, tapping_by: str | None) -> Decimal:
    """Room below the chamfer, by the holder; rigid tapping where the machine is not stated."""
    return depths.CLEARANCE_PITCHES[tapping_by or "rigid"] * thread.pitch


def in_unit(length: Length | None, thread: Thread) -> Decimal | None:
    """A length in the thread's unit.

    Source: definition.
    """
    return None if length is None else length.to(thread.unit)


def deep_cautions(thread: Thread, tap: TapChoice | None, depth: Decimal, method: Method) -> tuple[Caution, ...]:
    """What the shop must know of a ``thread`` that is deep for its ``tap``.

    Args: ``depth`` of full thread in the thread's unit; ``method`` cut or form.
    Source: as :func:`tapping.depth_cautions`.
    """
    if tap is None:
        return ()
    return tapping.depth_cautions(thread, depth, style=tap.recommended.style, method=method)
