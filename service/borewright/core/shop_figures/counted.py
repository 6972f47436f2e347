"""Figures that are counts: taps that broke, threads that their gauges refused."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate
from math import exp, log, sqrt
from statistics import NormalDist
from typing import NamedTuple

from borewright.core.chance.distributions import cdf
from borewright.core.practice import count

from .normal_fit import Interval, Prior
from .quantiles import Quantiles

#: Half a count is added on each side where nothing is known before.
_JEFFREYS = 0.5
#: Points of the grid: means within four deviations of the published one, standard deviations by their logarithm.
_MEANS, _SIGMAS = count("shop_grid_means"), count("shop_grid_sigmas")
_REACH = 4.0
_SMALLEST, _LARGEST = log(0.1), log(10)


@dataclass(frozen=True, slots=True)
class Breakage:
    """Taps that break a hole: the ``median`` and where it lies, the exact upper end, and the next holes."""

    median: float
    interval: Interval
    exact_upper: float
    chance_of_a_break: float
    expected_breaks: float


def breakage(*, holes: int, broken: int, next_holes: int, quantiles: Quantiles, chance: float) -> Breakage:
    """How often a tap breaks, a rate a hole, after ``broken`` taps in ``holes`` threads.

    Args: ``next_holes`` threads to come; ``chance`` from 0 to 1 of the interval, and of the one-sided exact end where
        half of what is outside lies above it; ``quantiles`` of the library. No rate is invented beforehand.
    Source: Jeffreys prior of a Poisson rate; exact Poisson limit by gamma.
    """
    shape, tail = broken + _JEFFREYS, (1 - chance) / 2
    low = quantiles.gamma(tail, shape=shape) / holes if broken else 0.0
    return Breakage(
        quantiles.gamma(0.5, shape=shape) / holes,
        Interval(low, quantiles.gamma(1 - tail, shape=shape) / holes),
        quantiles.gamma(1 - tail, shape=broken + 1) / holes,
        1 - (holes / (holes + next_holes)) ** shape,
        shape * next_holes / holes,
    )


@dataclass(frozen=True, slots=True)
class Share:
    """A share of bad pieces, from 0 to 1: counted, where it lies, and its exact upper end."""

    counted: float
    interval: Interval
    exact_upper: float


def share_bad(*, bad: int, checked: int, quantiles: Quantiles, chance: float) -> Share:
    """The share, from 0 to 1, of ``bad`` pieces among ``checked`` ones.

    Args: ``chance`` from 0 to 1 of the interval, and of the one-sided exact end; ``quantiles`` of the library.
    Source: Jeffreys prior of a share; Clopper and Pearson for the exact end.
    """
    tail, good = (1 - chance) / 2, checked - bad
    shape = {"good": bad + _JEFFREYS, "bad": good + _JEFFREYS}
    low = quantiles.beta(tail, **shape) if bad else 0.0
    high = quantiles.beta(1 - tail, **shape) if good else 1.0
    return Share(bad / checked, Interval(low, high), _exact_end(1 - tail, bad + 1, good, quantiles))


def exact_share(*, bad: int, checked: int, quantiles: Quantiles, chance: float) -> Interval:
    """Exact ends at ``chance``, from 0 to 1, of a share of ``bad`` among ``checked`` by ``quantiles``. Source: Clopper
    and Pearson.
    """
    tail = (1 - chance) / 2
    low = quantiles.beta(tail, good=bad, bad=checked - bad + 1) if bad else 0.0
    return Interval(low, _exact_end(1 - tail, bad + 1, checked - bad, quantiles))


def _exact_end(chance: float, bad: int, good: int, quantiles: Quantiles) -> float:
    return quantiles.beta(chance, good=bad, bad=good) if good else 1.0


class Gauged(NamedTuple):
    """Pieces ``checked`` by GO and NOT GO, whose sizes, not the thread's, are ``low`` and ``high``."""

    checked: int
    go_refused: int
    not_go_entered: int
    low: float
    high: float

    @property
    def bad(self) -> int:
        """Pieces that one of the two refused."""
        return self.go_refused + self.not_go_entered


def probit(counts: Gauged) -> tuple[float, float] | None:
    """Mean and sigma, in the unit of the gauges, that ``counts`` alone tell; None where a count is nothing.

    Source: quantiles of the normal distribution at the shares refused.
    """
    if not counts.go_refused or not counts.not_go_entered or counts.bad >= counts.checked:
        return None
    normal = NormalDist()
    below = normal.inv_cdf(counts.go_refused / counts.checked)
    above = normal.inv_cdf(1 - counts.not_go_entered / counts.checked)
    sigma = (counts.high - counts.low) / (above - below)
    return counts.low - sigma * below, sigma


def share_inside(counts: Gauged, prior: Prior, chance: float) -> Interval:
    """Where the share, from 0 to 1, inside the gauges lies at ``chance`` after ``counts`` and the published ``prior``.

    Counts tell that share; they do not tell the mean and the spread that it comes of, so neither is given.

    Source: grid of mean and standard deviation, their priors times the multinomial chance of the counts.
    """
    weighed = sorted(_on_grid(counts, prior))
    total = sum(weight for _, weight in weighed)
    return Interval(_reached(weighed, total * (1 - chance) / 2), _reached(weighed, total * (1 + chance) / 2))


def _on_grid(counts: Gauged, prior: Prior) -> list[tuple[float, float]]:
    """The share inside at each point of the grid and the logarithm of its weight, made a weight."""
    inside = counts.checked - counts.bad
    found: list[tuple[float, float]] = []
    for step in range(_SIGMAS):
        ratio = exp(_SMALLEST + step * (_LARGEST - _SMALLEST) / (_SIGMAS - 1))
        sigma = ratio * prior.sigma
        of_sigma = -prior.freedom * log(ratio) - prior.freedom / (2 * ratio**2)
        for place in range(_MEANS):
            z = _REACH * (2 * place / (_MEANS - 1) - 1)
            mean = prior.mean + z * prior.tau
            under, over = cdf((counts.low - mean) / sigma), cdf((mean - counts.high) / sigma)
            weight = of_sigma - z * z / 2 + _log_share(counts.go_refused, under)
            good = max(1 - under - over, 0.0)
            found.append((good, weight + _log_share(counts.not_go_entered, over) + _log_share(inside, good)))
    most = max(weight for _, weight in found)
    return [(share, exp(weight - most)) for share, weight in found]


def _log_share(pieces: int, share: float) -> float:
    return pieces * log(max(share, 1e-300))


def _reached(weighed: list[tuple[float, float]], wanted: float) -> float:
    gathered = accumulate(weight for _, weight in weighed)
    return next(share for (share, _), weight in zip(weighed, gathered, strict=True) if weight >= wanted)


def pieces_without_failure(*, good_share_ratio: float, chance: float) -> int:
    """How many pieces without one failure prove a share of good ones, ``good_share_ratio``, by ``chance``; both are
    ratios from 0 to 1.

    Source: success run, ln(1 - C)/ln R.
    """
    exact = log(1 - chance) / log(good_share_ratio)
    return int(exact) + (exact > int(exact))


def band_deviation(*, step_value: float) -> float:
    """Standard uncertainty of a reading, or of a pin gauge, in steps of ``step_value``, in its unit. Source: JCGM 100
    4.3.7, a rectangle.
    """
    return step_value / sqrt(12)
