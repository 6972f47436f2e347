"""The hole for a thread-forming tap: larger than for cutting, and held far closer."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.errors import DrillingError
from borewright.core.model import Caution, Material, PercentTarget, Range, Thread
from borewright.core.quantity_text import length, span
from borewright.core.rounding import half_even, plain
from borewright.core.tapping import forming as tap_forming

from .case import DrillCase, Target, check_percent, crib, racks, to_make
from .percent import forming_basis, is_common_form, printed_hole
from .request import DrillQuestion
from .sizes import PLACES

#: Percent of thread formed unless the caller says otherwise.
DEFAULT_PERCENT = Decimal(65)
DEFAULT_SAID = (
    "no percent of thread given: 65 % is formed, as the handbook's text on cold form tapping recommends (second-hand)"
)
#: How far from the percent aimed at a standard drill may lie without reaming (our own limit).
_WINDOW = Decimal(10)
_CLOSE_TOLERANCE_MM = Decimal("0.03")
_CLOSE_TO_MM = Decimal(10)


def forming_case(thread: Thread, request: DrillQuestion) -> DrillCase:
    """The case of a formed thread: hole = D - 0.0068 x percent x P.

    Raises: DrillingError ``percent_out_of_range``, ``range_inconsistent``.
    Source: Machinery's Handbook, cold form tapping (seen second-hand).
    """
    percent = request.percent or PercentTarget()
    check_percent(thread, percent, to_make(thread, request))
    basis = forming_basis(thread)
    aimed = _aimed(percent)
    target = Target(
        basis.hole(aimed),
        f"forming hole for {plain(aimed)} % of thread",
        "D - 0.0068 * percent * P",
        (("percent", aimed), *basis.inputs),
        basis.hole(percent.max if percent.max is not None else aimed + _WINDOW),
        basis.hole(percent.min if percent.min is not None else max(aimed - _WINDOW, Decimal(1))),
    )
    first, second = racks(thread, request)
    return DrillCase(
        thread,
        request,
        Range(None, None),
        moved=False,
        basis=basis,
        target=target,
        first=first,
        second=second,
        chart=(),
        crib=crib(thread, request),
        top=None,
    )


def _aimed(percent: PercentTarget) -> Decimal:
    if percent.target is not None:
        return percent.target
    aimed = DEFAULT_PERCENT
    if percent.min is not None:
        aimed = max(aimed, percent.min)
    return aimed if percent.max is None else min(aimed, percent.max)


def check_method(thread: Thread, material: Material | None) -> None:
    """Refuse what cannot be formed.

    Raises: DrillingError ``method_not_applicable`` for other forms than a parallel 60 degree one and for materials that
    do not flow.
    Source: common practice.
    """
    if not is_common_form(thread):
        raise DrillingError(
            "method_not_applicable",
            f"hole sizes for forming are known for 60 degree forms of 5/8 H only, not for {thread.designation}",
            pointer="/method",
            allowed=("cut",),
        )
    refused = tap_forming.refusal(material)
    if refused is not None:
        raise DrillingError("method_not_applicable", refused, pointer="/method", allowed=("cut",))


def cautions(case: DrillCase, limits: Range, made: Decimal, *, known: bool) -> tuple[Caution, ...]:
    """What a formed hole needs that a cut one does not.

    Args: ``limits`` of the minor diameter to be made; ``made`` mean hole of the drill, its diameter
        where the mean hole is not ``known``.
    Source: common practice (hole tolerance).
    """
    hole = printed_hole(case.thread, case.target.hole)
    return (
        Caution(
            "forming_hole_tolerance",
            f"Hold the hole to {case.say(hole)}{_tolerance(case, limits)}: too small"
            " breaks the tap, too large leaves a thin thread. " + _made_words(case, made, known=known),
        ),
        Caution(
            "forming_check_minor_diameter",
            "The formed minor diameter is set by flow, not by the drill: check it with a plain plug"
            f"{_window(case, limits)}.",
        ),
    )


def material_cautions(question: DrillQuestion, material: Material | None) -> tuple[Caution, ...]:
    """The caution for a material that is not known to flow. Source: common practice."""
    if question.method != "form" or tap_forming.formability(material) == "yes":
        return ()
    return (
        Caution(
            "forming_needs_ductile_material",
            "Forming needs a material that flows: form a trial hole in this one first.",
        ),
    )


def _tolerance(case: DrillCase, limits: Range) -> str:
    unit, diameter = case.thread.unit, case.thread.nominal_diameter
    factor = Decimal(1) if unit == "mm" else 1 / Decimal("25.4")
    if diameter <= _CLOSE_TO_MM * factor:
        close = half_even(_CLOSE_TOLERANCE_MM * factor, PLACES[unit])
        return f" within about {length(close, unit)} each way (common practice)"
    if limits.min is None or limits.max is None:
        return ""
    quarter = half_even((limits.max - limits.min) / 4, PLACES[unit])
    return f" within about {length(quarter, unit)} each way (half the tolerance of a cut hole, common practice)"


def _made_words(case: DrillCase, made: Decimal, *, known: bool) -> str:
    away = case.say(abs(made - printed_hole(case.thread, case.target.hole)))
    if not known:
        return f"The drill is {away} from it; try it, or ream."
    return f"The drill's hole, {case.say(made)} on average, is {away} from it; try it, or ream."


def _window(case: DrillCase, limits: Range) -> str:
    if limits.min is None or limits.max is None:
        return ""
    return f" ({span(limits, case.thread.unit)})"
