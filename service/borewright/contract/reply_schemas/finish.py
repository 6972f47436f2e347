"""Schemas of a finish and what it does to a thread."""

from __future__ import annotations

from borewright.contract.fields.composites import OneOf, ReplySchema
from borewright.contract.fields.strict import Number

from .base import DiameterLimits, Reply, Section, Span, Words, flag, length, limits, section, text, texts
from .tap import FitItem, TapLimitItem, availability, equivalents, order_text


class FinishItem(ReplySchema):
    """A finish as read."""

    specification = text("Specification.", nullable=True)
    finish_class = Words("Class within the specification.", required=True, nullable=True, data_key="class")
    process = text("Process in plain words.", nullable=True)
    thickness = limits("Thickness on a surface")
    growth_fraction = OneOf(
        "Part of the thickness that stands above the old surface, a fraction; an object where it is a range.",
        Number("One fraction.", required=True),
        Section("Range of the fraction.", Span, required=True),
        required=True,
    )
    build_up = limits("Thickness that stands above the old surface")
    applied = text("When the thread is cut: before_finish, after_finish (hot-dip zinc) or masked.")


class RemainingTolerance(ReplySchema):
    """What the finish leaves for the tool."""

    pitch_diameter = length("Pitch diameter", nullable=True)
    minor_diameter = length("Minor diameter", nullable=True)


class OvertapItem(ReplySchema):
    """Oversize system for hot-dip zinc."""

    standard = text("Standard.")
    system = text("Name of the system: an ASTM A563 allowance, 6AZ or 6AX.")
    amount = length("Amount on diameter")
    limits = section("Limits to tap to after galvanizing.", DiameterLimits)


class FinishSection(ReplySchema):
    """What a finish does to the limits of an internal thread."""

    thread = text("Designation of the thread.")
    finish = section("The finish as read.", FinishItem)
    reading = text("asme: the coat moves both limits. iso: only the lower.")
    change = section("How much the coat moves each diameter, negative where it shrinks.", DiameterLimits)
    finished = section("Limits of the finished thread.", DiameterLimits)
    before_finish = section("Limits to be made before the finish.", DiameterLimits)
    feasible = flag("Whether a tool can make the limits before the finish.")
    remedies = texts("What would make it feasible.")
    remaining_tolerance = section("Tolerance left before the finish.", RemainingTolerance)
    overtap = section("Oversize tapping after galvanizing, null for other finishes.", OvertapItem, nullable=True)
    axial_movement = limits(
        "How far the gauge plane of a taper thread moves, positive where the gauge stands farther out; else null",
        nullable=True,
    )


class FittedLimit(TapLimitItem):
    """A tap limit with its fit."""

    fit = section("The arithmetic of the limit.", FitItem, nullable=True)
    availability = availability()
    order_text = order_text()
    equivalents = equivalents()


class AllowanceReply(FinishSection, Reply):
    """Reply of POST /v1/allowances."""

    tap = section("Tap limit for the limits before the finish, null where none fits.", FittedLimit, nullable=True)
