"""What does not exist is refused with a code, and the refusal names what exists."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError, ThreadError
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every

D = Decimal


def fields(system, size, unit="in", **more):
    lengths = {name: Length(D(more.pop(name)), unit) for name in ("pitch", "lead") if name in more}
    return ThreadFields(system, size, **lengths, **more)


#: Fields of a thread, code, something the refusal must offer.
REFUSED = (
    (fields("npt", "5/16"), "thread_size_unknown", "3/8"),
    (fields("npt", "26 OD"), "thread_size_unknown", "24 OD"),
    (fields("nptf", "4"), "thread_size_unknown", "3"),
    (fields("npsf", "2"), "thread_size_unknown", "1"),
    (fields("npsm", "1/16"), "thread_size_unknown", "1/8"),
    (fields("npsc", "5"), "thread_size_unknown", "4"),
    (fields("iso_228", "9/16", "mm"), "thread_size_unknown", "5/8"),
    (fields("iso_228", "7", "mm"), "thread_size_unknown", "6"),
    (fields("iso_7", "3/16", "mm", series="Rc"), "thread_size_unknown", "1/8"),
    (fields("iso_7", "5/8", "mm", series="Rp"), "thread_size_unknown", "3/4"),
    (fields("acme", "9/16", threads_per_inch=D(9)), "thread_size_unknown", "1/2"),
    (fields("acme", "6"), "thread_size_unknown", "5"),
    (fields("stub_acme", "3/16"), "thread_size_unknown", "1/4"),
    (fields("trapezoidal", "41", "mm", pitch=D(7)), "thread_size_unknown", "40"),
    (fields("trapezoidal", "110", "mm", pitch=D(12)), "thread_size_unknown", "100"),
    (fields("trapezoidal", "7", "mm", pitch=D("1.5")), "thread_size_unknown", "8"),
    (fields("whitworth", "7/32", series="BSW"), "thread_size_unknown", "1/4"),
    (fields("whitworth", "4 1/2", series="BSF"), "thread_size_unknown", "4 1/4"),
    (fields("british_association", "17", "mm"), "thread_size_unknown", "16"),
    (fields("insert_unified", "#0", threads_per_inch=D(80)), "thread_size_unknown", "#1"),
    (fields("insert_unified", "1 5/8", threads_per_inch=D(12)), "thread_size_unknown", "1 1/2"),
    (fields("insert_metric", "15", "mm", pitch=D(1)), "thread_size_unknown", "14"),
    (fields("insert_metric", "42", "mm"), "thread_size_unknown", "39"),
    (fields("npt", "1/4", threads_per_inch=D(19)), "thread_series_mismatch", "18"),
    (fields("iso_228", "1/2", "mm", threads_per_inch=D(13)), "thread_series_mismatch", "14"),
    (fields("acme", "1 3/4", threads_per_inch=D(5)), "thread_series_mismatch", "4"),
    (fields("trapezoidal", "14", "mm", pitch=D(4)), "thread_pitch_unknown", "3"),
    (fields("trapezoidal", "40", "mm", pitch=D(8)), "thread_pitch_unknown", "7"),
    (fields("whitworth", "3/16", series="BSF", threads_per_inch=D(28)), "thread_pitch_unknown", "32"),
    (fields("british_association", "2", "mm", pitch=D("0.8")), "thread_pitch_unknown", "0.81"),
    (fields("insert_unified", "1/4", threads_per_inch=D(24)), "thread_pitch_unknown", "20"),
    (fields("insert_metric", "8", "mm", pitch=D("1.2")), "thread_pitch_unknown", "1.25"),
    (fields("npt", "1/4", thread_class="2B"), "thread_class_unknown", None),
    (fields("nptf", "1/4", thread_class="3"), "thread_class_unknown", "2"),
    (fields("nptf", "1/4", series="PTF-SAE SHORT", thread_class="1"), "thread_class_unknown", None),
    (fields("iso_7", "1/2", "mm", series="Rc", thread_class="A"), "thread_class_unknown", None),
    (fields("iso_228", "1/2", "mm", thread_class="2B"), "thread_class_unknown", "A"),
    (fields("npsm", "1/2", thread_class="2B"), "thread_class_unknown", None),
    (fields("acme", "1", thread_class="2B"), "thread_class_unknown", "2G"),
    (fields("acme", "1", thread_class="2C"), "thread_data_missing", "3G"),
    (fields("stub_acme", "1", thread_class="3G"), "thread_class_unknown", "2G"),
    (fields("trapezoidal", "40", "mm", pitch=D(7), thread_class="6H"), "thread_class_unknown", "7H"),
    (fields("trapezoidal", "40", "mm", pitch=D(7), thread_class="7e"), "thread_class_external", "7H"),
    (fields("whitworth", "1/2", series="BSW", thread_class="free"), "thread_class_unknown", "medium"),
    (fields("british_association", "2", "mm", thread_class="6H"), "thread_class_unknown", "normal"),
    (fields("insert_unified", "1/4", threads_per_inch=D(20), thread_class="2A"), "thread_class_external", "2B"),
    (fields("insert_unified", "1/4", threads_per_inch=D(20), thread_class="1B"), "thread_class_unknown", "3B"),
    (fields("insert_metric", "8", "mm", thread_class="6H"), "thread_class_unknown", "5H"),
    (fields("square", "40", "mm", pitch=D(7), thread_class="7H"), "thread_class_unknown", None),
    (fields("iso_7", "1/2", "mm", series="R"), "thread_class_external", "Rc"),
    (fields("iso_7", "1/2", "mm"), "thread_field_missing", "Rp"),
    (fields("whitworth", "1/2"), "thread_field_missing", "BSF"),
    (fields("trapezoidal", "40", "mm"), "callout_ambiguous", "7"),
    (fields("insert_unified", "1/4"), "callout_ambiguous", "28"),
    (fields("square", "40", "mm", pitch=D(7)), "thread_field_missing", None),
    (fields("trapezoidal", "40", "mm", pitch=D(7), lead=D(15)), "thread_lead_invalid", None),
    (fields("trapezoidal", "40", "mm", pitch=D(7), lead=D(3)), "thread_lead_invalid", None),
    (fields("trapezoidal", "40", "mm", pitch=D(7), starts=3, lead=D(14)), "thread_lead_invalid", None),
    (fields("trapezoidal", "40", "mm", pitch=D(7), starts=0), "value_out_of_range", None),
    (fields("acme", "1", lead=D("0.3"), threads_per_inch=D(5)), "thread_lead_invalid", None),
    (fields("npt", "1/4", starts=2), "thread_field_unexpected", None),
    (fields("iso_228", "1/2", "mm", lead=D(3)), "thread_field_unexpected", None),
    (fields("npt", "1/4", series="Rc"), "thread_series_mismatch", None),
    (fields("npsm", "1/4", series="NPSC"), "thread_series_mismatch", None),
    (fields("iso_7", "1/4", "mm", series="G"), "thread_series_mismatch", None),
    (fields("whitworth", "1/4", series="UNC"), "thread_series_mismatch", None),
    (fields("acme", "1", series="UNC"), "thread_series_mismatch", None),
    (fields("insert_unified", "1/4", series="UNEF"), "thread_pitch_unknown", "1/4-28 STI"),
)


@every(("given", "code", "offered"), REFUSED, ids=lambda value: str(value)[:60])
def test_refused_with_what_exists(given, code, offered):
    with pytest.raises(BorewrightError) as refusal:
        standards.resolve(callout.from_fields(given))
    fault = refusal.value.faults[0]
    assert fault.code == code
    assert fault.pointer.startswith("/thread")
    shown = " ".join((*fault.allowed, *fault.did_you_mean)).replace("\N{NO-BREAK SPACE}", " ")
    assert offered is None or offered in shown


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("2 7/8 ACME SPL", "thread_field_missing"),
        ("9-2 ACME SPL", "value_out_of_range"),
        ("SQUARE 40x7 depth 30", "value_out_of_range"),
        ("SQUARE 40x7 depth 0", "value_out_of_range"),
    ],
)
def test_stated_dimensions_that_make_no_thread(resolved, text, code):
    with pytest.raises(BorewrightError) as refusal:
        resolved(text)
    assert refusal.value.code == code


@pytest.mark.parametrize("length", [D(0), D(-1), D("1.51")])
def test_whitworth_engagement_out_of_range(resolved, length):
    with pytest.raises(ThreadError) as refusal:
        standards.resolve(resolved("1/2 BSW").callout, engagement=Length(length, "in"))
    assert refusal.value.code == "engagement_out_of_range"
    assert refusal.value.faults[0].pointer == "/length_of_engagement"


@pytest.mark.parametrize(
    "text",
    ["1/4-18 NPT-2B", "G 1/2-14 NPT", "G 1/2-13", "Tr 40x15(P7)", "M8x1.2 STI", "3/16-28 BSF", "1/2-14 UNC", "R 1/2"],
)
def test_confused_callouts_are_refused(resolved, text):
    """One system named with the size, pitch or class of another."""
    with pytest.raises(BorewrightError) as refusal:
        resolved(text)
    assert refusal.value.faults[0].pointer.startswith("/thread")
    assert refusal.value.faults[0].detail


def test_withdrawn_trapezoidal_pair_is_named(resolved):
    with pytest.raises(BorewrightError, match="DIN 103"):
        resolved("Tr 14x4")


def test_older_ba_numbers_are_named(resolved):
    with pytest.raises(BorewrightError, match="outside BS 93:2008"):
        resolved("20 BA")


def test_mating_class_of_g(resolved):
    thread = resolved("G 1/2")
    assert thread.mating_class == "A"
    assert standards.external_limits(thread, thread_class="B").pitch_diameter.width == D("0.284")
    with pytest.raises(ThreadError) as refusal:
        standards.external_limits(thread, thread_class="6g")
    assert refusal.value.code == "thread_class_unknown"
