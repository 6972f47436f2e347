"""The tap limit that is most often accepted, against an independent sum over the tap's band and the coat."""

from __future__ import annotations

import random
from decimal import Decimal
from statistics import NormalDist

import pytest
from borewright.core import callout, finishing, standards, tapping
from borewright.core.model import FinishInput, Length, LengthRange, Thread
from borewright.core.tapping import TapRequest, limits

NORMAL = NormalDist()
POINTS = 200
#: How far a recommended table may stay behind the best: one thread in forty.
TOLERANCE = 0.025


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def accepted(found: Thread, band, oversize, class_tolerance, coat=(0.0, 0.0)) -> float:
    """Mean over the tap's band of the chance that cut oversize (sigma 0.10 of the class tolerance) and coat fit."""
    window = found.internal.pitch_diameter
    sigma = ((0.10 * float(class_tolerance)) ** 2 + coat[1] ** 2) ** 0.5
    low, high = float(band.min), float(band.max)
    total = 0.0
    for point in range(POINTS):
        mean = low + (high - low) * (point + 0.5) / POINTS + float(oversize) + coat[0]
        total += NORMAL.cdf((float(window.max) - mean) / sigma) - NORMAL.cdf((float(window.min) - mean) / sigma)
    return total / POINTS


def told(choice) -> dict[str, float]:
    return {tap.limit.label: tap.acceptance for tap in (choice.recommended, *choice.alternatives)}


def tolerance_of(choice) -> Decimal:
    """Tolerance of class 2B or 6H, as the reply's own derivation of the cut oversize names it."""
    return next(
        step.inputs["tolerance"] for step in choice.notes.steps if step.quantity == "recommended.fit.cut_oversize"
    )


def fitting(found: Thread, oversize: Decimal):
    window = found.internal.pitch_diameter
    return [
        one
        for one in limits.limits_of_tables(found, "inch_h" if found.unit == "in" else "iso_class")
        if one.low + min(oversize, 0) >= window.min and one.high + max(oversize, 0) <= window.max
    ]


@pytest.mark.parametrize(
    "text",
    ["#8-40 UNS-2B", "1 11/16-14 UNS-2B", "9/16-27 UNS-2B", "5/16-27 UNS-2B", "M10x1.25-7G", "M16x2-8G"],
)
def test_without_a_table_the_most_accepted_limit_is_taken(text):
    found = thread(text)
    choice = tapping.recommend(found, TapRequest())
    oversize, tolerance = choice.recommended.fit.cut_oversize, tolerance_of(choice)
    summed = {
        one.limit.label: accepted(found, one.limit.pitch_diameter, oversize, tolerance)
        for one in fitting(found, oversize)
    }
    assert set(summed) == set(told(choice))
    for label, chance in told(choice).items():
        assert chance == pytest.approx(summed[label], abs=1e-5)
    assert summed[choice.recommended.limit.label] == pytest.approx(max(summed.values()), abs=1e-6)
    assert "most often accepted" in choice.recommended.reasons[0]


@pytest.mark.parametrize(("text", "label"), [("1/2-13 UNC-2B", "H5"), ("#0-80 UNF-3B", "H1"), ("M8", "ISO 2")])
def test_a_table_is_followed_while_it_is_as_good(text, label):
    """ASME B94.9 recommendations (from memory) stand, though another limit may be a little more often accepted."""
    choice = tapping.recommend(thread(text), TapRequest())
    assert choice.recommended.limit.label == label
    assert choice.recommended.acceptance >= max(told(choice).values()) - TOLERANCE


def test_a_limit_that_is_clearly_refused_more_often_is_only_the_first_alternative():
    """A formed #0-80 3B: one number up (H2) leaves 82 % inside, two up nearly all; both in 0.0519 to 0.0536 in."""
    found = thread("#0-80 UNF-3B")
    choice = tapping.recommend(found, TapRequest(method="form"))
    # closing in 0.0005 in, tolerance of 2B 0.0017 / 0.75 in
    summed = {
        label: accepted(found, limits.labelled(found, label).limit.pitch_diameter, "-0.0005", 0.0017 / 0.75)
        for label in ("H2", "H3")
    }
    assert summed["H3"] - summed["H2"] > TOLERANCE
    assert choice.recommended.limit.label == "H3"
    assert choice.alternatives[0].limit.label == "H2"
    assert "limit numbers above the cutting tap's H1" in choice.alternatives[0].reasons[0]
    assert choice.alternatives[0].acceptance == pytest.approx(summed["H2"], abs=1e-4)
    assert "recommended.limit" not in {source.field for source in choice.notes.sources}


def test_under_a_coat_the_finished_diameter_counts():
    """1/4-20 2B under 0.0003 to 0.0005 in of plate: drawn at random with a fixed seed, coat and cut independent."""
    found = thread("1/4-20 UNC-2B")
    plate = FinishInput(
        thickness=LengthRange(Length(Decimal("0.0003"), "in"), Length(Decimal("0.0005"), "in")),
        growth_fraction=Decimal(1),
    )
    allowance = finishing.allow(found, plate)
    choice = tapping.recommend(
        found, TapRequest(limits=allowance.before_finish, coat=finishing.coat_to_come(allowance))
    )
    change, final = allowance.change.pitch_diameter, found.internal.pitch_diameter
    mean, sigma = float(change.min + change.max) / 2, float(change.max - change.min) / 4
    source, samples = random.Random(41), 20_000
    chances = {}
    for tap in (choice.recommended, *choice.alternatives):
        low, high = float(tap.limit.pitch_diameter.min), float(tap.limit.pitch_diameter.max)
        drawn = (
            source.uniform(low, high) + source.gauss(0.0007, 0.00048) + source.gauss(mean, sigma)
            for _ in range(samples)
        )
        inside = sum(float(final.min) <= size <= float(final.max) for size in drawn) / samples
        chances[tap.limit.label] = inside
        assert tap.acceptance == pytest.approx(inside, abs=0.01)
    assert chances[choice.recommended.limit.label] >= max(chances.values()) - 0.005


def test_wider_limits_are_never_less_often_met():
    """1B holds everything 2B holds, and 2B what 3B does, with the same tap."""
    found = (thread(f"1/2-13 UNC-{grade}") for grade in ("3B", "2B", "1B"))
    chances = [told(tapping.recommend(one, TapRequest()))["H4"] for one in found]
    assert chances == sorted(chances)


@pytest.mark.parametrize("text", ["1/4-20 UNC-2B", "M8-6H"])
def test_the_chance_of_the_tap_is_derived(text):
    found = thread(text)
    choice = tapping.recommend(found, TapRequest(hole_kind="blind"))
    tap = choice.recommended
    summed = accepted(found, tap.limit.pitch_diameter, tap.fit.cut_oversize, tolerance_of(choice))
    (step,) = [one for one in choice.notes.steps if one.quantity == "recommended.acceptance"]
    assert (step.value, step.unit) == (tap.acceptance, "")
    assert step.value == pytest.approx(summed, abs=1e-4)
    band, window = tap.limit.pitch_diameter, found.internal.pitch_diameter
    expected = {
        "m": (band.min + band.max) / 2 + tap.fit.cut_oversize, "s": Decimal("0.10") * tolerance_of(choice),
        "w": band.max - band.min, "low": window.min, "high": window.max,
    }  # fmt: skip
    assert {name: pytest.approx(float(value)) for name, value in expected.items()} == step.inputs
