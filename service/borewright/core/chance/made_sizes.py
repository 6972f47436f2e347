"""Sizes that a drill and a tap make, the limits they must hold after a coat, and the chance that they do.

Shared by the choice of the drill, the choice of the tap and the chance of acceptance of the whole hole.
"""

from __future__ import annotations

import re
from decimal import Decimal
from math import inf, sqrt
from typing import Literal, NamedTuple

from borewright.core.model import MM_PER_INCH, Range, Step, Unit
from borewright.core.practice import number
from borewright.core.shop_figures.figures import MeasuredCut, Scatter

from . import distributions
from .distributions import Spread

Tapping = Literal["rigid", "floating", "hand"]
Setup = Literal["usual", "poor", "guided"]

NO_COAT = (0.0, 0.0)
#: Share of holes inside the limits below which a drill is cautioned about.
CLEARLY_LOW = number("low_acceptance")


class Aim(NamedTuple):
    """Limits of a finished size, infinite where open, and what a coat does to it: mean and standard deviation."""

    low: float
    high: float
    coat: tuple[float, float] = NO_COAT

    def finished(self, size: Spread) -> Spread:
        """The size after its coat."""
        return size if self.coat == NO_COAT else size.moved(mean=self.coat[0], sigma=self.coat[1])

    def chance(self, size: Spread) -> float:
        """Chance from 0 to 1 that a size as made ends inside the limits after its coat."""
        return self.finished(size).within(low=self.low, high=self.high)


def aim(limits: Range, coat: Range | None = None) -> Aim | None:
    """Limits with a coat whose range is read as plus or minus two standard deviations; None where both ends are open.

    Args: ``limits`` of the finished size; ``coat`` its change by the coat, negative where it shrinks.
    Source: tapping_spread table (standard deviations in the range of a coat).
    """
    if limits.min is None and limits.max is None:
        return None
    low = -inf if limits.min is None else float(limits.min)
    high = inf if limits.max is None else float(limits.max)
    if coat is None:
        return Aim(low, high)
    thin, thick = float(coat.min or 0), float(coat.max or 0)
    return Aim(low, high, ((thin + thick) / 2, abs(thick - thin) / distributions.factor("coat_sigmas")))


def hole_size(
    drill: Decimal, *, mean: Decimal, unit: Unit, setup: Setup = "usual", sigma: Scatter | None = None
) -> Spread | None:
    """The holes that a drill makes: normal around their mean, never far below the drill; None beyond the table.

    Args: ``drill`` diameter and ``mean`` hole in ``unit``; ``sigma`` the shop's own in ``unit``, None = the table's;
        ``setup`` of the drill.
    Source: drilled_hole_spread table.
    """
    scale = float(MM_PER_INCH) if unit == "mm" else 1.0
    if sigma is not None:
        return spread(float(mean), sigma)
    tabled = distributions.hole_sigma_in(float(drill) / scale)
    if tabled is None:
        return None
    floor = float(drill) - distributions.factor("hole_truncation_in") * scale
    return Spread(float(mean), tabled * distributions.factor(f"setup_{setup}") * scale, 0.0, floor)


def spread(mean: float, sigma: Scatter) -> Spread:
    """A size around ``mean`` with the standard deviation ``sigma``, or several that share the pieces equally."""
    if isinstance(sigma, tuple):
        return Spread(mean, sqrt(sum(one * one for one in sigma) / len(sigma)), nodes=sigma)
    return Spread(mean, sigma)


def cut_size(
    *,
    low: Decimal,
    high: Decimal,
    oversize: Decimal,
    tolerance: Decimal,
    tapping: Tapping = "rigid",
    measured: MeasuredCut | None = None,
) -> Spread:
    """The pitch diameters that a tap makes: uniform over its own limits, plus a normal oversize of the cut.

    Args: ``low`` and ``high`` of the tap; ``tolerance`` of the general-purpose class; all in one unit; ``oversize`` of
        the cut on the average; ``tapping`` how the tap is driven; ``measured`` by the shop itself.
    Source: tapping_spread table (assumption: no statistics of cut oversize are published).
    """
    sigma = distributions.factor("pitch_sigma_share") * float(tolerance)
    if tapping != "rigid":
        sigma *= distributions.factor("pitch_sigma_floating")
    least, most = float(low), float(high)
    if measured is not None:
        made = spread((least + most) / 2 + float(oversize), measured.scatter(float(tolerance)))
        return made._replace(width=most - least) if measured.taps_measured else made
    return Spread((least + most) / 2 + float(oversize), sigma, most - least)


def steps(name: str, size: Spread, wanted: Aim, *, chance: float, unit: str, model: str) -> tuple[Step, ...]:
    """How the ``chance`` of one ``size`` is worked out: the coat added, then the distribution between the limits.

    Args: ``name`` of the size in the reply; ``wanted`` limits and coat; ``unit`` of both; ``model`` named as the
        source.
    """
    moved = wanted.finished(size)
    found: list[Step] = []
    if wanted.coat != NO_COAT:
        centre, mixed = {"m": size.mean, "c": wanted.coat[0]}, {"s": size.sigma, "c": wanted.coat[1]}
        found += (
            Step(f"{name}.mean", "m + c", centre, moved.mean, unit, "coat added"),
            Step(f"{name}.sigma", "sqrt(s ** 2 + c ** 2)", mixed, moved.sigma, unit, "variances added"),
        )
    formula, inputs = _formula(moved, wanted)
    found.append(Step(name, formula, inputs, chance, "", model))
    return tuple(found)


def _formula(size: Spread, wanted: Aim) -> tuple[str, dict[str, object]]:
    if size.nodes:
        return _mean_formula(size, wanted)
    inputs: dict[str, object] = {"m": size.mean, "s": size.sigma}
    lower, upper, under = "0", "1", "low"
    if size.width > 0:
        inputs["w"] = size.width
    if size.floor != -inf:
        inputs["floor"] = size.floor
        lower, under = _below("floor", size), "max(low, floor)"
    if wanted.low != -inf:
        inputs["low"] = wanted.low
        lower = _below(under, size)
    if wanted.high != inf:
        inputs["high"] = wanted.high
        upper = _below("high", size)
    formula = f"max({upper} - {lower}, 0)"
    return (formula if size.floor == -inf else f"{formula} / (1 - cdf((floor - m) / s))"), inputs


def _mean_formula(size: Spread, wanted: Aim) -> tuple[str, dict[str, object]]:
    """The mean of the formulas of normal sizes, each with a standard deviation of its own."""
    inputs: dict[str, object] = {}
    parts: list[str] = []
    for place, one in enumerate(size.curves(), 1):
        formula, named = _formula(one, wanted)
        parts.append(re.sub(r"\bs\b", f"s{place}", formula))
        inputs |= {f"s{place}" if name == "s" else name: value for name, value in named.items()}
    return f"({' + '.join(parts)}) / {len(parts)}", inputs


def _below(limit: str, size: Spread) -> str:
    """Formula of the chance to be below a limit."""
    if size.width == 0:
        return f"cdf(({limit} - m) / s)"
    one, other = f"(({limit} - m + w / 2) / s)", f"(({limit} - m - w / 2) / s)"
    return f"s / w * ({one} * cdf{one} + pdf{one} - {other} * cdf{other} - pdf{other})"
