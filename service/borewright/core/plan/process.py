"""The process behind a hole: cutting data, strength of the joint, gauges, chance of acceptance, drill comparison.

Called by the orchestrator with the tools and depths already chosen; decides nothing about them.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any, NamedTuple

from borewright.core import finishing
from borewright.core.chance.acceptance import Acceptance, AcceptanceRequest, chance
from borewright.core.cutting import cutting_data
from borewright.core.cutting.records import CuttingData, CuttingRequest
from borewright.core.drilling import own_oversize, scatter
from borewright.core.gauging import Gauging, gauges
from borewright.core.hole import counterbore
from borewright.core.hole.reach import Reach
from borewright.core.joint.least_torque import Comparison, compare
from borewright.core.joint.strength import Strength, assess
from borewright.core.model import (
    Allowance,
    Caution,
    Depths,
    DrillCandidate,
    DrillChoice,
    Material,
    Notes,
    Tap,
    TapChoice,
    Thread,
)
from borewright.core.requests import HoleSpecRequest, Machine, MatingScrew, Method
from borewright.core.shop_figures import serving
from borewright.core.shop_figures.figures import ShopFigures
from borewright.core.shop_figures.hole_notes import hole_notes
from borewright.core.shop_figures.left_out import HoleServed
from borewright.core.way_of_making import Way

from . import health

_NOTHING = Decimal(0)
_NO_MATERIAL = (
    "The part material was not given, so chart drill and least-torque drill are not compared: name the material."
)
_BARE_SURFACES = frozenset({"bright", "oxide", "nitride"})


class Process(NamedTuple):
    """What is known of making and using the hole; a part is None where the data for it are not held."""

    cutting: CuttingData | None
    strength: Strength | None
    gauging: Gauging
    acceptance: Acceptance
    comparison: Comparison | None
    notes: Notes

    def noted(self) -> tuple[CuttingData | Strength | Gauging | Acceptance | Comparison | None, ...]:
        """The parts with notes of their own."""
        return self.cutting, self.strength, self.gauging, self.acceptance, self.comparison


class ChosenTools(NamedTuple):
    """The hole as decided so far. ``engagement`` is the length of engagement in the thread's unit.

    ``material`` is the finished part, ``way.material`` the part in the state in which it is cut.
    """

    thread: Thread
    request: HoleSpecRequest
    material: Material | None
    way: Way
    allowance: Allowance | None
    chart: DrillChoice | None
    drill: DrillChoice | None
    tap: TapChoice | None
    depths: Depths
    engagement: Decimal
    reached: Reach | None


def describe(chosen: ChosenTools) -> Process:
    """The process of a hole with the tools that were ``chosen``.

    Raises: MaterialError for a screw grade that is not known; ThreadError for a mating class that does not exist.

    Source: that of each part.
    """
    request, thread = chosen.request, chosen.thread
    asked = _cutting_request(chosen)
    data = None if asked is None else cutting_data.recommend(finishing.as_cut(thread, chosen.allowance), asked)
    screw = request.mating_screw or MatingScrew()
    strength = _strength(chosen, screw)
    compared, said = _compare(chosen, asked, screw)
    told = hole_notes(request.shop_figures, _served(chosen, data))
    notes = Notes(
        cautions=(
            *health.cautions(
                material=chosen.material, named=request.material, allowance=chosen.allowance, finish=request.finish
            ),
            *_missing(chosen.material, data, planned=chosen.drill is not None),
            *_no_strength(chosen, screw, strength),
            *said,
            *told.cautions,
        ),
        assumptions=told.assumptions,
        sources=told.sources,
    )
    return Process(data, strength, gauges(thread, chosen.allowance), _chance(chosen), compared, notes)


def _served(chosen: ChosenTools, data: CuttingData | None) -> HoleServed:
    """The hole as the shop's figures see it."""
    return HoleServed(
        chosen.thread,
        chosen.way.material,
        drill=None if chosen.drill is None else chosen.drill.recommended.diameter,
        stated_oversize=chosen.request.machine.drill_oversize is not None,
        method=None if chosen.tap is None else chosen.request.method,
        tapping=chosen.request.machine.tapping or "rigid",
        allowance=chosen.allowance,
        torque=data is not None and data.tap is not None and data.tap.torque is not None,
    )


def _compare(
    chosen: ChosenTools, asked: CuttingRequest | None, screw: MatingScrew
) -> tuple[Comparison | None, tuple[Caution, ...]]:
    """The chart's drill against the least-torque drill; else a caution says why not."""
    if chosen.chart is None or chosen.drill is None:
        return None, ()
    if asked is None:
        return None, (Caution("comparison_missing", _NO_MATERIAL),)
    found = compare(
        chosen.thread,
        chart=chosen.chart.recommended,
        least_torque=chosen.drill.recommended,
        cutting=asked,
        engagement=chosen.engagement,
        screw=screw,
        allowance=chosen.allowance,
    )
    label = chosen.drill.recommended.drill.label
    return found, () if found is not None else (Caution("comparison_missing", _nothing_to_cut(chosen.thread, label)),)


def _nothing_to_cut(thread: Thread, drill: str) -> str:
    return (
        f"The hole of {drill} leaves a {thread.designation} tap nothing to cut,"
        " so chart drill and least-torque drill are not compared: ask for more percent of thread."
    )


def mean_hole(drill: DrillCandidate) -> Decimal:
    """The hole, in the thread's unit, that a ``drill`` is expected to make, or its own diameter where no oversize data
    exist.
    """
    return drill.expected_hole_diameter or drill.diameter


def _cutting_request(chosen: ChosenTools) -> CuttingRequest | None:
    if chosen.way.material is None or chosen.drill is None:
        return None
    assert chosen.reached is not None
    return cutting_request(
        chosen.way.material,
        None if chosen.tap is None else chosen.tap.recommended,
        drill=chosen.drill.recommended,
        depths=chosen.depths,
        kind=chosen.request.hole.kind,
        method=chosen.request.method,
        machine=chosen.request.machine,
        figures=chosen.request.shop_figures,
        floor=counterbore.floor(chosen.thread, chosen.request.hole),
        counterbored_first=chosen.reached.counterbored_first,
    )


def cutting_request(
    material: Material,
    tap: Tap | None,
    *,
    drill: DrillCandidate,
    depths: Depths,
    kind: str,
    method: Method,
    machine: Machine,
    figures: ShopFigures | None,
    floor: Decimal,
    counterbored_first: bool,
) -> CuttingRequest:
    """The hole as the cutting data see it, lengths in the thread's unit.

    Args: ``material`` of the part; ``tap``, None where none makes the thread; ``drill``; ``depths``; ``kind`` of hole;
        ``method`` of tapping; ``machine``; ``figures`` of the shop; ``floor`` of a counterbore below the face, and
        whether it is ``counterbored_first``, so that the drill starts there.
    """
    return CuttingRequest(
        material=material,
        hole_kind="blind" if kind == "blind" else "through",
        drill_diameter=drill.diameter,
        hole_diameter=mean_hole(drill),
        drill_depth=depths.drill_tip_depth - (floor if counterbored_first else _NOTHING),
        full_thread_depth=depths.full_thread_depth - floor,
        tap_travel=depths.tap_travel - floor,
        method=method,
        tapped=tap is not None,
        machine=machine,
        shop_figures=figures,
        **({} if tap is None else _of_tap(tap)),
    )


def _of_tap(tap: Tap) -> dict[str, Any]:
    """What the cutting data see of a tap."""
    return {
        "style": tap.style,
        "chamfer_name": tap.chamfer.name,
        "chamfer_threads": (tap.chamfer.threads_min + tap.chamfer.threads_max) / 2,
        "coated": tap.surface.casefold() not in _BARE_SURFACES,
    }


def _strength(chosen: ChosenTools, screw: MatingScrew) -> Strength | None:
    """Strength of the joint where the caller names the screw's grade and the part's strength is known."""
    if chosen.material is None or screw.grade is None:
        return None
    return assess(chosen.thread, engagement=chosen.engagement, hole_minor_max=None, screw=screw, part=chosen.material)


def _no_strength(chosen: ChosenTools, screw: MatingScrew, strength: Strength | None) -> tuple[Caution, ...]:
    """Why there is no strength of the joint though the screw's grade was named."""
    if screw.grade is None or strength is not None:
        return ()
    material = chosen.material
    if material is None:
        why = "the part material was not given"
    elif material.shear_strength_mpa is None:
        why = f"no strength is held for {material.name}: name an alloy and its condition, or its tensile strength"
    else:
        why = f"no screw of known strength fits {chosen.thread.designation}"
    return (Caution("strength_missing", f"The strength of the joint is not worked out: {why}."),)


def _chance(chosen: ChosenTools) -> Acceptance:
    """The chance of both diameters; without a tap that of the minor diameter alone."""
    tap, drill = chosen.tap.recommended if chosen.tap is not None else None, chosen.drill
    best = None if drill is None else drill.recommended
    mean = None
    if best is not None and best.operation == "drill" and chosen.request.method == "cut":
        mean = best.expected_hole_diameter
    usable = chosen.allowance if chosen.allowance is not None and chosen.allowance.feasible else None
    figures, driven = chosen.request.shop_figures, chosen.request.machine.tapping or "rigid"
    own = own_oversize(chosen.thread, chosen.request.machine, figures, chosen.way.material)
    diameter = chosen.thread.basic.minor_diameter if best is None else best.diameter
    found = own.serving(diameter, chosen.thread.unit) if isinstance(own, serving.MeasuredDrills) else None
    return chance(
        chosen.thread,
        AcceptanceRequest(
            drill_diameter=diameter,
            hole_mean=mean,
            tap_band=tap.limit.pitch_diameter if tap is not None and tap.limit is not None else None,
            cut_oversize=tap.fit.cut_oversize if tap is not None and tap.fit is not None else _NOTHING,
            tapping=driven,
            hole_sigma=scatter(diameter, chosen.thread.unit, own),
            measured_oversize=None if found is None else found[0],
            measured_cut=serving.cut(figures, chosen.way.material, chosen.request.method, driven),
            measured_coat=serving.coat(figures, usable, chosen.thread.unit),
        ),
        usable,
    )


def _missing(material: Material | None, data: CuttingData | None, *, planned: bool) -> tuple[Caution, ...]:
    if material is None or data is not None or not planned:
        return ()
    text = f"No cutting data are held for {material.name}: take speeds, feeds and torque from the shop's record."
    return (Caution("cutting_data_missing", text),)
