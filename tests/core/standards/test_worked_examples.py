"""Worked examples of published documents, the source beside each."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, drilling, standards
from borewright.core.model import Length


def inch(text: str) -> Length:
    return Length(Decimal(text), "in")


def test_special_thread_with_its_engagement():
    """FED-STD-H28/2B (20 Aug 1991) 5.4: 2.500-28UNS, engagement 1 in = 28 pitches: tolerance x 1.25, same allowance."""
    found = standards.resolve(callout.read("2.500-28UNS-2B"), engagement=inch("1"))
    assert str(found.internal.minor_diameter.min) == "2.461"
    assert str(found.internal.pitch_diameter.min) == "2.4768"
    assert str(found.internal.pitch_diameter.max) == "2.4841"
    assert str(found.internal.major_diameter.min) == "2.5000"
    assert str(found.external.major_diameter.max) == "2.4986"
    assert str(found.external.major_diameter.min) == "2.4921"
    assert str(found.external.pitch_diameter.max) == "2.4754"
    assert str(found.external.pitch_diameter.min) == "2.4698"
    assert str(found.external.minor_diameter.max) == "2.4599"


def test_minor_maximum_at_short_engagement():
    """The same example: 0.4 D takes three quarters of the minor tolerance, 2.4613 + 0.0063 = 2.4676 -> 2.468."""
    found = standards.resolve(callout.read("2.500-28UNS-2B"), engagement=inch("1"))
    band = drilling.hole_limits(found, Decimal(1))
    assert f"{band.limits.max:.3f}" == "2.468"


def test_rounding_of_a_tabulated_thread():
    """ASME B1.30 rounding example of Machinery's Handbook 31st ed. (Tables 3 to 6): 1/2-28 UNEF-2A / 2B."""
    found = standards.resolve(callout.read("1/2-28 UNEF-2B"))
    assert str(found.external.major_diameter.max) == "0.4989"
    assert str(found.external.major_diameter.min) == "0.4924"
    assert str(found.external.pitch_diameter.max) == "0.4757"
    assert str(found.external.pitch_diameter.min) == "0.4720"
    assert str(found.external.minor_diameter.max) == "0.4602"
    assert str(found.internal.minor_diameter.min) == "0.461"
    assert str(found.extra["external_reference"]["unr_minor_diameter_max"]) == "0.4564"


def test_rounding_of_a_special_thread():
    """The same pages: 19/64-36 UNS-2A / 2B, the rule of ASME B1.30 for a thread that no table lists."""
    found = standards.resolve(callout.read("19/64-36 UNS-2B"))
    assert str(found.nominal_diameter) == "0.2969"
    assert str(found.internal.minor_diameter.min) == "0.267"
    assert str(found.internal.minor_diameter.max) == "0.273"
    assert str(found.internal.pitch_diameter.min) == "0.2789"
    assert str(found.external.major_diameter.max) == "0.2960"
    assert str(found.external.minor_diameter.max) == "0.2659"
    assert found.extra["tolerance"]["minor_diameter_rule"] == "asme_b1_30"


@pytest.mark.parametrize(
    ("text", "go", "not_go"),
    [
        ("M3x0.5-6H", "2.675", "2.775"),
        ("M6x1-6H", "5.350", "5.500"),
        ("M8x1.25-6H", "7.188", "7.348"),
        ("M10x1.5-6H", "9.026", "9.206"),
    ],
)
def test_metric_gauge_pitch_diameters(text, go, not_go):
    """Metric plug-gauge pitch diameters 6H, seen in a gauge table of ASME B1.16M practice."""
    pitch = standards.resolve(callout.read(text)).internal.pitch_diameter
    assert (str(pitch.min), str(pitch.max)) == (go, not_go)


@pytest.mark.parametrize(
    ("text", "area"), [("1/2-13 UNC-2B", "0.1419"), ("1/4-20 UNC-2B", "0.0318"), ("3/8-16 UNC-2B", "0.0775")]
)
def test_stress_area(text, area):
    """Tensile stress areas as handbook tables print them (from memory), formula of FED-STD-H28/2B Table II.B.1."""
    assert f"{standards.resolve(callout.read(text)).tensile_stress_area:.4f}" == area


@pytest.mark.parametrize(("text", "engagement"), [("1/2-28 UNEF-2B", "0.5"), ("1/2-13 UNC-2B", "0.75")])
def test_standard_engagement_changes_nothing(text, engagement):
    """ASME B1.1 (from memory): up to 15 pitches, or 1.5 D in coarse and fine series, tolerances are standard."""
    given = standards.resolve(callout.read(text), engagement=inch(engagement))
    assert given.internal.pitch_diameter == standards.resolve(callout.read(text)).internal.pitch_diameter
