"""Distributions behind the chance of acceptance: normal, truncated normal, uniform plus normal, in closed form."""

from __future__ import annotations

from math import erf, exp, inf, pi, sqrt
from typing import NamedTuple

from borewright import tables
from borewright.core.caches import read_once

_ROOT_2 = sqrt(2)
_ROOT_2_PI = sqrt(2 * pi)
#: Deviations from the mean beyond which a float holds nothing of the normal curve (1e-19).
_FAR = 9.0


def cdf(z: float) -> float:
    """Chance from 0 to 1 that a standard normal variable stays below ``z`` deviations.

    Source: (1 + erf(z / sqrt 2)) / 2.
    """
    return (1 + erf(z / _ROOT_2)) / 2


def pdf(z: float) -> float:
    """Standard normal density at ``z``, a share a deviation.

    Source: exp(-z^2 / 2) / sqrt(2 pi).
    """
    return exp(-z * z / 2) / _ROOT_2_PI


class Spread(NamedTuple):
    """A size: normal of ``mean`` and ``sigma``, plus a uniform band of ``width`` centred on zero.

    A purely normal size may have a ``floor`` below which it never falls. ``nodes`` are standard deviations that share
    the pieces equally, where ``sigma`` itself is known from few of them. All in one unit of length.
    """

    mean: float
    sigma: float
    width: float = 0.0
    floor: float = -inf
    nodes: tuple[float, ...] = ()

    def within(self, *, low: float, high: float, shift: float = 0.0) -> float:
        """Chance from 0 to 1 that the size, moved by ``shift``, is from ``low`` to ``high``; either may be infinite."""
        if self.nodes:
            return sum(one.within(low=low, high=high, shift=shift) for one in self.curves()) / len(self.nodes)
        return max(self._below(high - shift) - self._below(low - shift), 0.0)

    def curves(self) -> tuple[Spread, ...]:
        """The size as normal ones, each of an equal share of the pieces."""
        if not self.nodes:
            return (self,)
        return tuple(self._replace(sigma=sigma, nodes=()) for sigma in self.nodes)

    def moved(self, *, mean: float, sigma: float) -> Spread:
        """The size with an independent normal change of ``mean`` and ``sigma``, in its unit, on it; a floor, which is
        far off, is dropped.
        """
        nodes = tuple(sqrt(one**2 + sigma**2) for one in self.nodes)
        return Spread(self.mean + mean, sqrt(self.sigma**2 + sigma**2), self.width, nodes=nodes)

    def _below(self, limit: float) -> float:
        if self.width > 0:
            return self._uniform_below(limit)
        if self.sigma == 0:
            return 1.0 if limit >= self.mean else 0.0
        value = cdf((limit - self.mean) / self.sigma)
        cut = cdf((self.floor - self.mean) / self.sigma)
        return max(value - cut, 0.0) / (1 - cut)

    def _uniform_below(self, limit: float) -> float:
        """Distribution of uniform plus normal: sigma/width (psi(za) - psi(zb)), psi(z) = z cdf(z) + pdf(z)."""
        low = limit - self.mean + self.width / 2
        high = low - self.width
        if high >= _FAR * self.sigma or low <= -_FAR * self.sigma:
            return 1.0 if high >= 0 else 0.0
        if self.sigma == 0:
            return low / self.width
        return self.sigma / self.width * (_psi(low / self.sigma) - _psi(high / self.sigma))


def _psi(z: float) -> float:
    return z * cdf(z) + pdf(z)


@read_once
def normal_grid() -> tuple[tuple[float, float], ...]:
    """Points in deviations and weights, shares of one, that integrate over a standard normal variable: trapezoid rule
    from -4 to 4 in halves.

    Source: numerical integration; exact to 1e-4 for what is smooth over half a standard deviation.
    """
    points = [step / 2 for step in range(-8, 9)]
    weights = [pdf(point) for point in points]
    total = sum(weights)
    return tuple((point, weight / total) for point, weight in zip(points, weights, strict=True))


@read_once
def factor(name: str) -> float:
    """The factor ``name`` of the acceptance model.

    Source: tapping_spread table.
    """
    return next(float(row["value"]) for row in tables.load("tapping_spread").rows if row["factor"] == name)


def hole_sigma_in(diameter_in: float) -> float | None:
    """Standard deviation of a hole drilled with ``diameter_in``, in inches: the row of the next larger drill, None
    beyond 1 in.

    Source: drilled_hole_spread table (derived in three ways).
    """
    return next((sigma for size, sigma in hole_bands() if diameter_in <= size), None)


@read_once
def hole_bands() -> tuple[tuple[float, float], ...]:
    """Largest drill of each band and the standard deviation of its holes, both in inches.

    Source: drilled_hole_spread table.
    """
    return tuple((float(row["to_in"]), float(row["sigma_in"])) for row in tables.load("drilled_hole_spread").rows)
