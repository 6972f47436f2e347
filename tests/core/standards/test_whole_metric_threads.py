"""Whole M and MJ threads by hand: D2 = D - .649519 P, D1 = D - 1.082532 P (MJ .97428 P) to whole micrometres, then the
deviations and tolerances of ISO 965-1 (AS 1721 and the data of DIN ISO 965-1), those of hot-dip zinc by ISO 965-5.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from borewright.core.standards import external_limits, resolve
from every import every
from whole_threads import OPEN, basic, codes, ends, form, head, limits, refused, statuses, text_of

D = Decimal

#: 8 - .811899 = 7.188; 8 - 1.353165 = 6.647. EI of G 28; TD2 6: 160; TD1 6: 265. 6g: es -28, Td2 118, Td 212; root of
#: the mate 7.160 - .433013 x 1.25 = 6.6187 and 7.042 - .616025 x 1.25 = 6.2720.
M8 = [
    ("M8-6H LH", "6H", (("8.000", None), ("7.188", "7.348"), ("6.647", "6.912"))),
    ("M8-6G", "6G", (("8.028", None), ("7.216", "7.376"), ("6.675", "6.940"))),
]


@every(("text", "grade", "hole"), M8)
def test_m8_by_hand(resolved, text, grade, hole):
    thread = resolved(text)
    left = " LH" if text.endswith("LH") else ""
    assert head(thread) == (f"M8x1.25-{grade}{left}", "coarse", "8", grade, "6g")
    assert form(thread) == ("mm", "8", "1.25", None, "1.25", "1", "60", None)
    assert basic(thread) == ("8.000", "7.188", "6.647")
    assert limits(thread.internal) == hole
    assert limits(thread.external) == (("7.760", "7.972"), ("7.042", "7.160"), ("6.272", "6.619"))
    # d3 = 8 - .028 - 1.226869 x 1.25; group N of 1.25 is over 4 to 12 mm
    assert thread.extra["external_reference"] == {"minor_diameter_d3": D("6.438")}
    assert thread.extra["engagement"]["group"] == "N"
    assert ends(thread.extra["engagement"]["normal_range"]) == ("4", "12")
    assert "length" not in thread.extra["engagement"]
    assert codes(thread) == ()
    assert thread.standard.document == "ISO 965-1"
    assert list(statuses(thread)) == [
        *("series", "basic", "internal.pitch_diameter", "internal.minor_diameter", "tensile_stress_area"),
        *("external.pitch_diameter", "external.major_diameter", "mating_class"),
    ]
    assert statuses(thread, "mating_class") == {"mating_class": "from_memory"}


def test_mj8_by_hand(resolved):
    """8 - .97428 x 1.25 = 6.78215; TD2 4: 100, TD1 5: 212; 4h6h: Td2 4: 75, Td 6: 212. Root .15011 P to .18042 P."""
    thread = resolved("MJ8x1.25-4H5H LH")
    assert head(thread) == ("MJ8x1.25-4H5H LH", "MJ", "8", "4H5H", "4h6h")
    assert form(thread) == ("mm", "8", "1.25", None, "1.25", "1", "60", None)
    assert basic(thread) == ("8.000", "7.188", "6.782")
    assert limits(thread.internal) == (("8.000", None), ("7.188", "7.288"), ("6.782", "6.994"))
    assert limits(thread.external) == (("7.788", "8.000"), ("7.113", "7.188"), OPEN)
    assert ends(thread.extra["external_root"]["radius"]) == ("0.188", "0.226")
    assert thread.extra["engagement"]["group"] == "N"
    assert "external_reference" not in thread.extra
    assert codes(thread) == ("j_form_mates",)
    assert list(statuses(thread)) == [
        *("series", "internal.pitch_diameter", "internal.minor_diameter", "external", "external_root"),
        "tensile_stress_area",
    ]
    assert statuses(thread, "external") == {"external": "second_hand", "external_root": "from_memory"}
    assert not [step.quantity for step in thread.notes.steps if step.quantity.startswith("external.minor")]
    assert str(thread.tensile_stress_area) == "36.6"
    assert limits(external_limits(thread, thread_class="6h"))[0] == ("7.788", "8.000")


@every(
    ("text", "designation", "cautions"),
    [
        ("MJ16x1.5", "MJ16x1.5-4H5H", ()),
        ("MJ16xPh3P1.5", "MJ16xPh3P1.5-4H5H", ("multi_start_tolerance",)),
        ("MJ13x1 SPL", "MJ13x1-4H5H-SPL", ("nonstandard_combination",)),
        ("M16x1.5", "M16x1.5-6H", ()),
        ("M16xPh3P1.5", "M16xPh3P1.5-6H", ("multi_start_tolerance",)),
        ("M13x1 SPL", "M13x1-6H-SPL", ("nonstandard_combination",)),
    ],
)
def test_leads_and_combinations_that_no_list_has(resolved, text, designation, cautions):
    thread = resolved(text)
    assert thread.designation == designation
    assert codes(thread) == (("j_form_mates", *cautions) if text.startswith("MJ") else cautions)
    listed = "nonstandard_combination" not in cautions
    assert (thread.series is not None, "series" in statuses(thread)) == (listed, listed)
    assert str(thread.lead) == ("3.0" if "Ph3" in text else str(thread.pitch))


#: ISO 965-5 table: pitch, ES of D2 for 6AZ and 6AX, ES of D1 for both, the coarse sizes; M8 is of ISO 10684 Annex B.
ZINC = [
    ("1.25", 485, 415, 590, 520, "8"),
    ("1.5", 510, 490, 630, 610, "10"),
    ("1.75", 535, 565, 670, 700, "12"),
    ("2", 552, 632, 715, 795, "14 16"),
    ("2.5", 574, 754, 800, 980, "18 20 22"),
    ("3", 625, 905, 860, 1140, "24 27"),
    ("3.5", 650, 1030, 930, 1310, "30 33"),
    ("4", 680, 1160, 980, 1460, "36 39"),
    ("4.5", 705, 1285, 1060, 1640, "42 45"),
    ("5", 735, 1415, 1110, 1790, "48 52"),
    ("5.5", 765, 1545, 1160, 1940, "56 60"),
    ("6", 795, 1675, 1220, 2100, "64"),
]


@every(("pitch", "az_pitch", "ax_pitch", "az_minor", "ax_minor", "sizes"), ZINC)
def test_upper_deviations_after_hot_dip_zinc(resolved, pitch, az_pitch, ax_pitch, az_minor, ax_minor, sizes):
    for size in sizes.split():
        for position, pitch_es, minor_es in (("6AZ", az_pitch, az_minor), ("6AX", ax_pitch, ax_minor)):
            thread = resolved(f"M{size}-{position}")
            hole, known = thread.internal, thread.basic
            assert str(thread.pitch) == pitch
            assert (hole.pitch_diameter.max - known.pitch_diameter) * 1000 == pitch_es
            assert (hole.minor_diameter.max - known.minor_diameter) * 1000 == minor_es
            assert thread.mating_class == "6g"
            assert thread.standard.document == "ISO 965-5"


def test_which_threads_have_classes_for_hot_dip_zinc():
    """ISO 965-5: M10 to M64 coarse, and M8; none of M9, M11 or M68, none that is fine."""
    zinc = {size for *_, sizes in ZINC for size in sizes.split()}
    known = [entry for entry in standards.catalogue() if entry.system == "iso_metric"]
    assert {entry.size for entry in known if "6AZ" in entry.classes} == zinc
    for entry in known:
        coarse = entry.series == "coarse" and entry.size in zinc
        assert [one for one in entry.classes if len(one) == 3] == (["6AZ", "6AX"] if coarse else [])
    (m8,) = (entry for entry in known if entry.designation == "M8x1.25")
    assert m8.classes == ("4H", "5H", "6H", "7H", "8H", "4G", "5G", "6G", "7G", "8G", "6AZ", "6AX")


@every(
    ("text", "cautions", "status"),
    [
        # the table of ISO 965-5 begins with M10; proof loads are reduced for M8 and M10
        ("M8-6AZ", ("galvanized_pair", "limits_computed", "reduced_proof_load"), "second_hand"),
        ("M10-6AX", ("galvanized_pair", "reduced_proof_load"), "second_hand"),
        ("M12-6AZ", ("galvanized_pair",), "second_hand"),
    ],
)
def test_what_is_said_of_hot_dip_zinc(resolved, text, cautions, status):
    thread = resolved(text)
    assert codes(thread) == cautions
    assert statuses(thread, "internal")["internal"] == status
    assert f"{thread.thread_class} is tapped after galvanizing" in text_of(thread, "galvanized_pair")
    assert "internal" not in statuses(resolved("M12-6H"))


@every("text", ["M12x1.25-6AZ", "M9-6AZ", "M11-6AX", "M68-6AZ"])
def test_zinc_classes_are_of_those_threads_only(resolved, text):
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.pointer) == ("thread_cell_undefined", "/thread")
    assert fault.allowed == tuple(f"M{size}" for *_, sizes in ZINC for size in sizes.split())


@every(
    ("text", "mate"),
    [
        # medium is 5H for S, 6H for N, 7H for L: 6g; finer 4h, coarser 8g; up to M1.4 always 6h
        ("M8-4H-S", "4h"),
        ("M8-5H-S", "6g"),
        ("M8-7H-S", "8g"),
        ("M8-5H", "4h"),
        ("M8-6H", "6g"),
        ("M8-7H", "8g"),
        ("M8-5H-L", "4h"),
        ("M8-7H-L", "6g"),
        ("M8-8H-L", "8g"),
        ("M1.4x0.3-4H", "6h"),
        ("M1.4x0.3-6H", "6h"),
        ("M1.6x0.35-4H", "4h"),
        ("M1.6x0.35-5H", "4h"),
    ],
)
def test_quality_for_quality(resolved, text, mate):
    """Recommended classes of ISO 965-1 (from memory), sizes to M1.4 by DIN 13-1."""
    assert resolved(text).mating_class == mate


@every(
    ("text", "recommended"),
    [
        ("M8-6H-L", "7H for engagement group L; 6H"),
        ("M8-7H-L", None),
        ("M8-6H-S", "5H for engagement group S; 6H"),
        ("M8-5H-S", None),
        ("M8-4H", None),
        ("M12-6AZ-L", None),
        # to M1.4 it is 5H whatever the group; no grade 7 at .35 mm, none above 5 at .25 mm
        ("M1.4x0.3-5H-L", None),
        ("M1.4x0.3-6H-L", "5H for engagement group L; 6H"),
        ("M1.6x0.35-6H-L", None),
        ("M1.6x0.35-5H-L", "6H for engagement group L; 5H"),
        ("M2x0.25-5H-L", None),
        ("M2x0.25-4H-L", "5H for engagement group L; 4H"),
    ],
)
def test_a_class_that_is_not_that_of_its_engagement(resolved, text, recommended):
    thread = resolved(text)
    said = [one.text for one in thread.notes.cautions if one.code == "engagement_class"]
    assert said == ([] if recommended is None else [f"ISO 965-1 recommends {recommended} as written is kept"])


@every(
    ("text", "grade", "why"),
    [
        ("M8-L", "7H", "the medium class of ISO 965-1 for engagement group L"),
        ("M2.5x0.45-S", "5H", "the medium class of ISO 965-1 for engagement group S"),
        ("M2.5x0.45-L", "6H", "the coarsest grade ISO 965-1 has at pitch 0.45 mm"),
        ("M3x0.5-L", "7H", "the medium class of ISO 965-1 for engagement group L"),
        ("M1.6x0.35-L", "6H", "the coarsest grade ISO 965-1 has at pitch 0.35 mm"),
        ("M2x0.25-L", "5H", "the coarsest grade ISO 965-1 has at pitch 0.25 mm"),
        ("M1.4x0.3-L", "5H", "what ISO 965-1 means by no class up to M1.4"),
        ("M1.6x0.2-L", "4H", "the only grade ISO 965-1 has at pitch 0.2 mm"),
    ],
)
def test_no_class_with_a_group_is_one_that_exists(resolved, text, grade, why):
    """TD1 has grades 4 at .2, 4 and 5 at .25, 4 to 6 from .3 to .45, 7 from .5 mm."""
    thread = resolved(text)
    assert thread.thread_class == grade
    assert f"No class written: {grade}, {why}." in thread.notes.assumptions


@every(
    ("length", "group", "shown"),
    [
        ("0.1574", "S", "3.998"),
        ("0.25", "N", "6.350"),
        ("0.23456", "N", "5.958"),
        ("0.5", "L", "12.700"),
    ],
)
def test_length_of_engagement_to_the_micrometre(length, group, shown):
    """25.4 x .1574 = 3.99796; 25.4 x .23456 = 5.957824; N is over 4 to 12 mm."""
    found = resolve(callout.read("M8x1.25"), engagement=Length(D(length), "in")).extra["engagement"]
    assert (found["group"], str(found["length"]), ends(found["normal_range"])) == (group, shown, ("4", "12"))


@every(
    ("text", "area"),
    [
        ("M1x0.25", "0.460"),
        ("M1.6x0.35", "1.27"),
        ("M3x0.5", "5.03"),
        ("M5x0.8", "14.2"),
        ("M10x1.5", "58.0"),
        ("M16x2", "157"),
        ("M39x4", "976"),
        ("M42x4.5", "1121"),
    ],
)
def test_stress_area_of_three_figures(resolved, text, area):
    """As ISO 898-1 prints them; M42: .785398 (42 - 4.221873)^2 = 1120.9, M1: .785398 (1 - .234549)^2 = .4602."""
    assert str(resolved(text).tensile_stress_area) == area


@every(
    ("screw", "major", "pitch"),
    [
        # Td 6: 212, Td 4: 132; Td2 5: 95, 6: 118; es of g 28, of f 42, of e 63
        ("5g6g", ("7.760", "7.972"), ("7.065", "7.160")),
        ("5g6h", ("7.788", "8.000"), ("7.065", "7.160")),
        ("4h", ("7.868", "8.000"), ("7.113", "7.188")),
        ("6f", ("7.746", "7.958"), ("7.028", "7.146")),
        ("6e", ("7.725", "7.937"), ("7.007", "7.125")),
        # es of az 325
        ("6az", ("7.463", "7.675"), ("6.745", "6.863")),
    ],
)
def test_screws_of_an_m8_hole(resolved, screw, major, pitch):
    found = external_limits(resolved("M8-6H"), thread_class=screw)
    assert (ends(found.major_diameter), ends(found.pitch_diameter)) == (major, pitch)


@every(
    ("screw", "code", "meant"),
    [
        ("6G", "thread_class_unknown", ("6g",)),
        ("4G6g", "thread_class_unknown", ("4g6g",)),
        ("6x", "thread_class_unknown", ()),
        ("6d", "thread_data_missing", ()),
    ],
)
def test_screws_that_have_no_class(resolved, screw, code, meant):
    fault = refused(lambda: external_limits(resolved("M8-6H"), thread_class=screw))
    assert (fault.code, fault.pointer, fault.did_you_mean) == (code, "/mating_screw/class", meant)
    assert fault.allowed == ("4h", "6h", "6g", "6f", "6e", "8g", "4g6g", "5g6g", "7g6g", "6az")


@every(
    ("text", "allowed", "meant"),
    [
        # ISO 261 lists M70 with five pitches and none of them coarse; M15 with 1.5 and 1
        ("M70", ("6", "4", "3", "2", "1.5"), ("M70x6", "M70x4", "M70x3", "M70x2")),
        ("M15.4", ("M12", "M14", "M15", "M16", "M17", "M18"), ("M15x1.5", "M16x2", "M14x2")),
    ],
)
def test_four_pitches_or_three_sizes_are_offered(text, allowed, meant):
    fault = refused(lambda: callout.read(text))
    assert (fault.allowed, fault.did_you_mean) == (allowed, meant)


@pytest.mark.parametrize("written", ["6H/foo", "6H/6", "6H/azaz"])
def test_what_is_no_class_is_no_mate(written):
    fault = refused(lambda: callout.from_fields(ThreadFields("iso_metric", "M8", thread_class=written)))
    assert (fault.code, fault.pointer) == ("thread_class_unknown", "/thread/class")
