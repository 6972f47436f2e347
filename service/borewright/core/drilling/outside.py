"""The decision on a drill whose holes often miss their limits, the caution on more thread than the part asks for."""

from __future__ import annotations

from borewright.core.chance.made_sizes import CLEARLY_LOW
from borewright.core.errors import DrillingError
from borewright.core.model import Caution, Material
from borewright.core.model.decision import Decision
from borewright.core.rounding import plain

from .case import DrillCase
from .drill_acceptance import accepted
from .engagement import EngagementStep
from .practice import percent_band
from .rank import NEAR_PERCENT, Ranked
from .reaming import reamed
from .reasons import in_percent
from .shortlist import Pick
from .standard_drills import Entry

#: Share of holes inside the limits below which a drill is put before a person (our own limit). The tables' oversize is
#: an average of shops: what holds about every second hole by it is run everywhere (6.8 mm for M8, #29 for 8-32).
OFTEN_OUTSIDE = 0.40


def often_outside(case: DrillCase, ranked: Ranked, pick: Pick) -> tuple[Decision, ...]:
    """The decision on a drill whose holes often end outside the minor diameter limits; none for what holds them.

    Source: drilled_hole_spread table; FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2 for the mean hole, or the shop's.
    """
    item = pick.entry
    if pick.ream is not None or case.request.method == "form" or not _is_bad(case, item):
        return ()
    chance = accepted(case, item)
    share = "" if chance is None else f", so that about {in_percent(chance)} of its holes end inside the limits"
    return (
        Decision(
            "drill_often_outside",
            f"{item.drill.label} {_makes(case, item)}, {_beyond(case, item)}{share}."
            f" Decide: {'; '.join(_ways(case, ranked, item))}.",
            "/machine/drill_oversize",
        ),
    )


def _is_bad(case: DrillCase, item: Entry) -> bool:
    """A chance that is really bad; where the shop states its own oversize, one that is clearly low."""
    chance, high = accepted(case, item), case.limits.max
    if chance is None:
        return high is not None and item.hole > high
    return chance < (CLEARLY_LOW if _is_own(item) else OFTEN_OUTSIDE)


def _is_own(item: Entry) -> bool:
    return item.oversize is not None and item.oversize.own


def _name(case: DrillCase, item: Entry) -> str:
    if item.drill.label == plain(item.diameter) + f" {case.thread.unit}":
        return item.drill.label
    return f"{item.drill.label} ({case.say(item.diameter)})"


def _makes(case: DrillCase, item: Entry) -> str:
    hole = case.say(item.hole)
    if item.oversize is None:
        return f"measures {hole} itself (no mean oversize is published for its size)"
    whose = "with the oversize stated for the machine" if _is_own(item) else "by the tables' mean oversize"
    return f"drills {hole} on average {whose}"


def _beyond(case: DrillCase, item: Entry) -> str:
    low, high = case.limits.min, case.limits.max
    if high is not None and item.hole > high:
        return f"{case.say(item.hole - high)} above the largest minor diameter {case.say(high)}"
    if low is not None and item.hole < low:
        return f"{case.say(low - item.hole)} below the smallest minor diameter {case.say(low)}"
    return "close to a limit of the minor diameter"


def _ways(case: DrillCase, ranked: Ranked, item: Entry) -> list[str]:
    """What can be done: prove the drill, take the one that holds, or ream."""
    found = [] if _is_own(item) else [f"keep {item.drill.label} where your drills cut closer (machine.drill_oversize)"]
    known = [(one, accepted(case, one) or 0.0) for one in ranked.good if one is not item]
    holding = [(one, chance) for one, chance in known if chance >= CLEARLY_LOW]
    if holding:
        other, chance = min(holding, key=lambda pair: abs(pair[0].diameter - item.diameter))
        found.append(f"take {_name(case, other)}, whose holes hold them in {in_percent(chance)}")
    try:
        ream = reamed(case)
    except DrillingError:
        return found
    tool = "bore" if ream.name is None else "ream"
    return [*found, f"drill {ream.drill.drill.label} and {tool} to {case.say(ream.diameter)}"]


def percent_caution(
    case: DrillCase, pick: Pick, material: Material | None, step: EngagementStep | None
) -> tuple[Caution, ...]:
    """The caution on a hole that leaves clearly more thread than shops cut in the part material.

    Args: ``step`` of the length of engagement, None = not stated.
    Source: percent_by_material table (common practice).
    """
    percent = pick.candidate.expected_percent_thread or pick.candidate.percent_thread
    band = percent_band(case.thread, material, step) if case.request.method == "cut" else None
    if band is None or material is None or percent <= band[1] + NEAR_PERCENT:
        return ()
    low, high = band
    return (
        Caution(
            "percent_above_practice",
            f"{pick.entry.drill.label} leaves about {percent:.0f} % of thread; {material.family} is usually"
            f" tapped at {low} to {high} %, more breaks taps. {_largest(case, pick.entry)}",
        ),
    )


def _largest(case: DrillCase, item: Entry) -> str:
    """The largest drill inside the limits, or what is left where the one taken is it."""
    low, high = case.limits.min, case.limits.max
    held = () if low is None or high is None else case.first.between(low=low, high=high)
    largest = max(held, key=lambda one: one.diameter, default=item)
    if largest.diameter <= item.diameter:
        return "No larger drill holds the limits: a larger minor diameter needs the designer's agreement."
    return f"The largest drill inside the limits is {largest.drill.label} ({case.say(largest.diameter)})."
