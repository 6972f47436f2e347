"""A hole drilled too large, at both sides of each bound, with the whole proof of every way: arithmetic beside it.

3/8-16 UNC-2B: minor diameter 0.307 to 0.321 in (ASME B1.1); M8-6H: 6.647 to 6.912 mm (ISO 965-1). A cut thread is told
in percent of 1.299038 P (FED-STD-H28/2B 20.2.3), a formed one in percent of 0.68 P (Machinery's Handbook). A hole that
forms 55 to 80 percent is formed, one that leaves 50 percent and more is judged by its strength (our own).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.model import Range
from borewright.core.requests import MatingScrew
from every import every
from reworked import answer, plain

FORMED, AS_IT_IS, PLANNED = "form_the_thread", "use_with_less_thread", "tap_as_planned"
INSERT, LARGER, PLUG = "insert_in_the_same_place", "next_larger_thread", "plug_and_remake"
GRADE_5 = MatingScrew(grade="SAE J429 grade 5")
D = Decimal


def drilled(thread, diameter, *, measured=(), **given):
    return answer(thread, "drilled_oversize", measured={"hole_diameter": diameter, **dict(measured)}, **given)


@every(
    ("hole", "why"),
    [
        # 100 (8 - hole)/(0.68 x 1.25): 0.68/0.0085 = 80.00, 0.4675/0.0085 = 55.00
        (7.3195, "too small for a forming tap: it would form 80.1 % of thread, 55 to 80 % is the band"),
        (7.3200, None),
        (7.5325, None),
        (7.5330, "too large for a forming tap as well: it would form 54.9 % of thread, 55 to 80 % is the band"),
    ],
)
def test_the_band_in_which_a_thread_is_formed(hole, why):
    found = drilled("M8", hole)
    assert found.ruled_out.get(FORMED) == why
    assert (FORMED in found.names) is (why is None)


def test_what_a_thread_is_formed_with():
    """(8 - 7.35)/0.0085 = 76.47 percent; the drawing that allows a formed thread makes it rework."""
    for allowed, disposition in (((), "repair"), (("formed_thread",), "rework"), (("insert",), "repair")):
        found = drilled("M8", 7.35, drawing_allows=allowed)
        way = found[FORMED]
        assert way.disposition == disposition
        assert plain(way.text) == "Form the thread instead of cutting it: the hole forms 76.5 % of thread"
        assert (found.work(FORMED), found.codes(FORMED)) == (["tap", "inspect"], ["gauge_formed_minor"])
        assert way.plan.specification.tap.recommended.style == "forming"
        assert way.plan.specification.request.method == "form"
        assert dict(way.proof) == {
            "hole_diameter": D("7.35"),
            "percent_of_thread": 40.03,  # 0.65/1.6237975
            "percent_if_formed": 76.47,
            "minor_diameter_max": D("6.912"),
            "over_by": D("0.4380"),
        }


@every(
    ("given", "why"),
    [
        ({"material": None}, "name the material: only a ductile one forms a thread"),
        ({"material": "grey iron"}, "grey iron does not flow into a formed thread: it is too hard or breaks short"),
        (
            {"material": "unobtainium"},
            "the material is not known to form: Whether a thread forms cleanly in unobtainium depends on its batch and"
            " condition. Decide: form a trial hole, section it and gauge it before the first part, or cut the thread.",
        ),
        # a thread that is in the hole already, or that was to be formed anyway, is no question
        ({"measured": {"pitch_diameter": 7.4}}, None),
        ({"asked": {"method": "form"}}, None),
    ],
)
def test_where_no_thread_is_formed(given, why):
    found = drilled("M8", 7.35, **given)
    assert FORMED not in found.names
    assert found.ruled_out.get(FORMED) == why


@every(
    ("hole", "left"),
    [
        (7.1881, "50.0"),  # 0.8119/1.6237975 = 50.00
        (7.1600, "51.7"),  # 0.84/1.6237975 = 51.73
    ],
)
def test_half_a_thread_is_judged_by_its_strength(hole, left):
    found = drilled("M8", hole, asked={"mating_screw": MatingScrew(grade="8.8")})
    way = found[AS_IT_IS]
    assert way.text == f"Tap as planned with {left} % of thread, as the strength allows"
    assert (found.work(AS_IT_IS), found.codes(AS_IT_IS)) == (["tap", "inspect"], ["plain_plug_refuses"])
    assert (way.disposition, way.regrade, way.plan) == ("use_as_is", False, None)


def test_less_than_half_a_thread_is_not():
    """0.8/1.6237975 = 49.27."""
    found = drilled("M8", 7.2000)
    assert found.ruled_out[AS_IT_IS] == "only 49.3 % of thread would stand, less than 50 %"
    assert AS_IT_IS not in found.names


def test_a_screw_whose_thread_would_strip_first_rules_it_out():
    """0.25 in of grade 8 in steel: of the little complete thread the screw's own is the weakest, and loses more."""
    short = ("blind", {"full_thread_depth": 0.25})
    given = {"hole": short, "material": "4140", "asked": {"mating_screw": MatingScrew(grade="SAE J429 grade 8")}}
    found = drilled("3/8-16 UNC-2B", 0.3300, **given)
    assert found.ruled_out[AS_IT_IS] == "the screw's thread would strip before the joint has its strength"
    open_ = drilled("3/8-16 UNC-2B", 0.3300, material=None)
    assert open_.codes(AS_IT_IS) == ["rework_strength_open", "plain_plug_refuses"]


def test_every_figure_of_the_ways_of_a_hole():
    """3/8-16 drilled 0.3225: 0.0525 x 16/1.299038 = 64.66 percent, 0.0525 x 16/0.0068 = 123.53 if it were formed.

    7/16-14 has 0.360 to 0.376, 7/16-20 0.383 to 0.395 (ASME B1.1), M10 8.376 to 8.676 and 8.647 to 8.912 mm (ISO
    965-1), told in inches; the insert's hole is 0.375 + 0.216506/16 = 0.3885 at least.
    """
    found = drilled("3/8-16 UNC-2B", 0.3225, asked={"mating_screw": GRADE_5})
    assert found.names == [AS_IT_IS, INSERT, *[LARGER] * 4, PLUG]
    shared = {
        "hole_diameter": D("0.3225"),
        "percent_of_thread": 64.66,
        "percent_if_formed": 123.53,
        "minor_diameter_max": D("0.321"),
        "over_by": D("0.00150"),
    }
    for way in found.found.ways[:-1]:
        assert shared.items() <= way.proof.items(), way.name
    proof = found[AS_IT_IS].proof
    # FED-STD-H28/2B (4a): D1 (1/2 + tan 30 (d2 - D1)/P); a 2A screw has 0.3287 at least
    now, drawn = (float(d) * (1 / 32 + 0.57735 * (0.3287 - d)) for d in (0.3225, 0.321))
    assert proof["external_shear_area_ratio"] == pytest.approx(now / drawn, rel=1e-4)
    assert (proof["length_of_engagement"], proof["fails_first"]) == (D("0.75"), "screw")
    assert proof["safety_factor"] == proof["safety_factor_as_drawn"]
    clean = [
        (one.thread, one.proof["new_minor_diameter"], one.proof["cleans_up"], one.proof["radial_clean_up"])
        for one in found.found.ways[1:-1]
    ]
    assert clean == [
        ("3/8-16 UNC-2B STI", Range(D("0.3885"), None), "full_any_hole", D("0.03300")),
        ("7/16-14 UNC-2B", Range(D("0.360"), D("0.376")), "full_any_hole", D("0.01875")),
        ("7/16-20 UNF-2B", Range(D("0.383"), D("0.395")), "full_any_hole", D("0.03025")),
        ("M10x1.5-6H", Range(D("0.3298"), D("0.3416")), "full_any_hole", D("0.00365")),
        ("M10x1.25-6H", Range(D("0.3404"), D("0.3509")), "full_any_hole", D("0.00895")),
    ]
    assert found.codes(INSERT) == []
    assert found.found.ruled_out[0].name == FORMED


def test_a_hole_inside_its_limits_is_tapped_as_planned_and_nothing_else_is_said():
    found = drilled("3/8-16 UNC-2B", 0.3210)
    assert (found.names, found.ruled_out) == ([PLANNED], {})
    way = found[PLANNED]
    assert plain(way.text) == (
        "Tap as planned: 0.321 in is inside the limit of 0.321 in, nothing is wrong with the hole"
    )
    assert (found.work(PLANNED), found.codes(PLANNED)) == (["tap", "inspect"], [])
    assert (way.disposition, way.needs_authority, way.conforms) == ("rework", False, True)
    assert way.proof["over_by"] == 0


def test_the_strength_of_a_square_thread_is_open():
    """No standard tells its screw; (1 - 0.78)/(2 x 0.125) = 88 % of thread are left."""
    hole = ("through", {"thickness": 0.75})
    found = answer("1-4 SQUARE DEPTH .125", "drilled_oversize", measured={"hole_diameter": 0.78}, hole=hole)
    assert "rework_strength_open" in found.codes("use_with_less_thread")
    proof = found["use_with_less_thread"].proof
    assert (proof["hole_diameter"], proof["percent_of_thread"]) == (Decimal("0.78"), 88.0)
    assert not {"safety_factor", "fails_first", "external_shear_area_ratio"} & set(proof)
