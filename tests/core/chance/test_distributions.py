"""Distributions behind a chance, by hand: shares of the standard normal curve and of uniform bands."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import inf, sqrt
from statistics import NormalDist

import pytest
from borewright.core import callout, standards
from borewright.core.chance import made_sizes
from borewright.core.chance.acceptance import AcceptanceRequest, chance, hole_chance, pitch_part
from borewright.core.chance.distributions import Spread, normal_grid
from borewright.core.chance.made_sizes import Aim, aim
from borewright.core.model import Range
from every import every

NORMAL = NormalDist()
QUARTER = standards.resolve(callout.read("1/4-20 UNC-2B"))
M12 = standards.resolve(callout.read("M12"))


def _range(least, most):
    return Range(*(None if end is None else Decimal(end) for end in (least, most)))


@every(
    ("size", "low", "high", "share"),
    [
        # normal
        (Spread(10, 1), 9, 11, NORMAL.cdf(1) - NORMAL.cdf(-1)),
        (Spread(10, 1), -inf, 11.5, NORMAL.cdf(1.5)),
        (Spread(10, 1), 11.5, inf, 1 - NORMAL.cdf(1.5)),
        (Spread(0, 1), -inf, 0, 0.5),
        (Spread(0, 1), -0.5, -0.25, NORMAL.cdf(-0.25) - NORMAL.cdf(-0.5)),
        (Spread(10, 1), 11, 9, 0),
        # one size only
        (Spread(10, 0), 9, 10, 1),
        (Spread(10, 0), 9, 9.9, 0),
        (Spread(10, 0), 10.1, 11, 0),
        # never below a floor
        (Spread(10, 1, 0, 9), -inf, inf, 1),
        (Spread(10, 1, 0, 9), 9, inf, 1),
        (Spread(10, 1, 0, 9), 10, inf, 0.5 / NORMAL.cdf(1)),
        (Spread(10, 1, 0, 9), -inf, 8, 0),
        (Spread(10, 1, 0, 9), -inf, 10, (0.5 - NORMAL.cdf(-1)) / NORMAL.cdf(1)),
        # a uniform band of 4 around 10, from 8 to 12
        (Spread(10, 0, 4), -inf, 9, 0.25),
        (Spread(10, 0, 4), 9, 11, 0.5),
        (Spread(10, 0, 4), -inf, 8, 0),
        (Spread(10, 0, 4), -inf, 12, 1),
        (Spread(10, 0, 4), 13, inf, 0),
        (Spread(10, 0, 4), 7, 9, 0.25),
        (Spread(10, 0, 4), 11, 13, 0.25),
        (Spread(0, 0, 4), -inf, 0.5, 0.625),
        # ... with a little of a normal one at its ends: sigma pdf(0) / width of the pieces are over
        (Spread(10, 0.01, 4), -inf, 12, 1 - 0.01 * NORMAL.pdf(0) / 4),
        (Spread(10, 0.01, 4), -inf, 8, 0.01 * NORMAL.pdf(0) / 4),
        (Spread(10, 0.01, 4), -inf, 9, 0.25),
        (Spread(10, 1, 4), -inf, 10, 0.5),
        (Spread(10, 2, 4), -inf, 30, 1),
        (Spread(10, 2, 4), -inf, -10, 0),
        (Spread(10, 2, 4), 10, inf, 0.5),
        # several standard deviations of equal share
        (Spread(0, 1, nodes=(1, 2)), -inf, 1, (NORMAL.cdf(1) + NORMAL.cdf(0.5)) / 2),
    ],
)
def test_shares_between_limits(size, low, high, share):
    assert size.within(low=low, high=high) == pytest.approx(share, abs=1e-12)


@every("shift", [0.5, -0.5])
def test_a_shift_moves_the_size_against_its_limits(shift):
    assert Spread(0, 1).within(low=-inf, high=1, shift=shift) == pytest.approx(NORMAL.cdf(1 - shift), abs=1e-12)
    of_two = (NORMAL.cdf(1 - shift) + NORMAL.cdf((1 - shift) / 2)) / 2
    assert Spread(0, 1, nodes=(1, 2)).within(low=-inf, high=1, shift=shift) == pytest.approx(of_two, abs=1e-12)


def test_an_independent_change_adds_variances():
    """3, 4 and 5; 5, 12 and 13."""
    moved = Spread(10, 3, 1, 2).moved(mean=-1, sigma=4)
    assert moved == Spread(9, 5, 1)
    assert Spread(10, sqrt(17), nodes=(3, 5)).moved(mean=0, sigma=12).nodes == (sqrt(153), 13)


def test_the_grid_integrates_over_a_normal_variable():
    """17 points from -4 to 4 in halves; the moments of a standard normal variable are 1, 0, 1, 0, 3."""
    grid = normal_grid()
    assert [point for point, _ in grid] == [step / 2 for step in range(-8, 9)]
    for power, moment in enumerate((1, 0, 1, 0, 3)):
        assert sum(weight * point**power for point, weight in grid) == pytest.approx(moment, abs=0.01)
    assert grid[8][1] == pytest.approx(NORMAL.pdf(0) / 2, rel=1e-4)


@every(
    ("least", "most", "coat", "wanted"),
    [
        ("1", "2", None, Aim(1, 2)),
        ("1", None, None, Aim(1, inf)),
        (None, "2", None, Aim(-inf, 2)),
        (None, None, None, None),
        # from -6 to -2: its middle, and a quarter of its width
        ("1", "2", ("-6", "-2"), Aim(1, 2, (-4, 1))),
        ("1", "2", ("-6", "0"), Aim(1, 2, (-3, 1.5))),
        ("1", "2", ("0", "6"), Aim(1, 2, (3, 1.5))),
    ],
)
def test_limits_and_the_coat_to_come(least, most, coat, wanted):
    assert aim(_range(least, most), None if coat is None else _range(*coat)) == wanted


def test_no_coat_leaves_the_size():
    size = Spread(1, 1, 2, 0)
    assert Aim(0, 1).finished(size) is size
    assert made_sizes.NO_COAT == (0, 0)


def test_several_deviations_are_one_by_their_squares():
    """(1 + 49) / 2 = 25."""
    assert made_sizes.spread(3.0, (1.0, 7.0)) == Spread(3.0, 5.0, nodes=(1.0, 7.0))
    assert made_sizes.spread(3.0, 2.0) == Spread(3.0, 2.0)


@every(
    ("thread", "mean", "own", "sigma"),
    [
        # a hole of up to 0.25 in scatters by 0.0010 in, one of up to 0.5 in by 0.0012 in
        (QUARTER, "0.2048", None, 0.0010),
        (QUARTER, "0.2048", 0.0005, 0.0005),
        (M12, "10.32", None, 0.0012 * 25.4),
        (M12, "10.32", 0.02, 0.02),
    ],
)
def test_the_chance_of_a_hole(thread, mean, own, sigma):
    limits = thread.internal.minor_diameter
    made = NormalDist(float(mean), sigma)
    share = made.cdf(float(limits.max)) - made.cdf(float(limits.min))
    assert hole_chance(thread, Decimal(mean), None, own) == pytest.approx(share, abs=1e-9)


def test_no_chance_without_limits_or_spread():
    """A hole above an inch is beyond the table, a taper thread has no limits."""
    assert hole_chance(QUARTER, Decimal("1.01")) is None
    assert hole_chance(QUARTER, Decimal("1.01"), None, 0.001) == pytest.approx(0)
    assert hole_chance(replace(QUARTER, taper=Decimal("0.0625")), Decimal("0.2")) is None
    for band in (None, _range("0.2185", None), _range(None, "0.219")):
        assert pitch_part(QUARTER, band, Decimal(0), "rigid", None) is None


def test_what_is_assumed_is_said_where_it_is_used():
    asked = AcceptanceRequest(Decimal("0.201"), Decimal("0.2048"), _range("0.2185", "0.2190"), Decimal("0.0007"))
    for band, told in ((asked.tap_band, True), (None, False)):
        said = " ".join(chance(QUARTER, asked._replace(tap_band=band)).notes.assumptions)
        assert ("spread of the cut oversize" in said) is told
        assert "range of the coat" not in said


@every(
    ("size", "wanted", "formula", "inputs"),
    [
        (Spread(10, 1), Aim(9, 11), "max(cdf((high - m) / s) - cdf((low - m) / s), 0)", {"low": 9, "high": 11}),
        (Spread(10, 1), Aim(-inf, 11), "max(cdf((high - m) / s) - 0, 0)", {"high": 11}),
        (Spread(10, 1), Aim(9, inf), "max(1 - cdf((low - m) / s), 0)", {"low": 9}),
        # a floor bounds the size where no limit does
        (
            Spread(10, 1, 0, 9),
            Aim(-inf, 11),
            "max(cdf((high - m) / s) - cdf((floor - m) / s), 0) / (1 - cdf((floor - m) / s))",
            {"floor": 9, "high": 11},
        ),
        (
            Spread(10, 1, 0, 9),
            Aim(8, inf),
            "max(1 - cdf((max(low, floor) - m) / s), 0) / (1 - cdf((floor - m) / s))",
            {"floor": 9, "low": 8},
        ),
        (
            Spread(10, 1, 4),
            Aim(-inf, 11),
            "max(s / w * (((high - m + w / 2) / s) * cdf((high - m + w / 2) / s) + pdf((high - m + w / 2) / s)"
            " - ((high - m - w / 2) / s) * cdf((high - m - w / 2) / s) - pdf((high - m - w / 2) / s)) - 0, 0)",
            {"w": 4, "high": 11},
        ),
    ],
)
def test_how_a_chance_is_derived(size, wanted, formula, inputs):
    """Only what is there is an input: mean and deviation, width of a band, floor, the limits that are closed."""
    (step,) = made_sizes.steps("minor_diameter", size, wanted, chance=0.5, unit="in", model="a model")
    assert (step.quantity, step.formula, step.value, step.source) == ("minor_diameter", formula, 0.5, "a model")
    assert step.inputs == {"m": 10, "s": 1, **inputs}


def test_how_a_mean_of_chances_is_derived():
    size = Spread(10, sqrt(2.5), nodes=(1, 2))
    (step,) = made_sizes.steps("minor_diameter", size, Aim(-inf, 11), chance=0.5, unit="in", model="a model")
    assert step.formula == "(max(cdf((high - m) / s1) - 0, 0) + max(cdf((high - m) / s2) - 0, 0)) / 2"
    assert step.inputs == {"m": 10, "s1": 1, "s2": 2, "high": 11}


def test_a_band_that_ends_at_its_limit_is_wholly_inside():
    """8 to 12, no scatter: to its very end; and infinitely far limits hold any size."""
    for size in (Spread(10, 0, 4), Spread(10, 0), Spread(10, 1), Spread(10, 1, 4), Spread(10, 1, 0, 9)):
        assert size.within(low=-inf, high=inf) == 1
        assert size.within(low=-inf, high=-inf) == size.within(low=inf, high=inf) == 0


def test_how_a_coat_is_added_to_a_size():
    """3, 4 and 5: variances are added, the mean moves by the coat's; no coat, no steps."""
    size, wanted = Spread(10, 3), Aim(-inf, 11, (-1, 4))
    mean, sigma, share = made_sizes.steps("pitch_diameter", size, wanted, chance=0.5, unit="mm", model="a model")
    assert (mean.quantity, mean.formula, mean.inputs, mean.value, mean.unit, mean.source) == (
        "pitch_diameter.mean", "m + c", {"m": 10, "c": -1}, 9, "mm", "coat added",
    )  # fmt: skip
    assert (sigma.quantity, sigma.formula, sigma.inputs, sigma.value, sigma.unit, sigma.source) == (
        "pitch_diameter.sigma", "sqrt(s ** 2 + c ** 2)", {"s": 3, "c": 4}, 5, "mm", "variances added",
    )  # fmt: skip
    assert (share.quantity, share.inputs, share.unit) == ("pitch_diameter", {"m": 9, "s": 5, "high": 11}, "")
