"""The rules of Unified threads at both sides of their borders, figures worked out beside each row."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import ThreadError
from borewright.core.model import Length, Thread
from borewright.core.requests import ThreadFields
from every import every

D = Decimal


def thread(text: str, length: str | None = None, edition: str | None = "1989") -> Thread:
    engagement = None if length is None else Length(D(length), "in")
    return standards.resolve(callout.read(text), engagement=engagement, edition=edition)


def codes(found: Thread) -> set[str]:
    return {caution.code for caution in found.notes.cautions}


@every(
    ("text", "length", "factor", "words"),
    [
        # the coarse series count diameters: 1.5 x 0.5 = 0.75 in and 3 x 0.5 = 1.5 in
        ("1/2-13 UNC-2B", "0.75", 1, "up to 1.5 D"),
        ("1/2-13 UNC-2B", "0.7501", 1.25, "over 1.5 D to 3 D"),
        ("1/2-13 UNC-2B", "1.5", 1.25, "over 1.5 D to 3 D"),
        ("1/2-13 UNC-2B", "1.5001", 1.5, "over 3 D"),
        # 20UN counts pitches: 15 / 20 = 0.75 in and 30 / 20 = 1.5 in
        ("9/16-20 UN-2B", "0.75", 1, "up to 15 P"),
        ("9/16-20 UN-2B", "0.7501", 1.25, "over 15 P to 30 P"),
        ("9/16-20 UN-2B", "1.5", 1.25, "over 15 P to 30 P"),
        ("9/16-20 UN-2B", "1.5001", 1.5, "over 30 P"),
    ],
)
def test_each_step_of_engagement_includes_its_upper_end(text, length, factor, words):
    """ASME B1.1: standard tolerance up to 15 P or 1.5 D, 1.25 times to 30 P or 3 D, 1.5 beyond (from memory)."""
    found = thread(text, length).extra["engagement"]
    assert (found["pitch_tolerance_factor"], found["range"]) == (factor, words)
    assert str(found["length"]) == f"{D(length):.4f}"


@every(
    ("length", "largest", "smallest_of_mate", "status", "place"),
    [
        # Td2 = .0015 x .5^(1/3) + .0015 x .5^(1/2) + .015 x 13^(-2/3) = .001191 + .001061 + .002713 = .004964
        # .4500 + 1.3 x .004964 = .4565; mate .4485 - .0050
        (None, "0.4565", "0.4435", "computed", "section 5, limits tables"),
        # .4500 + 1.3 x 1.25 x .004964 = .45807; .4485 - 1.25 x .004964 = .4485 - .0062
        ("1", "0.4581", "0.4423", "computed", "section 5; FED-STD-H28/2B (1991) 5.4 for 1.25 times the tolerance"),
        # .4500 + 1.3 x 1.5 x .004964 = .45968; .4485 - 1.5 x .004964 = .4485 - .0074
        ("1.6", "0.4597", "0.4411", "from_memory", "section 5; 1.5 times the tolerance beyond 3 D or 30 P"),
    ],
)
def test_a_long_engagement_widens_both_pitch_diameters(length, largest, smallest_of_mate, status, place):
    found = thread("1/2-13 UNC-2B", length)
    assert str(found.internal.pitch_diameter.max) == largest
    assert str(found.external.pitch_diameter.min) == smallest_of_mate
    for field in ("internal.pitch_diameter", "external"):
        (source,) = (source for source in found.notes.sources if source.field == field)
        assert (source.status, source.locator) == (status, place)


@every(
    ("text", "length", "expected"),
    [
        ("1/2-13 UNC-2B", None, set()),
        ("1/2-13 UNC-2B", "0.75", set()),
        ("1/2-13 UNC-2B", "0.7501", {"long_engagement"}),
        # 15 pitches are 0.5357 in, but more than 1.5 D begins at 0.75 in
        ("1/2-28 UNEF-2B", "0.74", set()),
        ("1/2-13 UNC-1B", None, set()),
        ("1/4-20 UNC-1B", None, set()),
        ("#12-24 UNC-1B", None, {"class_not_tabulated"}),
        ("1/2-28 UNEF-1B", None, {"class_not_tabulated"}),
        ("1/2-28 UNEF-2B", None, set()),
        ("4-4 UNC-2B", None, set()),
        ("4-3.5 UNS-2B", None, {"special_thread", "tolerance_from_memory"}),
        ("1-14 UNS-2B", None, set()),
        ("1-15 UNS-2B", None, {"special_thread"}),
        ("3/4-0.0625P-0.125L UNF-2B", None, {"multi_start_tolerance"}),
    ],
)
def test_cautions(text, length, expected):
    """1B: UNC and UNF from 1/4 in only. MOD beyond 1.5 D (FED-STD-H28/2B 30.1). Tolerance below 4 tpi from memory."""
    assert codes(thread(text, length)) == expected


def test_classes_that_the_standard_tabulates():
    """ASME B1.1 limits tables: 1A and 1B for UNC and UNF from 1/4 in only."""
    classes = {entry.designation: entry.classes for entry in standards.catalogue() if entry.system == "unified"}
    for text in ("1/4-20 UNC", "1/4-28 UNF", "1/2-13 UNC"):
        assert classes[text] == ("1B", "2B", "3B")
    for text in ("#12-24 UNC", "#12-28 UNF", "1/4-32 UNEF", "1 1/2-8 UN", "1-14 UNS"):
        assert classes[text] == ("2B", "3B")


@every(
    ("text", "least", "largest", "formula"),
    [
        # 3.5 tpi: .15 x .285714 = .042857; 4 - .309295 = 3.690705 -> 3.691; 3.690705 + .042857 = 3.7336
        ("4-3.5 UNS-2B", "3.691", "3.734", "ratio * 0.15 * P"),
        # 4 tpi: .25 x .25 - .4 x .0625 = .0375; 4 - .270633 = 3.7294; 3.7294 + .0375 = 3.7669
        ("4-4 UNC-2B", "3.729", "3.767", "ratio * (0.25 * P - 0.4 * P ** 2)"),
        # 3B, 13 tpi and finer: .23 / 13 - 1.5 / 169 = .008817; 2 - .083272 = 1.916728; sum 1.925545
        ("2-13 UNS-3B", "1.9170", "1.9255", "0.23 * P - 1.5 * P ** 2"),
        # 3B, coarser than 13 tpi: .120 / 12.5 = .0096; 2 - .086603 = 1.913397; sum 1.922997
        ("2-12.5 UNS-3B", "1.9130", "1.9230", "0.120 * P"),
    ],
)
def test_tolerance_of_the_minor_diameter_by_pitch(text, least, largest, formula):
    """ASME B1.1 5.8.2 (Tables 39 and 40): 0.15 P below 4 tpi is from memory; for 3B the floor changes at 13 tpi."""
    found = thread(text)
    assert (str(found.internal.minor_diameter.min), str(found.internal.minor_diameter.max)) == (least, largest)
    (step,) = (step for step in found.notes.steps if step.quantity == "TD1")
    assert formula in step.formula
    memory = {source.status for source in found.notes.sources if source.field == "internal.minor_diameter"}
    assert ("from_memory" in memory) == (text == "4-3.5 UNS-2B")


@every(
    ("text", "area"),
    [
        # 0.7854 (D - 0.9743 / n)^2: .0478213, .107553, .133553, .388785, .481308, 2.756425 squared
        ("#0-80 UNF", "0.00180"),
        ("#6-32 UNC", "0.00909"),
        ("#8-32 UNC", "0.0140"),
        ("7/16-20 UNF", "0.1187"),
        ("9/16-12 UNC", "0.182"),
        ("3-4 UNC", "5.967"),
    ],
)
def test_stress_area_is_printed_with_the_decimals_of_handbooks(text, area):
    """Tensile stress areas: 5 decimals below 0.01, 4 below 0.16, 3 from there (FED-STD-H28/2B Table II.B.1)."""
    assert str(thread(text).tensile_stress_area) == area


@every(
    ("text", "tabulated", "unfinished"),
    [
        ("1/2-13 UNC-2B", True, True),
        ("1 1/2-8 UN-2B", True, True),
        ("1/2-13 UNC-3B", True, False),
        ("1/2-13 UNC-1B", True, False),
        ("1/2-20 UNF-2B", True, False),
        ("1-14 UNS-2B", True, False),
        ("1-15 UNS-2B", False, False),
    ],
)
def test_reference_figures_of_the_screw(text, tabulated, unfinished):
    """The table prints the UNR minor diameter of what it lists; hot-rolled 2A screws are of UNC, 4UN, 6UN and 8UN."""
    found = thread(text).extra["external_reference"]
    assert ("unr_minor_diameter_max_tabulated" in found) == tabulated
    assert ("unfinished_major_diameter_min" in found) == unfinished


def test_figures_of_the_unfinished_screw():
    """1/2-13 UNC-2A: .4985 - .090 x 13^(-2/3) = .4985 - .016278 = .4822; .4985 - 1.19078493 / 13 = .4069."""
    found = thread("1/2-13 UNC-2B").extra["external_reference"]
    assert str(found["unfinished_major_diameter_min"]) == "0.4822"
    assert str(found["unr_minor_diameter_max"]) == "0.4069"


@every(
    ("text", "length", "note"),
    [
        ("1/2-13 UNC-2B", None, None),
        ("1/2-13 UNC-2B", "0.75", None),
        ("1/2-13 UNC-2B", "1", "1/2-13 UNC-2B MINOR DIA 0.417-0.434 PD 0.4500-0.4581 LE 1"),
        ("1-14 UNS-2B", None, None),
        ("2.500-28 UNS-2B", None, "2 1/2-28 UNS-2B MINOR DIA 2.461-2.470 PD 2.4768-2.4827"),
    ],
)
def test_the_drawing_states_limits_that_no_table_has(text, length, note):
    """1/2-13: minor diameter of the table, .4500 + 1.3 x 1.25 x .004964. 2 1/2-28 at 9 P: minor tolerance .25 / 28 -
    .4 / 784 = .008418, 2.461338 + .008418 = 2.469756; Td2 = .0015 x 2.5^(1/3) + .0015 x (9 / 28)^(1/2) + .015 x
    28^(-2/3) = .002036 + .000850 + .001627 = .004513, 2.4768 + 1.3 x .004513 = 2.48267.
    """
    found = thread(text, length).extra.get("special")
    assert (found and found["drawing_note"]) == note


def test_pitch_and_lead_of_several_starts():
    """ASME B1.1 section 6 (from memory): pitch 1 / 13 = 0.076923 and lead 2 / 13 = 0.153846, six decimals."""
    given = ThreadFields("unified", "1/2", threads_per_inch=D(13), starts=2)
    found = standards.resolve(callout.from_fields(given))
    assert found.designation == "1/2-0.076923P-0.153846L UNC-2B"
    assert found.lead == 2 * D("0.07692308")


@every(
    ("text", "designation"),
    [
        ("24-4 UNS", "24-4 UNS-2B"),
        ("1/2-80 UNS", "1/2-80 UNS-2B"),
        ("1/2-6.5 UNS", "1/2-6.5 UNS-2B"),
    ],
)
def test_special_threads_at_the_ends_of_their_range(text, designation):
    """To 24 in, to 80 tpi, at least six heights of 0.54126588 P thick: 3.24759528 / 0.5 = 6.4952 tpi at 1/2 in."""
    assert thread(text).designation == designation


@every(
    ("text", "code", "words"),
    [
        (".0599-80 UNS", "thread_size_unknown", "defined from 0.0600 to 24 in, not 0.0599 in"),
        ("1/2-81 UNS", "thread_pitch_unknown", "1/2 takes 7 to 80 threads per inch"),
        ("1/2-6.4 UNS", "thread_pitch_unknown", "not 6.4"),
        # 3.24759528 / 1.5 = 2.17 threads per inch
        ("1 1/2-2 UNS", "thread_pitch_unknown", "1 1/2 takes 3 to 80 threads per inch"),
    ],
)
def test_special_threads_past_the_ends_are_refused(text, code, words):
    with pytest.raises(ThreadError) as caught:
        thread(text)
    fault = caught.value.faults[0]
    assert fault.code == code
    assert words in fault.detail


def test_a_mate_at_another_class_keeps_the_standard_engagement():
    """1/2-13: 1A .5 - .0015 = .4985, - .090 x 13^(-2/3) = .4822; pitch .4485 - 1.5 x .004964 = .4411; 3A has no
    allowance: .5000, .5000 - .010852 = .4891; .4500 - .75 x .004964 = .4463.
    """
    hole = thread("1/2-13 UNC-2B", "1")
    loose, tight = (standards.external_limits(hole, thread_class=name) for name in ("1A", "3A"))
    assert [str(one) for one in (loose.major_diameter.max, loose.major_diameter.min)] == ["0.4985", "0.4822"]
    assert [str(one) for one in (loose.pitch_diameter.max, loose.pitch_diameter.min)] == ["0.4485", "0.4411"]
    assert [str(one) for one in (tight.major_diameter.max, tight.major_diameter.min)] == ["0.5000", "0.4891"]
    assert [str(one) for one in (tight.pitch_diameter.max, tight.pitch_diameter.min)] == ["0.4500", "0.4463"]


def test_an_engagement_is_at_most_ten_diameters():
    """Our decision: 10 x 0.5 in; the refusal names the limit."""
    assert thread("1/2-13 UNC-2B", "5").designation == "1/2-13 UNC-2B"
    with pytest.raises(ThreadError) as caught:
        thread("1/2-13 UNC-2B", "5.0001")
    fault = caught.value.faults[0]
    assert fault.allowed == ("above 0 to 5\N{NO-BREAK SPACE}in",)
    assert "5.0001\N{NO-BREAK SPACE}in" in fault.detail
    assert "10 diameters (5\N{NO-BREAK SPACE}in)" in fault.detail


def test_the_engagement_of_the_callout_gives_way_to_the_one_given():
    written = callout.read("1/2-13 UNC-2B SE 1.00")
    assert standards.resolve(written).extra["engagement"]["length"] == 1
    assert standards.resolve(written, engagement=Length(D("0.5"), "in")).extra["engagement"]["length"] == D("0.5")


def test_root_of_the_j_screw():
    """ASME B1.15 (from memory): 0.15011 P to 0.18042 P; 1/28 in: .005361 and .006444."""
    radius = thread("1/4-28 UNJF-3B", edition=None).extra["external_root"]["radius"]
    assert (str(radius.min), str(radius.max)) == ("0.0054", "0.0064")
