"""Whole UN and UNJ threads by hand: d2 = D - .649519 P, d1 = D - 1.082532 P (UNJ .974279 P), products to 6 decimals;
Td2 = .0015 D^(1/3) + .0015 LE^(1/2) + .015 P^(2/3) (ASME B1.1, FED-STD-H28/2B; ties to even in 1989, up in 2019).
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from borewright.core.standards import external_limits
from every import every
from whole_threads import OPEN, basic, codes, ends, form, head, limits, refused, statuses, text_of

D = Decimal


def of_edition(text, edition, length=None):
    return standards.resolve(callout.read(text), edition=edition, engagement=length and Length(D(length), "in"))


def source(thread, field):
    (found,) = (one for one in thread.notes.sources if one.field == field)
    return found


def test_unc_by_hand(resolved):
    """13 an inch: .649519 P .049963, 1.082532 P .083272, P^(2/3) .180872; Td2 .004964, TD1 .25 P - .4 P^2 = .016864.

    2A: es .3 Td2 = .0015, .060 P^(2/3) = .010852; rounded root 1.190785 P = .091599; hot rolled .090 P^(2/3).
    """
    thread = resolved("1/2-13 UNC-2B LH")
    assert head(thread) == ("1/2-13 UNC-2B LH", "UNC", "1/2", "2B", "2A")
    assert form(thread) == ("in", "0.5000", "0.07692308", "13", "0.07692308", "1", "60", None)
    assert basic(thread) == ("0.5000", "0.4500", "0.4167")
    assert limits(thread.internal) == (("0.5000", None), ("0.4500", "0.4565"), ("0.417", "0.434"))
    assert limits(thread.external) == (("0.4876", "0.4985"), ("0.4435", "0.4485"), (None, "0.4152"))
    assert {name: str(value) for name, value in thread.extra["external_reference"].items()} == {
        "unr_minor_diameter_max": "0.4069",
        "unr_minor_diameter_max_tabulated": "0.4069",
        "unfinished_major_diameter_min": "0.4822",
    }
    assert set(thread.extra) == {"tolerance", "external_reference"}
    assert statuses(thread) == {
        "series": "published",
        "basic": "computed",
        "internal.major_diameter": "computed",
        "internal.pitch_diameter": "computed",
        "internal.minor_diameter": "published",
        "external": "computed",
        "external_reference": "computed",
        "tensile_stress_area": "second_hand",
        "standard": "computed",
    }
    assert codes(thread) == ()


def test_unjc_of_two_starts_by_hand():
    """.974279 P .074945; TD1 of 3B: .05 P^(2/3) + .03 P / D - .002 = .011659; 3B .975 x .004964, 3A .75 x .004964.

    Root .15011 P = .01155 to .18042 P = .01388; its mate is a UN screw with another root.
    """
    given = ThreadFields("unified_j", "1/2", threads_per_inch=D(13), starts=2, thread_class="3B", hand="left")
    thread = standards.resolve(callout.from_fields(given))
    assert head(thread) == ("1/2-0.076923P-0.153846L UNJC-3B LH", "UNJC", "1/2", "3B", "3A")
    assert form(thread) == ("in", "0.5000", "0.07692308", "13", "0.15384616", "2", "60", None)
    assert basic(thread) == ("0.5000", "0.4500", "0.4251")
    assert limits(thread.internal) == (("0.5000", None), ("0.4500", "0.4548"), ("0.4251", "0.4368"))
    assert limits(thread.external) == (("0.4891", "0.5000"), ("0.4463", "0.4500"), OPEN)
    assert ends(thread.extra["external_root"]["radius"]) == ("0.0115", "0.0139")
    assert str(thread.tensile_stress_area) == "0.1419"
    assert codes(thread) == ("j_form_mates",)
    assert not [step for step in thread.notes.steps if step.quantity.startswith("external.minor")]
    assert statuses(thread) == {
        "series": "published",
        "internal.pitch_diameter": "computed",
        "internal.minor_diameter": "from_memory",
        "external": "computed",
        "external_root": "from_memory",
        "tensile_stress_area": "second_hand",
    }
    # 2A: .4985 and .4485, less .010852 and .0050; the root is not held
    assert limits(external_limits(thread, thread_class="2A")) == (("0.4876", "0.4985"), ("0.4435", "0.4485"), OPEN)


@every(
    ("text", "edition", "side", "diameter", "end", "printed"),
    [
        # .5625 - .067658 = .494842; TD1 .0078745 + .0033333 - .002 = .009208; .494842 + .009208 = .50405
        ("9/16-16 UN-3B", "2019", "internal", "minor_diameter", "max", "0.5041"),
        # .164 - .033829 = .130171; .0049606 + .0057165 - .002 = .008677; sum .138848
        ("#8-32 UNC-3B", "2019", "internal", "minor_diameter", "max", "0.1388"),
        # Td2 .0027066 + .0012990 + .0028618 = .006867; x .75 = .005150; 5.8209 - .00515 = 5.81575
        ("5 7/8-12 UN-3B", "2019", "external", "pitch_diameter", "min", "5.8158"),
        # Td2 .002302, x 1.5 = .003453; .0990 - .0007 - .013532 = .0848; .0848 - .003453 = .081347
        ("#3-48 UNC-1B", "2019", "external", "pitch_diameter", "min", "0.0813"),
        # 1989, Td2 at the anchor 5: .002565 + .001299 + .002862 = .006726; 4.5709 + 1.3 x .006726 = 4.57964
        ("4 5/8-12 UN-2B", "1989", "internal", "pitch_diameter", "max", "4.5796"),
        # the middle 4.5 belongs to the anchor 4: .002381 + .001299 + .002862 = .006542; 4.4459 + .008505 = 4.45440
        ("4 1/2-12 UN-2B", "1989", "internal", "pitch_diameter", "max", "4.4544"),
        ("#6-32 UNC-2B", "1989", "internal", "minor_diameter", "min", "0.104"),
        ("#5-40 UNC-2B", "1989", "internal", "minor_diameter", "min", "0.0979"),
    ],
)
def test_limits_next_to_a_tie_or_between_anchors(text, edition, side, diameter, end, printed):
    """#6: .1380 - .033829 = .104171, three decimals from .138 in; #5: .1250 - .027063 = .097937, four below."""
    found = getattr(getattr(of_edition(text, edition), side), diameter)
    assert str(getattr(found, end)) == printed


@every(
    ("text", "formula"),
    [
        ("#6-32 UNC-2B", "half_even(half_even(D - half_even(1.08253175 * P, 6), 4), 3)"),
        ("#5-40 UNC-2B", "half_even(D - half_even(1.08253175 * P, 6), 4)"),
    ],
)
def test_how_a_least_minor_diameter_is_rounded(text, formula):
    steps = {step.quantity: step.formula for step in of_edition(text, "1989").notes.steps}
    assert steps["internal.minor_diameter.min"] == formula


def test_minor_tolerance_from_a_quarter_inch_is_by_pitch_alone():
    """ASME B1.1 5.8.2: 1B and 2B from 1/4 in by pitch, smaller ones the larger of two, at most .394 P."""
    formulas = {
        text: next(step.formula for step in of_edition(text, "1989").notes.steps if step.quantity == "TD1")
        for text in ("1/4-20 UNC-2B", "#12-24 UNC-2B", "1/4-20 UNC-3B")
    }
    assert formulas["1/4-20 UNC-2B"] == "ratio * (0.25 * P - 0.4 * P ** 2)"
    assert formulas["#12-24 UNC-2B"].startswith("min(ratio * max(")
    assert formulas["1/4-20 UNC-3B"].startswith("min(ratio * max(")


@every(
    ("text", "length", "said"),
    [
        ("1/2-13 UNC-2B", None, ("length of engagement up to 1.5 diameters (tolerances for 1 diameter)",)),
        ("9/16-20 UN-2B", None, ("length of engagement up to 15 pitches (tolerances for 9 pitches)",)),
        ("1/2-13 UNC-2B", "0.5", ()),
    ],
)
def test_standard_length_of_engagement_is_said(text, length, said):
    found = of_edition(text, "2019", length).notes.assumptions
    assert tuple(one for one in found if one.startswith("length of engagement")) == said


def test_drawing_note_with_a_length_of_four_decimals():
    found = of_edition("1/2-13 UNC-2B", None, "1.23456").extra
    assert found["special"]["drawing_note"].endswith(" LE 1.2346")
    assert str(found["engagement"]["length"]) == "1.2346"


@every(
    ("text", "edition", "document"),
    [
        ("1/2-13 UNC-2B", None, "2019 (same limits as the edition of 1989)"),
        ("1-8 UNC-2B", None, "2019 (by formula, decimals after ASME B1.30)"),
        ("1-8 UNC-2B", "1989", "1989 (values of the 1982/1989 tables, as adopted by FED-STD-H28/2B, 1991)"),
        ("1-15 UNS-2B", "1989", "1989 (by formula, decimals after ASME B1.30-2002)"),
    ],
)
def test_which_edition_limits_are_of(text, edition, document):
    assert of_edition(text, edition).standard.edition == document


@every("text", ["5/16-22 UNS", "7/16-22 UNS", "11/16-22 UNS", "13/16-22 UNS", "2 1/8-25 UNS", "7/16-26 UNS"])
def test_no_table_of_1989_keeps_a_special_thread_from_2019(text):
    """Only what a table of 1989 lists can still stand so in that of 2019."""
    found = of_edition(text, None)
    assert found.extra["tolerance"]["edition"] == "2019"
    assert "edition_not_confirmed" not in codes(found)


#: Callout; edition; status of its series and minor diameter; whether the minor diameter is of a table; edition told.
KNOWN = [
    ("1/2-13 UNC-2B", None, "published", "published", True, True),
    ("#10-24 UNC-2B", None, "published", "computed", False, False),
    ("#10-24 UNC-2B", "1989", "published", "published", True, False),
    ("1-15 UNS-2B", "1989", "computed", "computed", False, False),
    ("3/16-22 UNS-2B", None, "computed", "computed", False, True),
    ("1/4-36 UNS-2B", "1989", "published", "published", True, False),
    ("1/4-24 UNS-2B", "1989", "from_memory", "computed", True, False),
    ("1/4-40 UNS-2B", "1989", "second_hand", "computed", True, False),
]


@every(("text", "edition", "series", "minor", "of_table", "both"), KNOWN)
def test_how_well_unified_limits_are_known(text, edition, series, minor, of_table, both):
    """A minor diameter is published where a table that was seen prints it and the answer follows that table."""
    found = of_edition(text, edition)
    known = statuses(found)
    assert (known["series"], known["internal.minor_diameter"]) == (series, minor)
    place = source(found, "internal.minor_diameter").locator
    assert place == (
        "limits tables; FED-STD-H28/2B (1991) Tables II.A.3 and II.A.4"
        if of_table
        else "section 5.8.2 formulas, decimals of ASME B1.30-2002 3.1.3"
    )
    assert ("standard" in known) is both


@every(
    ("text", "tabulated"),
    [("1-14 UNS-2B", True), ("2.500-28 UNS-2B", False), ("1-15 UNS-2B", False)],
)
def test_reference_diameter_of_the_rounded_root_is_of_listed_threads(resolved, text, tabulated):
    """The table prints a depth for 28 threads an inch too, but not 2.500-28."""
    assert ("unr_minor_diameter_max_tabulated" in resolved(text).extra["external_reference"]) is tabulated


def test_the_smallest_special_thread(resolved):
    """.0600 in is the smallest size: 72 threads an inch are coarser than 3.24759528 / .06 = 54.1."""
    thread = resolved("#0-72 UNS")
    assert (thread.designation, thread.size) == ("#0-72 UNS-2B", "#0")
    assert "#0-72 is not tabulated by ASME B1.1" in text_of(thread, "special_thread")


def test_long_engagement_begins_past_one_and_a_half_diameters():
    assert "long_engagement" not in codes(of_edition("1/2-13 UNC-2B", None, "0.75"))
    assert "long_engagement" in codes(of_edition("1/2-13 UNC-2B", None, "0.7501"))


def test_looser_classes():
    """ASME B1.1 has 1B to 3B, B1.15 2B and 3B."""
    looser = {name: standards.systems.of(name).traits.looser_classes for name in ("unified", "unified_j")}
    assert {one: looser["unified"](one) for one in ("1B", "2B", "3B")} == {"1B": (), "2B": ("1B",), "3B": ("2B", "1B")}
    assert {one: looser["unified_j"](one) for one in ("2B", "3B")} == {"2B": (), "3B": ("2B",)}


@every(
    ("text", "words"),
    [
        ("6-31", "No Unified series holds #6 with 31 threads per inch"),
        ("6-31 UNF", "#6 with 31 threads per inch is not UNF: #6 exists as UNC 32, UNF 40."),
        ("1/2-13 UNC-3A/2A", "3A is the class of the screw; the hole that takes it has an internal class, usually 3B."),
        ("1/2-13 UNC-9Z", "Class 9Z does not exist for an internal UNC thread."),
        ("1/2-13-9Z", "Class 9Z does not exist for an internal Unified thread."),
    ],
)
def test_a_refusal_names_the_first_reading(text, words):
    """A bare number up to 12 is a screw size first."""
    if text.endswith("9Z"):
        series = "UNC" if "UNC" in text else None
        fields = ThreadFields("unified", "1/2", threads_per_inch=D(13), series=series, thread_class="9Z")
        assert words in refused(lambda: callout.from_fields(fields)).detail
        return
    assert words in refused(lambda: callout.read(text)).detail


def test_two_threads_of_each_size_near_are_offered():
    """#11 would be .203 in: #10 (.190) and #12 (.216) lie next to it, coarse and fine of each."""
    assert refused(lambda: callout.read("#11")).did_you_mean == (
        *("#10-24 UNC", "#10-32 UNF"),
        *("#12-24 UNC", "#12-28 UNF"),
    )
