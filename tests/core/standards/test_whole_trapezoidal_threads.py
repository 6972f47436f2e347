"""Whole trapezoidal threads by hand: D - P/2, D - P, D + 2 a_c; tolerances of the table."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every
from whole_threads import basic, codes, form, head, limits, refused, statuses, text_of

D = Decimal


#: Tr 40x7: a_c .5, TD2 475 600 750 um, TD1 560 um.
TRAPEZOIDAL = [
    ("Tr 40x7", ("Tr 40x7-7H", None, "40", "7H", "7e"), "36.975"),
    ("Tr 40x7LH-8H", ("Tr 40x7LH-8H", None, "40", "8H", "8e"), "37.100"),
    ("Tr 40x14(P7)-9H-L", ("Tr 40x14(P7)-9H-L", None, "40", "9H", "9c"), "37.250"),
    ("Tr 40x7-9H-N", ("Tr 40x7-9H", None, "40", "9H", "9c"), "37.250"),
]


@every(("text", "named", "greatest"), TRAPEZOIDAL)
def test_trapezoidal_by_hand(resolved, text, named, greatest):
    thread = resolved(text)
    several = "(P7)" in text
    assert head(thread) == named
    assert form(thread) == ("mm", "40", "7", None, "14" if several else "7", "2" if several else "1", "30", None)
    assert basic(thread) == ("40.000", "36.500", "33.000")
    assert limits(thread.internal) == (("41.000", None), ("36.500", greatest), ("33.000", "33.560"))
    assert thread.external is None
    assert codes(thread) == ("tr_lead_screw_play", *(("multi_start_tolerance",) if several else ()))
    known = statuses(thread, "internal")
    assert (known["internal.pitch_diameter.min"], known["internal.pitch_diameter.max"]) == ("computed", "from_memory")


def test_several_starts_of_a_trapezoidal_thread(resolved):
    """atan(14 / (pi x 36.5)) = 6.96 degrees."""
    several = resolved("Tr 40x14(P7)").extra["multi_start"]
    assert {name: str(value) for name, value in several.items()} == {
        "starts": "2",
        "lead": "14.000",
        "lead_angle": "6.96",
    }


@every(
    ("given", "code"),
    [
        ("7H", None),
        ("7H/7e", None),
        ("8e/7h", None),
        ("7e", "thread_class_external"),
        ("7e/8e", "thread_class_external"),
        ("7H/8H", "thread_class_unknown"),
        ("7H/6g", "thread_class_unknown"),
        ("6H", "thread_class_unknown"),
        ("6g", "thread_class_unknown"),
        ("zz", "thread_class_unknown"),
    ],
)
def test_classes_of_a_trapezoidal_nut(given, code):
    """The nut's class, alone or beside one of the screw's 7e, 8e, 8c, 9c (no screw has position h)."""

    def read():
        return callout.from_fields(
            ThreadFields("trapezoidal", "40", pitch=Length(D(7), "mm"), thread_class=given, hand="left")
        )

    if code is None:
        assert read().thread_class == "7H"
        return
    fault = refused(read)
    assert (fault.code, fault.pointer, fault.allowed) == (code, "/thread/class", ("7H", "8H", "9H"))
    assert fault.did_you_mean == ("Tr 40x7LH-7H",)
    assert ("is a class of the screw" in fault.detail) is (code == "thread_class_external")


def test_trapezoidal_text_that_needs_a_word(resolved):
    old, new = resolved("Tr 40x14P7"), resolved("Tr 40x14(P7)")
    assert [one for one in old.notes.assumptions if "without brackets is read as lead and pitch" in one]
    assert not [one for one in new.notes.assumptions if "brackets" in one]
    assert [one for one in new.notes.assumptions if "No class written: 7H" in one]
    assert "12.5 mm" in text_of(resolved("Tr 16x4"), "tr_old_din_103")


def test_trapezoidal_diameter_that_does_not_exist():
    """ISO 2904 steps 40, 42, 44: nearest first, each with its preferred pitch."""
    fault = refused(lambda: callout.from_fields(ThreadFields("trapezoidal", "Tr 41.0", pitch=Length(D(7), "mm"))))
    assert (fault.code, fault.pointer) == ("thread_size_unknown", "/thread/size")
    assert fault.did_you_mean == ("Tr 40x7-7H", "Tr 42x7-7H", "Tr 38x7-7H")


def test_diameter_with_decimals_is_the_one_without():
    """ISO 2904 lists 20 mm."""
    assert callout.from_fields(ThreadFields("trapezoidal", "Tr 20.0", pitch=Length(D(4), "mm"))).size == "20"
