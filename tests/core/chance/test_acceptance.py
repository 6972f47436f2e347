"""Chance of acceptance: worked check, a seeded Monte Carlo of the same distributions, and what must hold."""

import math
import random
from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.core import callout, finishing, standards
from borewright.core.chance import distributions
from borewright.core.chance.acceptance import AcceptanceRequest, chance
from borewright.core.chance.distributions import Spread
from borewright.core.model import FinishInput, Length, LengthRange, Range
from borewright.core.shop_figures.figures import MeasuredOversize
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st

SAMPLES = 40_000


def _thread(text):
    return standards.resolve(callout.read(text))


QUARTER = _thread("1/4-20 UNC-2B")
# tap H3: 0.0010 to 0.0015 in over basic 0.2175; mean cut oversize 0.15 of the class 2B tolerance, 0.0007 in
USUAL = AcceptanceRequest(
    drill_diameter=Decimal("0.2010"),
    hole_mean=Decimal("0.2048"),
    tap_band=Range(Decimal("0.2185"), Decimal("0.2190")),
    cut_oversize=Decimal("0.0007"),
)


@pytest.mark.parametrize(("setup", "printed"), [("usual", "98.6"), ("poor", "92.9")])
def test_worked_check_of_the_minor_diameter(setup, printed):
    """1/4-20 UNC-2B, drill 0.2010, mean hole 0.2048, limits 0.196 to 0.207; sigma 0.0010 and 0.0015 in."""
    found = chance(QUARTER, USUAL._replace(setup=setup))
    assert f"{100 * found.minor_diameter:.1f}" == printed


def test_both_is_the_product_without_a_coat():
    found = chance(QUARTER, USUAL)
    assert found.both == found.minor_diameter * found.pitch_diameter


@every(
    ("to", "sigma"),
    [(0.0625, 0.0005), (0.125, 0.0008), (0.25, 0.0010), (0.5, 0.0012), (0.75, 0.0014), (1, 0.0016)],
)
def test_spread_of_the_next_larger_drill(to, sigma):
    """The middle of three derivations: averages of the handbook / 4, aircraft hole tolerance / 6, grade IT11 / 6."""
    assert distributions.hole_sigma_in(to - 0.03) == distributions.hole_sigma_in(to) == sigma
    beyond = distributions.hole_sigma_in(to + 0.0001)
    assert beyond is None or beyond > sigma


def test_nothing_beyond_the_spread_table():
    assert distributions.hole_sigma_in(1.01) is None
    found = chance(QUARTER, USUAL._replace(drill_diameter=Decimal("1.1")))
    assert (found.minor_diameter, found.both) == (None, None)
    assert found.pitch_diameter is not None


def test_unknown_hole_or_tap_gives_no_chance():
    assert chance(QUARTER, USUAL._replace(hole_mean=None)).minor_diameter is None
    assert chance(QUARTER, USUAL._replace(tap_band=None)).pitch_diameter is None


def _coated(low, high):
    """1/4-20 with a coat of that thickness range in inches, held by the ASME reading."""
    thickness = LengthRange(Length(Decimal(low), "in"), Length(Decimal(high), "in"))
    return finishing.allow(QUARTER, FinishInput(thickness=thickness, growth_fraction=Decimal(1)))


def _simulated(request, allowance=None):
    """The same distributions drawn at random with a fixed seed: hole, tap, cut and coat."""
    source = random.Random(20240229)
    limits = QUARTER.internal
    sigma_hole = 0.0010 * {"usual": 1, "poor": 1.5, "guided": 0.6}[request.setup]
    sigma_cut = 0.10 * float(limits.pitch_diameter.width) * (1 if request.tapping == "rigid" else 2)
    change_minor = change_pitch = (0.0, 0.0)
    if allowance is not None:
        change_minor, change_pitch = (
            ((float(one.min) + float(one.max)) / 2, (float(one.max) - float(one.min)) / 4)
            for one in (allowance.change.minor_diameter, allowance.change.pitch_diameter)
        )
    hole_mean, least_hole = float(request.hole_mean), float(request.drill_diameter) - 0.001
    tap_min, tap_max, cut_mean = float(request.tap_band.min), float(request.tap_band.max), float(request.cut_oversize)
    (minor_min, minor_max), (pitch_min, pitch_max) = (
        (float(one.min), float(one.max)) for one in (limits.minor_diameter, limits.pitch_diameter)
    )
    counts = [0, 0, 0]
    for _ in range(SAMPLES):
        hole = source.gauss(hole_mean, sigma_hole)
        while hole < least_hole:
            hole = source.gauss(hole_mean, sigma_hole)
        tap = source.uniform(tap_min, tap_max)
        cut = tap + source.gauss(cut_mean, sigma_cut)
        coat = source.gauss(0, 1)
        minor = hole + change_minor[0] - coat * change_minor[1]
        pitch = cut + change_pitch[0] - coat * change_pitch[1]
        good = (minor_min <= minor <= minor_max, pitch_min <= pitch <= pitch_max)
        counts = [counts[0] + good[0], counts[1] + good[1], counts[2] + all(good)]
    return [count / SAMPLES for count in counts]


@pytest.mark.parametrize(
    ("request_", "coat"),
    [
        (USUAL, None),
        (USUAL._replace(setup="poor", tapping="floating"), None),
        (USUAL._replace(tap_band=Range(Decimal("0.2205"), Decimal("0.2215"))), None),
        (USUAL, ("0.0002", "0.0003")),
        (USUAL._replace(setup="poor", tap_band=Range(Decimal("0.2195"), Decimal("0.2200"))), ("0.0002", "0.0004")),
    ],
)
def test_monte_carlo_confirms(request_, coat):
    """Four standard errors of a share estimated from the samples, and 1e-4 for the truncation dropped under a coat."""
    allowance = _coated(*coat) if coat else None
    found = chance(QUARTER, request_, allowance)
    simulated = _simulated(request_, allowance)
    for exact, drawn in zip((found.minor_diameter, found.pitch_diameter, found.both), simulated, strict=True):
        error = math.sqrt(max(exact * (1 - exact), 1e-5) / SAMPLES)
        assert abs(exact - drawn) <= 4 * error + 1e-4


def test_coat_makes_hole_and_tap_fail_together():
    """The coat closes both diameters in at once, so the chance of both differs from the product."""
    found = chance(QUARTER, USUAL._replace(setup="poor"), _coated("0.0002", "0.0005"))
    assert found.both != pytest.approx(found.minor_diameter * found.pitch_diameter, rel=1e-12)
    assert found.both <= min(found.minor_diameter, found.pitch_diameter)


@settings(max_examples=60)
@given(st.decimals("0.196", "0.207", places=4), st.decimals("0.196", "0.207", places=4))
def test_more_margin_is_never_less_likely(one, other):
    """The nearer the mean hole is to the middle of its limits, the better."""
    middle = (QUARTER.internal.minor_diameter.min + QUARTER.internal.minor_diameter.max) / 2
    near, far = sorted((one, other), key=lambda hole: abs(hole - middle))
    found = [
        chance(QUARTER, USUAL._replace(hole_mean=hole, drill_diameter=hole - Decimal("0.02"))).minor_diameter
        for hole in (near, far)
    ]
    assert found[0] >= found[1] - 1e-12


@settings(max_examples=60)
@given(st.floats(0.1, 5), st.just(0.0) | st.floats(1e-6, 3), st.floats(-4, 4), st.floats(0, 4))
def test_chances_are_chances_and_wider_limits_help(sigma, width, low, gap):
    size = Spread(0.0, sigma, width)
    inner = size.within(low=low, high=low + gap)
    outer = size.within(low=low - 0.5, high=low + gap + 0.5)
    assert 0 <= inner <= outer + 1e-12 <= 1 + 1e-9
    assert size.within(low=-math.inf, high=math.inf) == 1


@settings(max_examples=40)
@given(st.floats(0.1, 3), st.floats(0.01, 3), st.floats(-3, 3))
def test_uniform_plus_normal_agrees_with_a_fine_sum(sigma, width, limit):
    """Uniform plus normal as the mean of 400 shifted normals."""
    size = Spread(0.0, sigma, width)
    shifts = [(step + 0.5) / 400 * width - width / 2 for step in range(400)]
    summed = sum(distributions.cdf((limit - shift) / sigma) for shift in shifts) / 400
    assert size.within(low=-math.inf, high=limit) == pytest.approx(summed, abs=2e-5)


def test_metric_and_inch_of_the_same_case_agree():
    """M12 limits against the same limits in inches: the table of spreads is in inches."""
    thread = _thread("M12")
    mean, drill = Decimal("10.32"), Decimal("10.2")
    found = chance(thread, AcceptanceRequest(drill, mean, None, Decimal(0)))
    sigma = 0.0012 * 25.4
    high = (float(thread.internal.minor_diameter.max) - 10.32) / sigma
    low = (float(thread.internal.minor_diameter.min) - 10.32) / sigma
    assert found.minor_diameter == pytest.approx(distributions.cdf(high) - distributions.cdf(low), abs=1e-4)


def test_taper_threads_have_no_minor_limits_to_meet():
    found = chance(replace(QUARTER, taper=Decimal("0.0625")), USUAL)
    assert (found.minor_diameter, found.pitch_diameter, found.both) == (None, None, None)


WORDS = {"cdf": distributions.cdf, "pdf": distributions.pdf, "sqrt": math.sqrt, "max": max}


@pytest.mark.parametrize("coat", [None, ("0.0002", "0.0003")])
def test_chances_can_be_redone_from_their_derivation(coat):
    found = chance(QUARTER, USUAL._replace(setup="poor"), _coated(*coat) if coat else None)
    shown = {}
    for step in found.notes.steps:
        shown[step.quantity] = eval(step.formula, {"__builtins__": {}}, {**WORDS, **step.inputs})
        assert shown[step.quantity] == pytest.approx(step.value, rel=1e-9)
    assert shown["minor_diameter"] == pytest.approx(found.minor_diameter)
    assert shown["pitch_diameter"] == pytest.approx(found.pitch_diameter)
    assert shown["both"] == pytest.approx(found.both)


def test_model_and_basis_are_named():
    found = chance(QUARTER, USUAL)
    assert "uniform" in found.model
    statuses = {source.field: source.status for source in found.notes.sources}
    assert statuses == {"minor_diameter": "computed", "pitch_diameter": "common_practice", "both": "computed"}
    assert any("shop data" in text for text in found.notes.assumptions)


def test_the_chance_of_both_is_summed_from_the_thinnest_coat_to_the_thickest():
    """Seventeen points from four deviations thinner to four thicker; a thicker coat closes the thread: a hole near its
    least limit is good under a thin coat only, a tap near its greatest one under a thick coat only.
    """
    tight = USUAL._replace(hole_mean=Decimal("0.1970"), drill_diameter=Decimal("0.1950"))
    wide = USUAL._replace(tap_band=Range(Decimal("0.2222"), Decimal("0.2227")))
    for asked, letter, falls in ((tight, "a", True), (wide, "b", False)):
        found = chance(QUARTER, asked, _coated("0.0002", "0.0005"))
        (step,) = [one for one in found.notes.steps if one.quantity == "both"]
        chances = [step.inputs[f"{letter}{count}"] for count in range(17)]
        assert f"{letter}17" not in step.inputs
        assert chances == sorted(chances, reverse=falls)
        assert abs(chances[0] - chances[-1]) > 0.2


def test_the_source_of_what_a_shop_measured():
    """Its date is the edition; what was not dated has none."""
    for date, edition in (("2026-03-01", "2026-03-01"), (None, "")):
        measured = MeasuredOversize(
            30,
            date=date,
            spread=0.001,
            drill_diameter=Length(Decimal("0.201"), "in"),
            mean=Length(Decimal("0.0038"), "in"),
            unit="in",
        )
        source = chance(QUARTER, USUAL._replace(measured_oversize=measured)).notes.sources[0]
        assert (source.field, source.document, source.edition) == ("minor_diameter", "shop figures", edition)
        assert (source.locator, source.status) == (measured.told(), "measured")
