"""What a coat leaves for tap and drill, and what would make a finish possible where it leaves too little."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from allowances import resolved, span
from borewright.core.finishing import allow, feasibility
from borewright.core.model import FinishInput, Range
from every import every

HALF, M8 = resolved("1/2-13 UNC-2B"), resolved("M8")


def _range(least, most):
    return Range(*(None if end is None else Decimal(end) for end in (least, most)))


@every(
    ("text", "width", "feasible"),
    [
        # a tap of 1/4-20 is 0.0005 in wide and cuts 0.15 x 0.0049 = 0.0007 in over
        ("1/4-20 UNC-2B", "0.0012", False),
        ("1/4-20 UNC-2B", "0.0013", True),
        ("1/4-20 UNC-2B", "-0.01", False),
        # one of M8 0.025 mm, and 0.15 x 0.160 = 0.024 mm
        ("M8", "0.049", False),
        ("M8", "0.050", True),
    ],
)
def test_a_tap_needs_its_own_tolerance_and_its_oversize(text, width, feasible):
    thread = resolved(text)
    low = thread.internal.pitch_diameter.min
    before = replace(thread.internal, pitch_diameter=Range(low, low + Decimal(width)))
    assert feasibility.is_feasible(thread, before) is feasible


@every(("width", "feasible"), [("0.001", True), ("0", False), ("-0.001", False)])
def test_a_drill_needs_some_room(width, feasible):
    minor = Range(Decimal("0.417"), Decimal("0.417") + Decimal(width))
    assert feasibility.is_feasible(HALF, replace(HALF.internal, minor_diameter=minor)) is feasible
    none = replace(HALF.internal, minor_diameter=_range("0.417", None), pitch_diameter=_range(None, "0.4565"))
    assert feasibility.is_feasible(HALF, none)


_MASK = "mask or plug the thread, or tap after the finish (the thread is then bare)"
_IN, _MM, _UM = (f"\N{NO-BREAK SPACE}{unit}" for unit in ("in", "mm", "um"))
_G = f"{_UM} without any change of limits (ISO 4042:1999 Table 2)"
ZINC_25 = FinishInput(text="ASTM B633 Fe/Zn 25")


@every(
    ("text", "finish", "remedies"),
    [
        # Fe/Zn 12 of at most 0.00075 in takes 0.003 of 0.0049 in; (0.0049 - 0.0012 - 0.0001) / 4; 1B: 0.0073 in
        (
            "1/4-20 UNC-2B", ZINC_25,
            [f"ASTM B633 Fe/Zn 12 SC3 fits: it leaves 0.0019{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.0009{_IN} anywhere in the thread fits", "class 1B fits: 1/4-20 UNC-1B", _MASK],
        ),
        # 0.0036 in: Fe/Zn 8 of at most 0.00045 in takes 0.0018; (0.0036 - 0.0012 - 0.0001) / 4 = 0.000575
        (
            "1/4-20 UNC-3B", ZINC_25,
            [f"ASTM B633 Fe/Zn 8 SC2 fits: it leaves 0.0018{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.00057{_IN} anywhere in the thread fits", "class 1B fits: 1/4-20 UNC-1B", _MASK],
        ),
        # M6: 0.150 mm less 4 x 0.018; (0.150 - 0.046 - 0.001) / 4 = 0.02575; 7H has 0.190 - 0.150, 8H 0.236 - 0.150
        (
            "M6", ZINC_25,
            [f"ASTM B633 Fe/Zn 12 SC3 fits: it leaves 0.078{_MM} of pitch diameter tolerance",
             f"a coat of at most 0.0257{_MM} anywhere in the thread fits", "class 8H fits: M6x1-8H",
             f"position G takes a nominal coat of 5{_G}", _MASK],
        ),
        # 28 um take 0.112 mm: 6G has 0.026 mm more than 0.150, 7H 0.190; no specification, no thinner class of it
        (
            "M6", FinishInput(thickness=span("0.02", "0.028")),
            [f"a coat of at most 0.0257{_MM} anywhere in the thread fits", "class 6G fits: M6x1-6G",
             "class 7H fits: M6x1-7H", f"position G takes a nominal coat of 5{_G}", _MASK],
        ),
        # 6G has 0.034 mm of room: (0.200 + 0.034 - 0.062 - 0.001) / 4 = 0.04275; by the inch reading it has none
        (
            "M12-6G", FinishInput(thickness=span("0.05", "0.06")),
            [f"a coat of at most 0.0427{_MM} anywhere in the thread fits", _MASK],
        ),
        (
            "M12-6G", FinishInput(thickness=span("0", "0.06"), reading="asme"),
            [f"a coat of at most 0.0342{_MM} anywhere in the thread fits", _MASK],
        ),
        # heat scatters by 0.0002 in: (0.0049 - 0.0012 - 0.0002 - 0.0001) / 4; with 0.0036 in nothing is left
        (
            "1/4-20 UNC-2B", FinishInput(thickness=span("0.001", "0.003"), heat_treat_growth=span("0.0001", "0.0003")),
            [f"a coat of at most 0.00085{_IN} anywhere in the thread fits", _MASK],
        ),
        (
            "1/4-20 UNC-2B", FinishInput(thickness=span("0.001", "0.003"), heat_treat_growth=span("0", "0.0035")),
            [f"a coat of at most 0.00002{_IN} anywhere in the thread fits", _MASK],
        ),
        (
            "1/4-20 UNC-2B", FinishInput(thickness=span("0.001", "0.003"), heat_treat_growth=span("0", "0.0036")),
            [_MASK],
        ),
        # half of the film lies outside: 0.0036 / (4 x 0.5)
        (
            "1/4-20 UNC-2B", FinishInput(thickness=span("0", "0.004"), growth_fraction=Decimal("0.5")),
            [f"a coat of at most 0.0018{_IN} anywhere in the thread fits", _MASK],
        ),
        # Class 12 of at most 0.000709 in takes 0.0029 of 0.0065 in; (0.0065 - 0.0015 - 0.0001) / 4 = 0.001225
        (
            "1/2-13 UNC-2B", FinishInput(text="ASTM B695 Class 55"),
            [f"ASTM B695 Class 12 fits: it leaves 0.0036{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.00122{_IN} anywhere in the thread fits",
             f"tap oversize by 0.018{_IN} as ASTM A563 does for zinc of 40 um and more (from memory for ASTM B695)",
             _MASK],
        ),
        # another class of the document than the one named, were it as thick: Fe/Zn 8 of at most 0.00045 in leaves
        # 0.0049 - 0.0018; of a document without class the thickest that fits
        (
            "1/4-20 UNC-2B", FinishInput(text="ASTM B633 Fe/Zn 12", thickness=span("0", "0.003")),
            [f"ASTM B633 Fe/Zn 8 SC2 fits: it leaves 0.0031{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.0009{_IN} anywhere in the thread fits", _MASK],
        ),
        (
            "1/4-20 UNC-2B", FinishInput(text="ASTM B633", thickness=span("0", "0.003")),
            [f"ASTM B633 Fe/Zn 12 SC3 fits: it leaves 0.0019{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.0009{_IN} anywhere in the thread fits", _MASK],
        ),
        # electroless nickel follows the hole: Grade A of 0.001 to 0.0015 in moves both limits, 0.0049 - 4 x 0.0005
        (
            "1/4-20 UNC-2B", FinishInput(text="MIL-C-26074 Grade C", thickness=span("0", "0.004")),
            [f"MIL-C-26074E Grade A fits: it leaves 0.0029{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.0009{_IN} anywhere in the thread fits", _MASK],
        ),
        # a film without build-up: what a heat treatment takes is no coat's
        ("1/4-20 UNC-2B", FinishInput(text="black oxide", heat_treat_growth=span("-0.01", "0")), [_MASK]),
        # no row of the overtapping table is fine; 0.4675 to 0.4731 in: a room of 0.0013, and 0.4731 less 0.4704
        (
            "1/2-20 UNF-2B", FinishInput(text="ASTM B695 Class 55"),
            [f"ASTM B695 Class 12 fits: it leaves 0.0027{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.00105{_IN} anywhere in the thread fits", _MASK],
        ),
        (
            "M12", FinishInput(text="ASTM B695 Class 55"),
            [f"ASTM B695 Class 12 fits: it leaves 0.128{_MM} of pitch diameter tolerance",
             f"a coat of at most 0.0342{_MM} anywhere in the thread fits", f"position G takes a nominal coat of 8{_G}",
             _MASK],
        ),
    ],
)  # fmt: skip
def test_what_would_make_a_finish_possible(text, finish, remedies):
    found = allow(resolved(text), finish)
    assert found.feasible is False
    assert list(found.remedies) == remedies
