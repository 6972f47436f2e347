"""The orchestrator: a request goes in, a specification comes out, one step after the other.

Thread -> material -> finish -> limits to be made -> drill -> tap -> depths -> operations. Each step is a call into
one folder of the domain and is kept in a bounded cache keyed by canonical values, because the holes of a routing
repeat their threads, finishes and tools far more often than their depths.

``notes`` of a reply are the orchestrator's own (with the material's); each part (thread, allowance, drill, tap, depths)
carries its own notes, which the edge joins under the part's name.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache

from . import callout, depths, drilling, finishing, least_torque, taper, taper_depths, tapping, threads
from .decision import Decision
from .drilling import DrillRequest
from .headline import headline
from .limits_by_purpose import limits_by_purpose
from .machining import materials
from .model import (
    Allowance,
    Caution,
    Depths,
    Diameters,
    DrillChoice,
    FinishInput,
    Hole,
    Length,
    Material,
    MaterialInput,
    Notes,
    TapChoice,
    Thread,
)
from .process import Chosen, describe
from .reach import reach
from .requests import (
    AllowanceRequest,
    DecodeRequest,
    DrillRecommendation,
    HoleSpecRequest,
    MatingScrew,
    Method,
    ResolveRequest,
    TapRecommendation,
    ThreadInput,
)
from .routing import Plan, operations
from .specification import AllowanceReply, DrillReply, Specification, TapReply, joined, review
from .tapping import TapMarking, TapRequest
from .threads.insert_object import check_hole

_CACHED = 512


@dataclass(frozen=True, slots=True)
class Joint:
    """The joint that a least-torque drill must leave strong enough. ``engagement`` in the thread's unit."""

    engagement: Decimal
    screw: MatingScrew
    safety_factor: float


def resolve_thread(request: ResolveRequest) -> Thread:
    """The thread of a callout with its limits. Raises CalloutError, ThreadError."""
    return _thread(request.thread, request.length_of_engagement)


def recommend_drill(request: DrillRecommendation) -> DrillReply:
    """The drill for a thread, inside the limits that hold before its finish."""
    thread = _thread(request.thread, None)
    material = _material(request.material, strict=False)
    allowance = _allowance(thread, request.finish, material)
    engagement = _in_unit(request.length_of_engagement, thread)
    _, drill = _drills(
        thread,
        _drill_request(request, engagement, thread, material, allowance),
        Joint(engagement or thread.nominal_diameter, MatingScrew(), 1.0),
        allowance,
    )
    return DrillReply(thread, allowance, drill, _gather(_not_feasible(allowance), material))


def allow_finish(request: AllowanceRequest) -> AllowanceReply:
    """What a finish does to the thread, and the tap limit for the limits before it."""
    thread = _thread(request.thread, None)
    material = _material(request.material, strict=False)
    allowance = _finish(thread, request.finish, material)
    to_make = finishing.limits_to_make(thread, allowance)
    tap = tapping.limit_for(thread, to_make, coat=finishing.coat_to_come(allowance), tap_limits=request.tap_limits)
    return AllowanceReply(thread, allowance, tap, _gather(Notes(assumptions=tap.reasons), material))


def recommend_tap(request: TapRecommendation) -> TapReply:
    """The tap for a thread and what is known of its hole."""
    thread = _thread(request.thread, None)
    material = _material(request.material, strict=False)
    allowance = _allowance(thread, request.finish, material)
    space = None
    if request.hole is not None:
        space = _space(thread, request.hole, finishing.limits_to_make(thread, allowance).minor_diameter.max)
    tap = tapping.recommend(thread, _tap_request(request, request.hole, space, thread, allowance, material))
    deep = () if space is None else _deep(thread, tap, space.full_thread_depth, request.method)
    own = _not_feasible(allowance)
    return TapReply(thread, allowance, tap, _gather(replace(own, cautions=(*own.cautions, *deep)), material))


def decode_marking(request: DecodeRequest) -> TapMarking:
    """What the text on a tap's shank says, and the classes it can hold."""
    return tapping.decode(request.marking)


def specify(request: HoleSpecRequest) -> Specification:
    """The complete specification of one tapped hole. Raises BorewrightError when it cannot be made."""
    thread = _thread(request.thread, request.length_of_engagement)
    material = _material(request.material, strict=request.strict)
    allowance = _allowance(thread, request.finish, material)
    to_make = finishing.limits_to_make(thread, allowance)
    full_depth, assumed = depths.full_thread_depth(thread, request.hole)
    engagement = _in_unit(request.length_of_engagement, thread) or full_depth
    check_hole(thread, kind=request.hole.kind, depth=full_depth)
    chart, drill = _drills(
        thread,
        _drill_request(request, engagement, thread, material, allowance),
        Joint(engagement, request.mating_screw or MatingScrew(), request.safety_factor),
        allowance,
    )
    space = _space(thread, request.hole, drill.recommended.diameter, request.machine.tapping)
    tap = tapping.recommend(thread, _tap_request(request, request.hole, space, thread, allowance, material))
    depth = _depths(thread, request, drill=drill, tap=tap, space=space, to_make=to_make)
    process = describe(Chosen(thread, request, material, allowance, chart, drill, tap, depth, engagement))
    way = reach(thread, request.hole, depths=depth, drill=drill.recommended.drill)
    plan = Plan(
        thread, request.hole, allowance, to_make.pitch_diameter, drill, tap, depth, process.cutting, material, way
    )
    own = Notes(assumptions=assumed, cautions=_deep(thread, tap, depth.full_thread_depth, request.method))
    notes = _gather(joined(own, _not_feasible(allowance), process.notes), material)
    limits = limits_by_purpose(thread, allowance)
    return Specification(
        request=request,
        thread=thread,
        allowance=allowance,
        material=material,
        drill=drill,
        tap=tap,
        depths=depth,
        reach=way,
        process=process,
        operations=operations(plan),
        limits=limits,
        headline=headline(
            thread, request.hole, drill=drill, tap=tap, depths=depth, cutting=process.cutting, limits=limits
        ),
        review=review(notes, thread, allowance, drill, tap, depth, way, *process.parts()),
        notes=notes,
    )


# --- steps, each in its own bounded cache ------------------------------------------------------------


def _thread(given: ThreadInput, engagement: Length | None) -> Thread:
    return threads.resolve(callout.read_thread(given), engagement=engagement)


def _material(given: MaterialInput | None, *, strict: bool) -> Material | None:
    return None if given is None else materials.find(given, strict=strict)


def _allowance(thread: Thread, given: FinishInput | None, material: Material | None) -> Allowance | None:
    return None if given is None else _finish(thread, given, material)


@lru_cache(_CACHED)
def _finish(thread: Thread, given: FinishInput, material: Material | None) -> Allowance:
    return finishing.allow(thread, given, material=material)


def _drill_request(
    request: DrillRecommendation | HoleSpecRequest,
    engagement: Decimal | None,
    thread: Thread,
    material: Material | None,
    allowance: Allowance | None,
) -> DrillRequest:
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
    )


def _tap_request(
    request: TapRecommendation | HoleSpecRequest,
    hole: Hole | None,
    space: depths.Room | None,
    thread: Thread,
    allowance: Allowance | None,
    material: Material | None,
) -> TapRequest:
    return TapRequest(
        hole_kind=hole.kind if hole is not None else None,
        material=material,
        method=request.method,
        limits=finishing.limits_to_make(thread, allowance),
        overtap=allowance.overtap if allowance is not None else None,
        stock=request.stock.taps,
        chamfer_room=space.chamfer if space is not None else None,
        coat=finishing.coat_to_come(allowance),
        tapping=(request.machine.tapping or "rigid") if isinstance(request, HoleSpecRequest) else "rigid",
        tap_limits=request.tap_limits,
    )


def _drills(
    thread: Thread, request: DrillRequest, joint: Joint, allowance: Allowance | None
) -> tuple[DrillChoice | None, DrillChoice]:
    """The chart's drill where another objective was asked for (else None), and the drill to take."""
    if request.objective != "least_torque":
        return None, drilling.recommend(thread, request)
    return _least_torque(thread, request, joint, allowance)


@lru_cache(_CACHED)
def _least_torque(
    thread: Thread, request: DrillRequest, joint: Joint, allowance: Allowance | None
) -> tuple[DrillChoice, DrillChoice]:
    return least_torque.choose(
        thread,
        request,
        engagement=joint.engagement,
        screw=joint.screw,
        allowance=allowance,
        safety_factor=joint.safety_factor,
    )


def _space(thread: Thread, hole: Hole, drill_diameter: Decimal | None, tapping_by: str | None = None) -> depths.Room:
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
    tap: TapChoice,
    space: depths.Room,
    to_make: Diameters,
) -> Depths:
    last = tap.second_tap or tap.recommended
    if thread.taper is not None:
        return taper_depths.build(
            thread,
            request.hole,
            full=space.full_thread_depth,
            drill_diameter=drill.recommended.diameter,
            chamfer=last.chamfer,
            clearance=_clearance(thread, request.machine.tapping),
            past=taper.past_gauge_line(thread, to_make.pitch_diameter),
        )
    return depths.build(
        thread,
        request.hole,
        space=space,
        drill_diameter=drill.recommended.diameter,
        chamfer=last.chamfer,
        clearance=_clearance(thread, request.machine.tapping),
        major_diameter=to_make.major_diameter.min or thread.nominal_diameter,
    )


def _clearance(thread: Thread, tapping_by: str | None) -> Decimal:
    """Room below the chamfer, by the holder; rigid tapping where the machine is not stated."""
    return depths.CLEARANCE_PITCHES[tapping_by or "rigid"] * thread.pitch


def _in_unit(length: Length | None, thread: Thread) -> Decimal | None:
    return None if length is None else length.to(thread.unit)


def _deep(thread: Thread, tap: TapChoice, depth: Decimal, method: Method) -> tuple[Caution, ...]:
    return tapping.depth_cautions(thread, depth, style=tap.recommended.style, method=method)


def _not_feasible(allowance: Allowance | None) -> Notes:
    if allowance is None or allowance.feasible:
        return Notes()
    return Notes(
        assumptions=(
            "the finish leaves no room in this thread, so the thread is planned masked (or tapped afterwards)",
        ),
        decisions=(
            Decision(
                "finish_not_feasible",
                "No tap can make limits that this finish closes to the finished thread; the plan given has the thread"
                f" masked. Decide: {'; '.join(allowance.remedies)}.",
                "/finish",
                blocks=True,
            ),
        ),
    )


def _gather(own: Notes, material: Material | None) -> Notes:
    """The orchestrator's own notes with those of the material, which has no section of its own in a reply."""
    known = Notes() if material is None else material.notes
    return joined(own, known)
