"""Figures that a slip of the hand left unnoticed: each worked out here, in the unit in which it was wrong."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from borewright.core import callout, finishing, standards
from borewright.core.chance import made_sizes
from borewright.core.errors import BorewrightError
from borewright.core.hole import countersink
from borewright.core.materials.part_material import find
from borewright.core.model import FinishInput, Hole, Length, LengthRange, MaterialInput
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest
from borewright.core.rework import FaultFound, Measured, ReworkRequest, rework
from borewright.core.standards.unified.refusals import plausible


def thread(text):
    return standards.resolve(callout.read(text))


@pytest.mark.parametrize(
    ("text", "largest", "least"),
    [
        # ASME B1.5 class 2G: D - P/2 - 0.008 sqrt(D), less 0.006 sqrt(D) + 0.030 sqrt(P)
        ("1-5 ACME-2G", "0.8920", "0.8726"),  # 1 - 0.1 - 0.008; 0.006 + 0.01342
        ("1/2-10 ACME-2G", "0.4443", "0.4306"),  # 0.5 - 0.05 - 0.005657; 0.004243 + 0.009487
    ],
)
def test_pitch_diameter_of_an_acme_screw(text, largest, least):
    band = thread(text).external.pitch_diameter
    assert (band.max, band.min) == (Decimal(largest), Decimal(least))


def test_countersink_of_thin_sheet():
    """M8, 120 degrees, hole 6.8 mm: to 8.4 mm it goes 1.6/(2 tan 60) = 0.462 mm deep, which 3 mm of wall have not."""
    sheet, plate = (Hole("through", thickness=Length(Decimal(wall), "mm")) for wall in (3, 4))
    asked = {"major_diameter": Decimal(8), "hole_diameter": Decimal("6.8")}
    limited = countersink.at_entry(thread("M8"), sheet, **asked)
    assert float(limited.diameter) == pytest.approx(6.8 + 0.05 * 3 * 2 * math.tan(math.radians(60)))
    assert limited.taken == Decimal("0.30")
    assert "0.462" in limited.cautions[0].text
    usual = countersink.at_entry(thread("M8"), plate, **asked)
    assert (usual.diameter, usual.taken, usual.cautions) == (Decimal("8.40"), 0, ())


@pytest.mark.parametrize(("setup", "times"), [("usual", 1), ("poor", 1.5), ("guided", 0.6)])
def test_scatter_of_drilled_holes_in_both_units(setup, times):
    """Up to 1/2 in 0.0012 in, which is 0.03048 mm; no hole is more than 0.001 in below its drill."""
    inch = made_sizes.hole_size(Decimal("0.2656"), mean=Decimal("0.2692"), unit="in", setup=setup)
    metric = made_sizes.hole_size(Decimal("6.8"), mean=Decimal("6.89"), unit="mm", setup=setup)
    assert (inch.sigma, metric.sigma) == (pytest.approx(0.0012 * times), pytest.approx(0.03048 * times))
    assert (inch.floor, metric.floor) == (pytest.approx(0.2646), pytest.approx(6.8 - 0.0254))


def test_a_strength_near_the_alloy_keeps_its_hardness():
    """1018 hot rolled has 58 ksi (400 MPa) and 116 HB; a certificate of 408 MPa is the same steel, 500 is not."""
    for given, same in ((408, True), (500, False)):
        found = find(MaterialInput(name="1018 hot rolled", tensile_strength_mpa=float(given)))
        assert (found.hardness_hb == 116) == same


def test_a_plain_ba_nut_has_no_class():
    found = thread("2 BA")
    assert found.mating_class is None
    assert not any("class" in one for one in found.notes.assumptions)


def test_a_hole_at_the_least_diameter_is_no_contradiction():
    """M8-6H: D1 min is 6.647 mm (ISO 965-2); a hole of just that is inside, 0.001 mm less is not drilled oversize."""
    request = HoleSpecRequest(callout.read("M8"), Hole("blind", full_thread_depth=Length(Decimal(16), "mm")))
    for measured, refused in (("6.647", False), ("6.646", True)):
        case = FaultFound("drilled_oversize", measured=Measured(hole_diameter=Length(Decimal(measured), "mm")))
        try:
            rework(ReworkRequest(request, case))
        except BorewrightError as fault:
            assert refused
            assert fault.code == "rework_contradiction"
        else:
            assert not refused


def test_pitches_of_an_inch_have_seven_decimals_and_designations_four():
    """1/7 = 0.14285714 and 3/7 = 0.42857143 (ASME B1.5 designates pitch and lead of starts with four)."""
    square = thread("1-7 SQUARE DEPTH .0714")
    assert (square.pitch, square.lead) == (Decimal("0.1428571"), Decimal("0.1428571"))
    acme = thread("1.000-0.1429P-0.4286L-ACME-2G")
    assert (acme.designation, acme.lead) == ("1.000-0.1429P-0.4286L-ACME-2G", Decimal("0.4285714"))


@pytest.mark.parametrize(
    ("label", "diameter", "tpi", "likely"),
    [
        ("#8", "0.164", 72, True),  # 11.8
        ("#12", "0.216", 56, False),  # 12.1
        ("#4", "0.112", 36, True),  # 4.03
        ("#4", "0.112", 35, False),  # 3.92
        ("1/4", "0.25", 16, True),  # just 4
        ("1/4", "0.25", 15, False),
        ("1/4", "0.25", 80, True),
        ("1/4", "0.25", 81, False),
        ("1", "1", 32, True),
        ("1", "1", 33, False),
    ],
)
def test_sizes_and_pitches_in_proportion(label, diameter, tpi, likely):
    """What the series hold: #0-80 is 4.8 and #12-36 7.8 threads in a diameter; none over 1 in is finer than 28."""
    assert plausible(label, diameter=Decimal(diameter), tpi=Decimal(tpi)) is likely


def test_class_1b_is_told_where_no_table_has_it():
    """ASME B1.1 tabulates 1B for UNC and UNF from 1/4 in; the other classes of UNEF are tabulated."""
    for text, told in (("1/2-28 UNEF-1B", True), ("1/2-28 UNEF-2B", False), ("1/2-13 UNC-1B", False)):
        codes = {one.code for one in thread(text).notes.cautions}
        assert ("class_not_tabulated" in codes) is told, text


def test_a_name_that_calls_an_alloy_by_another_family_names_both():
    with pytest.raises(BorewrightError, match="calls 1018 carbon steel aluminium"):
        find(MaterialInput(name="1018 aluminium"))


def test_a_length_before_the_words_of_a_hole_is_none_of_the_callout():
    for text in (
        "1/2-13 UNC-2B .75 IN DEEP",
        "1/2-13 UNC-2B 3/4 DEEP",
        "1/2-13 UNC-2B THD .75 DP",
        "1/2-13 UNC-2B .75 THREAD DEEP",
    ):
        assert thread(text).designation == "1/2-13 UNC-2B", text


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10 +/- 2 um", "0.008", "0.012"),
        ("10 um +/- 2 um", "0.008", "0.012"),
        ("0.0004 +/- 0.0001 in", "0.00762", "0.01270"),
        ("0.0004 in +0.0001 -0.0002", "0.00508", "0.01270"),
        ("0.0004 +0.0001 -0.0002 in", "0.00508", "0.01270"),
        ("0.0004 +0.0001 in -0.0002", "0.00508", "0.01270"),
        ("10 um +20/-10 %", "0.009", "0.012"),
    ],
)
def test_the_unit_of_a_thickness_stands_at_any_of_its_figures(text, low, high):
    found = finishing.allow(thread("M8-6G"), FinishInput(text=f"zinc {text}")).finish.thickness
    assert [float(one) for one in (found.min, found.max)] == pytest.approx([float(low), float(high)], abs=1e-6)


def test_what_a_hole_too_large_for_cutting_is_too_small_for():
    """M8: formed (8 - d)/(0.0068 x 1.25): 7.1 forms 105.9 %, 7.7 35.3 %."""
    for hole, words in (("7.1", "too small for a forming tap"), ("7.7", "too large for a forming tap as well")):
        found = FaultFound("drilled_oversize", measured=Measured(hole_diameter=Length(Decimal(hole), "mm")))
        asked = HoleSpecRequest(callout.read("M8"), Hole("blind", full_thread_depth=Length(Decimal(16), "mm")))
        told = {one.name: one.why for one in rework(ReworkRequest(asked, found)).ruled_out}
        assert told["form_the_thread"].startswith(words)


def test_stripping_an_anodic_coat_opens_the_thread():
    """Half of it has grown into the metal; a coat that grows outward alone takes none away."""
    for growth, opens in (("0.5", True), ("1", False)):
        coat = FinishInput(
            thickness=LengthRange(Length(Decimal("0.002"), "mm"), Length(Decimal("0.010"), "mm")),
            growth_fraction=Decimal(growth),
        )
        asked = HoleSpecRequest(
            callout.read("M8-6G"), Hole("blind", full_thread_depth=Length(Decimal(16), "mm")), finish=coat
        )
        sizes = Measured(pitch_diameter=Length(Decimal("7.379"), "mm"), coat=Length(Decimal("0.002"), "mm"))
        ways = rework(ReworkRequest(asked, FaultFound("tapped_oversize", "after_finish", sizes))).ways
        codes = {caution.code for one in ways for caution in one.cautions}
        assert "strip_by_the_standard" in codes
        assert ("stripping_opens_thread" in codes) is opens


def test_what_a_hole_needs_that_is_too_shallow():
    """M8, 16 mm of thread: a bottoming tap of 1.5 threads and half a pitch under it need 16 + 2 x 1.25 = 18.5 mm."""
    hole = Hole("blind", full_thread_depth=Length(Decimal(16), "mm"), drill_depth_limit=Length(Decimal(18), "mm"))
    with pytest.raises(BorewrightError) as refused:
        specify(HoleSpecRequest(callout.read("M8"), hole))
    assert "need 18.5\N{NO-BREAK SPACE}mm of full drill diameter" in str(refused.value)
    assert refused.value.faults[0].allowed == ("at least 18.5\N{NO-BREAK SPACE}mm",)


def millimetres(value):
    return Length(Decimal(value), "mm")


def test_what_reaches_where_no_length_is_held():
    """M1.2 is under the sizes whose lengths are held: usual tools for a hole from the face, long ones down a bore."""
    for access, tap, drill in (
        (None, "a standard tap", "a standard drill"),
        ("30", "an extended-shank tap", "a long,"),
    ):
        hole = Hole(
            "blind",
            full_thread_depth=millimetres(3 if access else 8),
            access_depth=millimetres(access) if access else None,
            clearance_diameter=millimetres(20) if access else None,
        )
        said = specify(HoleSpecRequest(callout.read("M1.2"), hole)).reach.advice
        assert said[0].startswith(f"tap: {tap}")
        assert said[1].startswith(f"drill 0.95 mm: {drill}")


def test_a_thread_that_no_tap_makes_has_no_chamfer():
    """6-8 NPT is cut or milled: nothing is left of it for a chamfer."""
    hole = Hole("through", thickness=Length(Decimal(3), "in"))
    assert specify(HoleSpecRequest(callout.read("6-8 NPT"), hole)).depths.chamfer_length == 0
