"""What must hold for every finish on every thread."""

from __future__ import annotations

import math
from decimal import Decimal
from functools import cache

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError
from borewright.core.finishing import allow
from borewright.core.finishing.products import products
from borewright.core.model import FinishInput, Length, LengthRange
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st

TEXTS = (
    "#4-40 UNC-2B", "1/4-28 UNF-2B", "1/2-13 UNC-3B", "1-8 UNC-1B", "1/4-28 UNJF-3B", "M3", "M8", "M12-6G", "M20-7H",
    "M10-6AZ", "MJ8x1-4H5H", "1/2-14 NPT", "Rc 1/2", "G 1/2", "1/2-12 BSW", "4 BA", "Tr 20x4-7H", "1/2-10 ACME-2G",
    "1/4-20 STI", "M8 STI",
)  # fmt: skip
NAMES = ("major_diameter", "pitch_diameter", "minor_diameter")
PRODUCTS = [row for rows in products().values() for row in rows]


@cache
def _thread(text):
    return standards.resolve(callout.read(text))


def _um(value):
    return Length(Decimal(value) / 1000, "mm")


COATS = st.builds(
    lambda low, more, fraction, reading: FinishInput(
        thickness=LengthRange(_um(low), _um(low + more)), growth_fraction=fraction, reading=reading
    ),
    st.integers(1, 60),
    st.integers(0, 40),
    st.sampled_from([None, Decimal("0.5"), Decimal("0.33")]),
    st.sampled_from([None, "asme", "iso"]),
)


@settings(max_examples=250)
@given(st.sampled_from(TEXTS), COATS)
def test_a_thread_made_inside_the_limits_is_inside_when_coated(text, finish):
    found = allow(_thread(text), finish)
    for name in NAMES:
        before, after, change = (getattr(part, name) for part in (found.before_finish, found.finished, found.change))
        if after.min is not None:
            assert before.min + change.min >= after.min
        if after.max is not None:
            assert before.max + change.max <= after.max


@settings(max_examples=150)
@given(st.sampled_from(TEXTS), st.integers(1, 80), st.integers(0, 40))
def test_a_thicker_coat_never_asks_for_a_smaller_hole(text, thin, more):
    thread = _thread(text)
    less, greater = (allow(thread, FinishInput(thickness=LengthRange(None, _um(most)))) for most in (thin, thin + more))
    assert greater.before_finish.pitch_diameter.min >= less.before_finish.pitch_diameter.min
    assert greater.before_finish.minor_diameter.min >= less.before_finish.minor_diameter.min
    assert less.feasible or not greater.feasible


@every("product", PRODUCTS, ids=lambda row: row.label)
def test_every_product_gives_a_thickness_or_a_coded_refusal(product):
    """And, where it answers, limits, at least one assumption and sources."""
    for text in TEXTS:
        try:
            found = allow(_thread(text), FinishInput(text=product.label))
        except BorewrightError as refused:
            wanted = "overtap_not_defined" if product.after_finish else "finish_thickness_missing"
            assert refused.code in (wanted, "finish_conflict")
            assert product.after_finish or not product.states_thickness
            continue
        assert found.finish.specification == product.specification.name
        assert found.finish.thickness.max is not None or product.after_finish or product.growth.max == 0
        assert found.notes.assumptions
        assert found.notes.sources


@every("product", PRODUCTS, ids=lambda row: row.label)
def test_masked_changes_nothing(product):
    for text in TEXTS:
        thread = _thread(text)
        found = allow(thread, FinishInput(text=product.label, masked=True))
        assert found.before_finish == found.finished == thread.internal
        assert found.feasible


# --- derivations ------------------------------------------------------------------------------------------------------


def _rounded(how):
    return lambda value, places: Decimal(str(value)).quantize(Decimal(1).scaleb(-places), rounding=how)


WORDS = {
    "up": _rounded("ROUND_CEILING"), "down": _rounded("ROUND_FLOOR"), "half_even": _rounded("ROUND_HALF_EVEN"),
    "max": max, "sin": lambda value: Decimal(math.sin(value)), "rad": math.radians, "Decimal": Decimal,
}  # fmt: skip


@every("text", TEXTS)
@every("finish", ["ASTM B633 Fe/Zn 8", "hard anodize", "MIL-DTL-16232 Type M", "zinc 0.0002 in"])
def test_every_figure_can_be_redone(text, finish):
    steps = allow(_thread(text), FinishInput(text=finish)).notes.steps
    quantities = {step.quantity for step in steps}
    assert {"flank_factor", "change.pitch_diameter.min", "before_finish.pitch_diameter.min"} <= quantities
    for step in steps:
        if step.formula != "table":
            formula = step.formula.replace("1.5 *", "Decimal('1.5') *")
            assert eval(formula, {"__builtins__": {}}, {**WORDS, **step.inputs}) == step.value, step.quantity


@pytest.mark.parametrize("text", ["1/2-13", "M12", "M12-6G"])
def test_every_overtap_figure_can_be_redone(text):
    found = allow(_thread(text), FinishInput(text="galvanized"))
    steps = [step for step in found.notes.steps if "limits" in step.quantity]
    assert len(steps) == 4
    limits = found.overtap.limits
    ends = [limits.pitch_diameter.min, limits.pitch_diameter.max, limits.minor_diameter.min, limits.minor_diameter.max]
    assert [step.value for step in steps] == ends
    for step in steps:
        assert eval(step.formula, {"__builtins__": {}}, dict(step.inputs)) == step.value
