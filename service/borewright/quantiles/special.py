"""Quantiles by scipy.special, which is loaded with the first fit of a shop's figures and by nothing else."""

from __future__ import annotations

from scipy import special

from borewright.core.shop_figures.quantiles import Count


class SpecialFunctions:
    """Quantiles as the fit of a shop's figures asks for them."""

    def student_t(self, chance: float, *, freedom: Count) -> float:
        """Quantile of Student's t."""
        return float(special.stdtrit(freedom, chance))

    def chi_square(self, chance: float, *, freedom: Count) -> float:
        """Quantile of chi-square."""
        return float(special.chdtri(freedom, 1 - chance))

    def beta(self, chance: float, *, good: Count, bad: Count) -> float:
        """Quantile of the beta distribution, a share from 0 to 1."""
        return float(special.betaincinv(good, bad, chance))

    def gamma(self, chance: float, *, shape: Count) -> float:
        """Quantile of the gamma distribution of rate 1."""
        return float(special.gammaincinv(shape, chance))


QUANTILES = SpecialFunctions()
