"""Simulated shops, seeded: does each interval hold as often as it promises, and as the simulation of others found?"""

from __future__ import annotations

import random
import re
from collections import Counter, defaultdict
from dataclasses import replace
from statistics import NormalDist

import pytest
from borewright.core.shop_figures import counted, lots, normal_fit
from borewright.core.shop_figures.normal_fit import Pieces, Prior
from borewright.quantiles.special import QUANTILES
from outside_figures import derived

pytestmark = pytest.mark.long
SHOPS = 3000
BOOK = Prior(0.0, 1.0)


def _shop(truth, chance):
    """Mean and standard deviation of a shop, in published standard deviations off the book."""
    if truth.startswith("shops"):
        return chance.gauss(0, 1), chance.lognormvariate(0, 0.4)
    off, sigma = re.match(r"([\d.]+) off, (?:same sigma|sigma ([\d.]+))", truth).groups()
    return float(off), float(sigma or 1)


def _held(truth, n):
    chance, held = random.Random(f"{truth} {n}"), defaultdict(int)
    for _ in range(SHOPS):
        mean, sigma = _shop(truth, chance)
        found = normal_fit.fit(Pieces(tuple(chance.gauss(mean, sigma) for _ in range(n))), BOOK)
        piece = chance.gauss(mean, sigma)
        for name, interval, level, value in (
            ("mean 90 %", normal_fit.mean_interval, 0.90, mean),
            ("sigma 90 %", normal_fit.sigma_interval, 0.90, sigma),
            ("next hole 95 %", normal_fit.next_interval, 0.95, piece),
        ):
            low, high = interval(found, QUANTILES, level)
            held[name] += low <= value <= high
    return {name: count / SHOPS for name, count in held.items()}


def test_intervals_hold():
    rows = [row for row in derived("shop_figures_coverage") if row["model"] == "separate_priors"]
    cases = {(row["truth"], int(row["n"])) for row in rows}
    assert len(cases) == 20
    held = {case: _held(*case) for case in cases}
    for row in rows:  # 3000 shops: three standard errors of a share of 0.5 are 0.027, of 0.9 are 0.016
        found = held[row["truth"], int(row["n"])][row["interval"]]
        assert found == pytest.approx(float(row["coverage"]), abs=0.03), row


def test_parts_of_batches_hold():
    """Batches and parts vary alike: by their number alone the interval would hold in half to two thirds."""
    rows = [row for row in derived("shop_figures_coverage") if row["model"] == "coat_design_effect"]
    assert len(rows) == 5
    for row in rows:
        batches, parts, alike = (float(one) for one in re.findall(r"[\d.]+", row["truth"]))
        chance, held = random.Random(row["truth"]), 0
        for _ in range(SHOPS):
            mean = chance.gauss(0, 1)
            lists = []
            for _ in range(int(batches)):
                centre = chance.gauss(mean, alike**0.5)
                lists.append([chance.gauss(centre, (1 - alike) ** 0.5) for _ in range(int(parts))])
            pieces = Pieces(
                tuple(v for one in lists for v in one), effective=lots.effective_pieces(lists, QUANTILES).effective
            )
            low, high = normal_fit.mean_interval(normal_fit.fit(pieces, BOOK), QUANTILES, 0.90)
            held += low <= mean <= high
        assert held / SHOPS == pytest.approx(float(row["coverage"]), abs=0.04), row


def _rows(model):
    return [row for row in derived("shop_figures_coverage") if row["model"] == model]


def _broken(rate, holes, chance):
    """Taps that break in so many holes: Poisson, by the times between two."""
    count, at = 0, chance.expovariate(1) / rate
    while at < holes:
        count, at = count + 1, at + chance.expovariate(1) / rate
    return count


def test_rates_of_breaking_taps_hold():
    """Counts are discrete: the interval holds between 86 and 99 of a hundred times, the exact end at least 95."""
    rows = _rows("gamma_poisson_jeffreys") + _rows("poisson_exact_upper")
    assert len(rows) == 32
    for row in rows:
        rate, holes = float(re.search(r"[\d.]+", row["truth"])[0]), int(row["n"])
        chance = random.Random(f"{row['truth']} {holes}")
        counts = Counter(_broken(rate, holes, chance) for _ in range(SHOPS))
        held = 0
        for broken, times in counts.items():
            found = counted.breakage(holes=holes, broken=broken, next_holes=1, quantiles=QUANTILES, chance=0.90)
            is_two_sided = row["model"] == "gamma_poisson_jeffreys"
            inside = found.interval.low <= rate <= found.interval.high if is_two_sided else rate <= found.exact_upper
            held += times * inside
        assert held / SHOPS == pytest.approx(float(row["coverage"]), abs=0.03), row


def _gauged(mean, sigma, n, low, high, chance):
    sizes = [chance.gauss(mean, sigma) for _ in range(n)]
    return counted.Gauged(n, sum(one < low for one in sizes), sum(one > high for one in sizes), low, high)


def test_the_share_inside_the_gauges_holds():
    """The list was simulated with another prior of mean and sigma: what both say is that the share is well covered, in
    86 to 100 of a hundred shops whose nominal is 90.
    """
    rows = _rows("go_no_go_grid")
    assert len(rows) == 8
    for row in rows:
        low, high, mean, sigma = (float(one) for one in re.findall(r"-?[\d.]+", row["truth"]))
        chance, n = random.Random(row["truth"] + row["n"]), int(row["n"])
        seen = Counter(_gauged(mean, sigma, n, low, high, chance) for _ in range(SHOPS // 5))
        true = NormalDist(mean, sigma).cdf(high) - NormalDist(mean, sigma).cdf(low)
        held = 0
        for counts, times in seen.items():
            found = counted.share_inside(counts, BOOK, 0.90)
            held += times * (found.low <= true <= found.high)
        assert float(row["coverage"]) >= 0.88
        assert held / (SHOPS // 5) >= 0.86, row


def test_sixteen_curves_stand_for_students_t():
    """Largest error over the chances from 0.0005 to 0.9995."""
    rows = _rows("scale_mixture_nodes")
    assert len(rows) == 3
    for row in rows:
        freedom = float(row["truth"].removeprefix("v="))
        factors = normal_fit.scale_factors(
            replace(normal_fit.fit(Pieces((0.0, 1.0)), BOOK), freedom=freedom), QUANTILES
        )
        errors = []
        for place in range(1, 2000):
            at = QUANTILES.student_t(place / 2000, freedom=freedom)
            made = sum(NormalDist().cdf(at / factor) for factor in factors) / len(factors)
            errors.append(abs(made - place / 2000))
        assert max(errors) == pytest.approx(float(row["coverage"]), rel=0.05), row
