"""Strength of the joint, and what a smaller or larger drill would change in it."""

from __future__ import annotations

from borewright.core.joint.least_torque import Option

from .cutting_data import RatioBand, TorqueBand
from .reply_fields import chance, choice, length, percent, physical, ratio, rounded, section, texts, word
from .schema import SectionSchema


class StrengthSection(SectionSchema):
    """Strength of the joint with the screw whose grade was given."""

    length_of_engagement = length("Length of engagement")
    complete_length = length("Engagement that counts: complete threads, capped")
    required_length = length("Engagement at which the screw breaks before a thread strips")
    screw_grade = word("Grade of the screw as read.", source="grade.label")
    screw_tensile_force = physical("Force that breaks the screw", "force", source="screw_tensile_force_n")
    internal_strip_force = physical("Force that strips the tapped thread", "force", source="internal_strip_force_n")
    external_strip_force = physical("Force that strips the screw's thread", "force", source="external_strip_force_n")
    fails_first = choice("Which member fails first.", ("screw", "internal_thread", "external_thread"))
    safety_factor = ratio("Smaller strip force over the screw's tensile force")


def _safety_factor(option: Option) -> float | None:
    return None if option.strength is None else option.strength.safety_factor


def _fails_first(option: Option) -> str | None:
    return None if option.strength is None else option.strength.fails_first


class DrillOption(SectionSchema):
    """One of two drills with what it leads to."""

    label = word("Label of the trade.", source="drill.drill.label")
    diameter = length("Diameter", source="drill.diameter")
    hole_diameter = length("Hole expected")
    expected_percent_thread = percent("Percent of thread expected")
    torque = section("Tapping torque.", TorqueBand, nullable=True)
    break_margin = section("Breaking torque over tapping torque.", RatioBand, nullable=True)
    safety_factor = ratio("Smaller strip force over the screw's tensile force", source=_safety_factor, nullable=True)
    fails_first = word("Which member fails first.", source=_fails_first, nullable=True)
    acceptance = chance("Chance for the minor diameter", source="minor_diameter_chance", nullable=True)


class ComparisonSection(SectionSchema):
    """The chart's drill against the least-torque drill."""

    chart = section("The chart's drill.", DrillOption)
    least_torque = section("The least-torque drill.", DrillOption)
    torque_ratio = ratio("Torque of the second over the first")
    strength_ratio = ratio("Strength of the second over the first", nullable=True)
    margin_gained = rounded("Growth of the break margin", "a share", "ratio")
    reasons = texts("What is gained and what it costs.")
