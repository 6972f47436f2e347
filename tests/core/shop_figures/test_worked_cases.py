"""Worked cases of the model (tests/derived/shop_figures_cases.json) and published examples of its parts."""

from __future__ import annotations

import json
import random
import re
import statistics
from fractions import Fraction
from math import exp, inf, log, sqrt
from pathlib import Path

import pytest
from borewright.core.chance.distributions import Spread
from borewright.core.shop_figures import counted, lots, normal_fit
from borewright.core.shop_figures.normal_fit import GaugeError, Pieces, Prior
from borewright.quantiles.special import QUANTILES
from outside_figures import outside

WORKED = Path(__file__).parents[2] / "derived" / "shop_figures_cases.json"
CASES = {case["id"]: case for case in json.loads(WORKED.read_text(encoding="utf-8"))["cases"]}
EXAMPLES = outside("shop_figures_examples")
NORMAL = [name for name, case in CASES.items() if "prior_mean" in case["given"]]


def _fitted(given):
    values = given.get("values") or [hole - given["drill"] for hole in given["measured_holes"]]
    gauge = GaugeError(given["gauge_repeatability"], given["gauge_calibration"])
    pieces = Pieces(tuple(values), gauge)
    return normal_fit.fit(pieces, Prior(given["prior_mean"], given["prior_sigma"]))


@pytest.mark.parametrize("name", NORMAL)
def test_normal_quantities(name):
    given, expect = CASES[name]["given"], CASES[name]["expect"]
    found = _fitted(given)
    mean, sigma = (one(found, QUANTILES, 0.90) for one in (normal_fit.mean_interval, normal_fit.sigma_interval))
    later = normal_fit.next_interval(found, QUANTILES, 0.95)
    shown = {
        "n": found.count,
        "sample_mean": found.sample_mean,
        "dof": found.freedom,
        "weight_of_data": found.weight,
        "mean": found.mean,
        "mean_low_90": mean.low,
        "mean_high_90": mean.high,
        "sigma": found.sigma,
        "sigma_low_90": sigma.low,
        "sigma_high_90": sigma.high,
        "next_scale": found.spread,
        "next_low_95": later.low,
        "next_high_95": later.high,
        "factor_median": exp(found.mean),
        "factor_low_95": exp(later.low),
        "factor_high_95": exp(later.high),
    }
    wanted = {key: value for key, value in expect.items() if key in shown}
    assert {key: shown[key] for key in wanted} == pytest.approx(wanted, rel=2e-6, abs=1e-6)
    assert found.far is expect["far_from_published"]


@pytest.mark.parametrize("name", [name for name in NORMAL if "hole_limits" in CASES[name]["given"]])
def test_chance_of_the_next_hole(name):
    """Sixteen normal curves stand for Student's t, as the figures that are handed on do."""
    given, expect = CASES[name]["given"], CASES[name]["expect"]
    found = _fitted(given)
    low, high = (end - given["drill"] for end in given["hole_limits"])
    sigmas = tuple(found.spread * factor for factor in normal_fit.scale_factors(found, QUANTILES))
    made = Spread(found.mean, found.spread, nodes=sigmas)
    assert made.within(low=low, high=high) == pytest.approx(expect["chance_16_nodes"], abs=0.0006)


def test_breakage():
    for name in ("S11", "S12"):
        given, expect = CASES[name]["given"], CASES[name]["expect"]
        found = counted.breakage(**given, quantiles=QUANTILES, chance=0.90)
        shown = (*found.interval, found.median, found.exact_upper, found.chance_of_a_break, found.expected_breaks)
        names = (
            "rate_low_90", "rate_high_90", "rate_median", "exact_upper_95", "chance_of_a_break_in_next",
            "expected_breaks_in_next",
        )  # fmt: skip
        assert shown == pytest.approx([expect[one] for one in names], rel=0.005)


def test_go_and_not_go():
    for name in ("S13", "S14"):
        given, expect = CASES[name]["given"], CASES[name]["expect"]
        counts = counted.Gauged(**given)
        found = counted.share_bad(bad=counts.bad, checked=counts.checked, quantiles=QUANTILES, chance=0.90)
        shown = (1 - found.counted, *found.interval, found.exact_upper)
        wanted = [expect[one] for one in ("share_good", "share_bad_low_90", "share_bad_high_90", "exact_upper_95")]
        assert shown == pytest.approx(wanted, abs=1e-6)
        told = counted.probit(counts) or (None, None)
        assert told == (pytest.approx(expect["mean_probit"], abs=1e-6), pytest.approx(expect["sigma_probit"], abs=1e-6))


def _given(row):
    return {name: float(value) for name, value in re.findall(r"(\w+)=([\d.]+)", row["given"])}


def _flat(given):
    """The posterior of data alone, as the textbooks' intervals are: a prior without weight."""
    n, s = int(given["n"]), given["s"]
    half = s * sqrt((n - 1) / n)
    values = tuple(given.get("mean", 0.0) + (half if place % 2 else -half) for place in range(n - n % 2))
    values += (given.get("mean", 0.0),) * (n % 2)
    scale = s / sqrt(sum((v - given.get("mean", 0.0)) ** 2 for v in values) / (n - 1))
    mean = given.get("mean", 0.0)
    values = tuple(mean + (value - mean) * scale for value in values)
    return normal_fit.fit(Pieces(values), Prior(0.0, 1.0, 0.0, inf))


def _interval(row):
    given, quantity = _given(row), row["quantity"]
    interval = normal_fit.mean_interval if quantity.startswith("mean") else normal_fit.sigma_interval
    found = interval(_flat(given), QUANTILES, given["conf"])
    return found.low if quantity.endswith("low") else found.high


def _shown(row):
    given, example, quantity = _given(row), row["example"], row["quantity"]
    if "interval" in quantity:
        return _interval(row)
    if example == "N8":
        return normal_fit.mean_interval(_flat({**given, "s": 1.0}), QUANTILES, given["conf"]).high
    if example == "N9":
        found = counted.exact_share(bad=7, checked=50, quantiles=QUANTILES, chance=0.95)
        return found.low if quantity.endswith("low") else found.high
    if quantity.startswith("Grubbs critical"):
        chance = 0.025 if "two-sided" in quantity else 0.05
        return lots.critical_distance(int(given["n"]), QUANTILES, chance=chance)
    if example == "N15":
        if "mean" in quantity:
            return normal_fit.fit(Pieces((0.0,) * 20, effective=20), Prior(0.0, 1.489, 1e9, inf)).mean_uncertainty
        return counted.band_deviation(step_value=8.0)
    if example == "N16":
        shares = [float(one) for one in re.findall(r"0\.\d+", row["given"])]
        return counted.pieces_without_failure(good_share_ratio=shares[0], chance=shares[1])
    if example == "N17":
        events = int(row["given"].split()[0])
        return counted.breakage(holes=1, broken=events, next_holes=1, quantiles=QUANTILES, chance=0.90).exact_upper
    return None


def test_published_examples():
    """What needs more than a quantile is in test_published_factors. Of N14 the list names six values of creatinine and
    does not give them: its distance cannot be worked out, its critical one is.
    """
    shown = [(row, _shown(row)) for row in EXAMPLES if row["example"] not in ("N5", "N6", "N7", "N10", "N11")]
    told = [(row, value) for row, value in shown if value is not None]
    assert len(told) == 42
    for row, value in told:
        digits = len(row["printed"].partition(".")[2])
        assert value == pytest.approx(float(row["printed"]), abs=1.01 * 10**-digits), row


def test_an_outlier_is_found_and_not_dropped():
    """Eight masses of uranium (NIST/SEMATECH e-Handbook 1.3.5.17.1): 245.57 lies outside, G = 2.4687 by one side."""
    values = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]
    place, distance = lots.ValuesLeft(values).farthest()
    assert (place, distance) == (7, pytest.approx(2.4687, abs=1e-4))
    assert lots.outliers(values, QUANTILES) == (7,)
    assert lots.outliers(values[:5], QUANTILES) == ()


def test_the_farthest_of_those_left():
    """One after the other is taken; mean and deviation of those left as the statistics module works them out."""
    chance = random.Random(17)
    values = [chance.gauss(50, 2) for _ in range(60)] + [50.0, 50.0, 71.0, 12.0]
    ends, left = lots.ValuesLeft(values), dict(enumerate(values))
    for _ in range(40):
        mean, sigma = statistics.fmean(left.values()), statistics.stdev(left.values())
        place, distance = ends.farthest()
        assert distance == pytest.approx(max(abs(one - mean) for one in left.values()) / sigma, rel=1e-9)
        assert abs(left.pop(place) - mean) / sigma == pytest.approx(distance, rel=1e-9)
        ends.take(place)


def test_what_lies_very_far_off_hides_none_of_the_others():
    """A value of another unit stands beside fine ones: once it is taken the others are judged as without it."""
    chance = random.Random(17)
    fine = [chance.gauss(0, 1e-6) for _ in range(40)]
    values = [*fine, 2e-5, 25.4e3]
    assert lots.outliers(values[:-1], QUANTILES) == (40,)
    assert lots.outliers(values, QUANTILES) == (40, 41)
    left = lots.ValuesLeft(values)
    left.take(41)
    deviation = statistics.stdev(map(Fraction, values[:-1]))  # of fractions it is exact but for its root
    assert left.farthest() == (40, pytest.approx(float(2e-5 - statistics.fmean(values[:-1])) / float(deviation)))


def test_parts_of_a_batch_stand_for_fewer():
    """One batch of five, half alike as is taken: 5 / (1 + 4 * 0.5) = 5/3. Several tell by their own variances."""
    one = lots.effective_pieces([[1.0, 2.0, 3.0, 4.0, 5.0]], QUANTILES)
    assert one == (0.5, pytest.approx(5 / 3))
    # within: mean square 0.5 of each pair (0, 1); between: means 0.5, 2.5, 4.5 -> 2 * 8 / 2 = 8; (8 - 0.5)/2 = 3.75
    alike = lots.effective_pieces([[0.0, 1.0], [2.0, 3.0], [4.0, 5.0]], QUANTILES)
    assert alike.within_batch == pytest.approx(3.75 / 4.25)
    assert alike.effective == pytest.approx(6 / (1 + 3.75 / 4.25))
    # five batches (c, c + 1, c + 2, c + 3): within 5/3, between 4 * 25/12 / 5 = 5/3, so no batch is seen;
    # printed F at 0.90 of 15 and 4 degrees is 3.87: between 3.87 times as much at most, 2.87 / (3.87 + 3) = 0.418 alike
    centres = [0.0, 0.0, 0.0, 0.0, sqrt(25 / 12)]
    unlike = lots.effective_pieces([[c, c + 1, c + 2, c + 3] for c in centres], QUANTILES)
    assert unlike.within_batch == pytest.approx(2.87 / 6.87, abs=0.001)
    assert unlike.effective == pytest.approx(20 / (1 + 3 * 2.87 / 6.87), abs=0.02)


def test_one_tap_tells_of_that_tap():
    """Thirty holes of one unmeasured tap in a band of 1: the mean is no better known than the band, 1/sqrt(12)."""
    pieces = Pieces(tuple(0.01 * place for place in range(30)), taps=(30,), band=1.0)
    assert normal_fit.fit(pieces, Prior(0.15, 0.1, 2, inf)).mean_uncertainty == pytest.approx(
        sqrt(1 / 12 + 0.01**2 * (30**2 - 1) / 12 / 30), rel=0.01
    )


def test_halving_an_interval_takes_about_three_times_as_many_more():
    """A quarter of the variance needs four times the pieces where the data stand alone."""
    values = tuple(0.002 + 0.0007 * (-1) ** place for place in range(40))
    found = normal_fit.fit(Pieces(values), Prior(0.0044, 0.0012))
    assert normal_fit.more_to_halve(found, QUANTILES, 0.95) == pytest.approx(120, rel=0.1)


def test_lists_that_are_two():
    """Two heaps 10 deviations apart, and two batches whose means differ by 8 of their own deviations."""
    low, high = [0.0, 1.0, 2.0, 1.0, 0.5], [20.0, 21.0, 22.0, 21.0, 20.5]
    assert lots.two_heaps([*low, *high])
    assert not lots.two_heaps([0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0])
    assert lots.differ([low, high], QUANTILES)
    assert not lots.differ([low, low], QUANTILES)


def test_counts_tell_a_share():
    """100 pieces, 5 refused: the share inside lies around 0.95, and contains what Jeffreys' interval says of it."""
    counts = counted.Gauged(100, 3, 2, 0.3344, 0.3401)
    low, high = counted.share_inside(counts, Prior(0.337, 0.0014), 0.90)
    assert 0.89 < low < 0.95 < high < 0.99
    assert log(high / low) > 0
