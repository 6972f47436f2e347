"""What does not exist is refused with a code, and the refusal names what exists."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import standards
from borewright.core.errors import BorewrightError, ThreadError
from borewright.core.model import Length, ThreadCallout

D = Decimal


def callout(system, size, unit="in", **fields):
    return ThreadCallout(system=system, size=size, nominal_diameter=fields.pop("d", D(1)), unit=unit, **fields)


#: Callout as a reader hands it over, code, something the refusal must offer.
REFUSED = (
    (callout("npt", "5/16"), "thread_size_unknown", "3/8"),
    (callout("npt", "26 OD"), "thread_size_unknown", "24 OD"),
    (callout("nptf", "4"), "thread_size_unknown", "3"),
    (callout("npsf", "2"), "thread_size_unknown", "1"),
    (callout("npsm", "1/16"), "thread_size_unknown", "1/8"),
    (callout("npsc", "5"), "thread_size_unknown", "4"),
    (callout("iso_228", "1/3", "mm"), "thread_size_unknown", "3/8"),
    (callout("iso_228", "7", "mm"), "thread_size_unknown", "6"),
    (callout("iso_7", "3/16", "mm", series="Rc"), "thread_size_unknown", "1/8"),
    (callout("iso_7", "5/8", "mm", series="Rp"), "thread_size_unknown", "3/4"),
    (callout("acme", "9/16", threads_per_inch=D(9)), "thread_size_unknown", "1/2"),
    (callout("acme", "6"), "thread_size_unknown", "5"),
    (callout("stub_acme", "3/16"), "thread_size_unknown", "1/4"),
    (callout("trapezoidal", "41", "mm", pitch=D(7)), "thread_size_unknown", "40"),
    (callout("trapezoidal", "110", "mm", pitch=D(12)), "thread_size_unknown", "100"),
    (callout("trapezoidal", "7", "mm", pitch=D("1.5")), "thread_size_unknown", "8"),
    (callout("whitworth", "7/32", series="BSW"), "thread_size_unknown", "1/4"),
    (callout("whitworth", "4 1/2", series="BSF"), "thread_size_unknown", "4 1/4"),
    (callout("british_association", "17", "mm"), "thread_size_unknown", "16"),
    (callout("insert_unified", "#0"), "thread_size_unknown", "#1"),
    (callout("insert_unified", "1 5/8"), "thread_size_unknown", "1 1/2"),
    (callout("insert_metric", "15", "mm"), "thread_size_unknown", "14"),
    (callout("insert_metric", "42", "mm"), "thread_size_unknown", "39"),
    (callout("npt", "1/4", threads_per_inch=D(19)), "thread_pitch_unknown", "18"),
    (callout("iso_228", "1/2", "mm", threads_per_inch=D(13)), "thread_pitch_unknown", "14"),
    (callout("acme", "1 3/4", threads_per_inch=D(5)), "thread_pitch_unknown", "4"),
    (callout("trapezoidal", "14", "mm", pitch=D(4)), "thread_pitch_unknown", "3"),
    (callout("trapezoidal", "40", "mm", pitch=D(8)), "thread_pitch_unknown", "7"),
    (callout("whitworth", "3/16", series="BSF", threads_per_inch=D(28)), "thread_pitch_unknown", "32"),
    (callout("british_association", "2", "mm", pitch=D("0.8")), "thread_pitch_unknown", "0.81"),
    (callout("insert_unified", "1/4", threads_per_inch=D(24)), "thread_pitch_unknown", "20"),
    (callout("insert_metric", "8", "mm", pitch=D("1.2")), "thread_pitch_unknown", "1.25"),
    (callout("npt", "1/4", thread_class="2B"), "thread_class_unknown", None),
    (callout("nptf", "1/4", thread_class="3"), "thread_class_unknown", "2"),
    (callout("nptf", "1/4", series="PTF-SAE SHORT", thread_class="1"), "thread_class_unknown", None),
    (callout("iso_7", "1/2", "mm", series="Rc", thread_class="A"), "thread_class_unknown", None),
    (callout("iso_228", "1/2", "mm", thread_class="2B"), "thread_class_unknown", "A"),
    (callout("npsm", "1/2", thread_class="2B"), "thread_class_unknown", None),
    (callout("acme", "1", thread_class="2B"), "thread_class_unknown", "2G"),
    (callout("acme", "1", thread_class="2C"), "thread_class_unknown", "3G"),
    (callout("stub_acme", "1", thread_class="3G"), "thread_class_unknown", "2G"),
    (callout("trapezoidal", "40", "mm", pitch=D(7), thread_class="6H"), "thread_class_unknown", "7H"),
    (callout("trapezoidal", "40", "mm", pitch=D(7), thread_class="7e"), "thread_class_external", "7H"),
    (callout("trapezoidal", "40", "mm", pitch=D(7), engagement_group="S"), "thread_class_unknown", "L"),
    (callout("whitworth", "1/2", series="BSW", thread_class="free"), "thread_class_unknown", "medium"),
    (callout("british_association", "2", "mm", thread_class="6H"), "thread_class_unknown", "normal"),
    (callout("insert_unified", "1/4", threads_per_inch=D(20), thread_class="2A"), "thread_class_external", "2B"),
    (callout("insert_unified", "1/4", threads_per_inch=D(20), thread_class="1B"), "thread_class_unknown", "3B"),
    (callout("insert_metric", "8", "mm", thread_class="6H"), "thread_class_unknown", "5H"),
    (callout("square", "40", "mm", d=D(40), pitch=D(7), thread_class="7H"), "thread_class_unknown", None),
    (callout("iso_7", "1/2", "mm", series="R"), "thread_class_external", "Rc"),
    (callout("iso_7", "1/2", "mm"), "thread_field_missing", "Rp"),
    (callout("whitworth", "1/2"), "thread_field_missing", "BSF"),
    (callout("trapezoidal", "40", "mm"), "thread_field_missing", "7"),
    (callout("insert_unified", "1/4"), "thread_field_missing", "28"),
    (callout("square", "40", "mm", d=D(40), pitch=D(7)), "thread_field_missing", "depth"),
    (callout("acme", "2", d=D(2), extra=(("special", True),)), None, None),
    (callout("acme", "2 7/8", d=D("2.875"), extra=(("special", True),)), "thread_field_missing", None),
    (callout("acme", "9", d=D(9), threads_per_inch=D(2), extra=(("special", True),)), "value_out_of_range", None),
    (callout("trapezoidal", "40", "mm", pitch=D(7), extra=(("lead", D(15)),)), "thread_lead_invalid", "14 mm"),
    (callout("trapezoidal", "40", "mm", pitch=D(7), extra=(("lead", D(3)),)), "thread_lead_invalid", "7 mm"),
    (callout("trapezoidal", "40", "mm", pitch=D(7), starts=3, extra=(("lead", D(14)),)), "thread_lead_invalid", None),
    (callout("trapezoidal", "40", "mm", pitch=D(7), starts=0), "thread_lead_invalid", None),
    (callout("acme", "1", extra=(("lead", D("0.3")),), threads_per_inch=D(5)), "thread_lead_invalid", "0.4 in"),
    (callout("npt", "1/4", starts=2), "thread_field_unexpected", None),
    (callout("iso_228", "1/2", "mm", extra=(("lead", D(3)),)), "thread_field_unexpected", None),
    (callout("acme", "1", extra=(("depth", D(3)),)), "thread_field_unexpected", "lead"),
    (callout("npt", "1/4", series="Rc"), "thread_series_mismatch", "ANPT"),
    (callout("npsm", "1/4", series="NPSC"), "thread_series_mismatch", "NPSM"),
    (callout("iso_7", "1/4", "mm", series="G"), "thread_series_mismatch", "Rp"),
    (callout("whitworth", "1/4", series="UNC"), "thread_series_mismatch", "BSW"),
    (callout("acme", "1", series="UNC"), "thread_series_mismatch", None),
    (callout("insert_unified", "1/4", series="UNEF"), "thread_series_mismatch", "1/4-28 UNF"),
    (
        callout("insert_metric", "8", "mm", extra=(("insert_length_diameters", D(4)),)),
        "value_out_of_range",
        "3 D (24 mm)",
    ),
    (callout("insert_metric", "8", "mm", extra=(("insert_length", D(13)),)), "value_out_of_range", "1.5 D (12 mm)"),
    (callout("insert_metric", "8", "mm", extra=(("insert_length", D(-1)),)), "value_out_of_range", None),
    (
        callout("insert_metric", "8", "mm", extra=(("insert_length", D(12)), ("insert_length_diameters", D(1)))),
        "thread_field_unexpected",
        None,
    ),
    (callout("insert_metric", "8", "mm", extra=(("tap", "taper"),)), "value_out_of_range", "bottoming"),
    (callout("square", "40", "mm", d=D(40), pitch=D(7), extra=(("depth", D(30)),)), "value_out_of_range", None),
    (callout("square", "40", "mm", d=D(40), pitch=D(-7), extra=(("depth", D(3)),)), "value_out_of_range", None),
)


@pytest.mark.parametrize(("given", "code", "offered"), REFUSED, ids=lambda value: str(value)[:60])
def test_refused_with_what_exists(given, code, offered):
    if code is None:
        assert standards.resolve(given).starts == 1
        return
    with pytest.raises(ThreadError) as refusal:
        standards.resolve(given)
    fault = refusal.value.faults[0]
    assert fault.code == code
    assert fault.pointer == "/thread"
    shown = [text.replace("\N{NO-BREAK SPACE}", " ") for text in (*fault.allowed, *fault.did_you_mean)]
    assert offered is None or offered in shown


@pytest.mark.parametrize("length", [D(0), D(-1), D("1.51")])
def test_whitworth_engagement_out_of_range(length):
    with pytest.raises(ThreadError) as refusal:
        standards.resolve(callout("whitworth", "1/2", series="BSW"), engagement=Length(length, "in"))
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


def test_withdrawn_trapezoidal_pair_is_named():
    with pytest.raises(ThreadError, match="DIN 103"):
        standards.resolve(callout("trapezoidal", "14", "mm", pitch=D(4)))


def test_older_ba_numbers_are_named():
    with pytest.raises(ThreadError, match="outside BS 93:2008"):
        standards.resolve(callout("british_association", "20", "mm"))


def test_the_other_whitworth_series_is_named():
    with pytest.raises(ThreadError, match="BSF has it"):
        standards.resolve(callout("whitworth", "7/32", series="BSW"))


def test_mating_class_of_g():
    thread = standards.resolve(callout("iso_228", "1/2", "mm"))
    assert thread.mating_class == "A"
    assert standards.external_limits(thread, thread_class="B").pitch_diameter.width == D("0.284")
    with pytest.raises(ThreadError) as refusal:
        standards.external_limits(thread, thread_class="6g")
    assert refusal.value.code == "thread_class_unknown"
