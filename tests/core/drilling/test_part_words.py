"""What part material and engagement add, by hand: M10x1.5 from 8.4 to 8.8 mm; brass is tapped at 70 to 80 percent."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core.drilling import DrillRequest, part_remarks, recommend
from borewright.core.drilling.candidates import Pick, drilled_candidate
from borewright.core.drilling.hole_limits import RANGES, HoleLimits
from borewright.core.model import Notes
from every import every

from .choices import drill_for, material, thread
from .weighed import case_of, held, item, plain_blanks, span

BRASS = material("brass", "long", "brass", 100.0)
PLASTIC = material("a plastic", None, "plastic", None)


@every(
    ("hole", "low", "high", "where"),
    [
        ("8.4", "8.4", "8.6", "inside"),
        ("8.6", "8.4", "8.6", "inside"),
        ("8.39", "8.4", "8.6", "outside"),
        ("8.61", "8.4", "8.6", "outside"),
        ("8.5", None, "8.6", None),
        ("8.5", "8.4", None, None),
    ],
)
def test_the_limits_recommended_for_the_engagement(hole, low, high, where):
    band = HoleLimits(span(low, high), RANGES[2], Notes())
    told = part_remarks.reasons_of_the_part(case_of(), Decimal(hole), None, None, band)
    said = f"hole {where} the limits 8.4 to 8.6 mm recommended for engagements over 0.67 D to 1.5 D"
    assert [plain_blanks(one) for one in told] == ([] if where is None else [said])


def test_percents_of_the_material_follow():
    usual = "common practice in brass is 70 to 80 % of thread for engagements to 1.5 D"
    assert part_remarks.reasons_of_the_part(case_of(), Decimal(9), BRASS, None, None) == (usual,)
    assert part_remarks.reasons_of_the_part(case_of(asked={"method": "form"}), Decimal(9), BRASS, None, None) == ()


def above(percent, *, expected=True, asked=None, first=(), limits=("8.4", "8.8"), of=BRASS):
    case = case_of(asked=asked, first=held(*first), limits=limits)
    one = item("8.5 mm")
    given = {"expected_percent_thread" if expected else "percent_thread": Decimal(percent)}
    pick = Pick(one, None, "rule", replace(drilled_candidate(case, one, ()), **given))
    return [plain_blanks(caution.text) for caution in part_remarks.percent_caution(case, pick, of, None)]


def test_clearly_more_thread_than_shops_cut():
    """Five percent over the band of 70 to 80: 85 is not above it, 85.01 is; the mean hole counts where it is known."""
    assert above("85") == above("85", expected=False) == above("90", asked={"method": "form"}) == []
    assert above("90", of=None) == above("90", of=PLASTIC) == []
    (told,) = above("85.01", expected=False)
    assert told.startswith(
        "8.5 mm leaves about 85 % of thread; brass is usually tapped at 70 to 80 %, more breaks taps"
    )


@every(
    ("first", "limits", "said"),
    [
        (
            (item("8.7 mm"), item("8.8 mm"), item("8.9 mm")),
            ("8.4", "8.8"),
            "The largest drill inside the limits is 8.8 mm",
        ),
        ((item("8.5 mm"), item("8.4 mm")), ("8.4", "8.8"), "No larger drill holds the limits"),
        ((), ("8.4", "8.8"), "No larger drill holds the limits"),
        ((item("8.8 mm"),), ("8.4", None), "No larger drill holds the limits"),
        ((item("8.8 mm"),), (None, "8.8"), "No larger drill holds the limits"),
    ],
)
def test_what_a_larger_drill_would_be(first, limits, said):
    (told,) = above("90", first=first, limits=limits)
    assert said in told


def test_whether_a_drill_leaves_more_than_is_cut():
    """M10 with 8.4 mm leaves 82.1 %, by its mean hole less; a stated 86 % is above 85."""
    drill = replace(drill_for("M10").recommended, expected_percent_thread=None, percent_thread=Decimal(86))
    assert part_remarks.above_practice(thread("M10"), drill, BRASS, Decimal(10))
    assert not part_remarks.above_practice(
        thread("M10"), replace(drill, percent_thread=Decimal(85)), BRASS, Decimal(10)
    )
    assert not part_remarks.above_practice(thread("M10"), drill, None, Decimal(10))


# --- plastic ------------------------------------------------------------------------------------------------


def test_no_oversize_of_steel_is_told_of_plastic():
    """1/2-20 UNF-2B ends at 0.457: 29/64 (0.4531) leaves 0.0039 by itself; of steel it would drill 0.4578."""
    steel = drill_for("1/2-20 UNF-2B")
    assert [one.code for one in steel.notes.decisions] == ["drill_often_outside"]
    found = part_remarks.as_drilled_in_plastic(steel, PLASTIC)
    best = found.recommended
    assert (best.drill.label, best.margin_below_max) == ("29/64", Decimal("0.0039"))
    assert (best.expected_hole_diameter, best.expected_percent_thread, best.acceptance) == (None, None, None)
    assert not any("on average" in text for text in best.reasons)
    assert (found.chart_drill, found.most_accepted, found.notes.decisions) == (None, None, ())
    assert found.notes.cautions == steel.notes.cautions
    reamed = found.alternatives[0]
    assert reamed == steel.alternatives[0]
    assert all(one.expected_hole_diameter is None for one in found.alternatives[1:])
    assert found.notes.assumptions[-1].startswith("no oversize of the drilled hole is assumed")
    assert sum("oversize" in text for text in found.notes.assumptions) == 1


def test_what_was_never_known_stays_so():
    """M64x6 is beyond the tables of oversize; the largest minor diameter of an insert's hole is not held."""
    large, insert = drill_for("M64x6"), drill_for("1/4-20 STI")
    bare = part_remarks.as_drilled_in_plastic(large, PLASTIC).recommended
    assert large.recommended.expected_hole_diameter is None
    assert bare.margin_below_max == large.recommended.margin_below_max
    assert part_remarks.as_drilled_in_plastic(insert, PLASTIC).recommended.margin_below_max is None
    assert recommend(thread("M10"), DrillRequest(material=BRASS)).recommended.expected_hole_diameter is not None
