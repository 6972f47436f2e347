"""Length of engagement, default classes, mates, exceptions and refusals of the Unified and ISO metric families."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError
from borewright.core.model import Length, Thread
from borewright.core.requests import ThreadFields
from borewright.core.standards.metric import classes


def thread(text: str, length: str | None = None, unit: str = "mm") -> Thread:
    engagement = None if length is None else Length(Decimal(length), unit)
    return standards.resolve(callout.read(text), engagement=engagement)


def refusal(text: str, length: str | None = None, unit: str = "mm"):
    with pytest.raises(BorewrightError) as caught:
        thread(text, length, unit)
    return caught.value


# --- length of engagement ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "factor"), [("0.1", 1), ("0.75", 1), ("0.751", 1.25), ("1.5", 1.25), ("1.51", 1.5), ("3", 1.5)]
)
def test_engagement_by_diameters(length, factor):
    """UNC counts diameters: 1.25 over 1.5 D to 3 D, 1.5 beyond (ASME B1.1, from memory; H28/2B 5.4 shows the 1.25)."""
    assert thread("1/2-13 UNC-2B", length, "in").extra["engagement"]["pitch_tolerance_factor"] == factor


@pytest.mark.parametrize(("pitches", "factor"), [("15", 1), ("16", 1.25), ("30", 1.25), ("31", 1.5)])
def test_engagement_by_pitches(pitches, factor):
    """UNEF, 12UN and finer and UNS count pitches: 15 P and 30 P."""
    length = str(Decimal(pitches) / 28 - Decimal("0.00001"))
    assert thread("1/2-28 UNEF-2B", length, "in").extra["engagement"]["pitch_tolerance_factor"] == factor


def test_engagement_keeps_allowance_and_minimum():
    """FED-STD-H28/2B 5.4: the allowance stays the standard one; the pitch diameter starts at basic."""
    short, long = thread("1/2-13 UNC-2B"), thread("1/2-13 UNC-2B", "1", "in")
    assert long.external.major_diameter.max == short.external.major_diameter.max
    assert long.internal.pitch_diameter.min == short.internal.pitch_diameter.min
    assert long.internal.minor_diameter == short.internal.minor_diameter
    assert any(caution.code == "long_engagement" for caution in long.notes.cautions)


@pytest.mark.parametrize("length", ["0", "-1", "5.01", "1000000"])
@pytest.mark.parametrize("text", ["1/2-13 UNC-2B", "1/2-13 UNJC-3B"])
def test_impossible_engagement_in_inches(text, length):
    error = refusal(text, length, "in")
    assert (error.code, error.faults[0].pointer) == ("engagement_out_of_range", "/length_of_engagement")


@pytest.mark.parametrize("length", ["0", "-0.1", "80.1"])
def test_impossible_engagement_in_millimetres(length):
    assert refusal("M8-6H", length).code == "engagement_out_of_range"


@pytest.mark.parametrize(
    ("length", "group", "thread_class"),
    [("3.9", "S", "5H"), ("4", "S", "5H"), ("4.1", "N", "6H"), ("12", "N", "6H"), ("12.1", "L", "7H")],
)
def test_metric_group_and_the_class_it_means(length, group, thread_class):
    """Group N of M8x1.25 is over 4 to 12 mm (Machinery's Handbook 27th ed. p. 1792 Table 7); medium is 5H 6H 7H."""
    found = thread("M8x1.25", length)
    assert (found.extra["engagement"]["group"], found.thread_class) == (group, thread_class)
    assert [text for text in found.notes.assumptions if text.startswith("No class written")] == [
        text for text in found.notes.assumptions if thread_class in text
    ]


def test_metric_class_as_written_is_kept():
    found = thread("M8x1.25-6H", "20")
    assert found.thread_class == "6H"
    assert [caution.code for caution in found.notes.cautions] == ["engagement_class"]
    assert thread("M8x1.25-6H", "10").notes.cautions == ()


def test_metric_group_letter():
    found = thread("M20x2-L")
    assert (found.thread_class, found.extra["engagement"]["group"]) == ("7H", "L")
    assert thread("M20x2-7H-L LH").designation == "M20x2-7H-L LH"


def test_engagement_converts():
    assert thread("1/2-13 UNC-2B", "25.4").internal == thread("1/2-13 UNC-2B", "1", "in").internal


# --- classes and mates -------------------------------------------------------------------------------


def without_class(diameter: str, pitch: str) -> Thread:
    return thread(f"M{diameter}x{pitch}")


@pytest.mark.parametrize(
    ("diameter", "pitch", "internal", "mate"),
    [
        ("1", "0.2", "4H", "6h"),
        ("1.4", "0.3", "5H", "6h"),
        ("1.6", "0.35", "6H", "6g"),
        ("2", "0.25", "5H", "6g"),
        ("8", "1.25", "6H", "6g"),
    ],
)
def test_no_class_means(diameter, pitch, internal, mate):
    """DIN 13-1, GB/T 9145: 5H/6h up to M1.4, 6H/6g above; grade 4 only at 0.2 and up to 5 at 0.25 (ISO 965-1)."""
    found = without_class(diameter, pitch)
    assert (found.thread_class, found.mating_class) == (internal, mate)
    assert any("No class written" in text for text in found.notes.assumptions)


@pytest.mark.parametrize(
    ("text", "mate"),
    [
        ("M8-4H5H", "4h"),
        ("M8-7H", "8g"),
        ("M8-6G", "6g"),
        ("M3-7H", "6g"),
        ("M12-6AZ", "6g"),
        ("MJ6x1-4H5H", "4h6h"),
        ("1/4-20 UNC-1B", "1A"),
        ("1/4-20 UNC-3B", "3A"),
        ("1/4-28 UNJF-3B", "3A"),
        ("1/2-13 UNC-2B/3A", "3A"),
        ("M8-6H/5g6g", "5g6g"),
    ],
)
def test_mates(text, mate):
    """Quality for quality (ISO 965-1 recommended classes, from memory); no 8g where pitch 0.5 has no grade 8."""
    assert thread(text).mating_class == mate


@pytest.mark.parametrize(
    ("text", "mate", "code"),
    [
        ("M12-6AZ", "6az", "thread_mate_excluded"),
        ("M12-6H", "6d", "thread_data_missing"),
        ("M12-6H", "6H", "thread_class_unknown"),
        ("M12x1-6H", "6az", "thread_cell_undefined"),
        ("M3-6H", "8g", "thread_cell_undefined"),
        ("1/2-13 UNC-2B", "2B", "thread_class_unknown"),
        ("1/2-13 UNJC-3B", "6g", "thread_class_unknown"),
        ("0.80 UNM", "6g", "thread_class_unknown"),
    ],
)
def test_mates_that_do_not_exist(text, mate, code):
    with pytest.raises(BorewrightError) as caught:
        standards.external_limits(thread(text), thread_class=mate)
    assert caught.value.code == code
    assert caught.value.faults[0].pointer in ("/mating_screw/class", "/thread")


def test_hot_dip_pair():
    """ISO 965-4:1998 and ISO 965-5:1998: es of 6az is -(300 + 20 P), EI of 6AZ 300 + 20 P, of 6AX 220 P - 20 (um)."""
    zinc = standards.external_limits(thread("M12-6H"), thread_class="6az")
    assert str(zinc.major_diameter.max) == "11.665"
    assert str(thread("M12-6AZ").internal.major_diameter.min) == "12.335"
    assert str(thread("M12-6AX").internal.major_diameter.min) == "12.365"
    m10 = [thread(f"M10-{name}").internal.pitch_diameter.min for name in ("6AX", "6AZ")]
    assert m10[0] < m10[1], "M10 alone has AX below AZ"
    assert {caution.code for caution in thread("M8-6AZ").notes.cautions} >= {"galvanized_pair", "limits_computed"}


# --- rules that must not be lost ---------------------------------------------------------------------


def test_numbers_of_the_trade():
    """1/4-28 UNJF-3B 0.2152-0.2229 (ASME B1.15 form, from memory); zero appended to a 3B minimum (ASME B1.30)."""
    minor = thread("1/4-28 UNJF-3B").internal.minor_diameter
    assert (str(minor.min), str(minor.max)) == ("0.2152", "0.2229")
    assert str(thread("#12-24 UNC-3B").internal.minor_diameter.min)[-1] == "0"


def test_former_fine_thread_counts_diameters():
    """1-14 UNS was the fine thread of 1 in: printed for one diameter of engagement in 1989, for 9 pitches in 2019."""
    older = standards.resolve(callout.read("1-14 UNS-2B"), edition="1989")
    assert older.extra["tolerance"]["engagement_basis"] == "D"
    assert thread("1-14 UNS-2B").extra["tolerance"]["engagement_basis"] == "9P"
    assert thread("1-10 UNS-2B").extra["tolerance"]["engagement_basis"] == "9P"


def test_anchor_goes_to_the_lower_size_up_to_the_middle():
    """Printed limits of the 9P series repeat over ranges of diameter: 0.875 with 0.75, 2.25 with 2, 5.75 with 6."""
    for text, anchor in (
        ("5/16-32 UNEF", "0.25"),
        ("7/8-12 UN", "0.75"),
        ("15/16-12 UN", "1"),
        ("2 1/4-12 UN", "2"),
        ("5 3/4-12 UN", "6"),
        ("#12-32 UNEF", "0.19"),
        ("8.000-12 UNS", "8"),
    ):
        assert thread(text).extra["tolerance"]["tolerance_diameter"] == Decimal(anchor), text


def test_special_thread_says_what_the_drawing_needs():
    found = thread("2.500-28 UNS-2B", "1", "in")
    note = found.extra["special"]["drawing_note"]
    assert note == "2 1/2-28 UNS-2B MINOR DIA 2.461-2.468 PD 2.4768-2.4841 LE 1"
    assert any(caution.code == "special_thread" for caution in found.notes.cautions)
    assert "special" not in thread("1/2-13 UNC-2B").extra


def test_left_hand_and_starts_are_in_the_designation():
    for text in ("1/2-13 UNC-2B LH", "M8x1-4H5H LH", "M16xPh3P1.5-6H LH", "MJ6x1-4H5H LH", "0.80 UNM LH"):
        assert thread(text).designation == text
        assert thread(text).hand == "left"
    double = thread("3/4-0.0625P-0.125L UNF-2B")
    assert (double.starts, double.lead, double.designation) == (2, Decimal("0.125"), "3/4-0.0625P-0.125L UNF-2B")
    assert double.internal == thread("3/4-16 UNF-2B").internal


# --- refusals by field -------------------------------------------------------------------------------


def fields(system: str, size: str, **more: object) -> ThreadFields:
    return ThreadFields(system, size, **more)


def mm(value: str) -> Length:
    return Length(Decimal(value), "mm")


@pytest.mark.parametrize(
    ("written", "code"),
    [
        (fields("unified", "1/2"), "callout_ambiguous"),
        (fields("unified", "1/2", threads_per_inch=Decimal(14), series="UNC"), "thread_series_mismatch"),
        (fields("unified", "1/2", threads_per_inch=Decimal(13), series="UNF"), "thread_series_mismatch"),
        (fields("unified", "1/2", threads_per_inch=Decimal(100), series="UNS"), "thread_pitch_unknown"),
        (fields("unified", "1/2", threads_per_inch=Decimal(4), series="UNS"), "thread_pitch_unknown"),
        (fields("unified", "0.05", threads_per_inch=Decimal(80), series="UNS"), "thread_size_unknown"),
        (fields("unified", "25", threads_per_inch=Decimal(8), series="UNS"), "thread_size_unknown"),
        (fields("unified", "1/2", threads_per_inch=Decimal(13), thread_class="2A"), "thread_class_external"),
        (fields("unified", "1/2", threads_per_inch=Decimal(13), thread_class="6H"), "thread_class_unknown"),
        (fields("unified_j", "1/2", threads_per_inch=Decimal(13), thread_class="1B"), "thread_class_unknown"),
        (fields("iso_metric", "15"), "callout_ambiguous"),
        (fields("iso_metric", "8", pitch=mm("4")), "thread_pitch_unknown"),
        (fields("iso_metric", "400", pitch=mm("6")), "thread_size_unknown"),
        (fields("iso_metric", "8", pitch=mm("1.2")), "thread_pitch_unknown"),
        (fields("iso_metric", "8", thread_class="6g"), "thread_class_external"),
        (fields("iso_metric", "8", thread_class="9H"), "thread_class_unknown"),
        (fields("iso_metric", "11", thread_class="6AZ"), "thread_cell_undefined"),
        (fields("iso_metric", "8", lead=mm("3")), "thread_lead_invalid"),
        (fields("unified_miniature", "0.65"), "thread_size_unknown"),
        (fields("unified_miniature", "0.60", thread_class="2B"), "thread_class_unknown"),
        (fields("unified_miniature", "0.60", pitch=mm("0.2")), "thread_pitch_unknown"),
        (fields("unheard_of", "8"), "thread_system_unknown"),
    ],
)
def test_refusals(written, code):
    with pytest.raises(BorewrightError) as caught:
        standards.resolve(callout.from_fields(written))
    assert caught.value.code == code
    assert caught.value.faults[0].pointer.startswith("/thread")


def test_special_metric_diameter():
    """ASME B1.13M: M6.5 x 1 SPL; ISO 965-1 has the tolerances of pitch 1 for over 5.6 to 11.2 mm."""
    found = standards.resolve(callout.from_fields(fields("iso_metric", "6.5", pitch=mm("1"), series="special")))
    assert (found.designation, found.series) == ("M6.5x1-6H-SPL", None)
    assert (str(found.internal.pitch_diameter.min), str(found.internal.pitch_diameter.max)) == ("5.850", "6.000")
    assert [caution.code for caution in found.notes.cautions] == ["nonstandard_combination"]


# --- catalogue and systems ---------------------------------------------------------------------------


def test_catalogue_is_whole():
    counts = dict.fromkeys(("unified", "unified_j", "iso_metric", "metric_j", "unified_miniature"), 0)
    for entry in standards.catalogue():
        if entry.system in counts:
            counts[entry.system] += 1
    assert counts["iso_metric"] == 352
    assert counts["metric_j"] == 329
    assert counts["unified_miniature"] == 14
    assert counts["unified"] == counts["unified_j"] + 118


def test_systems_say_what_is_not_covered():
    rows = {row.system: row for row in standards.coverages()}
    assert set(rows) == set(standards.systems.NAMES)
    for row in rows.values():
        assert row.document
        assert row.covers
        assert row.does_not_cover
    assert {table.name for table in rows["iso_metric"].tables} == {"metric_series", "iso965_tolerances"}


def test_same_callout_same_object():
    first = standards.resolve(callout.read("1/2-13 UNC-2B"))
    assert standards.resolve(callout.read("1/2-13 UNC-2B")) is first


# --- every class of every mate, whatever else is known -----------------------------------------------


@pytest.mark.parametrize(
    ("text", "known", "held"),
    [
        ("1/2-10 ACME-2G", ("2G", "3G", "4g"), True),
        ("1/2-10 STUB ACME", ("2G",), False),
        ("Tr 20x4", ("7e", "8e", "9c"), False),
        ("1/2-12 BSW", ("close", "Medium", "free"), False),
        ("4 BA", ("close", "normal"), False),
        ("1/2-13 UNC STI", ("2A", "3a"), False),
        ("M8 STI", ("6g", "4h"), False),
        ("1/2-13 UNC-2B", ("1A", "2a", "3A"), True),
        ("G 1/2", ("A", "b"), True),
        ("1/2-14 NPT", (), False),
        ("0.80 UNM", (), False),
    ],
)
def test_classes_of_screws(text, known, held):
    """ASME B1.5 (2G 3G 4G), ISO 2903, BS 84, BS 93, ASME B1.1, ISO 228-1 name these classes and no others."""
    hole = thread(text)
    for thread_class in known:
        assert (standards.external_limits(hole, thread_class=thread_class) is not None) is held
    for thread_class in ("zzz", "2B", "5Q", "2C"):
        with pytest.raises(BorewrightError) as caught:
            standards.external_limits(hole, thread_class=thread_class)
        fault = caught.value.faults[0]
        assert (fault.code, fault.pointer) == ("thread_class_unknown", "/mating_screw/class")
        assert (fault.allowed == ()) is (not known)


def test_acme_screw_of_another_class_keeps_its_own_limits():
    """ASME B1.5-1997: the minor diameter of 3G is D - P - 0.020 at most and 1.5 x its pitch tolerance lower."""
    screw = standards.external_limits(thread("1/2-10 ACME-2G"), thread_class="3G")
    assert screw.minor_diameter.max == Decimal("0.3800")
    tolerance = Decimal("0.0028") * Decimal("0.5").sqrt() + Decimal("0.014") * Decimal("0.1").sqrt()
    assert abs(Decimal("0.38") - Decimal("1.5") * tolerance - screw.minor_diameter.min) <= Decimal("0.00005")
    assert screw.pitch_diameter.max is None


@pytest.mark.parametrize("text", ["1/2-14 NPT", "Rc 1/2", "4 BA", "Tr 20x4", "M8 STI", "1/2-12 BSW"])
@pytest.mark.parametrize("length", ["0", "-1", "100"])
def test_engagement_is_judged_in_every_system(text, length):
    error = refusal(text, length, "in")
    assert (error.code, error.faults[0].pointer) == ("engagement_out_of_range", "/length_of_engagement")


@pytest.mark.parametrize(("drawn", "looser"), [("6H", "6G 7H 8H"), ("4H", "4G 5H 6H 7H 8H"), ("8H", "8G"), ("6G", "")])
def test_classes_with_more_room(drawn, looser):
    """Its grade in position G, then every coarser grade of ISO 965-1 up to 8; none of a position that has room."""
    assert " ".join(classes.looser(drawn)) == looser


def test_what_is_recommended_of_mates_is_from_memory():
    """The recommended classes of ISO 965-1 were not read."""
    sources = {one.field: one.status for one in standards.resolve(callout.read("M8")).notes.sources}
    assert sources["mating_class"] == "from_memory"


@pytest.mark.parametrize(
    ("text", "said"),
    [("1/4-20 UNC-1B", False), ("#10-24 UNC-1B", True), ("1/2-28 UNEF-1B", True), ("1/2-28 UNEF-2B", False)],
)
def test_class_1b_is_tabulated_for_coarse_and_fine_from_a_quarter(text, said):
    """ASME B1.1: classes 1A and 1B stand in the tables of UNC and UNF from 1/4 in on only."""
    assert ("class_not_tabulated" in {one.code for one in thread(text).notes.cautions}) is said


def test_a_short_engagement_leaves_the_minor_diameter_of_a_tabulated_thread():
    """FED-STD-H28/2B 5.4: only a special thread gets half of the tolerance up to D/3; 1/2-13 has .417 to .434."""
    limits = thread("1/2-13 UNC-2B", "0.15", "in").internal.minor_diameter
    assert (str(limits.min), str(limits.max)) == ("0.417", "0.434")


@pytest.mark.parametrize(
    ("text", "named"),
    [("1 1/2-4 ACME-2G 3 START", "1.500-0.25P-0.75L"), ("0.4375-12 ACME-2G 2 START", "0.438-0.0833P-0.1667L")],
)
def test_pitch_and_lead_of_a_multi_start_acme_thread_have_four_decimals(text, named):
    """ASME B1.5 names nominal size, pitch and lead in decimals of an inch: 3/4 = 0.75; 1/12 = 0.0833, 2/12 = 0.1667."""
    assert thread(text).designation.startswith(f"{named}-ACME")


@pytest.mark.parametrize(("text", "special"), [("10-60", ("#10-60 UNS",)), ("10-64", ()), ("12-55", ("#12-55 UNS",))])
def test_a_numbered_size_with_an_odd_pitch_is_offered_as_special_in_proportion(text, special):
    """Four to twelve pitches to the diameter: 0.190 x 60 = 11.4 and 0.216 x 55 = 11.9, but 0.190 x 64 = 12.2."""
    offered = refusal(text).faults[0].did_you_mean
    assert tuple(one for one in offered if one.endswith("UNS")) == special


@pytest.mark.parametrize(
    ("length", "share"), [("0.165", 0.5), ("0.166", 0.75), ("0.335", 0.75), ("0.336", 1), ("0.75", 1)]
)
def test_share_of_the_minor_tolerance_of_a_special_thread(length, share):
    """FED-STD-H28/2B 5.4, 1/2-22 UNS: half up to D/3 (0.33 D = 0.165), three quarters to 2/3 D (0.67 D = 0.335)."""
    found = thread("1/2-22 UNS-2B", length, "in").extra["engagement"]
    assert found["minor_tolerance_ratio"] == share


@pytest.mark.parametrize("length", [None, "4", "60"])
def test_a_galvanized_hole_takes_a_bolt_of_6g_whatever_the_engagement(length):
    """ISO 965-5: 6AZ and 6AX are for bolts of 6g that are galvanized."""
    assert thread("M20-6AZ", length, "mm").mating_class == "6g"
