"""The derivation of a thread redoes its own figures: each step evaluated over its inputs gives its value."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.model import STATUSES, Length, Step, Thread
from borewright.core.rounding import half_even, half_up
from every import every

FAMILIES = {"unified", "unified_j", "iso_metric", "metric_j", "unified_miniature"}
#: One thread in seven is enough: pitch, diameter range and class rules all recur.
SAMPLE = [entry for entry in standards.catalogue() if entry.system in FAMILIES][::7]
THIRD = Decimal(1) / 3
NAMES = {
    "half_even": half_even,
    "half_up": half_up,
    "cbrt": lambda value: value**THIRD,
    "sqrt": lambda value: value.sqrt(),
    "min": min,
    "max": max,
}


def redo(step: Step) -> Decimal:
    """Evaluate the formula with decimals instead of the literals' floats."""
    words = step.formula.replace("(2 / 3)", "TWO_THIRDS").split(" ")
    text = " ".join(decimal_literals(word) for word in words)
    return eval(text, {"__builtins__": {}, "Decimal": Decimal, "TWO_THIRDS": 2 * THIRD, **NAMES}, dict(step.inputs))


def decimal_literals(word: str) -> str:
    """``(0.25`` -> ``(Decimal("0.25")``; whole numbers stay."""
    bare = word.strip("(),-")
    return (
        word.replace(bare, f'Decimal("{bare}")')
        if bare.replace(".", "", 1).isdigit() and "." in bare
        else bare_call(word)
    )


def bare_call(word: str) -> str:
    """Literals that follow an opening bracket of a function: ``half_even(0.0015``."""
    head, bracket, rest = word.rpartition("(")
    number = rest.rstrip("),")
    if bracket and "." in number and number.replace(".", "", 1).isdigit():
        return f'{head}({rest.replace(number, f"""Decimal("{number}")""")}'
    return word


def check(found: Thread) -> int:
    redone = 0
    for step in found.notes.steps:
        if step.formula != "table":
            assert abs(redo(step) - step.value) < Decimal("1e-20"), (found.designation, step)
            redone += 1
    return redone


@every("entry", SAMPLE, ids=lambda entry: entry.designation)
def test_steps_give_their_own_values(entry):
    for thread_class in entry.classes or (None,):
        text = f"{entry.designation}-{thread_class}" if thread_class else entry.designation
        assert check(standards.resolve(callout.read(text))) >= 1


@pytest.mark.parametrize("text", ["2.500-28 UNS-2B", "19/64-36 UNS-3B", "5-3 UNS-2B", "#1-64 UNC-2B", "1/2-13 UNC-3B"])
@pytest.mark.parametrize("share", ["0.3", "0.5", "1.6", "4"])
def test_steps_with_an_engagement(text, share):
    written = callout.read(text)
    length = Length(written.nominal_diameter * Decimal(share), "in")
    assert check(standards.resolve(written, engagement=length)) >= 10


def test_every_printed_limit_has_its_step():
    """Each limit of the internal thread and of its mate that is not simply the basic diameter is derived."""
    for text in ("1/2-13 UNC-2B", "M8x1.25-6G", "2 1/8-16 UN-3B"):
        found = standards.resolve(callout.read(text))
        quantities = {step.quantity for step in found.notes.steps}
        wanted = {f"{side}.{name}" for side in ("internal",) for name in ("pitch_diameter.max", "minor_diameter.max")}
        wanted |= {f"external.{name}.{end}" for name in ("major_diameter", "pitch_diameter") for end in ("min", "max")}
        assert wanted <= quantities, text


def test_sources_speak_for_fields_of_the_reply():
    for entry in SAMPLE[::3]:
        found = standards.resolve(callout.read(entry.designation))
        for source in found.notes.sources:
            top, _, rest = source.field.partition(".")
            assert hasattr(found, top) or top in found.extra, source
            if rest:
                assert hasattr(getattr(found, top), rest), source
            assert source.status in STATUSES
