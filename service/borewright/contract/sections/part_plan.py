"""The plan of a part: tools, order, time and kit of all its tapped holes."""

from __future__ import annotations

from collections.abc import Sequence
from math import expm1
from typing import NamedTuple

from borewright.contract import verdicts
from borewright.core.part.model import PartPlan

from .detail import hole_spec
from .reply import Reply, WrittenRows
from .reply_fields import (
    chance,
    choice,
    count,
    flag,
    free,
    length_mm,
    physical,
    rounded,
    rows,
    seconds,
    section,
    texts,
    whole,
    word,
    words,
)
from .reply_fields import text as words_in_units
from .schema import FieldRows, ReplyField, SectionSchema, the_record
from .service import ProblemFault


class PartToolItem(SectionSchema):
    """A tool of the plan."""

    tool = words_in_units("Name of the tool; another name is another tool to set.", source="name")
    kind = word("The operation that it is for: drill, tap, countersink ...")
    details = free("What identifies it; angles in degrees.")
    diameter = length_mm("Diameter of a drill; null for other tools", source="diameter_mm", nullable=True)
    holes = words("Ids of the holes that it serves.")
    count = count("How many holes those are in all")
    in_stock = flag(
        "Whether the crib holds it; null where the stock was not stated, or lists no such tools.", nullable=True
    )
    availability = choice("Whether the tool is sold or made to order.", ("standard", "special"))


class SavedSection(SectionSchema):
    """How many tools the plan saves."""

    tools = count("Tools saved")
    before = count("Tools that the holes take each by itself", data_key="from")
    after = count("Tools of the plan", data_key="to")


def _lost(plan: PartPlan, loss: float | None) -> float | None:
    """What a hole loses on average, of the natural logarithm of what all of them lose."""
    return None if loss is None else -expm1(-max(0.0, loss) / max(1, sum(one.hole.count for one in plan.holes)))


class ProofSection(SectionSchema):
    """What is proved of the choice."""

    optimal = flag("Whether no choice is better by `objective` that keeps every hole inside its limits.")
    bound = count("Tools below which no choice exists, as proved")
    proved = words(
        "What is proved to be the least, in the order in which it counts: tools, loss (of acceptance), time. What is"
        " missing was the best found in time."
    )
    loss = chance(
        "Chance of acceptance that a hole loses on average, null where `objective` does not ask for the least",
        source=lambda plan: _lost(plan, plan.loss and plan.loss.found),
        nullable=True,
    )
    loss_bound = chance(
        "What it loses at least with as many tools, as proved",
        source=lambda plan: _lost(plan, plan.loss and plan.loss.bound),
        nullable=True,
    )
    order_optimal = flag("Whether no order has fewer loadings of tools.")


class CostSection(SectionSchema):
    """What a change costs its hole: the plan less the hole by itself; null where one of the two is not known."""

    percent_thread = rounded("Percent of thread", "in percent points", "percent", nullable=True)
    acceptance = rounded("Chance of acceptance", "a difference of two from 0 to 1", "chance", nullable=True)
    torque = physical("Tapping torque", "torque", source="torque_n_m", nullable=True)


class ChangeItem(SectionSchema):
    """A hole that is made with other tools than by itself."""

    hole = word("Id of the hole.")
    before = texts("Tools of the hole by itself that it does not keep.", data_key="from")
    after = texts("Tools in their place.", data_key="to")
    why = words_in_units("What the change is for.")
    cost = section("What it costs the hole.", CostSection, source=the_record)


class LoadingItem(SectionSchema):
    """One loading of a tool."""

    step = whole("Number of the step", "a count from 1", "number", source="number")
    stage = whole(
        "Set-up that it belongs to: a new one follows a finish, a hardening or a mask", "a count from 1", "number"
    )
    tool = words_in_units("The tool.")
    operation = word("What it does.")
    holes = words("Ids of the holes, in order.")
    count = count("How many holes those are in all")
    spindle_speed = ReplyField(
        "Spindle speed, in rev/min; the lowest where the holes differ, null where none is held.",
        {"type": "number"},
        source=lambda step: min(step.speeds_rpm, default=None),
        dimension="spindle_speed",
        nullable=True,
    )
    spindle_speeds = FieldRows(
        "Every spindle speed of the step, in rev/min: a tool that serves two materials has two.",
        ReplyField("One of them, in rev/min.", {"type": "number"}, dimension="spindle_speed"),
        source="speeds_rpm",
    )
    feed = length_mm(
        "Feed; the lowest where the holes differ, null where none is held",
        dimension="feed",
        source=lambda step: min(step.feeds_mm_rev, default=None),
        nullable=True,
    )
    time = seconds("Cutting time of all these holes; null where it is not held", source="time_s", nullable=True)
    tool_change = seconds("Tool change before it", source="tool_change_s")
    positioning = seconds("Going from hole to hole and settling there", source="positioning_s")


class AwayItem(SectionSchema):
    """What is done away from the spindle."""

    after_stage = whole("Set-up that it follows", "a count from 1", "number")
    operation = word("inspect, finish, mask, harden, turn_over ...")
    text = words_in_units("What is done.")
    holes = words("Ids of the holes that need it.")


class PartTimeSection(SectionSchema):
    """Time of a part."""

    cutting = seconds("Cutting", source="cutting_s")
    tool_changes = seconds("Tool changes", source="tool_changes_s")
    positioning = seconds("Going from hole to hole", source="positioning_s")
    total = seconds("All of it, for one part", source="total_s")
    per_lot = seconds("All of it, for the lot", source="lot_s")
    loadings = count("Loadings of tools")
    untimed = count("Steps whose cutting time is not held and not counted")


class KitSection(SectionSchema):
    """What is laid out beside the cutting tools."""

    tools = FieldRows("Every tool once.", words_in_units("One of them."))
    gauges = texts("Gauges with what they check: before and after a finish they are different ones.")
    fluids = texts("Cutting fluids.")
    other = texts("Masks, inserts and their tools; spare taps, where the shop counted how often they break.")


class PartDecisionItem(SectionSchema):
    """What a person must decide on the plan."""

    code = word("Stable code.")
    hole = word("Id of the hole.")
    text = words_in_units("The question and the choices, in plain words.")


class RefusedHoleItem(SectionSchema):
    """A hole that is not planned."""

    hole = word("Id of the hole, or its place.", source="name")
    errors = rows("What is wrong with it.", ProblemFault, source="faults")


class PartPlanShown(NamedTuple):
    """A plan with the texts of its holes' specifications."""

    plan: PartPlan
    part: str | None
    specifications: Sequence[bytes]


class PartPlanReply(Reply):
    """Reply of POST /v1/part-plans."""

    part = word("The caller's own name of the part.", nullable=True)
    verdict = choice(
        "ready: nothing is left to decide. review: a person decides what `review` lists. infeasible: a hole is not"
        " planned, or no plan holds its drawing.",
        verdicts.HOLE,
        source="plan.verdict",
    )
    review = rows("What a person must decide, hole by hole.", PartDecisionItem, source="plan.review")
    refused = rows("Holes that are not planned, and why.", RefusedHoleItem, source="plan.refused")
    tools = rows("Every tool of the plan.", PartToolItem, source="plan.tools")
    saved = section("Tools saved.", SavedSection, source="plan.saved")
    proof = section("What is proved.", ProofSection, source="plan")
    changes = rows("Holes that are made with other tools than by themselves.", ChangeItem, source="plan.changes")
    sequence = rows("The tools in the order in which they work.", LoadingItem, source="plan.steps")
    away_from_spindle = rows(
        "What is done between the set-ups and after them, in order: inspections, masks, finishes, inserts; its time is"
        " not held.",
        AwayItem,
        source="plan.away",
    )
    time = section("Time.", PartTimeSection, source="plan.time")
    kit = section("What is laid out.", KitSection, source="plan.kit")
    holes = WrittenRows(
        "The specification of every planned hole, in the detail that is asked for.",
        hole_spec("One of them."),
        lambda texts, _: texts,
        source="specifications",
    )
