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
