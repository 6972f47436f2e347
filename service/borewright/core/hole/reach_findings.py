"""What is said about the reach of tools: the question where the standard one does not reach, and which one would."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Literal

from borewright.core.model import Caution, Unit
from borewright.core.model.decision import Decision
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.rounding import downward, upward

from .tool_reach import Fault, FoundTool, ReachWay, ToolReach

#: Decimals to which lengths of tools are told.
PLACES: dict[Unit, int] = {"in": 3, "mm": 2}
#: Where no length is held, depths in diameters up to which every usual tool is taken to reach.
_USUAL_TAP_DIAMETERS = figure("usual_tap_reach_diameters")
_USUAL_DRILL_DIAMETERS = figure("usual_drill_reach_diameters")

_LONG = {"extended": "long-shank tap", "long": "long-series drill"}


def say(way: ReachWay, value: Decimal) -> str:
    """``value``, a length of ``way`` in the thread's unit, with that unit."""
    return length(value, way.thread.unit, PLACES[way.thread.unit])


def decisions(way: ReachWay, tap: FoundTool, drill: FoundTool) -> Iterator[Decision]:
    """A question for each of ``tap`` and ``drill`` of which the standard one does not reach along ``way``.

    Source: geometry of :mod:`~borewright.core.hole.tool_reach`.
    """
    where = "/hole/full_thread_depth" if way.blind else "/hole/thickness"
    pointer = "/hole/access_depth" if way.access > 0 else where
    if tap.standard is not None and tap.fault is not None:
        at = "/hole/clearance_diameter" if tap.fault == "shank_too_wide" else pointer
        why = _tap_why(way, tap.standard, tap.fault)
        said = f"Choose: {_tap_instead(way, tap)}{_shorter(way, tap, way.tap_travel)}, or mill the thread."
        yield Decision("tool_too_short", f"{why}. {said}", at)
    if drill.standard is not None and drill.fault is not None:
        why = _drill_why(way, drill.standard, drill.fault)
        said = f"Choose: {_drill_instead(way, drill)}{_shorter(way, drill, way.tip_depth)}."
        yield Decision("tool_too_short", f"{why}. {said}", pointer)


def _tap_why(way: ReachWay, standard: ToolReach, fault: Fault) -> str:
    who = f"a standard tap ({standard.document})"
    shank = "" if standard.shank_diameter is None else say(way, standard.shank_diameter)
    if fault == "shank_meets_face":
        return (
            f"The tap goes {say(way, way.tap_travel)} deep, but the {shank} shank of {who} is larger than the"
            f" {say(way, way.drill_diameter)} hole and meets the face before that"
        )
    if fault == "shank_too_wide" and way.clearance is not None:
        return f"The {shank} shank of {who} does not pass the clearance of {say(way, way.clearance)}"
    return (
        f"The tap must reach {say(way, way.tap_reach)} and be held; {who} is {say(way, standard.overall_length)} long"
    )


def _tap_instead(way: ReachWay, found: FoundTool) -> str:
    slim = f"a neck or shank slimmer than {say(way, way.drill_diameter)}"
    if found.fault == "shank_too_wide":
        return "a tap with a reduced shank (no such shank is held)"
    if found.tool is not None:
        check = f", its shank checked to be slimmer than {say(way, way.drill_diameter)}"
        return (
            f"the {_LONG[found.tool.kind]} of {found.tool.document}, {say(way, found.tool.overall_length)} overall"
            f"{check if found.fault == 'shank_meets_face' else ''}"
        )
    if found.fault == "shank_meets_face":
        return f"a tap with {slim} that goes {say(way, way.tap_travel)} deep (none is held)"
    return f"an extended tap with {slim} that reaches {say(way, way.tap_reach)} (none is held)"


def _drill_why(way: ReachWay, standard: ToolReach, fault: Fault) -> str:
    name = f"a {standard.kind} {way.drill.label} drill ({standard.document})"
    if fault == "flutes_too_short" and standard.cutting_length is not None:
        return (
            f"The drill's tip goes {say(way, way.tip_depth)} deep; {name} has"
            f" {say(way, standard.cutting_length)} of flute"
        )
    return (
        f"The drill must reach {say(way, way.drill_reach)} and be held; {name} is"
        f" {say(way, standard.overall_length)} long"
    )


def _drill_instead(way: ReachWay, found: FoundTool) -> str:
    if found.tool is not None and found.tool.cutting_length is not None:
        return (
            f"the {_LONG[found.tool.kind]} of {found.tool.document}, {say(way, found.tool.overall_length)} overall with"
            f" {say(way, found.tool.cutting_length)} of flute"
        )
    return (
        f"a taper-length or extra-length drill that reaches {say(way, way.drill_reach)} with at least"
        f" {say(way, way.tip_depth)} of flute (none is held)"
    )


def _shorter(way: ReachWay, found: FoundTool, needed: Decimal) -> str:
    """The depth of full thread that the standard tool can do, for a blind hole."""
    if not way.blind or found.limit is None:
        return ""
    most = downward(way.full_thread - (needed - found.limit), PLACES[way.thread.unit])
    return f", at most {say(way, most)} of full thread" if most >= way.thread.pitch else ""


def advice(way: ReachWay, tap: FoundTool, drill: FoundTool, *, small_shank: bool) -> tuple[str, ...]:
    """The ``tap`` and ``drill`` that ``way`` needs, in words; ``small_shank`` where the tap's shank must enter the
    hole.
    """
    slim = f", shank or neck slimmer than the {say(way, way.drill_diameter)} hole" if small_shank else ""
    drilled = _drill_advice(way, drill)
    return (_tap_advice(way, tap, slim), drilled) if way.tapped else (drilled,)


def _tap_advice(way: ReachWay, found: FoundTool, slim: str) -> str:
    if found.tool is not None:
        kind = "standard length" if found.tool.kind == "standard" else "extended-shank length"
        return f"tap: {kind}, {_overall(way, found.tool, way.tap_reach)}{slim}"
    kind = "a standard" if found.standard is None and way.access == 0 else "an extended-shank"
    if found.fault == "shank_meets_face":
        kind = "a reduced-shank"
    return f"tap: {kind} tap that reaches {say(way, way.tap_reach)} below the top of the access{slim}; length not held"


def _drill_advice(way: ReachWay, found: FoundTool) -> str:
    if found.tool is not None:
        return f"drill {way.drill.label}: {found.tool.kind} length, {_overall(way, found.tool, way.drill_reach)}"
    kind = "a standard" if found.standard is None and way.access == 0 else "a long, taper-length or extra-length"
    return (
        f"drill {way.drill.label}: {kind} drill that reaches {say(way, way.drill_reach)} from the top of the access,"
        f" its flutes at least {say(way, upward(way.tip_depth, PLACES[way.thread.unit]))}; its length is not held"
    )


def _overall(way: ReachWay, tool: ToolReach, reach: Decimal) -> str:
    return (
        f"{say(way, tool.overall_length)} overall ({tool.document}), reaches {say(way, reach)} and leaves"
        f" {say(way, tool.left_for_holder)} for the holder"
    )


def unknown(way: ReachWay, tap: FoundTool, drill: FoundTool) -> tuple[Literal["tap", "drill"], ...]:
    """Those of ``tap`` and ``drill`` of which no length is held, though the ``way`` is longer than every usual one."""
    deep_tap = way.tapped and (way.access > 0 or way.tap_travel > _USUAL_TAP_DIAMETERS * way.thread.nominal_diameter)
    deep_drill = way.access > 0 or way.tip_depth > _USUAL_DRILL_DIAMETERS * way.drill_diameter
    named: list[Literal["tap", "drill"]] = []
    if tap.standard is None and deep_tap:
        named.append("tap")
    if drill.standard is None and deep_drill:
        named.append("drill")
    return tuple(named)


def cautions(missing: tuple[str, ...], *, held: bool) -> Iterator[Caution]:
    """What is not sure of the lengths: those of the tools ``missing`` are not held. ``held``: some length is."""
    if missing:
        yield Caution(
            "tool_length_not_held",
            f"No length is held for the {' and the '.join(missing)}: compare the reach with flute and shank length of"
            " the tool at hand; long tools run slower and wander more.",
        )
    if held:
        yield Caution(
            "tool_length_from_memory",
            "Lengths of flutes and threads are from memory: check flute, thread and shank of the tool at hand; long"
            " tools run slower and wander more.",
        )
