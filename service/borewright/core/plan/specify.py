"""The orchestrator: a request goes in, a specification comes out, one step after the other.

Thread -> material -> finish -> limits to be made -> way of making -> drill -> tap -> depths -> operations. Each step is
a call into one folder of the domain and is kept in a bounded cache keyed by canonical values, because the holes of a
routing repeat their threads, finishes and tools far more often than their depths.

``notes`` of a reply are the orchestrator's own (with the material's); each part (thread, allowance, drill, tap, depths)
carries its own notes, which the edge joins under the part's name.
"""

from __future__ import annotations

from borewright.core import callout, finishing, standards, tapping, way_of_making
from borewright.core.drilling.part_remarks import plastic_cautions
from borewright.core.hole import counterbore, depths
from borewright.core.hole.reach import Reach, reach
from borewright.core.joint import mating_screw
from borewright.core.model import Allowance, Caution, Hole, Material, Notes, Thread
from borewright.core.model.decision import Decision
from borewright.core.requests import (
    AllowanceRequest,
    DecodeRequest,
    DrillRecommendation,
    HoleSpecRequest,
    MatingScrew,
    ResolveRequest,
    TapRecommendation,
)
from borewright.core.shop_figures import serving
from borewright.core.shop_figures.hole_notes import hole_notes
from borewright.core.shop_figures.left_out import HoleServed
from borewright.core.standards.insert.insert_object import check_hole
from borewright.core.tapping import TapMarking

from . import as_stated, insert_lines, machine_limits, pilot_drilling
from .all_faults import telling_all
from .choices import (
    JointDemand,
    Tools,
    allowance_of,
    deep_cautions,
    drill_request,
    drills_of,
    in_unit,
    material_of,
    space_of,
    tap_request,
    tools_of,
    way_of,
)
from .headline import headline
from .limits_by_purpose import limits_by_purpose
from .operation import Plan
from .process import ChosenTools, Process, describe
from .routing import operations
from .specification import AllowanceResult, DrillResult, Specification, TapResult, joined, review


@telling_all
def resolve_thread(request: ResolveRequest) -> Thread:
    """The thread of the callout of ``request`` with its limits. Raises CalloutError, ThreadError."""
    return standards.resolve(request.thread, engagement=request.length_of_engagement, edition=request.edition)


@telling_all
def recommend_drill(request: DrillRecommendation) -> DrillResult:
    """The drill for the thread of ``request``, inside the limits that hold before its finish."""
    thread = standards.resolve(request.thread, edition=request.edition)
    machine_limits.judge(thread, request.machine)
    material = material_of(request.material, strict=False)
    allowance = allowance_of(thread, request.finish, material, request.shop_figures)
    engagement = in_unit(request.length_of_engagement, thread)
    _, drill = drills_of(
        thread,
        drill_request(request, engagement, thread, material, allowance),
        JointDemand(engagement or thread.nominal_diameter, MatingScrew(), 1.0),
        allowance,
    )
    served = HoleServed(
        thread,
        material,
        drill=drill.recommended.diameter,
        stated_oversize=request.machine.drill_oversize is not None,
        allowance=allowance,
    )
    told = hole_notes(request.shop_figures, served)
    own = joined(_not_feasible(allowance), _against(allowance), _warned(thread, material), told)
    return DrillResult(thread, allowance, drill, _gather(own, material))


@telling_all
def allow_finish(request: AllowanceRequest) -> AllowanceResult:
    """What the finish of ``request`` does to its thread, and the tap limit for the limits before it."""
    thread = standards.resolve(request.thread, edition=request.edition)
    material = material_of(request.material, strict=False)
    allowance = allowance_of(thread, request.finish, material, request.shop_figures)
    assert allowance is not None
    if not allowance.feasible:
        return AllowanceResult(
            thread, allowance, tapping.LimitChoice(None, None, ()), _gather(_against(allowance), material)
        )
    to_make = finishing.limits_to_make(thread, allowance)
    tap = tapping.limit_for(
        thread,
        to_make,
        coat=finishing.coat_to_come(allowance),
        tap_limits=request.tap_limits,
        overtap=allowance.overtap,
        measured=serving.cut(request.shop_figures, material, "cut", "rigid"),
    )
    served = HoleServed(thread, material, method="cut", allowance=allowance)
    own = joined(_against(allowance), Notes(assumptions=tap.reasons), hole_notes(request.shop_figures, served))
    return AllowanceResult(thread, allowance, tap, _gather(own, material))


@telling_all
def recommend_tap(request: TapRecommendation) -> TapResult:
    """The tap for the thread of ``request`` and what is known of its hole."""
    thread = standards.resolve(request.thread, edition=request.edition)
    material = material_of(request.material, strict=False)
    allowance = allowance_of(thread, request.finish, material, request.shop_figures)
    space = None
    if request.hole is not None:
        callout.check_hole(request.thread, request.hole)
        space = space_of(thread, request.hole, finishing.limits_to_make(thread, allowance).minor_diameter.max)
    tap = tapping.recommend(thread, tap_request(request, request.hole, space, thread, allowance, material))
    deep = () if space is None else deep_cautions(thread, tap, space.full_thread_depth, request.method)
    told = hole_notes(request.shop_figures, HoleServed(thread, material, method=request.method, allowance=allowance))
    own = joined(_not_feasible(allowance), _against(allowance), _warned(thread, material), told)
    return TapResult(thread, allowance, tap, _gather(own._replace(cautions=(*own.cautions, *deep)), material))


def decode_marking(request: DecodeRequest) -> TapMarking:
    """What the text on a tap's shank in ``request`` says, and the classes it can hold."""
    from borewright.core.tapping.marking import decode  # loaded by the first marking: the start does not need it

    return decode(request.marking)


@telling_all
def specify(request: HoleSpecRequest) -> Specification:
    """The complete specification of the tapped hole of ``request``. Raises BorewrightError when it cannot be made."""
    found = _specify(request, whatever=False)
    if not as_stated.holds(request.hole):
        return found
    return as_stated.held_against(found, lambda own: _specify(own, whatever=False))


def specify_as_tapped(request: HoleSpecRequest) -> Specification:
    """The hole of ``request`` with drill and tap planned even where the specification plans another way or none.

    An audit holds a planned drill and tap against it. Raises as :func:`specify`.
    """
    return _specify(request, whatever=True)


def _specify(request: HoleSpecRequest, *, whatever: bool) -> Specification:
    thread = standards.resolve(request.thread, engagement=request.length_of_engagement, edition=request.edition)
    callout.check_hole(request.thread, request.hole)
    mating_screw.judge(thread, request.mating_screw)
    machine_limits.judge(thread, request.machine)
    material = material_of(request.material, strict=request.strict)
    allowance = allowance_of(thread, request.finish, material, request.shop_figures)
    to_make = finishing.limits_to_make(thread, allowance)
    full_depth, assumed = depths.full_thread_depth(thread, request.hole)
    counterbore.check(thread, request.hole, full_depth)
    long = full_depth - counterbore.floor(thread, request.hole)
    engagement = in_unit(request.length_of_engagement, thread) or long
    check_hole(thread, kind=request.hole.kind, depth=long)
    way = way_of(thread, request, long, material, allowance)
    if whatever:
        way = way_of_making.as_tapped(way)
    tools = tools_of(thread, request, way, engagement=engagement, allowance=allowance)
    reached = _reach(thread, request.hole, tools)
    process = describe(ChosenTools(thread, request, material, way, allowance, *tools, engagement, reached))
    planned = (to_make.pitch_diameter, way, tools.drill, tools.tap, tools.depths)
    plan = Plan(thread, request.hole, allowance, *planned, process.cutting, request.machine.tapping, reached)
    deep = deep_cautions(thread, tools.tap, tools.depths.full_thread_depth - (full_depth - long), request.method)
    own = Notes(assumptions=assumed, cautions=(*deep, *plastic_cautions(material), *_thrust(thread, tools, process)))
    inserted = insert_lines.notes(thread, request.hole, long)
    bored = counterbore.notes(thread, request.hole, full_depth)
    notes = _gather(joined(own, bored, inserted, way.notes, _not_feasible(allowance), process.notes), material)
    limits = limits_by_purpose(thread, allowance)
    return Specification(
        request=request,
        thread=thread,
        allowance=allowance,
        material=material,
        way=way,
        drill=tools.drill,
        tap=tools.tap,
        depths=tools.depths,
        reach=reached,
        process=process,
        operations=operations(plan),
        limits=limits,
        headline=headline(plan, limits),
        review=review(notes, thread, allowance, tools.drill, tools.tap, tools.depths, reached, *process.noted()),
        notes=notes,
    )


def _warned(thread: Thread, material: Material | None) -> Notes:
    """What speaks against drill and tap, for a reply that has no verdict to say it with."""
    told = (Caution(one.code, one.text) for one in way_of_making.against_tapping(thread, material))
    return Notes(cautions=(*told, *plastic_cautions(material)))


def _against(allowance: Allowance | None) -> Notes:
    """What speaks against the finish itself, for a reply that has no verdict to say it with."""
    if allowance is None:
        return Notes()
    return Notes(cautions=tuple(Caution(one.code, one.text) for one in allowance.notes.decisions))


def _thrust(thread: Thread, tools: Tools, process: Process) -> tuple[Caution, ...]:
    if tools.drill is None:
        return ()
    return pilot_drilling.cautions(thread, tools.drill.recommended.diameter, process.cutting)


def _reach(thread: Thread, hole: Hole, tools: Tools) -> Reach | None:
    if tools.drill is None:
        return None
    return reach(thread, hole, depths=tools.depths, drill=tools.drill.recommended.drill, tapped=tools.tap is not None)


def _not_feasible(allowance: Allowance | None) -> Notes:
    if allowance is None or allowance.feasible or finishing.is_impossible(allowance):
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
