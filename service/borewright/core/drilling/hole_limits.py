"""Recommended limits of the hole before threading, by length of engagement.

The longer the engagement, the larger the hole may be: less thread height still holds, and the tap has an easier time.
Only the Unified standards give such limits; ISO metric and the other systems have none.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

from borewright.core.caches import cached, read_once
from borewright.core.citation import cite
from borewright.core.model import Notes, Range, Source, Step, Thread
from borewright.core.practice import figure
from borewright.core.rounding import half_even, half_up
from borewright.core.standards.systems import traits
from borewright.core.standards.unified.tolerance import form, minor_tolerance
from borewright.tables import load

_RULE_TABLE = "unified_hole_limit_exceptions"
_OUTSIDE = (
    "for engagements over 1.5 D the recommended hole limits may exceed the maximum minor diameter of the thread: only"
    " with the designer's agreement (modified thread); a NOT GO plain plug made to the class would reject such a hole"
)
_SIZE_OF_QUARTER_INCH = Decimal("0.25")
_THREE_DECIMALS_FROM = Decimal("0.138")
_NARROWEST_BAND = Decimal("0.0040")
_GROUPS: Mapping[str | None, str] = {"1B": "1B/2B", "2B": "1B/2B", "3B": "3B"}
_TABLES: Mapping[str, str] = {"1B/2B": "II.A.3", "3B": "II.A.4"}
_TOP = "half_even(D1 + T, places)"
_LOW = "max(half_even(D1 + T - band, places), smallest)"
#: Shares of the tolerance at both ends of the band; the two shortest ranges are one.
_UNM_SHARES: Mapping[str, tuple[Decimal, Decimal]] = {
    "shortest": (Decimal("0.25"), Decimal("0.625")),
    "short": (Decimal("0.25"), Decimal("0.625")),
    "normal": (Decimal("0.5"), Decimal(1)),
    "long": (Decimal("0.75"), Decimal("1.25")),
}
#: Engagements in diameters below and above which shops drill for another percent of thread.
SHORT, LONG = figure("short_engagement_diameters"), figure("long_engagement_diameters")


@dataclass(frozen=True, slots=True, eq=False)
class EngagementRange:
    """A row of the rule: engagements over the row before and to ``to`` diameters; ``ratio`` of the tolerance at its
    top.

    Compared by identity, as each row is there once.
    """

    name: str
    to: Decimal
    ratio: Decimal
    text: str


#: FED-STD-H28/2B 30.1; the last one is not tabulated and lies outside the limits of the standard.
RANGES: tuple[EngagementRange, ...] = (
    EngagementRange("shortest", Decimal("0.33"), Decimal("0.5"), "to 0.33 D"),
    EngagementRange("short", Decimal("0.67"), Decimal("0.75"), "over 0.33 D to 0.67 D"),
    EngagementRange("normal", Decimal("1.5"), Decimal(1), "over 0.67 D to 1.5 D"),
    EngagementRange("long", Decimal(3), Decimal("1.25"), "over 1.5 D to 3 D"),
)


_NORMAL, _LONG = RANGES[2], RANGES[3]


@dataclass(frozen=True, slots=True)
class HoleLimits:
    """Limits in the thread's unit and the range of engagement (in diameters) they stand for."""

    limits: Range
    engagement: EngagementRange
    notes: Notes


def hole_limits(thread: Thread, engagement: Decimal | None = None) -> HoleLimits | None:
    """Recommended limits of the hole before threading.

    Args: ``engagement`` length in the thread's unit; None stands for the range of 0.67 D to 1.5 D.
    Returns: the limits, None where the thread's standard gives none or the engagement is over 3 D.
    Source: FED-STD-H28/2B (1991) 30.1, Tables II.A.3 and II.A.4; Machinery's Handbook 31st ed. p. 2171 Table 6 (UNM).
    """
    if engagement is None:
        return limits_of_range(thread, _NORMAL, assumed=True)
    reach = range_of(thread, engagement)
    return None if reach is None else limits_of_range(thread, reach)


def limits_of_range(thread: Thread, reach: EngagementRange, *, assumed: bool = False) -> HoleLimits | None:
    """Recommended limits in the unit of ``thread`` of the hole for the range ``reach`` of engagement, ``assumed`` where
    no length was given.

    Source: as :func:`hole_limits`.
    """
    document = traits(thread).hole_limits
    if document == "asme_b1_10":
        return _limits_unm(thread, reach, assumed)
    if document == "fed_std_h28" and thread.thread_class in _GROUPS:
        return _limits_unified(thread, reach, assumed)
    return None


def range_of(thread: Thread, engagement: Decimal) -> EngagementRange | None:
    """The range that a length of engagement (thread's unit) lies in, None over 3 D.

    Source: FED-STD-H28/2B (1991) 30.1.
    """
    return next((reach for reach in RANGES if engagement <= reach.to * thread.nominal_diameter), None)


@cached(32)
def _limits_unified(thread: Thread, reach: EngagementRange, assumed: bool) -> HoleLimits:
    group = _GROUPS[thread.thread_class]
    diameter, tpi = thread.basic.major_diameter, thread.threads_per_inch
    assert tpi is not None
    where = f"30.1 (Table {_TABLES[group]}), engagement {reach.text}"
    rule = cite(_RULE_TABLE).at(where)
    steps = _rule(thread, reach, group, tpi, rule.text)
    exceptions = _exceptions().get((diameter, tpi, group, reach.name), {})
    for end, printed in exceptions.items():
        step = steps[end]
        steps[end] = Step(step.quantity, "table", {"by the rule": step.value}, printed, step.unit, step.source)
    limits = Range(_length(steps["min"]), _length(steps["max"]))
    source = (rule if exceptions else rule.computed()).source("hole_limits")
    return HoleLimits(limits, reach, _notes(source, steps, reach, assumed))


def _rule(thread: Thread, reach: EngagementRange, group: str, tpi: Decimal, where: str) -> dict[str, Step]:
    """Smallest and largest hole: tolerance of the range on top of the basic minor diameter, a constant band wide."""
    diameter, minor = thread.basic.major_diameter, thread.basic.minor_diameter
    places = 3 if group == "1B/2B" and diameter >= _THREE_DECIMALS_FROM else 4
    smallest = half_even(half_even(minor, 3), places) if diameter >= _THREE_DECIMALS_FROM else minor
    part = _tolerance_in(diameter, tpi=tpi, group=group, ratio=reach.ratio, places=places)
    top = {"D1": minor, "T": part, "places": places}
    steps = {"max": Step("hole_limits.max", _TOP, top, half_even(minor + part, places), "in", where)}
    if reach is RANGES[0]:
        steps["min"] = Step("hole_limits.min", "table", {"minimum minor diameter": smallest}, smallest, "in", where)
    else:
        band = _tolerance_in(diameter, tpi=tpi, group=group, ratio=RANGES[0].ratio, places=places)
        if diameter >= _SIZE_OF_QUARTER_INCH:
            band = max(band, _NARROWEST_BAND)
        low = max(half_even(minor + part - band, places), smallest)
        inputs = {**top, "band": band, "smallest": smallest}
        steps["min"] = Step("hole_limits.min", _LOW, inputs, low, "in", where)
    return steps


def _length(step: Step) -> Decimal:
    assert isinstance(step.value, Decimal)
    return step.value


def _tolerance_in(diameter_in: Decimal, *, tpi: Decimal, group: str, ratio: Decimal, places: int) -> Decimal:
    """Minor diameter tolerance at a ratio of its table value, 4 decimals of an inch.

    Holes that the table gives three decimals come from the printed (4-decimal) tolerance, others from the formula.
    """
    thread_class = group[-2:]
    if places == 3:
        table = half_even(minor_tolerance(thread_class, form(tpi), diameter_in=diameter_in).value_in, 4)
        return half_up(ratio * table, 4)
    return half_even(minor_tolerance(thread_class, form(tpi), diameter_in=diameter_in, ratio=ratio).value_in, 4)


@read_once
def _exceptions() -> Mapping[tuple[Decimal, Decimal, str, str], Mapping[str, Decimal]]:
    cells: dict[tuple[Decimal, Decimal, str, str], dict[str, Decimal]] = {}
    for row in load(_RULE_TABLE).rows:
        key = (Decimal(row["basic_major_in"]), Decimal(row["threads_per_inch"]), row["class"], row["range"])
        cells.setdefault(key, {})[row["end"]] = Decimal(row["limit_in"])
    return cells


@cached(64)
def _limits_unm(thread: Thread, reach: EngagementRange, assumed: bool) -> HoleLimits:
    where = f"Machinery's Handbook 31st ed. (2020) p. 2171 Table 6, engagement {reach.text}"
    steps = {
        end: _step_unm(thread, f"hole_limits.{end}", share, where)
        for end, share in zip(("min", "max"), _UNM_SHARES[reach.name], strict=True)
    }
    source = Source("hole_limits", "ASME B1.10", "", where, "computed")
    limits = Range(_length(steps["min"]), _length(steps["max"]))
    return HoleLimits(limits, reach, _notes(source, steps, reach, assumed))


def _step_unm(thread: Thread, quantity: str, share: Decimal, where: str) -> Step:
    """The rule was found by fitting: it gives all 14 rows of the table."""
    diameter, pitch = thread.nominal_diameter, thread.pitch
    tolerance_mm = Decimal("0.32") * pitch + Decimal("0.012")
    value = half_even(diameter - Decimal("1.04") * pitch + share * tolerance_mm, 3)
    formula = "half_even(D - 1.04 * P + share * (0.32 * P + 0.012), 3)"
    return Step(quantity, formula, {"D": diameter, "P": pitch, "share": share}, value, "mm", where)


def _notes(source: Source, steps: Mapping[str, Step], reach: EngagementRange, assumed: bool) -> Notes:
    said = [f"no length of engagement given: hole limits are those for {reach.text}"] if assumed else []
    said += [_OUTSIDE] if reach is _LONG else []
    return Notes(tuple(said), (), (source,), (steps["min"], steps["max"]))


class EngagementStep(NamedTuple):
    """All that the rules on drills look at: ``range`` of the hole limits (None = over 3 D), below 0.5 D, over 1.5 D."""

    range: EngagementRange | None
    is_short: bool
    is_long: bool


def engagement_step(thread: Thread, engagement: Decimal) -> EngagementStep:
    """The step of a length of engagement.

    Args: ``engagement`` in the thread's unit, above zero.
    Source: FED-STD-H28/2B (1991) 30.1; 0.5 D and 1.5 D are common practice.
    """
    diameter = thread.nominal_diameter
    return EngagementStep(range_of(thread, engagement), engagement < SHORT * diameter, engagement > LONG * diameter)
