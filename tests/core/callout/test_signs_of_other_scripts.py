"""Signs that stand for ASCII ones by the Unicode standard: full-width forms, raised and lowered digits, fractions."""

from __future__ import annotations

import pytest
from borewright.core.callout.text import normalise, number
from borewright.core.errors import CalloutError
from every import every


def test_full_width_signs():
    """U+FF01 to U+FF5E are ASCII 21 to 7E, in that order."""
    for code in range(0x21, 0x7F):
        plain, wide = f"M8{chr(code)}M8", f"M8{chr(code + 0xFEE0)}M8"
        if chr(code) != "|":
            assert normalise(wide) == normalise(plain), chr(code)


@every(
    ("written", "plain"),
    [
        ("#₀₁₂₃₄₅₆₇₈₉", "#0123456789"),
        ("¹⁄₂-13", "1/2-13"),
        ("1⅜-6", "1 3/8 -6"),
        ("M8×1,25", "M8x1,25"),
        ("M8х1", "M8x1"),
        ("М8–6H", "M8-6H"),
        ("№ 10-32", "NO 10-32"),
    ],
)
def test_signs_that_stand_for_others(written, plain):
    assert normalise(written) == plain


@every("code", [0xFF00, 0xFF5F, 0x208A])
def test_signs_beside_those_that_stand_for_others(code):
    """Before the full-width forms and behind them, and a lowered plus behind the digits."""
    with pytest.raises(CalloutError) as refused:
        normalise(f"M8 {chr(code)}")
    assert refused.value.faults[0].detail == f"The character U+{code:04X} is not part of any thread callout."


@every(("written", "value"), [("1,25", "1.25"), ("1.250", "1.25"), (",5", "0.5"), ("0,0625", "0.0625"), ("10", "10")])
def test_a_comma_is_a_decimal_point(written, value):
    assert str(number(written)) == value
