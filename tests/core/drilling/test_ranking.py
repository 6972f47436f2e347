"""The drill whose holes are most often accepted, against holes drawn at random and an independent normal curve."""

from __future__ import annotations

import random
from decimal import Decimal
from statistics import NormalDist

import pytest
from borewright.core import callout, finishing, standards
from borewright.core.drilling import DrillRequest, recommend
from borewright.core.drilling.standard_drills import OwnOversize, rack
from borewright.core.model import DrillCandidate, FinishInput, Hole, Length, LengthRange, PercentTarget, Thread
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest

SAMPLES = 20_000
#: Standard deviation of drilled holes by the largest drill of each step, in inches (derived in three ways).
SIGMA_IN = [(0.0625, 0.0005), (0.125, 0.0008), (0.25, 0.0010), (0.5, 0.0012), (0.75, 0.0014), (1.0, 0.0016)]
INCH = ("fractional", "number", "letter")


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def sigma(found: Thread, drill: Decimal) -> float:
    scale = 25.4 if found.unit == "mm" else 1.0
    return next(value for size, value in SIGMA_IN if float(drill) / scale <= size) * scale


def accepted(found: Thread, drill: Decimal, mean: Decimal, coat=(0.0, 0.0)) -> float:
    """Share of a normal curve inside the limits; the cut-off 4 and more deviations below the mean is left out."""
    limits = found.internal.minor_diameter
    size = NormalDist(float(mean) + coat[0], (sigma(found, drill) ** 2 + coat[1] ** 2) ** 0.5)
    return size.cdf(float(limits.max)) - size.cdf(float(limits.min))


def holding(found: Thread, series: tuple[str, ...]):
    """Every standard drill of the series that holds the limits with itself and with its mean hole."""
    limits = found.internal.minor_diameter
    inside = rack(found.unit, series).between(low=limits.min, high=limits.max)
    return [item for item in inside if item.expected is not None and item.expected <= limits.max]


@pytest.mark.parametrize(
    ("text", "series"),
    [
        ("1/4-20 UNC-2B", INCH), ("#10-32 UNF-2B", INCH), ("1/2-13 UNC-2B", INCH), ("5/16-32 UNEF-2B", INCH),
        ("#12-28 UNJF-3B", INCH), ("7/16-32 UN-2B", INCH), ("M8", ("metric",)), ("M12", ("metric",)),
        ("M3.5", ("metric",)), ("M10x1", ("metric",)), ("MJ12x1.75-4H5H", ("metric",)),
    ],
)  # fmt: skip
def test_objective_acceptance_takes_the_greatest_chance(text, series):
    found = thread(text)
    choice = recommend(found, DrillRequest(objective="acceptance"))
    chances = {item.drill.label: accepted(found, item.diameter, item.expected) for item in holding(found, series)}
    best = choice.recommended
    assert choice.rule == "greatest_acceptance"
    assert chances[best.drill.label] == pytest.approx(max(chances.values()), abs=1e-4)
    assert best.acceptance == pytest.approx(chances[best.drill.label], abs=1e-4)
    assert choice.most_accepted.label == best.drill.label
    assert all(best.acceptance >= other.acceptance for other in choice.alternatives if other.drill.series in series)


@pytest.mark.parametrize("text", ["1/4-20 UNC-2B", "M8", "M12x1.75-6H"])
def test_holes_drawn_at_random_confirm_the_chances(text):
    """Four standard errors of a share estimated from the samples; no hole is far smaller than its drill."""
    found, source = thread(text), random.Random(73)
    limits = found.internal.minor_diameter
    choice = recommend(found, DrillRequest(objective="acceptance"))
    shown: list[DrillCandidate] = [choice.recommended, *choice.alternatives[:3]]
    for one in shown:
        spread = sigma(found, one.diameter)
        drawn = [source.gauss(float(one.expected_hole_diameter), spread) for _ in range(SAMPLES)]
        share = sum(float(limits.min) <= hole <= float(limits.max) for hole in drawn) / SAMPLES
        error = (max(share * (1 - share), 1e-4) / SAMPLES) ** 0.5
        assert one.acceptance == pytest.approx(share, abs=4 * error + 1e-4)


@pytest.mark.parametrize(
    ("text", "label"),
    [("1/2-13 UNC-2B", "27/64"), ("1/4-20 UNC-2B", "#7"), ("#10-32 UNF-2B", "#21"), ("M8", "6.8 mm"),
     ("M12", "10.2 mm")],
)  # fmt: skip
def test_the_chart_still_decides_by_default(text, label):
    """Published charts: FED-STD-H28/2B for the inch threads, ISO 2306 for the metric ones."""
    choice = recommend(thread(text), DrillRequest())
    assert (choice.recommended.drill.label, choice.rule) == (label, "published_chart")
    assert choice.chart_drill.label == label
    assert choice.chart_drill.acceptance == choice.recommended.acceptance <= choice.most_accepted.acceptance


@pytest.mark.parametrize(
    ("text", "label", "surer"), [("M8", "6.8 mm", "6.7 mm"), ("#8-32 UNC-2B", "#29", "3.4 mm"), ("M6", "5 mm", None)]
)
def test_the_drill_of_every_shop_leaves_nothing_to_decide(text, label, surer):
    """Common practice: 6.8 mm for M8 and #29 for 8-32 run everywhere; the reasons tell the chance, no alarm does."""
    choice = recommend(thread(text), DrillRequest())
    assert choice.recommended.drill.label == label
    assert not choice.notes.decisions
    assert not choice.notes.cautions
    assert surer is None or "of its holes end inside" in " ".join(choice.recommended.reasons)


@pytest.mark.parametrize("text", ["1/2-20 UNF-2B", "5/8-18 UNF-2B", "7/8-9 UNC-3B", "G 1/4", "Rp 3/8", "1/4 BSW"])
def test_a_drill_that_the_model_fails_is_put_before_a_person(text):
    """By the tables' mean oversize less than two of five hold: it stays; chance, smaller drill and ream are told."""
    choice = recommend(thread(text), DrillRequest())
    assert choice.recommended.acceptance < 0.4
    (decision,) = choice.notes.decisions
    assert decision.code == "drill_often_outside"
    assert f"{100 * choice.recommended.acceptance:.1f} %" in decision.text
    assert "ream to" in decision.text or "bore to" in decision.text
    surer = [one for one in choice.alternatives if one.acceptance is not None and one.acceptance > 0.9]
    assert bool(surer) == ("; take " in decision.text)
    assert choice.alternatives[0].operation == "drill_and_ream"


def test_the_drills_of_the_shop_replace_the_tables():
    """1/2-20 UNF-2B ends at 0.457: 29/64 (0.4531), 0.001 in oversize, 0.0008 in spread: z = 3.6."""
    own = OwnOversize(Decimal("0.001"), 0.0008)
    choice = recommend(thread("1/2-20 UNF-2B"), DrillRequest(oversize=own))
    assert (choice.recommended.drill.label, str(choice.recommended.expected_hole_diameter)) == ("29/64", "0.4541")
    assert choice.recommended.acceptance == pytest.approx(NormalDist().cdf(3.625), abs=1e-5)
    assert not choice.notes.decisions


def test_what_the_shop_states_itself_is_judged_as_it_is():
    """M8 ends at 6.912: 6.8 mm with 0.1 mm and 0.02 mm spread makes 27 % (z = 0.6) too large, by its own figures."""
    choice = recommend(thread("M8"), DrillRequest(oversize=OwnOversize(Decimal("0.1"), 0.02)))
    assert choice.recommended.acceptance == pytest.approx(NormalDist().cdf(0.6), abs=1e-5)
    assert [one.code for one in choice.notes.decisions] == ["drill_often_outside"]
    assert "keep 6.8 mm" not in choice.notes.decisions[0].text


def test_a_chart_drill_that_holds_is_not_cautioned():
    choice = recommend(thread("1/2-13 UNC-2B"), DrillRequest())
    assert choice.recommended.acceptance > 0.99
    assert "acceptance_low" not in {caution.code for caution in choice.notes.cautions}


@pytest.mark.parametrize(
    ("text", "nearest", "label"),
    [("1/8-27 NPSM", "23/64", "T")],
)
def test_without_a_chart_a_clearly_likelier_drill_goes_before_the_nearest(text, nearest, label):
    choice = recommend(thread(text), DrillRequest())
    chances = {one.drill.label: one.acceptance for one in (choice.recommended, *choice.alternatives)}
    assert choice.chart_drill is None
    assert (choice.recommended.drill.label, choice.rule) == (label, "greatest_acceptance")
    assert choice.alternatives[0].drill.label == nearest
    assert chances[label] > chances[nearest] + 0.05


def test_without_a_chart_the_nearest_stays_while_it_is_as_good():
    """1/4-24 UNS: #4 is nearest to D - P and holds 98.6 %, #5 all: no chart, no clear gain."""
    choice = recommend(thread("1/4-24 UNS-2B"), DrillRequest())
    assert (choice.recommended.drill.label, choice.rule) == ("#4", "rule")
    assert choice.most_accepted.label == "#5"


def test_a_percent_asked_for_is_not_overruled():
    choice = recommend(thread("#12-40 UNS-2B"), DrillRequest(percent=PercentTarget(target=Decimal(62))))
    assert choice.rule == "rule"


def test_the_crib_is_judged_by_chance_too():
    request = DrillRequest(objective="acceptance", stock=("6.9 mm", "6.75 mm", "6.8 mm"))
    choice = recommend(thread("M8"), request)
    assert choice.recommended.drill.label == "6.75 mm"
    assert choice.recommended.in_stock


def test_chances_fall_as_the_mean_hole_leaves_the_middle():
    found = thread("M10")
    limits = found.internal.minor_diameter
    middle = (limits.min + limits.max) / 2
    choice = recommend(found, DrillRequest(objective="acceptance"))
    known = [one for one in (choice.recommended, *choice.alternatives) if one.drill.series == "metric"]
    known.sort(key=lambda one: abs(one.expected_hole_diameter - middle))
    chances = [one.acceptance for one in known]
    assert len(chances) > 1
    assert chances == sorted(chances, reverse=True)


def test_under_a_coat_the_finished_hole_counts():
    """A thick coat closes the hole in: a larger drill is accepted more often than the bare thread's best."""
    found = thread("1/2-13 UNC-2B")
    plate = FinishInput(
        thickness=LengthRange(Length(Decimal("0.0015"), "in"), Length(Decimal("0.0025"), "in")),
        growth_fraction=Decimal(1),
    )
    allowance = finishing.allow(found, plate)
    request = DrillRequest(
        objective="acceptance",
        minor_diameter=allowance.before_finish.minor_diameter,
        coat=finishing.coat_to_come(allowance),
    )
    bare, plated = recommend(found, DrillRequest(objective="acceptance")), recommend(found, request)
    change = allowance.change.minor_diameter
    coat = float(change.min + change.max) / 2, float(change.max - change.min) / 4
    for one in (plated.recommended, *plated.alternatives):
        if one.expected_hole_diameter is not None and one.acceptance is not None:
            expected = accepted(found, one.diameter, one.expected_hole_diameter, coat)
            assert one.acceptance == pytest.approx(expected, abs=1e-4)
    assert plated.recommended.expected_hole_diameter >= bare.recommended.expected_hole_diameter


def test_what_is_not_known_is_not_guessed():
    """No spread is held above 1 in, none for a formed hole or a taper thread."""
    for text, request in (
        ("M64x6", DrillRequest(objective="acceptance")),
        ("M8", DrillRequest(objective="acceptance", method="form")),
        ("1/2-14 NPT", DrillRequest(objective="acceptance")),
    ):
        choice = recommend(thread(text), request)
        assert choice.recommended.acceptance is None
        assert choice.rule != "greatest_acceptance"
        assert any("acceptance" in said or "accepted" in said for said in choice.notes.assumptions)


def test_a_formed_hole_has_no_chance_of_its_minor_diameter():
    """The flow of the metal sets the minor diameter, not the drill."""
    hole = Hole("through", thickness=Length(Decimal(8), "mm"))
    formed = specify(HoleSpecRequest(thread=callout.read("M8"), hole=hole, method="form"))
    assert formed.process.acceptance.minor_diameter is None
    assert specify(HoleSpecRequest(thread=callout.read("M8"), hole=hole)).process.acceptance.minor_diameter is not None
