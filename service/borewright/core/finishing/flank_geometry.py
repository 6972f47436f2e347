"""What a coat does to the diameters of an internal thread, and the limits to make before it.

A coat of build-up ``b`` a surface shrinks minor and major diameter by ``2 b`` and the pitch diameter by ``k b`` with
``k = 2 / sin(half angle)``. Two readings exist of the limits before coating: the inch standard moves both, the metric
standard lets the tolerance hold before coating and guards only the maximum-material limit afterwards.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.caches import cached
from borewright.core.model import Diameters, Range, Status, Step, Thread, Unit
from borewright.core.rounding import downward, half_even, upward
from borewright.core.standards.systems import traits

Reading = Literal["asme", "iso"]

_FACTOR_PLACES = 4
_LEAST_ANGLE = Decimal(1)
_ZERO = Decimal(0)
_LIMIT_PLACES: dict[Unit, int] = {"in": 4, "mm": 3}
_CHANGE_PLACES: dict[Unit, int] = {"in": 6, "mm": 5}
_NAMES = ("major_diameter", "pitch_diameter", "minor_diameter")
_ON_DIAMETER = Decimal(2)

#: Document, edition and clause of each reading.
RULES: dict[Reading, tuple[str, str, str]] = {
    "asme": ("ASME B1.1", "2003", "7.5: both limits move"),
    "iso": ("ISO 965-3", "2021", "clause 4: tolerance before coating, position H not passed after"),
}
#: Clause 4 of ISO 965-3 was read; 7.5 of ASME B1.1 stands in a gauge maker's note, its text was not seen.
RULE_STATUS: dict[Reading, Status] = {"asme": "second_hand", "iso": "published"}
_RULE_TEXT = {reading: f"{document}:{edition} {clause}" for reading, (document, edition, clause) in RULES.items()}
_GEOMETRY = "Machinery's Handbook 27th ed. p. 1793; k = 2 / sin(half angle)"


@dataclass(frozen=True, slots=True, eq=False)
class FinishLimits:
    """Change of each diameter, limits after and before the finish, and the derivation."""

    change: Diameters
    finished: Diameters
    before: Diameters
    axial: Range | None
    steps: tuple[Step, ...]


@cached(64)
def flank_factor(thread_angle: Decimal) -> Decimal | None:
    """Change of pitch diameter for a unit of build-up a surface: ``k = 2 / sin(angle / 2)``, to four decimals.

    Args:
        thread_angle: included angle in degrees.

    Returns:
        4 for 60 degrees; None for a square thread, whose flanks do not move its diameters.

    Source: Machinery's Handbook 27th ed. p. 1793 (4 for 60 degrees); geometry for other angles.
    """
    if thread_angle < _LEAST_ANGLE:
        return None
    return half_even(Decimal(2 / math.sin(math.radians(float(thread_angle) / 2))), _FACTOR_PLACES)


def limits(thread: Thread, *, build_up: Range, heat: Range, reading: Reading) -> FinishLimits:
    """Change of the diameters and limits before the finish.

    Args:
        thread: its ``internal`` limits are those after the finish (asme) or those of its class (iso).
        build_up: a surface, inside the thread.
        heat: growth by heat treatment on diameter.
        reading: which limits the coat moves.

    Returns:
        FinishLimits in the thread's unit; before-finish limits are rounded towards each other, so that no thread made
        inside them can be outside afterwards.

    Source: ASME B1.1-2003 7.5; ISO 965-3:2021 clause 4; Machinery's Handbook 27th ed. p. 1793.
    """
    steps: list[Step] = []
    factor = flank_factor(thread.thread_angle)
    steps.append(_factor_step(thread.thread_angle, factor))
    flat = _change(_ON_DIAMETER, build_up, heat, thread.unit)
    pitch = flat if factor is None else _change(factor, build_up, heat, thread.unit)
    change = Diameters(flat, pitch, flat)
    for name, coefficient, moved in (("pitch_diameter", factor, pitch), ("minor_diameter", _ON_DIAMETER, flat)):
        steps.extend(_change_steps(name, coefficient, moved, build_up, heat, thread.unit))
    finished = _finished(thread, reading)
    ranges = []
    for name in _NAMES:
        own: Range = getattr(thread.internal, name)
        after: Range = getattr(finished, name)
        moved = getattr(change, name)
        ranges.append(_before(name, own, after, moved, heat, reading, thread.unit, steps))
    return FinishLimits(change, finished, Diameters(*ranges), _axial(thread, pitch, steps), tuple(steps))


def moved(limits_before: Diameters, change: Diameters, unit: Unit) -> tuple[Diameters, tuple[Step, ...]]:
    """Limits that a thread made inside ``limits_before`` has after the coat, rounded apart, and how they come about.

    Args: ``change`` of each diameter by the coat, signed; lengths in ``unit``.

    Source: Machinery's Handbook 27th ed. p. 1793.
    """
    steps: list[Step] = []
    ranges = [_moved(name, getattr(limits_before, name), getattr(change, name), unit, steps) for name in _NAMES]
    return Diameters(*ranges), tuple(steps)


def _moved(name: str, own: Range, change: Range, unit: Unit, steps: list[Step]) -> Range:
    ends: dict[str, Decimal | None] = {"min": None, "max": None}
    for end, rounded, word in (("min", downward, "down"), ("max", upward, "up")):
        limit, by = getattr(own, end), getattr(change, end)
        if limit is not None and by is not None:
            places = _places(limit, unit)
            ends[end] = rounded(limit + by, places)
            inputs = {"limit": limit, "change": by, "places": places}
            formula = f"{word}(limit + change, places)"
            steps.append(Step(f"finished.{name}.{end}", formula, inputs, ends[end], unit, _GEOMETRY))
    return Range(ends["min"], ends["max"])


def _change(coefficient: Decimal, build_up: Range, heat: Range, unit: Unit) -> Range:
    """Signed change of a diameter, rounded outwards: a coat shrinks it."""
    places = _CHANGE_PLACES[unit]
    thick, thin = build_up.max or _ZERO, build_up.min or _ZERO
    return Range(
        downward((heat.min or _ZERO) - coefficient * thick, places),
        upward((heat.max or _ZERO) - coefficient * thin, places),
    )


def _finished(thread: Thread, reading: Reading) -> Diameters:
    """Limits after the finish: the class's own; for a metric position away from H the lower limit is that of H."""
    internal, basic = thread.internal, thread.basic
    at_basic = internal.pitch_diameter.min == basic.pitch_diameter
    if reading != "iso" or traits(thread).coated != "iso_965" or at_basic:
        return internal
    return Diameters(
        Range(basic.major_diameter, internal.major_diameter.max),
        Range(basic.pitch_diameter, internal.pitch_diameter.max),
        Range(basic.minor_diameter, internal.minor_diameter.max),
    )


def _before(
    name: str, own: Range, after: Range, change: Range, heat: Range, reading: Reading, unit: Unit, steps: list[Step]
) -> Range:
    low = high = None
    if after.min is not None and own.min is not None:
        places = _places(own.min, unit)
        moved = upward(after.min - (change.min or _ZERO), places)
        low = max(moved, own.min) if own.min > after.min else moved
        formula = "max(up(limit - change, places), own)" if own.min > after.min else "up(limit - change, places)"
        steps.append(
            Step(
                f"before_finish.{name}.min",
                formula,
                {"limit": after.min, "change": change.min, "places": places, "own": own.min},
                low,
                unit,
                _RULE_TEXT[reading],
            )
        )
    if after.max is not None:
        places = _places(after.max, unit)
        upper = change.max if reading == "asme" else heat.max
        high = downward(after.max - (upper or _ZERO), places)
        steps.append(
            Step(
                f"before_finish.{name}.max",
                "down(limit - change, places)",
                {"limit": after.max, "change": upper, "places": places},
                high,
                unit,
                _RULE_TEXT[reading],
            )
        )
    return Range(low, high)


def _places(limit: Decimal, unit: Unit) -> int:
    """Decimals of a limit as printed, at least those of the unit's standards."""
    return max(-int(limit.as_tuple().exponent), _LIMIT_PLACES[unit])


def _axial(thread: Thread, pitch: Range, steps: list[Step]) -> Range | None:
    """Movement of the gauge plane of a taper thread along the axis, positive where the gauge stands farther out."""
    if not thread.taper or pitch.min is None or pitch.max is None:
        return None
    places = _LIMIT_PLACES[thread.unit]
    moved = Range(half_even(-pitch.max / thread.taper, places), half_even(-pitch.min / thread.taper, places))
    steps.append(
        Step(
            "axial_movement.max",
            "half_even(-change / taper, places)",
            {"change": pitch.min, "taper": thread.taper, "places": places},
            moved.max,
            thread.unit,
            _GEOMETRY,
        )
    )
    return moved


def _factor_step(angle: Decimal, factor: Decimal | None) -> Step:
    formula = "half_even(2 / sin(rad(angle / 2)), 4)" if factor is not None else "2"
    return Step("flank_factor", formula, {"angle": angle}, factor or _ON_DIAMETER, "", _GEOMETRY)


def _change_steps(
    name: str, coefficient: Decimal | None, change: Range, build_up: Range, heat: Range, unit: Unit
) -> tuple[Step, Step]:
    k = coefficient or _ON_DIAMETER
    places = _CHANGE_PLACES[unit]
    low = {"growth": heat.min, "k": k, "build_up": build_up.max, "places": places}
    high = {"growth": heat.max, "k": k, "build_up": build_up.min, "places": places}
    return (
        Step(f"change.{name}.min", "down(growth - k * build_up, places)", low, change.min, unit, _GEOMETRY),
        Step(f"change.{name}.max", "up(growth - k * build_up, places)", high, change.max, unit, _GEOMETRY),
    )
