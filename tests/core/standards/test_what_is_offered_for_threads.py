"""Threads that there are not, or that can mean two: which field it is, what there is and what was probably meant."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every
from whole_threads import refused

D = Decimal
#: Sizes of ISO 7-1 Table 1.
ISO_7 = (
    "1/16", "1/8", "1/4", "3/8", "1/2", "3/4", "1", "1 1/4", "1 1/2", "2", "2 1/2", "3", "4", "5", "6",
)  # fmt: skip


def pipe(system: str, size: str = "1/2", **given: object) -> ThreadFields:
    return ThreadFields(system, size, **given)


@every(
    ("given", "code", "field", "allowed", "meant"),
    [
        (pipe("npt", thread_class="2X"), "thread_class_unknown", "class", (), ("1/2-14 NPT",)),
        (pipe("nptf", thread_class="3"), "thread_class_unknown", "class", ("1", "2"), ("1/2-14 NPTF",)),
        (pipe("npsc", thread_class="1"), "thread_class_unknown", "class", (), ("1/2-14 NPSC",)),
        (pipe("iso_228", thread_class="6H"), "thread_class_unknown", "class", ("A", "B"), ("G 1/2",)),
        (pipe("iso_228", thread_class="T"), "thread_data_missing", "class", (), ("G 1/2",)),
        (pipe("iso_7"), "thread_field_missing", "series", ("Rc", "Rp"), ("Rc 1/2", "Rp 1/2")),
        (pipe("iso_7", series="R"), "thread_class_external", "series", ("Rc", "Rp"), ("Rc 1/2", "Rp 1/2")),
        (pipe("npt", series="NPTX"), "thread_series_mismatch", "series", ("NPT", "ANPT"), ("NPT",)),
        (pipe("npt", threads_per_inch=D(15)), "thread_pitch_unknown", "threads_per_inch", ("14",), ("1/2-14 NPT",)),
        (pipe("npt", starts=2), "thread_field_unexpected", "starts", (), ()),
        (pipe("npt", lead=Length(D(2), "mm")), "thread_field_unexpected", "lead", (), ()),
        (
            pipe("iso_7", "33", series="Rc"),
            "thread_size_unknown",
            "size",
            ISO_7,
            ("Rc 6", "Rc 5", "Rc 4"),
        ),
    ],
)
def test_pipe_threads_that_there_are_not(given, code, field, allowed, meant):
    fault = refused(lambda: callout.from_fields(given))
    assert (fault.code, fault.pointer) == (code, f"/thread/{field}")
    assert (fault.allowed, fault.did_you_mean) == (allowed, meant)


@every(
    ("text", "code", "allowed", "meant"),
    [
        # behind the letters a digit is a class, behind the size it counts threads
        ("NPT 1/2-2", "thread_pitch_unknown", ("14",), ("1/2-14 NPT",)),
        ("1/2-14 NPT-2", "thread_class_unknown", (), ("1/2-14 NPT",)),
        # lists of ISO 5855-1 and ISO 261, coarsest first
        ("MJ16x1.2", "thread_pitch_unknown", ("2", "1.5", "1"), ("MJ16x1", "MJ16x1.5", "MJ16x2")),
        ("M16x1.2", "thread_pitch_unknown", ("2", "1.5", "1"), ("M16x1", "M16x1.5", "M16x2")),
        # no pitch of 30 mm is in any list
        ("M8x30", "callout_has_depth", (), ("M8",)),
        ("M8x1.25x30-6H", "callout_has_depth", (), ("M8x1.25",)),
        # without a series the second number can be a pitch in mm
        ("8-1.25", "callout_ambiguous", (), ("M8x1.25", "#8-32 UNC", "#8-36 UNF")),
        ("1/4-1", "thread_pitch_unknown", (), ("1/4-20 UNC", "1/4-28 UNF")),
        # #2 has .086 x 36 = 3.1 threads to the diameter, fewer than four; 2 in has more than 32 an inch
        ("2-36 UNS", "callout_ambiguous", (), ("#2-36 UNS", "2.000-36 UNS")),
    ],
)
def test_callouts_that_mean_no_thread_or_two(text, code, allowed, meant):
    fault = refused(lambda: callout.read(text))
    assert (fault.code, fault.pointer, fault.allowed, fault.did_you_mean) == (code, "/thread", allowed, meant)


@every(
    ("text", "size"),
    [("2-31 UNS", "2"), ("12-20 UNS", "#12"), ("8.000-30 UNS", "8.000"), ("8-30 UNS", "#8")],
)
def test_the_one_size_that_a_special_thread_can_have(text, size):
    """Four threads to the diameter at least, 32 an inch at most from 1 in on; from 7 on a number is a screw."""
    assert callout.read(text).size == size


@every(
    ("text", "designation"),
    [
        (".312-18 UNC-2B", "5/16-18 UNC-2B"),
        (".313-18 UNC-2B", "5/16-18 UNC-2B"),
        (".3125-18 UNC-2B", "5/16-18 UNC-2B"),
        (".190-32 UNF-2B", "#10-32 UNF-2B"),
        ("1.5-4 ACME-2G", "1 1/2-4 ACME-2G"),
        ("1.5-4 ACME-2G SPL", "1 1/2-4 ACME-2G"),
    ],
)
def test_decimals_of_a_listed_size_are_that_size(resolved, text, designation):
    assert resolved(text).designation == designation


def test_a_listed_metric_thread_stays_one_that_is_called_special():
    """ISO 261 lists M8x1.25 as the coarse one."""
    given = {"system": "iso_metric", "size": "8", "pitch": Length(D("1.25"), "mm")}
    thread = standards.resolve(callout.from_fields(ThreadFields(**given, series="special")))
    assert (thread.designation, thread.series) == ("M8x1.25-6H", "coarse")
    fault = refused(lambda: callout.from_fields(ThreadFields(**given, series="fine")))
    assert (fault.code, fault.pointer) == ("thread_series_mismatch", "/thread/series")
    assert fault.did_you_mean == ("M8x1.25",)


@every(
    ("screw", "meant"),
    [("2", ("2A",)), ("2AA", ("2A",)), ("3 a", ("3A",)), ("A2", ())],
)
def test_classes_of_a_unified_screw_that_are_meant(screw, meant):
    """ASME B1.1 names 1A, 2A and 3A."""
    for text in ("1/2-13 UNC-2B", "1/2-13 UNJC-3B"):
        hole = standards.resolve(callout.read(text))
        fault = refused(lambda hole=hole: standards.external_limits(hole, thread_class=screw))
        assert (fault.code, fault.pointer) == ("thread_class_unknown", "/mating_screw/class")
        assert (fault.allowed, fault.did_you_mean) == (("1A", "2A", "3A"), meant)


@every(
    ("tpi", "asked", "series", "said"),
    [
        (28, None, "UNJF", ("No series written: 1/4-28 is the UNJF member.",)),
        (28, "UNJF", "UNJF", ()),
        (40, "UNJS", "UNJS", ()),
        (20, None, "UNJC", ("No series written: 1/4-20 is the UNJC member.",)),
    ],
)
def test_the_series_of_a_unj_thread_has_its_j(tpi, asked, series, said):
    given = ThreadFields("unified_j", "1/4", threads_per_inch=D(tpi), series=asked, thread_class="3B")
    found = callout.from_fields(given)
    assert (found.series, found.assumptions) == (series, said)


@every(("text", "tap"), [("Rc 1/2", "taper_pipe"), ("Rp 1/2", "straight_flute")])
def test_how_an_iso_7_hole_seals_and_is_gauged(resolved, text, tap):
    """ISO 7-1: pressure-tight on the thread, Rp with a taper screw; ISO 7-2 has a taper plug for both."""
    told = resolved(text).extra["pipe"]
    assert told["sealing"].startswith("on_thread")
    assert (told["tap_style"], told["gauge_form"]) == (tap, "taper_plug")
    assert told["gauge"].startswith("ISO 7-2 taper thread plug")


def test_a_system_that_there_is_not():
    fault = refused(lambda: callout.from_fields(ThreadFields("unified_miniatures_of_old", "8")))
    assert (fault.code, fault.pointer) == ("thread_system_unknown", "/thread/system")
    assert fault.detail == "'unified_miniatures_o' is not a thread system."
    assert fault.did_you_mean[0] == "unified_miniature"


@every(
    ("system", "given", "code", "field"),
    [
        ("iso_metric", {"size": "eight"}, "thread_size_unknown", "size"),
        ("metric_j", {"size": "M"}, "thread_size_unknown", "size"),
        ("iso_metric", {"size": "8", "thread_class": "H6"}, "thread_class_unknown", "class"),
        ("iso_metric", {"size": "8", "thread_class": "medium"}, "thread_class_unknown", "class"),
    ],
)
def test_metric_fields_that_are_no_size_or_class(system, given, code, field):
    """A size is a number of millimetres, a class a grade with its position."""
    fault = refused(lambda: callout.from_fields(ThreadFields(system, **given)))
    assert (fault.code, fault.pointer) == (code, f"/thread/{field}")
