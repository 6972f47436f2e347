"""What is said beside a thread: what was taken by default, and what was given and has no use."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every
from whole_threads import limits, refused

D = Decimal
UNUSED = "the length of engagement does not change the limits of this thread"


@every(
    "text",
    [
        *("1-5 ACME-2G", "1/2-10 STUB ACME", "Tr 40x7-7H", "SQUARE 40x7 DEPTH 3.5", "2 BA"),
        *("1/4-20 UNC-2B STI", "M8x1.25 STI 5H", "0.80 UNM"),
        *("1/2-14 NPT", "1/2-14 NPTF-1", "1/2-14 NPSM", "Rc 1/2", "Rp 1/2", "G 1/2 A"),
    ],
)
def test_a_length_of_engagement_that_changes_nothing_is_said_to(text):
    """Tolerances of these standards depend on diameter and pitch, or on the gauge, alone."""
    alone = standards.resolve(callout.read(text))
    engaged = standards.resolve(callout.read(text), engagement=Length(D(1), "mm"))
    assert UNUSED not in alone.notes.assumptions
    assert engaged.notes.assumptions.count(UNUSED) == 1
    assert limits(engaged.internal) == limits(alone.internal)


@every("text", ["1/2-13 UNC-2B", "1/2-13 UNJC-3B", "M8x1.25-6H", "MJ8x1.25-4H5H", "1/2-12 BSW (medium)"])
def test_a_length_of_engagement_that_has_a_say_is_not_said_to_have_none(text):
    """ASME B1.1, ISO 965-1 and BS 84 take it into tolerance or group; where none is given it is told what was taken."""
    engaged = standards.resolve(callout.read(text), engagement=Length(D(8), "mm"))
    assert not [said for said in engaged.notes.assumptions if "engagement" in said]
    if "UNJ" not in text:
        alone = standards.resolve(callout.read(text)).notes.assumptions
        assert len([said for said in alone if said.startswith("length of engagement")]) == 1


@every(
    ("written", "without", "taken", "why"),
    [
        ("1-5 ACME-2G", "1-5 ACME", "2G", "the general purpose class"),
        ("1-5 STUB ACME-2G", "1-5 STUB ACME", "2G", "the general purpose class"),
        ("Tr 40x7-7H", "Tr 40x7", "7H", "the closest of the recommended classes 7H, 8H and 9H"),
        ("1/2-12 BSW (medium)", "1/2-12 BSW", "medium", "its limits also hold for normal"),
        ("1/4-26 BSF (medium)", "1/4-26 BSF", "medium", "its limits also hold for normal"),
        ("1/4-20 UNC-2B STI", "1/4-20 UNC STI", "2B", "the class after the insert is installed"),
        ("M8x1.25 STI 5H", "M8x1.25 STI", "5H", "the class after the insert is installed"),
        ("1/2-13 UNC-2B", "1/2-13 UNC", "2B", "the usual internal class of ASME B1.1"),
        ("1/2-13 UNJC-3B", "1/2-13 UNJC", "3B", "the usual internal class of aerospace practice (ASME B1.15)"),
        ("M8x1.25-6H", "M8x1.25", "6H", "what ISO 965-1 means by no class from M1.6"),
        ("MJ8x1.25-4H5H", "MJ8x1.25", "4H5H", "the aerospace class of ASME B1.21M"),
    ],
)
def test_a_class_that_is_not_written_is_told(resolved, written, without, taken, why):
    """The usual class of each standard; nothing is said of one that is written."""
    told, supplied = (
        [said for said in resolved(text).notes.assumptions if said.startswith("No class written")]
        for text in (written, without)
    )
    assert not told
    (said,) = supplied
    assert said.startswith(f"No class written: {taken}")
    assert why in said
    assert resolved(without).thread_class == taken
    assert limits(resolved(without).internal) == limits(resolved(written).internal)


@every(
    "text",
    [
        *("1/2-13 UNC-2B", "1/2-13 UNJC-3B", "0.80 UNM", "M8x1.25-6H", "MJ8x1.25-4H5H"),
        *("1-5 ACME-2G", "1/2-10 STUB ACME", "Tr 40x7-7H", "1/2-12 BSW (medium)", "2 BA", "SQUARE 40x7 DEPTH 3.5"),
        *("1/4-20 UNC-2B STI", "M8x1.25 STI 5H", "1/2-14 NPT", "1/2-14 NPTF-1", "1/2-14 NPSM", "Rc 1/2", "G 1/2 A"),
    ],
)
def test_what_the_reader_took_for_no_part_of_the_thread_stays_told(resolved, text):
    """A word on the hole, behind any thread."""
    (told,) = (said for said in resolved(f"{text} THRU").notes.assumptions if said.startswith("THRU in the callout"))
    assert "describes the hole" in told
    assert not [said for said in resolved(text).notes.assumptions if "THRU" in said]


def ba(**given):
    return ThreadFields("british_association", "2", **given)


def bsw(**given):
    return ThreadFields("whitworth", "1/2", series="BSW", **given)


def sti(**given):
    return ThreadFields("insert_metric", "8", pitch=Length(D("1.25"), "mm"), **given)


def sti_inch(**given):
    return ThreadFields("insert_unified", "1/4", threads_per_inch=D(20), **given)


def acme(system="acme", **given):
    return ThreadFields(system, "1", threads_per_inch=D(5), **given)


def tr(**given):
    return ThreadFields("trapezoidal", "40", pitch=Length(D(7), "mm"), **given)


MM = Length(D(2), "mm")
UNEXPECTED = "thread_field_unexpected"
NO_SERIES = "thread_series_mismatch"


@every(
    ("given", "code", "field", "words"),
    [
        (ba(starts=2), UNEXPECTED, "starts", "BA takes no starts"),
        (ba(lead=MM), UNEXPECTED, "lead", "BA takes no lead"),
        (ba(series="heavy"), UNEXPECTED, "series", "BA takes no series"),
        (bsw(starts=2), UNEXPECTED, "starts", "BSW takes no starts"),
        (bsw(lead=MM), UNEXPECTED, "lead", "BSW takes no lead"),
        (sti(starts=2), UNEXPECTED, "starts", "STI takes no starts"),
        (sti(lead=MM), UNEXPECTED, "lead", "STI takes no lead"),
        (sti_inch(starts=2), UNEXPECTED, "starts", "STI takes no starts"),
        (sti_inch(lead=MM), UNEXPECTED, "lead", "STI takes no lead"),
        (acme(series="heavy"), NO_SERIES, "series", "ACME has no series"),
        (acme("stub_acme", series="heavy"), NO_SERIES, "series", "STUB ACME has no series"),
        (tr(series="heavy"), NO_SERIES, "series", "Trapezoidal threads have no series"),
    ],
)
def test_what_a_thread_has_no_use_for_is_refused(given, code, field, words):
    """BS 93, BS 84 and inserts know single starts only; a BA number or an Acme pair is of no series."""
    fault = refused(lambda: callout.from_fields(given))
    assert (fault.code, fault.pointer) == (code, f"/thread/{field}")
    assert words in fault.detail


@every(
    ("text", "code", "allowed"),
    [
        # ISO 965-5: of hole and screw one carries the zinc allowance; ISO 965-4: coarse M10 to M64, and M8
        ("M12-6AZ/6az", "thread_mate_excluded", ("6g", "6h")),
        ("M12-6AX/6az", "thread_mate_excluded", ("6g", "6h")),
        ("M12x1-6H/6az", "thread_cell_undefined", None),
        ("M9-6H/6az", "thread_cell_undefined", None),
    ],
)
def test_pairs_on_a_drawing_that_may_not_be_mated(resolved, text, code, allowed):
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.pointer) == (code, "/thread")
    if allowed is None:
        assert (fault.allowed[0], fault.allowed[-1]) == ("M8", "M64")
    else:
        assert fault.allowed == allowed


@every("text", ["M12-6H/6az", "M12-6AZ/6h", "M12-6AX/6g", "M8-6G/6az"])
def test_pairs_of_which_one_carries_the_zinc_may_be_mated(resolved, text):
    assert resolved(text).mating_class == text.partition("/")[2]


@every(
    ("text", "words"),
    [
        ("1-5-5 ACME", "'1-5-5' is not size and threads per inch of an Acme thread"),
        ("1/2-10-x STUB ACME", "is not size and threads per inch of an Acme thread"),
        ("SQUARE foo", "A square thread is written 1-4 SQUARE DEPTH .125"),
        ("M8y1", "'8y1' is not a metric thread"),
        ("M8 STI x", "'8 x' is not a metric thread"),
        ("x BA", "'x' is not a BA number, 0 to 16"),
        ("x BSW", "'x' is not a size of BSW"),
        ("x NPT", "'x' is not a pipe size"),
        ("1/2-14-3 NPT", "'1/2-14-3' is not a pipe size"),
        ("x UNM", "is not a miniature size"),
        ("1/2-13-14", "Threads per inch are given twice"),
        ("1/2-13-14 UN", "'1/2-13-14' is not size and threads per inch"),
    ],
)
def test_what_is_no_thread_of_its_system_cannot_be_read(resolved, text, words):
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.pointer) == ("callout_unreadable", "/thread")
    assert words in fault.detail


@every(
    ("text", "code", "allowed", "meant"),
    [
        ("1/2-14 NPT-2X", "thread_class_unknown", (), ("1/2-14 NPT",)),
        ("1/2-13 UNC-4B", "thread_class_unknown", ("1B", "2B", "3B"), ("1/2-13 UNC-2B",)),
        ("1/2-13 UNC-2A", "thread_class_external", ("1B", "2B", "3B"), ("1/2-13 UNC-2B",)),
        ("1/2-13 UNJC-4B", "thread_class_unknown", ("2B", "3B"), ("1/2-13 UNJC-3B",)),
        ("1/2-13 UNJC-3A", "thread_class_external", ("2B", "3B"), ("1/2-13 UNJC-3B",)),
        # of the six sizes nearest to 15.4 mm, ISO 261 gives 16, 14 and 18 a pitch of 2
        (
            "M15.4x2",
            "thread_size_unknown",
            ("M12", "M14", "M15", "M16", "M17", "M18"),
            ("M16x2", "M14x2", "M18x2", "M15.4x2 SPL"),
        ),
        # an 8 in screw of 30 an inch is none that anyone means
        ("8-30", "thread_pitch_unknown", (), ("#8-32 UNC", "#8-36 UNF", "#8-30 UNS")),
        # .312 is 5/16 cut short, or .312 itself
        ("0.312-40 UNS", "callout_ambiguous", (), ("5/16-40 UNS",)),
    ],
)
def test_what_is_offered_for_a_thread_that_there_is_not(resolved, text, code, allowed, meant):
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.allowed, fault.did_you_mean) == (code, allowed, meant)


@every(
    ("text", "designation", "mate"),
    [
        ("M8-6H6H", "M8x1.25-6H", "6g"),
        ("M8-6G6G/6h6h", "M8x1.25-6G", "6h"),
        ("M8-4H5H/5g6g", "M8x1.25-4H5H", "5g6g"),
    ],
)
def test_a_class_that_is_written_for_both_diameters(resolved, text, designation, mate):
    """ISO 965-1: one symbol where pitch diameter and crest have the same class."""
    assert (resolved(text).designation, resolved(text).mating_class) == (designation, mate)


@every(
    ("length", "said"),
    [
        ("3.9", ("No class written: 5H, the medium class of ISO 965-1 for engagement group S.",)),
        ("4.1", ("No class written: 6H, what ISO 965-1 means by no class from M1.6.",)),
        ("12.1", ("No class written: 7H, the medium class of ISO 965-1 for engagement group L.",)),
    ],
)
def test_the_class_that_a_length_of_engagement_means_is_told(length, said):
    """Group N of M8x1.25 is over 4 to 12 mm; medium is 5H 6H 7H (ISO 965-1, from memory)."""
    thread = standards.resolve(callout.read("M8x1.25"), engagement=Length(D(length), "mm"))
    assert thread.notes.assumptions == said


@every("text", ["M8x1.25-6H-20", "M8x1.25-6H 20"])
def test_a_length_after_the_class_is_one_of_engagement(resolved, text):
    """ISO 965-1 designation; 20 mm is over the 12 mm of group N."""
    thread = resolved(text)
    assert thread.extra["engagement"]["group"] == "L"
    assert thread.notes.assumptions == (
        "20 mm after the class is the length of engagement (ISO 965-1), not the depth of the hole.",
    )


def test_the_screw_of_a_thread_with_an_engagement_is_the_one_of_its_reply():
    """1/2-13 UNC over 1.5 D: the tolerance of 2A is 1.25 x .004964 = .0062, so .4485 to .4423; 1 diameter has .4435."""
    hole = callout.read("1/2-13 UNC-2B")
    for length, least in (("1", "0.4423"), ("0.5", "0.4435")):
        thread = standards.resolve(hole, engagement=Length(D(length), "in"))
        screw = standards.external_limits(thread, thread_class="2A")
        assert (str(screw.pitch_diameter.min), str(screw.pitch_diameter.max)) == (least, "0.4485")


@every(("edition", "rule"), [("1989", "asme_b1_1_table"), ("2019", "asme_b1_30")])
def test_the_rule_of_a_minor_diameter_is_that_of_its_edition(edition, rule):
    thread = standards.resolve(callout.read("1/2-13 UNC-2B"), edition=edition)
    assert thread.extra["tolerance"]["minor_diameter_rule"] == rule
