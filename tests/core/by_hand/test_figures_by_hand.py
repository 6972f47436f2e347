"""Figures that a slip of the hand left unnoticed: each worked out here, in the unit in which it was wrong."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.chance import made_sizes
from borewright.core.errors import BorewrightError
from borewright.core.hole import countersink
from borewright.core.materials.part_material import find
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.requests import HoleSpecRequest
from borewright.core.rework import FaultFound, Measured, ReworkRequest, rework


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
