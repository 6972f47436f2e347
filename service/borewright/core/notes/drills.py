"""The drill that a note states, and whether it makes a hole for the thread."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.drilling.tap_drill_charts import chart_drills
from borewright.core.model import Thread
from borewright.core.practice import figure

from .case import NoteCase
from .extents import Extent
from .parts import Part

#: How far a drill for a taper thread may be from the nearest of the tap drill tables, as a share of it.
_TAPER_SLACK = figure("note_taper_drill_share")
_OPTIONS = ("keep as written", "use the service's")


def settle(case: NoteCase, extent: Extent) -> tuple[Decimal | None, str | None]:
    """Diameter in the hole's unit and label of the tap drill of ``case`` in its ``extent``, None where none is stated;
    it is kept also where it disagrees.

    Source: rules D1 to D4, H7, Y13 of the reference notes.
    """
    drill = _stated(case)
    if drill is None:
        return None, None
    value, label = case.drill(drill.element.named["s"])
    if value is None:
        case.questions.ask("drill_disagrees", f"There is no drill {label}.", _OPTIONS[1:], case.span(drill.element))
        return None, label
    if case.thread is not None:
        _hold_against(case, case.thread, drill, value)
    _hold_depth(case, extent)
    return value, label


def _stated(case: NoteCase) -> Part | None:
    """The last size before the tap: the ream where there is one, else the drill."""
    drills = [Part(ream) for ream in case.parts.others.get("ream", ())] or [
        drill for drill in case.parts.drills if drill.element.reads != "tap_drill_d" or _is_diameter(case, drill)
    ]
    sizes = {size for size, _ in (case.drill(drill.element.named["s"]) for drill in drills)}
    if len(sizes) > 1:
        names = tuple(case.words(drill.element) for drill in drills)
        case.questions.ask("drill_disagrees", "Two drills are written for one hole.", names)
        return None
    return next(iter(drills), None)


def _is_diameter(case: NoteCase, drill: Part) -> bool:
    """Whether a number beside TDD is a diameter: it is below the thread's major one and above half of it, or the label
    of a drill that does not exist.
    """
    value, _ = case.drill(drill.element.named["s"])
    if value is None:
        return True
    if case.thread is None:
        return False
    nominal = case.thread.nominal_diameter
    own = case.of_request(value).to(case.thread.unit)
    if nominal / 2 < own < nominal:
        return True
    case.questions.ask("depth_of_what", "TDD is a depth or a diameter of the tap drill.", ("drill depth", "drill"))
    return False


def _hold_against(case: NoteCase, thread: Thread, drill: Part, value: Decimal) -> None:
    own = case.of_request(value).to(thread.unit)
    if thread.taper is not None:
        charted = [row.drill.diameter(thread.unit) for row in chart_drills(thread)]
        if charted and not any(abs(own - one) <= one * _TAPER_SLACK for one in charted):
            near = case.of_request(value)
            case.questions.ask(
                "drill_disagrees",
                f"No tap drill table lists {case.length(near.value)} for {thread.designation}.",
                _OPTIONS,
                case.span(drill.element),
            )
        return
    limits = thread.internal.minor_diameter
    below = limits.min is not None and own < limits.min
    above = limits.max is not None and own > limits.max
    if below or above:
        case.questions.ask(
            "drill_disagrees",
            f"The stated drill, {case.length(value)}, is {'below' if below else 'above'} the limits of the minor"
            f" diameter of {thread.designation}.",
            _OPTIONS,
            case.span(drill.element),
        )


def _hold_depth(case: NoteCase, extent: Extent) -> None:
    drilled, full = extent.drill_depth, extent.full_thread_depth
    if drilled is not None and full is not None and drilled < full and extent.kind == "blind":
        case.questions.ask(
            "drill_disagrees",
            f"The drilled hole, {case.length(drilled)} deep, is less deep than the full thread, {case.length(full)}.",
            _OPTIONS,
        )
