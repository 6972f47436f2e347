"""Chart drill against least-torque drill: the largest that still holds limits and strength, and what it gains.

Torque falls with the height of thread that is cut; the tapped thread's own strip area does not depend on the hole. In
soft metal a larger drill therefore costs little or no strength.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass, replace
from decimal import Decimal

from borewright.core import drilling, finishing
from borewright.core.caches import read_once
from borewright.core.chance.acceptance import hole_chance
from borewright.core.cutting import cutting_data as cutting_data
from borewright.core.cutting import tap_torque, torque
from borewright.core.cutting.records import CuttingNotes, CuttingRequest
from borewright.core.cutting.torque import Band
from borewright.core.drilling import DrillRequest
from borewright.core.drilling.standard_drills import USUAL, ShopOversize
from borewright.core.model import Allowance, DrillCandidate, DrillChoice, Notes, Source, Step, Thread, Unit
from borewright.core.practice import number
from borewright.core.requests import MatingScrew
from borewright.core.shop_figures.figures import Scatter

from .strength import Strength, assess
from .strong_enough import StrongEnough

#: Share of holes that must end inside the limits before a larger drill is taken; the chart's if lower.
LEAST_ACCEPTANCE = number("least_torque_acceptance")


@dataclass(frozen=True, slots=True)
class Option:
    """One of the two drills with what it leads to. Lengths in the thread's unit, chance from 0 to 1."""

    drill: DrillCandidate
    hole_diameter: Decimal
    expected_percent_thread: Decimal
    chip_section_mm2: float
    torque: Band | None
    break_margin: Band | None
    strength: Strength | None
    minor_diameter_chance: float | None


@dataclass(frozen=True, slots=True, eq=False)
class Comparison:
    """Least-torque drill over chart drill: ratios below 1 in torque and near 1 in strength are the gain.

    ``margin_gained`` is the growth of the break margin as a share (0.25 = a quarter more).
    """

    chart: Option
    least_torque: Option
    torque_ratio: float
    strength_ratio: float | None
    external_strip_ratio: float | None
    margin_gained: float
    reasons: tuple[str, ...]
    notes: Notes


@dataclass(frozen=True, slots=True)
class HoldsLimitsAndStrength:
    """The question put to each drill: strong enough, and likely enough inside the limits. Equal questions are equal."""

    thread: Thread
    largest_strong: Decimal
    allowance: Allowance | None
    least_chance: float | None
    sigma: Scatter | None = None

    def __call__(self, hole_diameter: Decimal) -> bool:
        """Whether a mean hole of that diameter (thread's unit) may be taken."""
        if hole_diameter > self.largest_strong:
            return False
        if self.least_chance is None:
            return True
        chance = hole_chance(self.thread, hole_diameter, self.allowance, self.sigma)
        return chance is None or chance >= self.least_chance

    def why_not(self, hole_diameter: Decimal) -> str:
        """Why a mean hole of ``hole_diameter`` (thread's unit) is not taken: strength, else the chance
        of its limits.
        """
        if hole_diameter > self.largest_strong:
            return "leaves too little thread for the strength asked for"
        chance = hole_chance(self.thread, hole_diameter, self.allowance, self.sigma)
        if chance is None or self.least_chance is None:
            return "not larger than the chart's drill"
        return (
            f"only about {100 * chance:.0f} % of its holes would end inside the minor diameter limits; a larger drill"
            f" is taken down to {100 * self.least_chance:.0f} %"
        )


def choose(
    thread: Thread,
    request: DrillRequest,
    *,
    engagement: Decimal,
    screw: MatingScrew,
    allowance: Allowance | None = None,
    safety_factor: float,
) -> tuple[DrillChoice, DrillChoice]:
    """The chart's drill and the least-torque drill for the same hole, with the finish ``allowance``.

    Args:
        request: as for a drill recommendation; its objective is set here. Without a series the least-torque drill
            comes from inch or metric sets as the chart's does: no hole inside the limits gains more than the band of
            the torque model (45 %), below which a shop does not change its drills.
        engagement: length of engagement in the thread's unit.
        safety_factor: strip force of the screw's thread over the smaller of the other two.

    Raises: DrillingError as ``drilling.recommend``; MaterialError for the screw's grade.

    Source: FED-STD-H28/2B (1991) Appendix B for strength; drilled_hole_spread table for the chance.
    """
    cut = finishing.as_cut(thread, allowance)
    chart = drilling.recommend(cut, replace(request, objective="chart", may_take=None))
    bored = chart.ream_diameter
    if bored is not None and bored > _largest_drill(thread.unit):
        return chart, _kept_bored(chart)
    if request.method == "form" or thread.taper is not None:
        return chart, drilling.recommend(cut, replace(request, objective="least_torque"))
    hole = _hole(chart.recommended)
    sigma = drilling.scatter(chart.recommended.diameter, thread.unit, request.oversize)
    known = hole_chance(thread, hole, allowance, sigma)
    least_chance = None if known is None else min(LEAST_ACCEPTANCE, known)
    strong = StrongEnough(thread, engagement, screw, request.material, safety_factor, hole)
    largest = _largest(strong, hole, request.oversize)
    question = HoldsLimitsAndStrength(thread, largest, allowance, least_chance, sigma)
    series = request.series or _own_series(chart)
    asked = replace(request, objective="least_torque", series=series, may_take=question)
    found = drilling.recommend(cut, asked)
    return chart, found if _hole(found.recommended) > hole else _chart_drill_kept(chart, found)


def _own_series(chart: DrillChoice) -> tuple[str, ...] | None:
    """The inch sets for an inch drill, metric for a metric one; None where the drill is of no set."""
    series = chart.recommended.drill.series
    return next((sets[0] for sets in USUAL.values() if series in sets[0]), None)


def _chart_drill_kept(chart: DrillChoice, found: DrillChoice) -> DrillChoice:
    """The chart's drill where no larger one holds limits and strength: a smaller one would take more torque."""
    label = chart.recommended.drill.label
    return replace(
        chart,
        objective="least_torque",
        rejected=tuple(one for one in found.rejected if one.label != label),
        notes=chart.notes._replace(
            assumptions=(
                *chart.notes.assumptions,
                f"no larger drill of the series holds limits and strength, so least torque keeps the chart's {label}",
            ),
        ),
    )


def _largest(strong: StrongEnough, chart_hole: Decimal, own: ShopOversize | None) -> Decimal:
    """The largest mean hole of all drills that is strong enough, the chart's at least.

    All lengths of engagement that allow the same one share one choice of drill.
    """
    holes = drilling.mean_holes(strong.thread.unit, own)
    first = bisect_right(holes, chart_hole)
    end = bisect_left(holes, True, lo=first, key=lambda hole: not strong(hole))
    return holes[end - 1] if end > first else chart_hole


@read_once
def _largest_drill(unit: Unit) -> Decimal:
    return max(drill.diameter(unit) for drill in drilling.all_drills())


def _kept_bored(chart: DrillChoice) -> DrillChoice:
    """A hole beyond every drill held is bored to its own size: there is no larger drill to ask for."""
    text = "least torque looks among drills; this hole is larger than every drill held and is bored as charted or ruled"
    return replace(
        chart,
        objective="least_torque",
        notes=chart.notes._replace(assumptions=(*chart.notes.assumptions, text)),
    )


def compare(
    thread: Thread,
    *,
    chart: DrillCandidate,
    least_torque: DrillCandidate,
    cutting: CuttingRequest,
    engagement: Decimal,
    screw: MatingScrew,
    allowance: Allowance | None = None,
) -> Comparison | None:
    """What the ``least_torque`` drill gains over the ``chart``'s in torque and break margin, and costs in strength.

    Args:
        cutting: the hole as for its cutting data; drill and hole diameter are replaced here.
        engagement: length of engagement in the thread's unit.
        screw: that goes in; ``allowance`` of the finish, None = bare.

    Source: chip-section model (not validated); FED-STD-H28/2B (1991) Appendix B; drilled_hole_spread table.
    """
    options = [
        _option(thread, drill, cutting, engagement=engagement, screw=screw, allowance=allowance)
        for drill in (chart, least_torque)
    ]
    before, after = options
    steps: list[Step] = []
    ratio = _torque_ratio(finishing.as_cut(thread, allowance), steps, before=before, after=after)
    if ratio is None:
        return None
    strength_ratio, strip_ratio = _strength_ratios(steps, before=before.strength, after=after.strength)
    steps.append(Step("margin_gained", "1 / r - 1", {"r": ratio}, 1 / ratio - 1, "", "definition"))
    return Comparison(
        chart=before,
        least_torque=after,
        torque_ratio=ratio,
        strength_ratio=strength_ratio,
        external_strip_ratio=strip_ratio,
        margin_gained=1 / ratio - 1,
        reasons=tuple(_reasons(before=before, after=after, ratio=ratio, strength_ratio=strength_ratio)),
        notes=Notes(
            sources=_SOURCES,
            steps=tuple(steps),
        ),
    )


_SOURCES = (
    Source(
        "torque_ratio", "chip-section model", "", "ratio of two holes; the factors cancel; not validated", "computed"
    ),
    Source("strength_ratio", "FED-STD-H28/2B", "1991", "Appendix B: smallest of three forces", "computed"),
    Source("margin_gained", "chip-section model", "", "inverse of the torque ratio", "computed"),
    Source("minor_diameter_chance", "drilled-hole spread", "", "sigma derived in three ways", "computed"),
)


def _hole(drill: DrillCandidate) -> Decimal:
    return drill.expected_hole_diameter if drill.expected_hole_diameter is not None else drill.diameter


def _option(
    thread: Thread,
    drill: DrillCandidate,
    cutting: CuttingRequest,
    *,
    engagement: Decimal,
    screw: MatingScrew,
    allowance: Allowance | None,
) -> Option:
    hole, own = _hole(drill), drilling.own_oversize(thread, cutting.machine, cutting.shop_figures, cutting.material)
    request = cutting._replace(drill_diameter=drill.diameter, hole_diameter=hole)
    cut = finishing.as_cut(thread, allowance)
    form = tap_torque.tap_form(cut)
    needed = breaking = margin = None
    tools = cutting_data.of_tools(cut, cutting_data.tools_request(cut, request, log=CuttingNotes()))
    if tools is not None and tools.tap is not None:
        needed = tools.tap.torque
    if needed is not None:
        breaking = torque.breaking_torque(form.major_mm)
        margin = torque.break_margin(breaking=breaking, needed=needed)
    return Option(
        drill=drill,
        hole_diameter=hole,
        expected_percent_thread=drill.expected_percent_thread or drill.percent_thread,
        chip_section_mm2=tap_torque.chip_section(form, hole, cut).area_mm2,
        torque=needed,
        break_margin=margin,
        strength=assess(thread, engagement=engagement, hole_minor_max=hole, screw=screw, part=cutting.material),
        minor_diameter_chance=None
        if cutting.method == "form"
        else hole_chance(thread, hole, allowance, drilling.scatter(drill.diameter, thread.unit, own)),
    )


def _torque_ratio(thread: Thread, steps: list[Step], *, before: Option, after: Option) -> float | None:
    """Torque over torque; without a material that of section times arm; None where a hole leaves nothing to cut."""
    if before.torque is not None and after.torque is not None:
        inputs = {"chart": before.torque.value, "least": after.torque.value}
    else:
        form = tap_torque.tap_form(thread)
        sections = [tap_torque.chip_section(form, option.hole_diameter, thread) for option in (before, after)]
        chart, least = (section.area_mm2 * section.arm_mm for section in sections)
        inputs = {"chart": chart, "least": least}
    if not all(inputs.values()):
        return None
    value = inputs["least"] / inputs["chart"]
    steps.append(Step("torque_ratio", "least / chart", inputs, value, "", "chip-section model"))
    return value


def _strength_ratios(
    steps: list[Step], *, before: Strength | None, after: Strength | None
) -> tuple[float | None, float | None]:
    """What the weakest member carries, and what the screw's thread carries, least-torque over chart."""
    if before is None or after is None or not before.external_strip_force_n:
        return None, None
    inputs: dict[str, float] = {}
    for name, found in (("b", before), ("a", after)):
        inputs[f"{name}1"] = found.screw_tensile_force_n
        inputs[f"{name}2"] = found.internal_strip_force_n
        inputs[f"{name}3"] = found.external_strip_force_n
    weakest = min(inputs["a1"], inputs["a2"], inputs["a3"]) / min(inputs["b1"], inputs["b2"], inputs["b3"])
    strip = inputs["a3"] / inputs["b3"]
    cite = "FED-STD-H28/2B (1991) Appendix B"
    steps += (
        Step("strength_ratio", "min(a1, a2, a3) / min(b1, b2, b3)", inputs, weakest, "", cite),
        Step("external_strip_ratio", "a3 / b3", {"a3": inputs["a3"], "b3": inputs["b3"]}, strip, "", cite),
    )
    return weakest, strip


def _reasons(*, before: Option, after: Option, ratio: float, strength_ratio: float | None) -> list[str]:
    chart, least = before.drill.drill.label, after.drill.drill.label
    if chart == least:
        return [f"the chart drill {chart} is already the largest that holds limits and strength"]
    found = [
        f"{least} instead of {chart}: torque {100 * (ratio - 1):+.0f} %, thread"
        f" {before.expected_percent_thread} to {after.expected_percent_thread} %"
    ]
    if strength_ratio is not None and after.strength is not None:
        lost = 100 * (strength_ratio - 1)
        member = after.strength.fails_first.replace("_", " ")
        found.append(f"strength of the joint {lost:+.1f} % ({member} fails first)")
    if after.strength is not None and after.strength.fails_first == "internal_thread":
        found.append("the tapped thread governs, and its strip area does not depend on the hole")
    return found
