"""What a metric callout that cannot be is offered: the whole list and its order, and the borders of what can be."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.callout import from_fields, read
from borewright.core.errors import BorewrightError, Fault
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from borewright.core.standards import resolve
from every import every

_USUAL = ("4H", "5H", "6H", "7H", "6G", "6AZ", "6AX")
_USUAL_MJ = ("4H5H", "4H6H", "6H", "4G6G")


def refused(text: str) -> Fault:
    with pytest.raises(BorewrightError) as caught:
        resolve(read(text))
    return caught.value.faults[0]


@every(
    ("text", "code", "allowed", "meant"),
    [
        # three nearest pitches of the size, then the special thread where ISO 965-1 can have its tolerances
        ("M20x8", "thread_pitch_unknown", ("2.5", "2", "1.5", "1"), ("M20x2.5", "M20x2", "M20x1.5", "M20x8 SPL")),
        ("M15x1.25-LH", "thread_pitch_unknown", ("1.5", "1"), ("M15x1.5-LH", "M15x1-LH", "M15x1.25 SPL")),
        ("M8x1.2-6G", "thread_pitch_unknown", ("1.25", "1", "0.75"), ("M8x1.25-6G", "M8x1-6G", "M8x0.75-6G")),
        ("MJ8x1.2", "thread_pitch_unknown", ("1.25", "1", "0.75"), ("MJ8x1.25", "MJ8x1", "MJ8x0.75")),
        # six sizes next to it exist, the three nearest are offered with their usual pitch or the one written
        ("M13", "thread_size_unknown", ("M10", "M11", "M12", "M14", "M15", "M16"), ("M12x1.75", "M14x2", "M11x1.5")),
        (
            "M13x1",
            "thread_size_unknown",
            ("M10", "M11", "M12", "M14", "M15", "M16"),
            ("M12x1", "M14x1", "M11x1", "M13x1 SPL"),
        ),
        ("M13x1.2", "thread_size_unknown", ("M10", "M11", "M12", "M14", "M15", "M16"), ()),
        # the pitch is missing where more than one can be meant
        ("M15", "callout_ambiguous", ("1.5", "1"), ("M15x1.5", "M15x1")),
        ("MJ6-LH", "callout_ambiguous", ("1", "0.75"), ("MJ6x1-LH", "MJ6x0.75-LH")),
        ("M8 fine", "callout_ambiguous", ("1.25", "1", "0.75"), ("M8x1.25", "M8x1", "M8x0.75")),
        ("M8x1 coarse", "thread_series_mismatch", (), ("M8x1",)),
        ("M8x1.25 fine", "thread_series_mismatch", (), ("M8x1.25",)),
        # no coarse pitch is above 8 mm: a larger figure is the length of a screw
        ("M20x8.1", "callout_has_depth", (), ("M20",)),
        # classes
        ("M8-6H/6H", "thread_class_unknown", _USUAL, ("M8x1.25-6H",)),
        ("M8-6H/6G", "thread_class_unknown", _USUAL, ("M8x1.25-6H",)),
        ("M8-5H6G", "thread_class_unknown", _USUAL, ("M8x1.25-6H",)),
        ("M8-5g7f", "thread_class_unknown", _USUAL, ("M8x1.25-6H",)),
        ("M8-10H", "thread_class_unknown", _USUAL, ("M8x1.25-6H",)),
        ("M8-3H", "thread_class_unknown", _USUAL, ("M8x1.25-6H",)),
        ("M8-5h2h", "thread_class_unknown", _USUAL, ("M8x1.25-6H",)),
        ("M8-2h", "thread_class_unknown", _USUAL, ("M8x1.25-6H",)),
        ("M8-6g", "thread_class_external", _USUAL, ("M8x1.25-6H",)),
        ("M8-5g8g", "thread_class_external", _USUAL, ("M8x1.25-6H",)),
        ("M8-3h", "thread_class_external", _USUAL, ("M8x1.25-6H",)),
        ("M8-9h", "thread_class_external", _USUAL, ("M8x1.25-6H",)),
        ("M8-6az/6g", "thread_class_external", _USUAL, ("M8x1.25-6H",)),
        ("MJ8x1-9H", "thread_class_unknown", _USUAL_MJ, ("MJ8x1-4H5H",)),
        ("MJ8x1-6g", "thread_class_external", _USUAL_MJ, ("MJ8x1-4H5H",)),
    ],
)
def test_all_that_is_offered_in_its_order(text, code, allowed, meant):
    fault = refused(text)
    assert (fault.code, fault.allowed, fault.did_you_mean) == (code, allowed, meant)


@every(
    ("text", "words"),
    [
        ("M8-6g/6h", "6g is a class of the external thread"),
        ("M8-2B", "thread: 1B, 2B and 3B are Unified classes."),
        ("M8-3A", "thread: 1B, 2B and 3B are Unified classes."),
        ("M8-9H", "Class 9H does not exist for an internal ISO metric thread."),
        ("M8x1 coarse", "Pitch 1 mm is the fine one of M8, not the coarse one."),
        ("M8x1.25 fine", "Pitch 1.25 mm is the coarse one of M8, not the fine one."),
        ("M20x8", "ISO 261 has no M20 with pitch 8\N{NO-BREAK SPACE}mm."),
        ("MJ8x1.2", "ISO 5855-1 has no MJ8 with pitch 1.2\N{NO-BREAK SPACE}mm."),
        ("MJ13x1", "ISO 5855-1 has no diameter 13 mm."),
        ("M20x8.1", "8.1 mm is a length of screw or hole"),
    ],
)
def test_the_words_name_what_was_written(text, words):
    assert words in refused(text).detail


@every(
    ("text", "can_be"),
    [
        # over 0.99 to 355 mm, a pitch of ISO 261, thicker than two pitches
        ("M0.99x0.2 SPL", False),
        ("M1.05x0.2 SPL", True),
        ("M355x6 SPL", True),
        ("M355.1x6 SPL", False),
        ("M8x1.1 SPL", False),
        ("M2.5x1.25 SPL", False),
        ("M2.6x1.25 SPL", True),
        ("M8x0.5 SPL", True),
    ],
)
def test_which_special_threads_can_have_tolerances(text, can_be):
    """ISO 965-1 tabulates diameters over 0.99 to 355 mm; twice the pitch is our own least proportion."""
    if can_be:
        assert read(text).series == "special"
        return
    with pytest.raises(BorewrightError) as caught:
        read(text)
    assert caught.value.code in ("thread_pitch_unknown", "thread_size_unknown")


@every(
    ("text", "allowed", "words"),
    [
        (
            "M30x1-8H",
            ("4", "5", "6", "7"),
            "8 at pitch 1 mm for diameters up to 45\N{NO-BREAK SPACE}mm, only 4, 5, 6, 7",
        ),
        ("M1.6x0.2-6H", ("4",), "6 at pitch 0.2 mm for diameters up to 2.8\N{NO-BREAK SPACE}mm, only 4"),
        # TD2 of over 1.4 to 2.8 mm, and of over 2.8 to 5.6 mm
        ("M2.6x1.25 SPL", ("0.2", "0.25", "0.35", "0.4", "0.45"), "has no pitch 1.25 mm"),
        (
            "M3x1.25 SPL",
            ("0.35", "0.5", "0.6", "0.7", "0.75", "0.8"),
            "has no pitch 1.25 mm for diameters up to 5.6\N{NO-BREAK SPACE}mm: 0.35, 0.5, 0.6, 0.7, 0.75, 0.8 exist",
        ),
    ],
)
def test_a_tolerance_that_does_not_exist_names_those_that_do(text, allowed, words):
    """ISO 965-1 table of TD2: grades by pitch and pitches by range of diameter (AS 1721 Table 4.4)."""
    fault = refused(text)
    assert (fault.code, fault.allowed) == ("thread_cell_undefined", allowed)
    assert words in fault.detail


@every(
    ("text", "lead", "pitch", "starts"),
    [
        ("M16xPh3P1.5", "3", "1.5", 2),
        ("M16x3(P1.5)", "3", "1.5", 2),
        ("M16 x L3 - P1.5", "3", "1.5", 2),
        ("M16xPh4.5P1.5", "4.5", "1.5", 3),
        ("M16x1.5", None, "1.5", 1),
    ],
)
def test_lead_and_pitch_in_every_form(text, lead, pitch, starts):
    found = read(text)
    assert (str(found.pitch), found.starts) == (pitch, starts)
    assert str(resolve(found).lead.normalize()) == (lead or pitch)


@every(
    ("text", "said"),
    [
        ("M8x1.25-6H", ()),
        ("M8-6H", ("No pitch written: M8 is the coarse thread M8x1.25.",)),
        ("M8x1", ("No class written: 6H, what ISO 965-1 means by no class from M1.6.",)),
        ("M1.4x0.3", ("No class written: 5H, what ISO 965-1 means by no class up to M1.4.",)),
        ("M1.6x0.35", ("No class written: 6H, what ISO 965-1 means by no class from M1.6.",)),
        ("M1.6x0.2", ("No class written: 4H, the only grade ISO 965-1 has at pitch 0.2 mm.",)),
        ("M2x0.25", ("No class written: 5H, the coarsest grade ISO 965-1 has at pitch 0.25 mm.",)),
        ("M20x2-L", ("No class written: 7H, the medium class of ISO 965-1 for engagement group L.",)),
        ("M20x2-S", ("No class written: 5H, the medium class of ISO 965-1 for engagement group S.",)),
        ("M20x2-N", ("No class written: 6H, what ISO 965-1 means by no class from M1.6.",)),
        (
            "MJ6x1",
            (
                "No class written: 4H5H, the aerospace class of ASME B1.21M (ISO 5855-2 may ask 4H6H up to MJ5: see"
                " the drawing).",
            ),
        ),
        (
            "M20x2-6H-40",
            ("40 mm after the class is the length of engagement (ISO 965-1), not the depth of the hole.",),
        ),
    ],
)
def test_what_was_supplied_is_said(text, said):
    assert read(text).assumptions == said


@every(
    ("text", "internal", "mate"),
    [
        ("M8-5H6H", "5H6H", None),
        ("M8-6H6H", "6H", None),
        ("M8-4G6G", "4G6G", None),
        ("M8-8H/9h8h", "8H", "9h8h"),
        ("M8-6H/3g4g", "6H", "3g4g"),
        ("M8-6AX/6g", "6AX", "6g"),
    ],
)
def test_classes_that_can_be(text, internal, mate):
    found = read(text)
    assert (found.thread_class, dict(found.extra).get("mating_class")) == (internal, mate)


def test_a_field_of_another_standard_names_itself():
    with pytest.raises(BorewrightError) as caught:
        from_fields(ThreadFields("iso_metric", "M8;1", pitch=Length(Decimal(1), "mm")))
    assert caught.value.faults[0].detail == "'M8;1' is not a metric size such as M8 or 8."


#: ISO 965-1: tolerance grades of D2 and D1 4 to 8, of d2 3 to 9, of d 4, 6 and 8; positions G and H, a to h.
_INSIDE = {f"{grade}{position}" for grade in (4, 5, 6, 7, 8) for position in "GH"}
_OUTSIDE = {f"{grade}{position}" for grade in range(3, 10) for position in "abcdefgh"}
_MAJOR = {f"{grade}{position}" for grade in (4, 6, 8) for position in "abcdefgh"}


def _parts(part: str) -> list[str]:
    return [f"{grade}{letter}" for grade in range(2, 11) for letter in part]


def _code(written: str) -> str | None:
    try:
        resolve(read(f"M10-{written}"))
    except BorewrightError as error:
        return error.faults[0].code
    return None


def test_a_class_of_one_part_is_internal_external_or_none():
    expected = dict.fromkeys(_INSIDE) | dict.fromkeys(_OUTSIDE, "thread_class_external")
    for written in _parts("FGHJfghj"):
        assert _code(written) == expected.get(written, "thread_class_unknown"), written


def test_a_class_of_two_parts_has_a_grade_each_and_one_position():
    for first in _parts("GHgj"):
        for second in _parts("GHgj"):
            same = first[-1] == second[-1]
            if first in _INSIDE and second in _INSIDE and same:
                expected = None
            elif first in _OUTSIDE and second in _MAJOR and same:
                expected = "thread_class_external"
            else:
                expected = "thread_class_unknown"
            assert _code(first + second) == expected, first + second


@pytest.mark.parametrize(("mate", "code"), [("5g6g", None), ("3g4g", None), ("5g7g", "thread_class_unknown")])
def test_the_mate_has_a_grade_of_its_major_diameter(mate, code):
    assert _code(f"6H/{mate}") == code
