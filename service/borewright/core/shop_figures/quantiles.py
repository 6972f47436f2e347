"""What the fit asks of a library of distributions: the domain has none of its own."""

from __future__ import annotations

from typing import Protocol

#: A count of pieces or of degrees of freedom: of pieces that are alike it may be a fraction.
Count = float


class Quantiles(Protocol):
    """Quantiles of the distributions that the fit needs; each takes the chance, from 0 to 1, to lie below."""

    def student_t(self, chance: float, *, freedom: Count) -> float:
        """Quantile at ``chance`` of Student's t of that ``freedom``, a ratio."""

    def chi_square(self, chance: float, *, freedom: Count) -> float:
        """Quantile at ``chance`` of chi-square of that ``freedom``, a ratio."""

    def beta(self, chance: float, *, good: Count, bad: Count) -> float:
        """Quantile at ``chance`` of the beta distribution with the parameters ``good`` and ``bad``, a share from 0
        to 1.
        """

    def gamma(self, chance: float, *, shape: Count) -> float:
        """Quantile at ``chance`` of the gamma distribution of ``shape`` and rate 1, a count."""


def variance_ratio(quantiles: Quantiles, chance: float, *, between: Count, within: Count) -> float:
    """Quantile at ``chance`` of Fisher's ratio of variances, of ``between`` and ``within`` degrees of freedom, by the
    beta quantile of ``quantiles``.

    Source: F = within x / (between (1 - x)) with x of the beta distribution (between/2, within/2).
    """
    x = quantiles.beta(chance, good=between / 2, bad=within / 2)
    return within * x / (between * (1 - x))
