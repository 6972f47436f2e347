"""The choice of a drill."""

from __future__ import annotations

from borewright.core.model.decision import Decision
from borewright.core.model.notes import NO_NOTES
from borewright.core.plan import specification

from .note_items import DecisionItem
from .reply import Reply
from .reply_fields import (
    chance,
    choice,
    flag,
    length,
    limits,
    percent,
    rows,
    section,
    shared_rows,
    text,
    texts,
    word,
)
from .schema import SectionSchema, the_record


class Margin(SectionSchema):
    """Room between a drill and the limits of the hole."""

    below_max = length("Upper limit less diameter, negative outside", source="margin_below_max", nullable=True)
    above_min = length("Diameter less lower limit, negative outside", source="margin_above_min", nullable=True)


class DrillItem(SectionSchema):
    """A drill weighed against the limits of the hole."""

    label = word("Label of the trade: 27/64, #7, F, 6.8 mm.", source="drill.label")
    series = word("Drill series.", source="drill.series")
    diameter = length("Diameter")
    percent_thread = percent("Percent of thread of the drill's own diameter")
    expected_hole_diameter = length("Diameter with mean oversize, null where no data exist", nullable=True)
    expected_percent_thread = percent("Percent of thread with mean oversize, null where no data exist", nullable=True)
    within_minor_diameter_limits = flag(
        "Whether the drill's own diameter (the reamed hole's, for drill_and_ream) is inside the limits of the hole;"
        " null where no limit can judge it, as in forming.",
        nullable=True,
    )
    margin = section("Room to the limits of the hole.", Margin, source=the_record)
    acceptance = chance("Chance that the minor diameter ends inside the limits, null where not known", nullable=True)
    operation = choice("Drill only, or drill and ream.", ("drill", "drill_and_ream"))
    in_stock = flag("Whether the crib has it; null when no crib was given.", nullable=True)
    special = flag("Whether it is made to order: no such drill is sold.")
    order_text = text("What to order a special by; null for a drill that is sold.", nullable=True)
    reasons = texts("Why it stands where it stands.")


class DrillTarget(SectionSchema):
    """What was aimed at."""

    percent_thread = percent("Percent of thread aimed at", source="target_percent", nullable=True)
    hole_diameter = length("Hole diameter aimed at", source="target_hole_diameter")


class DrillChanceItem(SectionSchema):
    """A drill and how often its holes are accepted."""

    label = word("Label of the trade.")
    acceptance = chance("Chance that the minor diameter ends inside the limits, null where not known", nullable=True)


class RejectedDrillItem(SectionSchema):
    """A drill that was not taken."""

    label = word("Label of the trade.")
    diameter = length("Diameter")
    reason = text("Why not.")


class DrillSection(SectionSchema):
    """The choice of a drill."""

    thread = word("Designation of the thread.")
    method = choice("Cut or form.", ("cut", "form"))
    objective = word("What the drill is best for.")
    rule = word("What chose the drill: published_chart, rule (nearest to the target) or greatest_acceptance.")
    percent_basis = word("What 100 percent of thread means here.")
    target = section("What was aimed at.", DrillTarget, source=the_record)
    minor_diameter_limits = limits(
        "Limits the hole was judged by, before the finish where one applies", source="minor_diameter"
    )
    hole_limits = limits("Recommended hole limits by length of engagement, null where none exist", nullable=True)
    recommended = section("The drill.", DrillItem)
    ream_diameter = length("Diameter to ream to, null where no reaming is needed", nullable=True)
    chart_drill = section(
        "The chart's drill and its chance, null where no chart is held.", DrillChanceItem, nullable=True
    )
    most_accepted = section(
        "The drill whose holes most often hold the limits, null where it is not known.", DrillChanceItem, nullable=True
    )
    alternatives = shared_rows("Other drills that do, best first.", DrillItem)
    rejected = shared_rows("Drills that were looked at and not taken.", RejectedDrillItem)


def _left_to_a_person(reply: specification.DrillResult) -> tuple[Decision, ...]:
    return specification.review(NO_NOTES, reply.thread, reply.allowance, reply.drill, reply)


class DrillReply(DrillSection, Reply):
    """Reply of POST /v1/drills/recommend."""

    inherited_from = "drill"

    review = rows(
        "What a person must decide about the drill, most important first.", DecisionItem, source=_left_to_a_person
    )
