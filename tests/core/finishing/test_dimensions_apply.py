"""Limits that the drawing means before the finish: the thread is made to its class, the coat does the rest."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core import callout, finishing, standards
from borewright.core.model import FinishInput, Length, LengthRange, Range
from borewright.core.plan.limits_by_purpose import limits_by_purpose


def coated(*, dimensions_apply):
    """#10-32 UNF-2B, 2 to 3 ten-thousandths of plate a surface."""
    thread = standards.resolve(callout.read("10-32 UNF-2B"))
    thickness = LengthRange(Length(Decimal("0.0002"), "in"), Length(Decimal("0.0003"), "in"))
    finish = FinishInput(thickness=thickness, growth_fraction=Decimal(1))
    return thread, finishing.allow(thread, replace(finish, dimensions_apply=dimensions_apply))


def test_the_tap_makes_the_class_and_the_coat_shrinks_it():
    """ASME B1.1: pitch diameter 0.1697 to 0.1736. The plate takes 4 x 0.0002 to 4 x 0.0003 of it: 0.1685 to 0.1728."""
    thread, allowance = coated(dimensions_apply="before_finish")
    limits = limits_by_purpose(thread, allowance)
    assert limits.to_tap.pitch_diameter == Range(Decimal("0.1697"), Decimal("0.1736"))
    assert limits.finished.pitch_diameter == Range(Decimal("0.1685"), Decimal("0.1728"))
    assert limits.gauge_now == "to_tap"
    assert "gauge_before_finish" in {caution.code for caution in allowance.notes.cautions}
    assert finishing.coat_to_come(allowance) is None


def test_limits_of_the_finished_thread_are_the_default():
    """The same coat: 0.1697 + 0.0012 to 0.1736 + 0.0008 before it, rounded inwards (ASME B1.1 7.5)."""
    thread, allowance = coated(dimensions_apply="after_finish")
    assert allowance.before_finish.pitch_diameter == Range(Decimal("0.1709"), Decimal("0.1744"))
    assert limits_by_purpose(thread, allowance).finished == thread.internal
    assert finishing.coat_to_come(allowance) == allowance.change
