"""A finish and what it does to a thread."""

from __future__ import annotations

from typing import Any

from borewright.contract.fields.strict import JsonSchema
from borewright.contract.unit_view import plain
from borewright.core.model import Allowance, Range
from borewright.core.tapping import LimitChoice

from .reply import Reply
from .reply_fields import NUMBER, DiameterLimits, Span, choice, flag, length, limits, section, texts, word
from .schema import ReplyField, SectionSchema, the_record
from .tap import FitItem, TapLimitItem, availability, equivalents, order_text


class FractionOrRange(ReplyField):
    """One number, or an object where it is a range."""

    def json_schema(self, converter: Any) -> JsonSchema:
        """A number or the range, side by side."""
        return {"anyOf": [NUMBER, dict(converter.resolve_nested_schema(Span))]}


def _fraction(growth: Range) -> object:
    """One number where both ends are the same, as for plating."""
    return plain(growth.min if growth.min is not None and growth.min == growth.max else growth)


class FinishItem(SectionSchema):
    """A finish as read."""

    specification = word("Specification.", nullable=True)
    finish_class = word("Class within the specification.", nullable=True, data_key="class")
    process = word("Process in plain words.", nullable=True)
    thickness = limits("Thickness on a surface")
    growth_fraction = FractionOrRange(
        "Part of the thickness that stands above the old surface, a fraction; an object where it is a range.",
        {},
        show=lambda _: _fraction,
        dimension="ratio",
    )
    build_up = limits("Thickness that stands above the old surface")
    applied = word("When the thread is cut: before_finish, after_finish (hot-dip zinc) or masked.")


class RemainingTolerance(SectionSchema):
    """What the finish leaves for the tool."""

    pitch_diameter = length("Pitch diameter", source="remaining_tolerance_pitch", nullable=True)
    minor_diameter = length("Minor diameter", source="remaining_tolerance_minor", nullable=True)


class OvertapItem(SectionSchema):
    """Oversize system for hot-dip zinc."""

    standard = word("Standard.")
    system = word("Name of the system: an ASTM A563 allowance, 6AZ or 6AX.")
    amount = length("Amount on diameter")
    limits = section("Limits to tap to after galvanizing.", DiameterLimits)


def _before_finish(allowance: Allowance) -> str | None:
    """The word of the less usual case: what the reply says without it holds for the finished thread."""
    return allowance.dimensions_apply if allowance.dimensions_apply == "before_finish" else None


class FinishSection(SectionSchema):
    """What a finish does to the limits of an internal thread."""

    thread = word("Designation of the thread.")
    finish = section("The finish as read.", FinishItem)
    reading = word("asme: the coat moves both limits. iso: only the lower.")
    change = section("How much the coat moves each diameter, negative where it shrinks.", DiameterLimits)
    finished = section("Limits of the finished thread.", DiameterLimits)
    before_finish = section("Limits to be made before the finish.", DiameterLimits)
    feasible = flag("Whether a tool can make the limits before the finish.")
    remedies = texts("What would make it feasible.")
    dimensions_apply = choice(
        "before_finish where the limits of the class hold before the finish: `finished` is then what comes out.",
        ("before_finish",),
        source=_before_finish,
        present=False,
    )
    remaining_tolerance = section("Tolerance left before the finish.", RemainingTolerance, source=the_record)
    overtap = section("Oversize tapping after galvanizing, null for other finishes.", OvertapItem, nullable=True)
    axial_movement = limits(
        "How far the gauge plane of a taper thread moves, positive where the gauge stands farther out; else null",
        nullable=True,
    )


class FittedLimit(TapLimitItem):
    """A tap limit with its fit."""

    inherited_from = "limit"

    fit = section("The arithmetic of the limit.", FitItem, nullable=True)
    availability = availability()
    order_text = order_text()
    equivalents = equivalents()


def _tap_that_fits(reply: Any) -> LimitChoice | None:
    choice: LimitChoice = reply.tap
    return None if choice.limit is None else choice


class AllowanceReply(FinishSection, Reply):
    """Reply of POST /v1/allowances."""

    inherited_from = "allowance"

    tap = section(
        "Tap limit for the limits before the finish, null where none fits.",
        FittedLimit,
        source=_tap_that_fits,
        nullable=True,
    )
