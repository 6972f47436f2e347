"""Chance that a tapped hole ends inside its limits: minor diameter from the drill, pitch diameter from the tap.

Hole: normal around the expected hole, never far below the drill. Tap: uniform over its own band, plus a normal cut
oversize. Coat: normal, its range read as plus or minus two standard deviations, the same on both diameters. Hole and
tap are independent. All of it in closed form; only the chance of both under a coat is a numerical integral.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from math import inf
from typing import Literal

from . import spread
from .model import MM_PER_INCH, Allowance, Notes, Range, Source, Step, Thread
from .spread import Spread
from .tapping.fit import general_tolerance

Setup = Literal["usual", "poor", "guided"]

MODEL = (
    "hole normal around drill plus mean oversize; tap uniform over its limits plus normal cut oversize; coat normal;"
    " hole and tap independent"
)
_HOLE = Source(
    "minor_diameter", "drilled-hole spread", "", "sigma derived in three ways, mean oversize FED-STD-H28/2B", "computed"
)
_TAP = Source(
    "pitch_diameter",
    "common practice",
    "",
    "cut oversize of a tap: assumption, no statistics published",
    "common_practice",
)
_BOTH = Source("both", "probability", "", "hole and tap independent, coat common to both", "computed")
_NO_COAT = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class AcceptanceRequest:
    """What makes the sizes. Lengths in the thread's unit.

    ``hole_mean`` None = not known (reamed, formed, or no oversize data); ``tap_band`` None = no tap limits held;
    ``cut_oversize`` is the mean over the tap's own pitch diameter, negative behind a forming tap.
    """

    drill_diameter: Decimal
    hole_mean: Decimal | None
    tap_band: Range | None
    cut_oversize: Decimal
    tapping: Literal["rigid", "floating", "hand"] = "rigid"
    setup: Setup = "usual"


@dataclass(frozen=True, slots=True, eq=False)
class Acceptance:
    """Chances from 0 to 1, None where a distribution is not known."""

    minor_diameter: float | None
    pitch_diameter: float | None
    both: float | None
    model: str
    notes: Notes


@dataclass(frozen=True, slots=True, eq=False)
class _Part:
    """One diameter: its spread before a coat, its limits after it, mean and sigma of the coat's effect, the chance."""

    size: Spread
    low: float
    high: float
    coat: tuple[float, float]
    chance: float
    steps: tuple[Step, ...]


@lru_cache(4096)
def chance(thread: Thread, request: AcceptanceRequest, allowance: Allowance | None = None) -> Acceptance:
    """Chance that minor and pitch diameter end inside the limits of the finished thread.

    Args: ``allowance`` of the finish, None = bare.

    Source: drilled_hole_spread and tapping_spread tables; FED-STD-H28/2B (1991) for the mean hole.
    """
    minor = minor_part(thread, request.drill_diameter, request.hole_mean, request.setup, allowance)
    pitch = pitch_part(thread, request.tap_band, request.cut_oversize, request.tapping, allowance)
    assumptions = ["limits of the finished thread, not of the gauges; sizes of hole and tap vary independently"]
    steps = [step for part in (minor, pitch) if part is not None for step in part.steps]
    sources = [source for part, source in ((minor, _HOLE), (pitch, _TAP)) if part is not None]
    both = None
    if minor is not None and pitch is not None:
        both, step = _both(minor=minor, pitch=pitch)
        steps.append(step)
        sources.append(_BOTH)
    if allowance is not None and _coated(allowance):
        assumptions.append("range of the coat read as plus or minus two standard deviations around its middle")
    if pitch is not None:
        assumptions.append(
            "spread of the cut oversize is 0.10 of the general-purpose class tolerance: replace by shop data"
        )
    return Acceptance(
        minor.chance if minor is not None else None,
        pitch.chance if pitch is not None else None,
        both,
        MODEL,
        Notes(tuple(assumptions), (), tuple(sources), tuple(steps)),
    )


@lru_cache(4096)
def minor_part(
    thread: Thread, drill_diameter: Decimal, hole_mean: Decimal | None, setup: Setup, allowance: Allowance | None
) -> _Part | None:
    """The minor diameter that a drill leaves, None where the spread of its holes is not known or a limit is missing.

    Source: drilled_hole_spread table; FED-STD-H28/2B (1991) for the mean hole.
    """
    limits = _limits(thread, allowance, "minor_diameter")
    unit = float(MM_PER_INCH) if thread.unit == "mm" else 1.0
    sigma = spread.hole_sigma_in(float(drill_diameter) / unit)
    if hole_mean is None or sigma is None or limits == Range(None, None) or thread.taper is not None:
        return None
    spread_of_setup = spread.factor(f"setup_{setup}")
    floor = float(drill_diameter) - spread.factor("hole_truncation_in") * unit
    size = Spread(float(hole_mean), sigma * spread_of_setup * unit, 0.0, floor)
    return _part(thread, "minor_diameter", size, limits, allowance)


def hole_chance(thread: Thread, hole_mean: Decimal, allowance: Allowance | None = None) -> float | None:
    """Chance that a hole of that mean ends inside the limits of the minor diameter, None where it is not known.

    Source: drilled_hole_spread table, by the hole's own diameter.
    """
    limits = _limits(thread, allowance, "minor_diameter")
    unit = float(MM_PER_INCH) if thread.unit == "mm" else 1.0
    sigma = spread.hole_sigma_in(float(hole_mean) / unit)
    if sigma is None or limits == Range(None, None) or thread.taper is not None:
        return None
    size = Spread(float(hole_mean), sigma * unit)
    return _part(thread, "minor_diameter", size, limits, allowance).chance


@lru_cache(4096)
def pitch_part(
    thread: Thread,
    tap_band: Range | None,
    cut_oversize: Decimal,
    tapping: Literal["rigid", "floating", "hand"],
    allowance: Allowance | None,
) -> _Part | None:
    """The pitch diameter that a tap makes, None where its limits or the thread's are not held.

    Source: tapping_spread table (assumption: no statistics of cut oversize are published).
    """
    limits = _limits(thread, allowance, "pitch_diameter")
    tolerance = general_tolerance(thread)
    if (
        tap_band is None
        or tap_band.min is None
        or tap_band.max is None
        or tolerance is None
        or thread.taper is not None
    ):
        return None
    sigma = spread.factor("pitch_sigma_share") * float(tolerance)
    if tapping != "rigid":
        sigma *= spread.factor("pitch_sigma_floating")
    low, high = float(tap_band.min), float(tap_band.max)
    size = Spread((low + high) / 2 + float(cut_oversize), sigma, high - low)
    return _part(thread, "pitch_diameter", size, limits, allowance)


# --- parts of the computation ------------------------------------------------------------------------


def _coated(allowance: Allowance) -> bool:
    return allowance.feasible and allowance.overtap is None and allowance.finish.applied == "before_finish"


def _limits(thread: Thread, allowance: Allowance | None, name: Literal["minor_diameter", "pitch_diameter"]) -> Range:
    """Limits that the finished thread must hold: oversize for hot-dip zinc, else the thread's own."""
    final = thread.internal if allowance is None or allowance.overtap is None else allowance.overtap.limits
    return final.minor_diameter if name == "minor_diameter" else final.pitch_diameter


def _coat(allowance: Allowance | None, name: str) -> tuple[float, float]:
    """Mean and standard deviation of what the coat does to a diameter (negative: it shrinks)."""
    if allowance is None or not _coated(allowance):
        return _NO_COAT
    change = allowance.change.minor_diameter if name == "minor_diameter" else allowance.change.pitch_diameter
    low, high = float(change.min or 0), float(change.max or 0)
    return (low + high) / 2, abs(high - low) / spread.factor("coat_sigmas")


def _part(
    thread: Thread,
    name: Literal["minor_diameter", "pitch_diameter"],
    size: Spread,
    limits: Range,
    allowance: Allowance | None,
) -> _Part:
    coat = _coat(allowance, name)
    moved = size if coat == _NO_COAT else size.moved(mean=coat[0], sigma=coat[1])
    low = -inf if limits.min is None else float(limits.min)
    high = inf if limits.max is None else float(limits.max)
    value = moved.within(low=low, high=high)
    return _Part(size, low, high, coat, value, _steps(thread, name, coat, limits, value, moved=moved, size=size))


def _both(*, minor: _Part, pitch: _Part) -> tuple[float, Step]:
    """Chance of both: the product without a coat, else the mean of the products over the coat's thickness."""
    source = "probability of independent events"
    if minor.coat == _NO_COAT and pitch.coat == _NO_COAT:
        value = minor.chance * pitch.chance
        return value, Step("both", "a * b", {"a": minor.chance, "b": pitch.chance}, value, "", source)
    names: list[str] = []
    inputs: dict[str, float] = {}
    value = 0.0
    for count, (point, weight) in enumerate(spread.normal_grid()):
        one = minor.size.within(low=minor.low, high=minor.high, shift=minor.coat[0] - point * minor.coat[1])
        other = pitch.size.within(low=pitch.low, high=pitch.high, shift=pitch.coat[0] - point * pitch.coat[1])
        value += weight * one * other
        inputs |= {f"w{count}": weight, f"a{count}": one, f"b{count}": other}
        names.append(f"w{count} * a{count} * b{count}")
    return value, Step("both", " + ".join(names), inputs, value, "", "integral over the coat, trapezoid rule")


def _steps(
    thread: Thread, name: str, coat: tuple[float, float], limits: Range, value: float, *, moved: Spread, size: Spread
) -> tuple[Step, ...]:
    """How the chance of one diameter is worked out."""
    found: list[Step] = []
    inputs: dict[str, object] = {"m": moved.mean, "s": moved.sigma}
    if coat != _NO_COAT:
        centre = {"m": size.mean, "c": coat[0]}
        mixed = {"s": size.sigma, "c": coat[1]}
        found += (
            Step(f"{name}.mean", "m + c", centre, moved.mean, thread.unit, "coat added"),
            Step(f"{name}.sigma", "sqrt(s ** 2 + c ** 2)", mixed, moved.sigma, thread.unit, "variances added"),
        )
    lower, upper, under = "0", "1", "low"
    if moved.width > 0:
        inputs["w"] = moved.width
    if moved.floor != -inf:
        inputs["floor"] = moved.floor
        lower, under = _below("floor", moved), "max(low, floor)"
    if limits.min is not None:
        inputs["low"] = float(limits.min)
        lower = _below(under, moved)
    if limits.max is not None:
        inputs["high"] = float(limits.max)
        upper = _below("high", moved)
    formula = f"max({upper} - {lower}, 0)"
    if moved.floor != -inf:
        formula += " / (1 - cdf((floor - m) / s))"
    found.append(Step(name, formula, inputs, value, "", MODEL))
    return tuple(found)


def _below(limit: str, size: Spread) -> str:
    """Formula of the chance to be below a limit."""
    if size.width == 0:
        return f"cdf(({limit} - m) / s)"
    one, other = f"(({limit} - m + w / 2) / s)", f"(({limit} - m - w / 2) / s)"
    return f"s / w * ({one} * cdf{one} + pdf{one} - {other} * cdf{other} - pdf{other})"
