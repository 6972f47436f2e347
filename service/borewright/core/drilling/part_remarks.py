"""What material and length of engagement of the part add to a drill; they never choose it.

Shops drill for another percent of thread by material. A hole in plastic closes in behind the drill: what is known of
steel does not say how large it comes out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.derivation import WhenAsked
from borewright.core.model import Caution, DrillCandidate, DrillChoice, Material, Notes, Step, Thread
from borewright.core.practice import figure
from borewright.core.quantity_text import span
from borewright.core.tapping import forming as tap_forming
from borewright.tables import load

from .candidates import Pick
from .drill_case import DrillCase, DrillQuestion
from .hole_limits import LONG, SHORT, EngagementStep, HoleLimits, engagement_step
from .percent_of_thread import is_common_form
from .ranking import NEAR_PERCENT
from .standard_drills import Entry

#: Percent of thread for engagements below 0.5 D.
SHORT_BAND = figure("short_engagement_percent_least"), figure("short_engagement_percent_most")
_PLASTIC_CLOSES_IN = Caution(
    "plastic_closes_in",
    "Plastic gives way and springs back: hole and thread come out smaller than their tools. Drill and tap one part and"
    " gauge it; where the GO plug binds, take the next larger tap limit. Sharp tools, air, chips cleared often.",
)
_NO_OVERSIZE = "no oversize of the drilled hole is assumed: the mean oversize held is that of steel and cast iron"
_OF_STEEL = ("expected_hole_diameter", "expected_percent_thread", "acceptance", "oversize", "margin.below_max")


def percent_band(
    thread: Thread, material: Material | None, step: EngagementStep | None
) -> tuple[Decimal, Decimal] | None:
    """Least and greatest percent of thread (0.75 H) that shops use, None where nothing is held for the material.

    A family that is split by hardness has no band where the hardness is not known.

    Args: ``step`` of the length of engagement, None = not stated.
    Source: common practice.
    """
    if material is None or material.family is None or not is_common_form(thread):
        return None
    depth = "over_1_5d" if step is not None and step.is_long else "to_1_5d"
    if step is not None and step.is_short:
        return SHORT_BAND
    hardness, bands = material.hardness_hb, _bands().get(material.family, ())
    for row in bands:
        low, below = float(row["hb_from"] or 0), float(row["hb_below"] or "inf")
        if (hardness is None and len(bands) == 1 and low == 0) or (hardness is not None and low <= hardness < below):
            return Decimal(row[f"{depth}_min"]), Decimal(row[f"{depth}_max"])
    return None


def usual_percent(thread: Thread, material: Material | None, step: EngagementStep | None) -> str | None:
    """Words on the percent of thread (0.75 H) that shops use, None where nothing is held for the material.

    Args: ``step`` of the length of engagement, None = not stated.
    Source: common practice.
    """
    band = percent_band(thread, material, step)
    if band is None or material is None:
        return None
    usual = f"{band[0]} to {band[1]} % of thread"
    if step is not None and step.is_short:
        return f"common practice for engagements below {SHORT} D is {usual}"
    depth = f"over {LONG} D" if step is not None and step.is_long else f"to {LONG} D"
    return f"common practice in {material.family} is {usual} for engagements {depth}"


@read_once
def _bands() -> Mapping[str, tuple[Mapping[str, str], ...]]:
    found: dict[str, tuple[Mapping[str, str], ...]] = {}
    for row in load("percent_by_material").rows:
        found[row["family"]] = (*found.get(row["family"], ()), row)
    return found


def reasons_of_the_part(
    case: DrillCase, hole: Decimal, material: Material | None, step: EngagementStep | None, band: HoleLimits | None
) -> tuple[str, ...]:
    """What engagement and part ``material`` add to the reasons of ``case``: the recommended ``band`` and what shops
    usually drill for.

    Args: ``hole`` mean hole or reamed hole in the thread's unit; ``step`` of the engagement, None = not stated.
    Source: FED-STD-H28/2B (1991) 30.1; common practice.
    """
    said = []
    if band is not None and band.limits.min is not None and band.limits.max is not None:
        low, high = band.limits.min, band.limits.max
        where = "inside" if low <= hole <= high else "outside"
        said.append(
            f"hole {where} the limits {span(band.limits, case.thread.unit)} recommended for engagements"
            f" {band.engagement.text}"
        )
    usual = usual_percent(case.thread, material, step) if case.request.method == "cut" else None
    return (*said, usual) if usual is not None else tuple(said)


def percent_caution(
    case: DrillCase, pick: Pick, material: Material | None, step: EngagementStep | None
) -> tuple[Caution, ...]:
    """The caution on the hole that the ``pick`` for ``case`` makes where it leaves clearly more thread than shops cut
    in the part material.

    Args: ``step`` of the length of engagement, None = not stated.
    Source: percent_by_material table (common practice).
    """
    band = percent_band(case.thread, material, step) if case.request.method == "cut" else None
    if band is None or material is None or not _is_above(pick.candidate, band):
        return ()
    percent, (low, high) = _percent(pick.candidate), band
    return (
        Caution(
            "percent_above_practice",
            f"{pick.entry.drill.label} leaves about {percent:.0f} % of thread; {material.family} is usually"
            f" tapped at {low} to {high} %, more breaks taps. {_largest_inside(case, pick.entry)}",
        ),
    )


def above_practice(thread: Thread, drill: DrillCandidate, material: Material | None, engagement: Decimal) -> bool:
    """Whether a ``drill`` for a cut ``thread`` leaves clearly more of it than shops cut in the part ``material``.

    Args: ``engagement`` in the thread's unit.
    Source: percent_by_material table (common practice).
    """
    band = percent_band(thread, material, engagement_step(thread, engagement))
    return band is not None and _is_above(drill, band)


def _is_above(drill: DrillCandidate, band: tuple[Decimal, Decimal]) -> bool:
    return _percent(drill) > band[1] + NEAR_PERCENT


def _percent(drill: DrillCandidate) -> Decimal:
    return drill.expected_percent_thread or drill.percent_thread


def _largest_inside(case: DrillCase, item: Entry) -> str:
    """The largest drill inside the limits, or what is left where the one taken is it."""
    low, high = case.limits.min, case.limits.max
    held = () if low is None or high is None else case.first.between(low=low, high=high)
    largest = max(held, key=lambda one: one.diameter, default=item)
    if largest.diameter <= item.diameter:
        return "No larger drill holds the limits: a larger minor diameter needs the designer's agreement."
    return f"The largest drill inside the limits is {largest.drill.label} ({case.say(largest.diameter)})."


def forming_material_cautions(question: DrillQuestion, material: Material | None) -> tuple[Caution, ...]:
    """The caution for a material that is not known to flow where ``question`` asks for a formed thread. Source: common
    practice.
    """
    if question.method != "form" or tap_forming.formability(material) == "yes":
        return ()
    return (
        Caution(
            "forming_needs_ductile_material",
            "Forming needs a material that flows: form a trial hole in this one first.",
        ),
    )


def is_plastic(material: Material | None) -> bool:
    """Whether the part of ``material`` is plastic.

    Source: materials table.
    """
    return material is not None and material.family == "plastic"


def plastic_cautions(material: Material | None) -> tuple[Caution, ...]:
    """What the shop must know of a plastic part; nothing where ``material`` is another.

    Source: common practice.
    """
    return (_PLASTIC_CLOSES_IN,) if is_plastic(material) else ()


def as_drilled_in_plastic(choice: DrillChoice, material: Material | None) -> DrillChoice:
    """A choice of drill without what steel would make of it, where the part of ``material`` is plastic.

    Source: FED-STD-H28/2B (1991) gives mean oversize for steel and cast iron only.
    """
    if not is_plastic(material):
        return choice
    notes = choice.notes
    return replace(
        choice,
        recommended=_by_own_diameter(choice.recommended),
        alternatives=tuple(_by_own_diameter(one) for one in choice.alternatives),
        chart_drill=None,
        most_accepted=None,
        notes=Notes(
            (*(text for text in notes.assumptions if "oversize" not in text), _NO_OVERSIZE),
            notes.cautions,
            tuple(source for source in notes.sources if not _is_of_steel(source.field)),
            WhenAsked(_steps_of_size, notes.steps),
            tuple(one for one in notes.decisions if one.code != "drill_often_outside"),
        ),
    )


def _steps_of_size(steps: Iterable[Step]) -> Iterator[Step]:
    return (step for step in steps if not _is_of_steel(step.quantity))


def _by_own_diameter(drill: DrillCandidate) -> DrillCandidate:
    """A drill by its own diameter; a reamed hole keeps the size of the reamer."""
    if drill.operation != "drill":
        return drill
    expected, margin = drill.expected_hole_diameter, drill.margin_below_max
    if expected is not None and margin is not None:
        margin += expected - drill.diameter
    return replace(
        drill,
        expected_hole_diameter=None,
        expected_percent_thread=None,
        margin_below_max=margin,
        acceptance=None,
        reasons=tuple(text for text in drill.reasons if "on average" not in text),
    )


def _is_of_steel(name: str) -> bool:
    return any(word in name for word in _OF_STEEL)
