"""Schemas of the choice of a drill."""

from __future__ import annotations

from borewright.contract.fields.composites import ReplySchema
from borewright.contract.fields.strict import Choice

from .base import DecisionItem, Reply, figure, flag, length, limits, rows, section, text, texts


class Margin(ReplySchema):
    """Room between a drill and the limits of the hole."""

    below_max = length("Upper limit less diameter, negative outside", nullable=True)
    above_min = length("Diameter less lower limit, negative outside", nullable=True)


class DrillItem(ReplySchema):
    """A drill weighed against the limits of the hole."""

    label = text("Label of the trade: 27/64, #7, F, 6.8 mm.")
    series = text("Drill series.")
    diameter = length("Diameter")
    percent_thread = figure("Percent of thread of the drill's own diameter", "percent on `percent_basis`")
    expected_hole_diameter = length("Diameter with mean oversize, null where no data exist", nullable=True)
    expected_percent_thread = figure(
        "Percent of thread with mean oversize, null where no data exist", "percent on `percent_basis`", nullable=True
    )
    within_minor_diameter_limits = flag(
        "Whether the drill's own diameter (the reamed hole's, for drill_and_ream) is inside the limits of the hole;"
        " null where no limit can judge it, as in forming.",
        nullable=True,
    )
    margin = section("Room to the limits of the hole.", Margin)
    acceptance = figure(
        "Chance that the minor diameter ends inside the limits, null where not known", "from 0 to 1", nullable=True
    )
    operation = Choice("Drill only, or drill and ream.", ("drill", "drill_and_ream"), required=True)
    in_stock = flag("Whether the crib has it; null when no crib was given.", nullable=True)
    special = flag("Whether it is made to order: no such drill is sold.")
    order_text = text("What to order a special by; null for a drill that is sold.", nullable=True)
    reasons = texts("Why it stands where it stands.")


class DrillTarget(ReplySchema):
    """What was aimed at."""

    percent_thread = figure("Percent of thread aimed at", "percent on `percent_basis`", nullable=True)
    hole_diameter = length("Hole diameter aimed at")


class DrillChanceItem(ReplySchema):
    """A drill and how often its holes are accepted."""

    label = text("Label of the trade.")
    acceptance = figure(
        "Chance that the minor diameter ends inside the limits, null where not known", "from 0 to 1", nullable=True
    )


class RejectedDrillItem(ReplySchema):
    """A drill that was not taken."""

    label = text("Label of the trade.")
    diameter = length("Diameter")
    reason = text("Why not.")


class DrillSection(ReplySchema):
    """The choice of a drill."""

    thread = text("Designation of the thread.")
    method = Choice("Cut or form.", ("cut", "form"), required=True)
    objective = text("What the drill is best for.")
    rule = text("What chose the drill: published_chart, rule (nearest to the target) or greatest_acceptance.")
    percent_basis = text("What 100 percent of thread means here.")
    target = section("What was aimed at.", DrillTarget)
    minor_diameter_limits = limits("Limits the hole was judged by, before the finish where one applies")
    hole_limits = limits("Recommended hole limits by length of engagement, null where none exist", nullable=True)
    recommended = section("The drill.", DrillItem)
    ream_diameter = length("Diameter to ream to, null where no reaming is needed", nullable=True)
    chart_drill = section(
        "The chart's drill and its chance, null where no chart is held.", DrillChanceItem, nullable=True
    )
    most_accepted = section(
        "The drill whose holes most often hold the limits, null where it is not known.", DrillChanceItem, nullable=True
    )
    alternatives = rows("Other drills that do, best first.", DrillItem)
    rejected = rows("Drills that were looked at and not taken.", RejectedDrillItem)


class DrillReply(DrillSection, Reply):
    """Reply of POST /v1/drills/recommend."""

    review = rows("What a person must decide about the drill, most important first.", DecisionItem)
