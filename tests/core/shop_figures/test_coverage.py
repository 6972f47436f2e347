"""Simulated shops, seeded: does each interval hold as often as it promises, and as the simulation of others found?"""

from __future__ import annotations

import random
import re
from collections import defaultdict

import pytest
from borewright.core.shop_figures import lots, normal_fit
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
