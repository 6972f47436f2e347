"""Chance that a tapped hole ends inside its limits: minor diameter from the drill, pitch diameter from the tap.

Hole: normal around the expected hole, never far below the drill. Tap: uniform over its own band, plus a normal cut
oversize. Coat: normal, its range read as plus or minus two standard deviations, the same on both diameters. Hole and
tap are independent. All of it in closed form; only the chance of both under a coat is a numerical integral.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from functools import partial
from typing import Literal, NamedTuple

from borewright.core.caches import cached
from borewright.core.derivation import WhenAsked, one_after_the_other
from borewright.core.finishing import coat_to_come
from borewright.core.model import MM_PER_INCH, Allowance, Notes, Range, Source, Step, Thread
from borewright.core.shop_figures.figures import Grouped, MeasuredCoat, MeasuredCut, MeasuredOversize, Scatter
from borewright.core.tapping.fit import general_tolerance

from . import distributions
from .distributions import Spread
from .made_sizes import NO_COAT, Aim, Setup, Tapping, aim, cut_size, hole_size, spread, steps

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


class AcceptanceRequest(NamedTuple):
    """What makes the sizes. Lengths in the thread's unit.

    ``hole_mean`` None = not known (reamed, formed, or no oversize data); ``tap_band`` None = no tap limits held;
    ``hole_sigma`` None = the table's; ``cut_oversize`` is the mean over the tap's own pitch diameter, negative behind a
    forming tap.
    """

    drill_diameter: Decimal
    hole_mean: Decimal | None
    tap_band: Range | None
    cut_oversize: Decimal
    tapping: Tapping = "rigid"
    setup: Setup = "usual"
    hole_sigma: Scatter | None = None
    measured_oversize: MeasuredOversize | None = None
    measured_cut: MeasuredCut | None = None
    measured_coat: MeasuredCoat | None = None


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
    """One diameter: its spread before a coat, what it must hold after it, the chance that it does."""

    size: Spread
    aim: Aim
    chance: float
    steps: Iterable[Step]


@cached(256)
def chance(thread: Thread, request: AcceptanceRequest, allowance: Allowance | None = None) -> Acceptance:
    """Chance that minor and pitch diameter end inside the limits of the finished thread.

    Args: ``allowance`` of the finish, None = bare; ``thread`` to be made; ``request`` drill, tap and how it is driven.

    Source: drilled_hole_spread and tapping_spread tables; FED-STD-H28/2B (1991) for the mean hole.
    """
    minor = minor_part(thread, request.drill_diameter, request.hole_mean, request.setup, allowance, request.hole_sigma)
    cut = request.measured_cut
    pitch = pitch_part(thread, request.tap_band, request.cut_oversize, request.tapping, allowance, cut)
    assumptions = ["limits of the finished thread, not of the gauges; sizes of hole and tap vary independently"]
    derivation = [part.steps for part in (minor, pitch) if part is not None]
    hole_source = _of_shop(_HOLE, request.measured_oversize)
    sources = [source for part, source in ((minor, hole_source), (pitch, _of_shop(_TAP, cut))) if part is not None]
    both = None
    if minor is not None and pitch is not None:
        both = _both(minor=minor, pitch=pitch)
        derivation.append(WhenAsked(_step_of_both, minor, pitch, both))
        sources.append(_BOTH)
    if coat_to_come(allowance) is not None and request.measured_coat is None:
        assumptions.append("range of the coat read as plus or minus two standard deviations around its middle")
    if pitch is not None and cut is None:
        assumptions.append(
            "spread of the cut oversize is 0.10 of the general-purpose class tolerance: replace by shop data"
        )
    return Acceptance(
        minor.chance if minor is not None else None,
        pitch.chance if pitch is not None else None,
        both,
        MODEL,
        Notes(tuple(assumptions), (), tuple(sources), one_after_the_other(*derivation)),
    )


def _of_shop(published: Source, measured: Grouped | None) -> Source:
    """The source of what a shop measured, in place of the published one."""
    if measured is None:
        return published
    return Source(published.field, "shop figures", measured.date or "", measured.told(), "measured")


@cached(256)
def minor_part(
    thread: Thread,
    drill_diameter: Decimal,
    hole_mean: Decimal | None,
    setup: Setup,
    allowance: Allowance | None,
    hole_sigma: Scatter | None = None,
) -> _Part | None:
    """The minor diameter of ``thread`` that a drill leaves, None where the spread of its holes is not known or a limit
    is missing.

    Args: ``drill_diameter``, ``hole_mean`` the mean of its holes and ``hole_sigma`` the shop's own standard deviation
        (None = the table's) in the thread's unit; ``setup`` of the drill; ``allowance`` of the finish, None = bare.
    Source: drilled_hole_spread table; FED-STD-H28/2B (1991) for the mean hole.
    """
    wanted = _aim(thread, allowance, "minor_diameter")
    if hole_mean is None or wanted is None:
        return None
    size = hole_size(drill_diameter, mean=hole_mean, unit=thread.unit, setup=setup, sigma=hole_sigma)
    return None if size is None else _part(thread, "minor_diameter", size, wanted)


@cached(128)
def hole_chance(
    thread: Thread, hole_mean: Decimal, allowance: Allowance | None = None, own_sigma: Scatter | None = None
) -> float | None:
    """Chance from 0 to 1 that a hole of ``hole_mean`` ends inside the limits of the minor diameter, None where it is
    not known.

    Args: ``own_sigma`` the shop's own standard deviation in the thread's unit, None = the table's; ``hole_mean`` in
        that unit; ``allowance`` of the finish, None = bare.
    Source: drilled_hole_spread table, by the hole's own diameter.
    """
    wanted = _aim(thread, allowance, "minor_diameter")
    unit = float(MM_PER_INCH) if thread.unit == "mm" else 1.0
    tabled = distributions.hole_sigma_in(float(hole_mean) / unit)
    sigma: Scatter | None = own_sigma if own_sigma is not None or tabled is None else tabled * unit
    if sigma is None or wanted is None:
        return None
    return wanted.chance(spread(float(hole_mean), sigma))


@cached(128)
def pitch_part(
    thread: Thread,
    tap_band: Range | None,
    cut_oversize: Decimal,
    tapping: Tapping,
    allowance: Allowance | None,
    measured: MeasuredCut | None = None,
) -> _Part | None:
    """The pitch diameter of ``thread`` that a tap makes, None where its limits or the thread's are not held.

    Args: ``tap_band`` limits of the tap and ``cut_oversize`` expected, in the thread's unit; ``tapping`` how the tap is
        driven; ``allowance`` of the finish, None = bare; ``measured`` the shop's own spread, None = the table's.
    Source: tapping_spread table (assumption: no statistics of cut oversize are published).
    """
    wanted, tolerance = _aim(thread, allowance, "pitch_diameter"), general_tolerance(thread)
    if wanted is None or tolerance is None or tap_band is None or tap_band.min is None or tap_band.max is None:
        return None
    size = cut_size(
        low=tap_band.min,
        high=tap_band.max,
        oversize=cut_oversize,
        tolerance=tolerance,
        tapping=tapping,
        measured=measured,
    )
    return _part(thread, "pitch_diameter", size, wanted)


# --- parts of the computation ------------------------------------------------------------------------


def _aim(thread: Thread, allowance: Allowance | None, name: Literal["minor_diameter", "pitch_diameter"]) -> Aim | None:
    """What the finished thread must hold: oversize for hot-dip zinc, else its own limits; none on a taper."""
    if thread.taper is not None:
        return None
    final = thread.internal if allowance is None or allowance.overtap is None else allowance.overtap.limits
    coat = coat_to_come(allowance)
    if name == "minor_diameter":
        return aim(final.minor_diameter, None if coat is None else coat.minor_diameter)
    return aim(final.pitch_diameter, None if coat is None else coat.pitch_diameter)


def _part(thread: Thread, name: str, size: Spread, wanted: Aim) -> _Part:
    value = wanted.chance(size)
    made = partial(steps, name, size, wanted, chance=value, unit=thread.unit, model=MODEL)
    return _Part(size, wanted, value, WhenAsked(made))


def _both(*, minor: _Part, pitch: _Part) -> float:
    """Chance of both: the product without a coat, else the mean of the products over the coat's thickness."""
    if pitch.aim.coat == NO_COAT:
        return minor.chance * pitch.chance
    value = 0.0
    for point, weight in distributions.normal_grid():
        value += weight * _at(minor, point) * _at(pitch, point)
    return value


def _step_of_both(minor: _Part, pitch: _Part, value: float) -> tuple[Step]:
    if pitch.aim.coat == NO_COAT:
        inputs = {"a": minor.chance, "b": pitch.chance}
        return (Step("both", "a * b", inputs, value, "", "probability of independent events"),)
    names: list[str] = []
    inputs = {}
    for count, (point, weight) in enumerate(distributions.normal_grid()):
        inputs |= {f"w{count}": weight, f"a{count}": _at(minor, point), f"b{count}": _at(pitch, point)}
        names.append(f"w{count} * a{count} * b{count}")
    return (Step("both", " + ".join(names), inputs, value, "", "integral over the coat, trapezoid rule"),)


def _at(part: _Part, point: float) -> float:
    """Chance of one diameter under a coat that many standard deviations thicker than its mean."""
    wanted = part.aim
    return part.size.within(low=wanted.low, high=wanted.high, shift=wanted.coat[0] - point * wanted.coat[1])
