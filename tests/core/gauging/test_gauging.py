"""Gauges against printed check values, and what must hold of every gauge."""

import re
from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.core import callout, finishing, standards
from borewright.core.gauging import gauges
from borewright.core.gauging.gauge_notes import GaugeNotes
from borewright.core.gauging.plain import plain_plug
from borewright.core.model import FinishInput, Range
from every import every


def _thread(text):
    return standards.resolve(callout.read(text))


def _texts(zone):
    return str(zone.min), str(zone.max)


@pytest.mark.parametrize(
    ("text", "go", "not_go", "not_go_major"),
    [
        ("1/4-20 UNC-2B", ("0.2175", "0.2178"), ("0.2221", "0.2224"), "0.2441"),
        ("1/4-20 UNC-3B", ("0.2175", "0.2178"), ("0.2208", "0.2211"), "0.2428"),
        ("1/2-13 UNC-2B", ("0.4500", "0.4503"), ("0.4562", "0.4565"), "0.4898"),
    ],
)
def test_unified_thread_plugs(text, go, not_go, not_go_major):
    """ASME B1.1 limits with ASME B1.2 class X tolerance 0.0003 (from memory); NOT GO major D2 + 0.433013 P."""
    plug = gauges(_thread(text)).finished.thread_plug
    assert _texts(plug.go.pitch_diameter) == go
    assert _texts(plug.not_go.pitch_diameter) == not_go
    assert str(plug.not_go.major_diameter.max) == not_go_major
    assert plug.system == "asme"


@pytest.mark.parametrize(
    ("text", "middle", "half", "wear"),
    [
        ("M1.4", "1.2072", "0.0035", "1.1977"),
        ("M3", "2.6813", "0.0045", "2.6688"),
        ("M6", "5.3625", "0.0055", "5.3450"),
        ("M8", "7.2001", "0.0055", "7.1826"),
    ],
)
def test_metric_go_plugs_of_the_printed_gauge_table(text, middle, half, wear):
    """Metric gauge size table with ISO 1502 / GB/T 3934 symbols, class 6H."""
    go = gauges(_thread(text)).finished.thread_plug.go
    assert abs((go.pitch_diameter.min + go.pitch_diameter.max) / 2 - Decimal(middle)) <= Decimal("0.00005")
    assert go.pitch_diameter.max - go.pitch_diameter.min == 2 * Decimal(half)
    assert str(go.wear_limit) == wear


@pytest.mark.parametrize(("text", "low", "high"), [("1/4-20 UNC-2B", "0.196", "0.207"), ("M8", "6.647", "6.912")])
def test_plain_plugs_start_at_the_minor_limits(text, low, high):
    plug = gauges(_thread(text)).finished.plain_plug
    assert (str(plug.go.min), str(plug.not_go.max)) == (low, high)


def test_systems_are_kept_apart():
    """ASME: NOT GO inside the product's maximum. ISO: outside it."""
    inch, metric = _thread("1/2-13 UNC-2B"), _thread("M12")
    assert gauges(inch).finished.thread_plug.not_go.pitch_diameter.max == inch.internal.pitch_diameter.max
    metric_not_go = gauges(metric).finished.thread_plug.not_go.pitch_diameter
    assert metric_not_go.min >= metric.internal.pitch_diameter.max - Decimal("0.0005")
    assert metric_not_go.max > metric.internal.pitch_diameter.max
    assert any("three complete turns" in text for text in gauges(inch).acceptance)
    assert any("two turns" in text for text in gauges(metric).acceptance)


@pytest.mark.parametrize(
    ("tolerance", "expected"),
    [("0.002", "Y"), ("0.004", "Z"), ("0.0006", "XX"), ("0.0003", "XXX"), ("0.0001", "XXX")],
)
def test_plain_class_by_the_ten_percent_rule(tolerance, expected):
    """Hole 1.000 +/-0.001 in: 0.0001 a member; at 1.000 class Y is 0.00009 and Z 0.00012 (ASME B89.1.5)."""
    sheet = GaugeNotes("in")
    plug = plain_plug(_thread("1/2-13 UNC-2B"), Range(Decimal("1.000") - Decimal(tolerance), Decimal("1.000")), sheet)
    assert plug.gauge_class == expected
    assert ("gauge_takes_much_tolerance" in {caution.code for caution in sheet.cautions}) == (tolerance == "0.0001")


def test_plain_plug_beyond_the_table_has_no_zone():
    sheet = GaugeNotes("in")
    plug = plain_plug(_thread("1/2-13 UNC-2B"), Range(Decimal("12.5"), Decimal("12.6")), sheet)
    assert plug.gauge_class is None
    assert "gauge_tolerance_not_held" in {caution.code for caution in sheet.cautions}


def _some_of_the_catalogue():
    held = ("unified", "iso_metric", "unified_j", "metric_j")
    return [entry.designation for entry in standards.catalogue() if entry.system in held][::7]


@every("text", _some_of_the_catalogue())
def test_zones_of_the_catalogue(text):
    thread = _thread(text)
    found = gauges(thread)
    plug, plain = found.finished.thread_plug, found.finished.plain_plug
    go, not_go = plug.go.pitch_diameter, plug.not_go.pitch_diameter
    assert go.min < not_go.max
    if go.max is not None:
        assert go.max < not_go.min
    assert plain.go.min < plain.not_go.max
    # half a micrometre: ISO gauges start from the unrounded basic pitch diameter
    assert go.min >= thread.internal.pitch_diameter.min - Decimal("0.0005") - (
        Decimal("0.006") if plug.system == "iso" else 0
    )
    assert found.acceptance
    assert found.notes.sources


def test_pitch_without_makers_tolerance_says_so():
    found = gauges(replace(_thread("1/2-13 UNC-2B"), threads_per_inch=Decimal(26)))
    assert found.finished.thread_plug.tolerance is None
    assert found.finished.thread_plug.go.pitch_diameter.max is None
    assert "gauge_tolerance_not_held" in {caution.code for caution in found.notes.cautions}


def test_system_without_gauge_standard_has_product_limits():
    thread = replace(_thread("M12"), system="trapezoidal")
    plug = gauges(thread).finished.thread_plug
    assert (plug.system, plug.tolerance) == (None, None)
    assert plug.not_go.pitch_diameter.max == thread.internal.pitch_diameter.max


def test_former_class_y_go():
    """20 tpi: 0.0002 to 0.0005 above basic (former class Y)."""
    assert _texts(gauges(_thread("1/4-20 UNC-2B")).finished.thread_plug.former_go) == ("0.2177", "0.2180")


def test_taper_threads_are_gauged_in_words():
    """ANSI/ASME B1.20.1: L1 plug within one turn; parallel threads that take a taper thread go by a taper plug too."""
    for text, words in (
        ("1/2-14 NPT", "L1 taper thread plug, notch flush with the face within 1 turn either way"),
        ("1/2-14 NPSC", "within 1.5 turns either way"),
        ("Rp 1/2", "ISO 7-2 taper thread plug"),
    ):
        found = gauges(_thread(text))
        assert found.finished.thread_plug is None
        assert any(words in said for said in found.acceptance)


@pytest.mark.parametrize("text", ["1/2-14 NPSM", "G 1/2"])
def test_mechanical_joints_keep_parallel_plugs(text):
    assert gauges(_thread(text)).finished.thread_plug is not None


def test_plated_part_gets_its_own_gauges():
    """1/4-28 UNF-2B with 0.0002 to 0.0003 in: before-finish pitch diameter 0.2280 to 0.2319."""
    thread = _thread("1/4-28 UNF-2B")
    finish = FinishInput(text="ASTM B633 Fe/Zn 5")
    allowance = finishing.allow(thread, finish)
    found = gauges(thread, allowance)
    before = found.before_finish.thread_plug
    assert before.go.pitch_diameter.min == allowance.before_finish.pitch_diameter.min
    assert before.not_go.pitch_diameter.max == allowance.before_finish.pitch_diameter.max
    assert found.finished.thread_plug.go.pitch_diameter.min == thread.internal.pitch_diameter.min
    assert before.go.pitch_diameter.min > thread.internal.pitch_diameter.min
    assert "separate_gauges" in {caution.code for caution in found.notes.cautions}
    assert gauges(thread).before_finish is None


def _rounded(how):
    return lambda value, places: value.quantize(Decimal(1).scaleb(-places), rounding=how)


WORDS = {"half_even": _rounded("ROUND_HALF_EVEN"), "half_up": _rounded("ROUND_HALF_UP"), "Decimal": Decimal}


@pytest.mark.parametrize("text", ["1/2-13 UNC-2B", "M8", "M10-6G"])
def test_every_zone_can_be_redone(text):
    steps = tuple(gauges(_thread(text)).notes.steps)
    assert len(steps) >= 10
    for step in steps:
        formula = re.sub(r"(0\.\d+)", r"Decimal('\1')", step.formula)
        assert eval(formula, {"__builtins__": {}}, {**WORDS, **step.inputs}) == step.value, step.quantity


@pytest.mark.parametrize(
    ("most", "tolerance"),
    [("0.825", "0.00010"), ("0.8251", "0.00012"), ("1.510", "0.00012"), ("1.5101", "0.00016"), ("0.010", "0.00010")],
)
def test_a_range_of_plain_plugs_goes_up_to_its_end_and_includes_it(most, tolerance):
    """ASME B89.1.5 class Z: above 0.010 to and including 0.825 in 0.00010, to 1.510 in 0.00012, to 2.510 in 0.00016."""
    largest = Decimal(most)
    found = plain_plug(_thread("1-8 UNC-2B"), Range(largest - Decimal("0.005"), largest), GaugeNotes("in"))
    assert found.go.max - found.go.min == Decimal(tolerance)
