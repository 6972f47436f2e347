"""Whole holes of wire inserts by hand: D + 1.299038 P, D + .649519 P, D + .216506 P; its tolerances."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from borewright.core.standards.insert.insert_object import check_hole
from every import every
from whole_threads import basic, codes, ends, form, head, limits, refused, statuses

D = Decimal


@every(("grade", "greatest"), [("5H", "8.937"), ("4H5H", "8.912")])
def test_metric_insert_hole_by_hand(resolved, grade, greatest):
    """M8x1.25: 9.6238, 8.8119, 8.2706; TD2 grade 5 125 um, grade 4 100 um; TD1 grade 5 212 um (ISO 965-1)."""
    thread = resolved(f"M8x1.25 STI {grade} LH")
    assert head(thread) == (f"M8x1.25 STI {grade} LH", None, "8", grade, None)
    assert form(thread) == ("mm", "8", "1.25", None, "1.25", "1", "60", None)
    assert basic(thread) == ("9.624", "8.812", "8.271")
    assert limits(thread.internal) == (("9.624", None), ("8.812", greatest), ("8.271", "8.483"))
    assert thread.external is None
    assert codes(thread) == ()
    known = statuses(thread, "internal")
    assert known["internal.pitch_diameter.min"] == "computed"
    assert {known[f"internal.{name}"] for name in ("pitch_diameter.max", "minor_diameter.max")} == {"from_memory"}
    assert known["internal.minor_diameter.min"] == "from_memory"
    assert thread.standard.document == "ASME B18.29.2M"


@every(
    ("text", "cautions"),
    [
        ("1/4-20 UNC-2B STI LH", ("thread_data_missing", "screw_locking_insert_class")),
        ("1/4-20 UNC-3B STI", ("thread_data_missing",)),
    ],
)
def test_inch_insert_hole_by_hand(resolved, text, cautions):
    """1/4-20: .25 + .064952, .25 + .032476, .25 + .010825; greatest sizes are not held."""
    thread = resolved(text)
    grade = "2B" if "2B" in text else "3B"
    assert head(thread) == (text, "UNC", "1/4", grade, None)
    assert form(thread) == ("in", "0.2500", "0.0500000", "20", "0.0500000", "1", "60", None)
    assert basic(thread) == ("0.3150", "0.2825", "0.2608")
    assert limits(thread.internal) == (("0.3150", None), ("0.2825", None), ("0.2608", None))
    assert codes(thread) == cautions
    assert thread.standard.document == "ASME B18.29.1 and NASM33537"
    insert = thread.extra["insert"]
    assert (insert["nominal_thread"], insert["finished_class"]) == (f"1/4-20 UNC-{grade}", grade)
    assert insert["not_held"] == (
        "greatest pitch diameter",
        "greatest minor diameter",
        "countersink diameter",
        "drill depth codes",
    )
    assert "UNJ too" in insert["accepts"]
    assert "set_down" not in insert
    assert statuses(thread)["insert.countersink_angle"] == "second_hand"


#: Insert length in diameters; M8x1.25: k 8, + 1.25, + 7.5 + 4 (male centre), + 5; M10x1.5: k 10, + 1.5, + 9, + 6.
DEPTHS = [
    ("1d", ("8.00", "9.25", "19.50", "13.00"), ("10.00", "11.50", "19.00", "16.00")),
    ("1_5d", ("12.00", "13.25", "23.50", "17.00"), ("15.00", "16.50", "24.00", "21.00")),
    ("2d", ("16.00", "17.25", "27.50", "21.00"), ("20.00", "21.50", "29.00", "26.00")),
    ("2_5d", ("20.00", "21.25", "31.50", "25.00"), ("25.00", "26.50", "34.00", "31.00")),
    ("3d", ("24.00", "25.25", "35.50", "29.00"), ("30.00", "31.50", "39.00", "36.00")),
]


@every(("suffix", "eight", "ten"), DEPTHS)
def test_depths_of_metric_insert_holes(resolved, suffix, eight, ten):
    names = ("insert_length", "full_thread_depth", "drill_depth_plug_tap", "drill_depth_bottoming_tap")
    for text, expected in (("M8x1.25 STI", eight), ("M10x1.5 STI", ten)):
        insert = resolved(text).extra["insert"]
        assert tuple(str(insert[f"{name}_{suffix}"]) for name in names) == expected


def test_insert_that_the_callout_names(resolved):
    insert = resolved("M8x1.25 STI 2D").extra["insert"]
    assert (insert["insert_length_diameters"], str(insert["insert_length"])) == (2.0, "16.00")
    assert (str(insert["full_thread_depth"]), str(insert["drill_depth_bottoming_tap"])) == ("17.25", "21.00")
    assert (str(insert["drill_depth"]), insert["drill_depth_tap"]) == ("27.50", "plug")
    assert ends(insert["set_down"]) == ("0.94", "1.88")  # .75 P and 1.5 P
    assert (str(insert["countersink_angle"]), insert["countersink_angle_tolerance"]) == ("120", 5)
    assert insert["not_held"] == ("countersink diameter",)
    assert "UNJ" not in insert["accepts"]
    assert statuses(resolved("M8x1.25 STI 2D"))["insert.countersink_angle"] == "common_practice"
    inch = resolved("1/4-20 UNC STI 2D").extra["insert"]
    assert (str(inch["insert_length"]), str(inch["full_thread_depth"])) == ("0.5000", "0.5500")
    assert str(inch["full_thread_depth_callout"]) == "0.55"
    assert "drill_depth" not in inch


@every(
    ("system", "given", "code"),
    [
        ("insert_unified", "2b", None),
        ("insert_unified", "2B/2B", "thread_class_unknown"),
        ("insert_unified", "1B", "thread_class_unknown"),
        ("insert_unified", "1a", "thread_class_external"),
        ("insert_unified", "2A", "thread_class_external"),
        ("insert_unified", "3A", "thread_class_external"),
        ("insert_unified", "3A/2A", "thread_class_external"),
        ("insert_unified", "2A/1B", "thread_class_unknown"),
        ("insert_unified", "??", "thread_class_unknown"),
        ("insert_metric", "4H5H", None),
        ("insert_metric", "6H", "thread_class_unknown"),
        ("insert_metric", "5h", "thread_class_external"),
        ("insert_metric", "6g", "thread_class_external"),
    ],
)
def test_classes_of_an_insert_hole(system, given, code):
    inch = system == "insert_unified"
    size = {"size": "1/4", "threads_per_inch": D(20)} if inch else {"size": "8", "pitch": Length(D("1.25"), "mm")}

    def read():
        return callout.from_fields(ThreadFields(system, **size, thread_class=given))

    if code is None:
        assert read().thread_class == given.upper()
        return
    fault = refused(read)
    assert (fault.code, fault.pointer) == (code, "/thread/class")
    assert fault.allowed == (("2B", "3B") if inch else ("5H", "4H5H"))


@every(
    ("given", "code", "pointer", "words", "meant"),
    [
        # the nominal thread exists, the insert is not listed
        (
            ThreadFields("insert_unified", "1/4", threads_per_inch=D(32), thread_class="3B"),
            "thread_pitch_unknown",
            "/threads_per_inch",
            "No insert for 1/4-32 UNEF",
            ("1/4-20 STI 3B", "1/4-28 STI 3B"),
        ),
        (
            ThreadFields("insert_metric", "8", pitch=Length(D("0.75"), "mm")),
            "thread_pitch_unknown",
            "/pitch",
            "No insert for M8x0.75",
            ("M8x1 STI 5H", "M8x1.25 STI 5H"),
        ),
        (
            ThreadFields("insert_metric", "42", pitch=Length(D("4.5"), "mm")),
            "thread_size_unknown",
            "/size",
            "No insert for M42x4.5",
            None,
        ),
        # the nominal thread does not exist either
        (
            ThreadFields("insert_metric", "M8.1", thread_class="4H5H"),
            "thread_size_unknown",
            "/size",
            "",
            ("M8x1 STI 4H5H", "M8x1.25 STI 4H5H"),
        ),
    ],
)
def test_inserts_that_are_not_listed(given, code, pointer, words, meant):
    fault = refused(lambda: callout.from_fields(given))
    assert (fault.code, fault.pointer) == (code, f"/thread{pointer}")
    assert words in fault.detail
    assert meant is None or fault.did_you_mean == meant


def test_nearest_inserts_of_a_size_that_has_none():
    """M42: 39, 36 and 33 lie nearest, each with all its pitches."""
    fault = refused(lambda: callout.from_fields(ThreadFields("insert_metric", "42", pitch=Length(D("4.5"), "mm"))))
    assert fault.did_you_mean == tuple(
        f"M{size}x{pitch} STI 5H"
        for size, pitches in (("39", "234"), ("36", "234"), ("33", ("2", "3.5")))
        for pitch in pitches
    )


@every(
    ("kind", "depth", "needed", "field"),
    [
        # M8 with an insert of 2 D: 16.00 long, and a pitch of 1.25 more in a blind hole
        ("blind", "17.25", None, None),
        ("blind", "17.24", "17.25", "full_thread_depth"),
        ("through", "16", None, None),
        ("through", "15.99", "16", "thickness"),
    ],
)
def test_hole_too_short_for_its_insert(resolved, kind, depth, needed, field):
    """ASME B18.29.2M: a blind hole needs the length of the insert and a pitch, a through one its length."""
    installed = resolved("M8x1.25 STI 2D")
    if needed is None:
        check_hole(installed, kind=kind, depth=D(depth))
        return
    fault = refused(lambda: check_hole(installed, kind=kind, depth=D(depth)))
    assert (fault.code, fault.pointer) == ("thread_deeper_than_hole", f"/hole/{field}")
    assert fault.allowed == (f"at least {needed}\N{NO-BREAK SPACE}mm",)
    assert f"an insert {needed}\N{NO-BREAK SPACE}mm deep does not fit in {depth}\N{NO-BREAK SPACE}mm" in fault.detail
    check_hole(resolved("M8x1.25 STI"), kind=kind, depth=D("0.1"))


@every(
    ("text", "series", "grade", "unit", "pitch"),
    [("M8x1.25 STI", None, "5H", "mm", "P"), ("1/4-20 UNC STI", "UNC", "2B", "in", "n")],
)
def test_what_an_insert_callout_says_of_series_class_and_unit(resolved, text, series, grade, unit, pitch):
    """The wider class where none is written; limits are derived from pitch in mm or from threads an inch."""
    read = callout.read(text)
    assert (read.series, read.thread_class) == (series, grade)
    assert f"No class written: {grade}, the class after the insert is installed." in read.assumptions
    steps = [step for step in resolved(text).notes.steps if step.quantity.startswith(("basic.", "internal."))]
    assert {step.unit for step in steps} == {unit}
    assert {tuple(step.inputs) for step in steps if step.quantity.startswith("basic.")} == {("D", pitch)}
