"""Whole square threads by hand: what the callout states."""

from __future__ import annotations

from decimal import Decimal

from every import every
from whole_threads import OPEN, basic, codes, form, head, limits, refused, statuses

D = Decimal


SQUARE = [
    (
        "SQUARE 40x14(P7) depth 3.5 LH",
        ("SQUARE 40x14(P7) depth 3.5 LH", None, "40", None, None),
        ("mm", "40", "7.0000000", None, "14.0000000", "2", "0", None),
        ("40", "36.5", "33.0"),
    ),
    (
        "SQUARE 1.5-4 depth 0.125",
        ("SQUARE 1.5-4 depth 0.125", None, "1.5", None, None),
        ("in", "1.5", "0.2500000", "4", "0.2500000", "1", "0", None),
        ("1.5", "1.375", "1.250"),
    ),
    (
        "1/2-0.125P-0.25L SQUARE depth .05",
        ("SQUARE 0.5-0.125P-0.25L depth 0.05", None, "0.5", None, None),
        ("in", "0.5", "0.1250000", "8", "0.2500000", "2", "0", None),
        ("0.5", "0.45", "0.40"),
    ),
]


@every(("text", "named", "of_form", "diameters"), SQUARE)
def test_square_by_hand(resolved, text, named, of_form, diameters):
    thread = resolved(text)
    assert head(thread) == named
    assert form(thread) == of_form
    assert basic(thread) == diameters
    assert limits(thread.internal) == ((diameters[0], None), OPEN, (diameters[2], None))
    assert thread.external is None
    several = ("multi_start_tolerance",) if thread.starts > 1 else ()
    assert codes(thread) == ("square_no_standard", *several)
    assert set(statuses(thread).values()) == {"computed"}
    assert str(thread.extra["square"]["depth_of_thread"]) == str(D(text.lower().split("depth ")[1].split()[0]))


def test_lead_angle_of_a_square_thread(resolved):
    """atan(.25 / (pi x .45)) = 10.03 degrees; its lead to five decimals of an inch, three of a millimetre."""
    several = resolved("1/2-0.125P-0.25L SQUARE depth .05").extra["multi_start"]
    assert (str(several["lead"]), several["lead_angle"]) == ("0.25000", 10.03)
    assert str(resolved("SQUARE 40x14(P7) depth 3.5").extra["multi_start"]["lead"]) == "14.000"


@every(
    ("text", "is_made"),
    [
        ("SQUARE 40x7 depth 7", True),
        ("SQUARE 40x7 depth 7.01", False),
        ("SQUARE 40x7 depth 0", False),
        ("SQUARE 10x6 depth 4.99", True),
        ("SQUARE 10x6 depth 5", False),
        ("SQUARE 10x9.99 depth 3", True),
        ("SQUARE 10x10 depth 3", False),
        ("SQUARE 1-2 depth 0.499", True),
        ("SQUARE 1-2 depth 0.5", False),
        ("SQUARE 1-1 depth 0.3", False),
    ],
)
def test_square_dimensions_that_make_a_thread(resolved, text, is_made):
    """Pitch below the diameter; depth above zero, at most the pitch, below half the diameter."""
    if is_made:
        assert resolved(text).system == "square"
    else:
        assert refused(lambda: resolved(text)).code == "value_out_of_range"


@every(
    ("text", "pointer", "words"),
    [
        ("SQUARE 40x7", "/thread", "so depth must"),
        ("1-4 SQUARE", "/thread", "so depth must"),
        ("1 SQUARE DEPTH .1", "/thread", "so pitch must"),
        ("1 SQUARE", "/thread", "so pitch and depth must"),
    ],
)
def test_square_dimensions_that_are_missing(resolved, text, pointer, words):
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.pointer) == ("thread_field_missing", pointer)
    assert words in fault.detail


@every(
    ("text", "designation"),
    [
        ("SQUARE 40x7 depth 3.5", "SQUARE 40x7 depth 3.5"),
        ("SQUARE 0.9x0.2 depth 0.05", "SQUARE 0.9x0.2 depth 0.05"),
        # pitch and lead of five decimals: .333333 and .666666
        ("2-0.333333P-0.666666L SQUARE depth .1", "SQUARE 2-0.33333P-0.66667L depth 0.1"),
        ("SQUARE 1 1/2-4 depth .1", "SQUARE 1.5-4 depth 0.1"),
    ],
)
def test_how_a_square_thread_is_written(resolved, text, designation):
    assert resolved(text).designation == designation


@every(
    ("text", "words"),
    [
        ("SQUARE 0x7 depth 3.5", "'0' is not a diameter in mm."),
        ("#4-4 SQUARE depth .01", "'#4' is not a diameter in inches."),
    ],
)
def test_square_threads_have_a_diameter(resolved, text, words):
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.detail) == ("thread_size_unknown", words)
