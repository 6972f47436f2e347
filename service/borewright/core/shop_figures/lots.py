"""Whether what was measured is one lot: pieces that are alike, lists that are two, values that lie outside."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from itertools import accumulate
from math import inf, sqrt
from typing import NamedTuple

from borewright.core.practice import count, number

from .quantiles import Count, Quantiles, variance_ratio

#: How alike the parts of a batch are taken to be where the batches do not tell, and how sure they must be of less.
_ALIKE, _SURE_OF_LESS = number("shop_batch_alike"), number("shop_batch_certainty")
#: Fewest values of which one can be said to lie outside, and the chance that a good list has one.
LEAST_FOR_OUTLIERS = count("shop_least_for_outliers")
OUTLIER_CHANCE = number("shop_outlier_chance")
_ONE_OUTLIER_OF = count("shop_outlier_of_values")
#: Chance that one population is said to be several.
_TWO_LOTS_CHANCE = number("shop_two_lots_chance")
#: Fewest values each of two heaps has, and how far apart they lie, in their own standard deviations.
_LEAST_IN_HEAP, _HEAPS_APART = count("shop_least_in_heap"), number("shop_heaps_apart")


class Alike(NamedTuple):
    """How alike the pieces of a batch are, from 0 to 1, and how many independent pieces they stand for."""

    within_batch: float
    effective: Count


def effective_pieces(batches: Sequence[Sequence[float]], quantiles: Quantiles) -> Alike:
    """How many independent pieces the values of ``batches``, in one unit, stand for; ``quantiles`` of the library.

    A few batches tell too little of how alike their parts are. What they tell is taken where it is more than the half;
    less than the half only as far as its upper end says so.

    Source: intraclass correlation of one-way analysis of variance and its limit by Fisher's ratio;
    n / (1 + (m - 1) icc).
    """
    n, m = sum(len(batch) for batch in batches), sum(len(batch) for batch in batches) / len(batches)
    icc = _ALIKE
    if 1 < len(batches) < n:
        between, within = _mean_squares(batches)
        below = variance_ratio(quantiles, _SURE_OF_LESS, between=n - len(batches), within=len(batches) - 1)
        icc = max(_share_of_batch(between, within, m), min(_ALIKE, _share_of_batch(between * below, within, m)))
    return Alike(icc, n / (1 + (m - 1) * icc))


def _share_of_batch(between: float, within: float, parts: float) -> float:
    """The share of the variance that lies between batches of so many ``parts``, by its mean squares."""
    of_batch = max(between - within, 0.0)
    return of_batch / (of_batch + parts * within) if of_batch > 0 else 0.0


def _mean_squares(lots: Sequence[Sequence[float]]) -> tuple[float, float]:
    """Mean squares between lots and within them."""
    n = sum(len(lot) for lot in lots)
    with_means = [(lot, sum(sorted(lot)) / len(lot)) for lot in lots]
    grand = sum(sorted(value for lot in lots for value in lot)) / n
    between = sum(len(lot) * (mean - grand) ** 2 for lot, mean in with_means) / (len(lots) - 1)
    within = sum((value - mean) ** 2 for lot, mean in with_means for value in lot) / (n - len(lots))
    return between, within


def differ(lots: Sequence[Sequence[float]], quantiles: Quantiles) -> bool:
    """Whether ``lots`` of values, each in the same unit, are not one population; ``quantiles`` of the library.

    Source: analysis of variance at one in a hundred.
    """
    n = sum(len(lot) for lot in lots)
    if len(lots) < 2 or n <= len(lots) + 1:
        return False
    between, within = _mean_squares(lots)
    if within == 0:
        return between > 0
    limit = variance_ratio(quantiles, 1 - _TWO_LOTS_CHANCE, between=len(lots) - 1, within=n - len(lots))
    return between / within > limit


def two_heaps(values: Sequence[float]) -> bool:
    """Whether ``values``, in one unit, lie in two heaps that are far apart.

    Source: our own: the best split of the ordered values against the spread inside its halves.
    """
    middle = sum(sorted(values)) / len(values)
    ordered = [value - middle for value in sorted(values)]
    sums, squares = tuple(accumulate(ordered)), sum(value * value for value in ordered)
    places = range(_LEAST_IN_HEAP, len(ordered) - _LEAST_IN_HEAP + 1)
    return any(_apart(sums, place, squares) > _HEAPS_APART for place in places)


def _apart(sums: Sequence[float], place: int, squares: float) -> float:
    """How far the means of the values before ``place`` and of the others lie apart, in the deviations inside both;
    ``sums`` of the ordered values up to each, ``squares`` the sum of all their squares.
    """
    n, lower = len(sums), sums[place - 1]
    upper = sums[-1] - lower
    inside = squares - lower * lower / place - upper * upper / (n - place)
    if inside <= 0:
        return inf
    return (upper / (n - place) - lower / place) / sqrt(inside / (n - 2))


def outliers(values: Sequence[float], quantiles: Quantiles) -> tuple[int, ...]:
    """Places of ``values``, in one unit, that lie outside of what the others tell,
    at most one in ten; none of fewer than six.

    Args: ``quantiles`` of the library. Nothing is dropped: who measured decides.
    Source: Grubbs for one, generalized extreme studentized deviate for more (NIST/SEMATECH e-Handbook 1.3.5.17).
    """
    if len(values) < LEAST_FOR_OUTLIERS:
        return ()
    left = ValuesLeft(values)
    taken: list[int] = []
    flagged = 0
    for _ in range(max(len(values) // _ONE_OUTLIER_OF, 1)):
        place, distance = left.farthest()
        critical = critical_distance(left.count, quantiles, chance=OUTLIER_CHANCE / 2)
        left.take(place)
        taken.append(place)
        if distance > critical:
            flagged = len(taken)
    return tuple(sorted(taken[:flagged]))


class ValuesLeft:
    """Values of which the farthest is taken, one after the other: it is always the smallest or the largest.

    Their sums are kept exactly, as whole numbers of a unit of which all values are multiples: beside a value that lies
    very far off those of floats would lose what the others differ by.

    Args: ``values`` in one unit.
    """

    def __init__(self, values: Sequence[float]) -> None:
        ratios = [value.as_integer_ratio() for value in values]
        unit = max(denominator for _, denominator in ratios)  # all are powers of two
        self._values = [numerator * (unit // denominator) for numerator, denominator in ratios]
        self._order = deque(sorted(range(len(values)), key=self._values.__getitem__))
        self._sum = sum(self._values)
        self._squares = sum(value * value for value in self._values)

    @property
    def count(self) -> int:
        """How many values are left."""
        return len(self._order)

    def farthest(self) -> tuple[int, float]:
        """Place of the value that lies farthest from the mean of those left, the larger of two that lie as far, and
        how many of their standard deviations that is, a ratio.
        """
        low, high, n = self._order[0], self._order[-1], self.count
        below, above = self._sum - n * self._values[low], n * self._values[high] - self._sum
        place, away = (low, below) if below > above else (high, above)
        spread = n * self._squares - self._sum * self._sum
        return place, sqrt(away * away * (n - 1) / (n * spread)) if spread else 0.0

    def take(self, place: int) -> None:
        """Leave out the value at ``place``, which is the smallest or the largest."""
        if self._order[0] == place:
            self._order.popleft()
        else:
            self._order.pop()
        self._sum -= self._values[place]
        self._squares -= self._values[place] ** 2


def critical_distance(pieces: int, quantiles: Quantiles, *, chance: float) -> float:
    """How far, in standard deviations, the farthest of so many ``pieces`` lies on one side by ``chance``, from 0 to 1;
    ``quantiles`` of the library.

    Source: Grubbs 1969.
    """
    t = quantiles.student_t(1 - chance / pieces, freedom=pieces - 2)
    return (pieces - 1) / sqrt(pieces) * sqrt(t * t / (pieces - 2 + t * t))
