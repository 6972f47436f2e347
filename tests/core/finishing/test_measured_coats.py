"""The coats that a shop measured move the diameters in place of the specification's, and nothing else of it.

Two standard deviations either way are the range; a coat goes twice on a diameter and four times on the pitch diameter
of 60 degrees.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from allowances import ZINC_8, resolved, span
from borewright.core.finishing import allow, other_class
from borewright.core.finishing.measured_coat import with_measured_coat
from borewright.core.model import FinishInput, Length, Source
from borewright.core.shop_figures.figures import MeasuredCoat
from every import every


def _coat(mean, spread, unit="in", **more):
    return MeasuredCoat(20, spread=spread, finish=ZINC_8, mean=Length(Decimal(mean), unit), unit=unit, **more)


def _ends(ranges):
    found = (ranges.major_diameter, ranges.pitch_diameter, ranges.minor_diameter)
    return [(float(one.min), float(one.max)) for one in found]


@every(
    ("thread", "finish", "measured", "on_diameter"),
    [
        # 0.0006 in +/- 2 x 0.0001 in: 0.0004 to 0.0008 in thick, twice on a diameter
        ("1/2-13 UNC-2B", ZINC_8, _coat("0.0006", 0.0001), (-0.0016, -0.0008)),
        # the same in millimetres: 0.01524 mm +/- 0.00508 mm
        ("M8-6H", ZINC_8, _coat("0.0006", 0.0001), (-0.04064, -0.02032)),
        ("1/2-13 UNC-2B", ZINC_8, _coat("0.01524", 0.00254, "mm"), (-0.0016, -0.0008)),
        # half of a hard anodic coat grows outwards: 0.001 in +/- 0.0001 in
        ("1/2-13 UNC-2B", FinishInput(text="hard anodize"), _coat("0.002", 0.0001), (-0.0022, -0.0018)),
    ],
)
def test_how_a_measured_coat_moves_the_diameters(thread, finish, measured, on_diameter):
    least, most = on_diameter
    allowance = allow(resolved(thread), finish)
    found = with_measured_coat(resolved(thread), allowance, measured)
    assert _ends(found.measured_change) == [
        pytest.approx((least, most), abs=1e-9),
        pytest.approx((2 * least, 2 * most), abs=1e-9),
        pytest.approx((least, most), abs=1e-9),
    ]
    assert (found.change, found.finish, found.before_finish) == (
        allowance.change,
        allowance.finish,
        allowance.before_finish,
    )


def test_a_coat_that_does_not_grow_moves_nothing():
    """All of it lies inside the old surface: a fraction of 0."""
    thread = resolved("1/2-13 UNC-2B")
    allowance = allow(thread, FinishInput(thickness=span("0.0002", "0.0004"), growth_fraction=Decimal(0)))
    assert _ends(with_measured_coat(thread, allowance, _coat("0.0006", 0.0001)).measured_change) == [(0, 0)] * 3


def test_it_is_told_with_its_source():
    thread = resolved("1/2-13 UNC-2B")
    allowance = allow(thread, ZINC_8)
    found = with_measured_coat(thread, allowance, _coat("0.0006", 0.0001, date="2025-03-04"))
    told = "20 pieces, measured 2025-03-04"
    (assumed,) = found.notes.assumptions[len(allowance.notes.assumptions) :]
    assert assumed == f"the chance of acceptance is by the coats that the shop measured: {told}"
    (source,) = found.notes.sources[len(allowance.notes.sources) :]
    assert source == Source("thickness", "shop figures", "2025-03-04", told, "measured")
    undated = with_measured_coat(thread, allowance, _coat("0.0006", 0.0001))
    assert undated.notes.sources[-1] == Source("thickness", "shop figures", "", "20 pieces", "measured")


def test_growth_by_heat_treatment_stays():
    """A growth of 0.0002 to 0.0004 in on diameter, 0.0003 in on average, is there under either coat."""
    thread = resolved("1/2-13 UNC-2B")
    plain, grown = (
        with_measured_coat(thread, allow(thread, replace(ZINC_8, heat_treat_growth=growth)), _coat("0.0006", 0.0001))
        for growth in (None, span("0.0002", "0.0004"))
    )
    for before, after in zip(_ends(plain.measured_change), _ends(grown.measured_change), strict=True):
        assert [b - a for a, b in zip(before, after, strict=True)] == pytest.approx([0.0003, 0.0003], abs=1e-9)


@every(
    "finish",
    [
        FinishInput(text="ASTM B633 Fe/Zn 8", masked=True),
        FinishInput(text="ASTM A153"),
        FinishInput(text="black oxide"),
    ],
)
def test_where_no_coat_reaches_the_thread_nothing_changes(finish):
    thread = resolved("1/2-13 UNC-2B")
    allowance = allow(thread, finish)
    found = with_measured_coat(thread, allowance, _coat("0.0006", 0.0001))
    assert found is allowance


# --- the same thread in another class ---------------------------------------------------------------------------------


@every(
    ("text", "wanted", "designation", "extra"),
    [
        ("1/2-13 UNC-2B", "3B", "1/2-13 UNC-3B", ()),
        ("1/2-13 UNC-2A/2B", "3B", "1/2-13 UNC-3B", ()),
        ("M8-6H/6g", "7H", "M8x1.25-7H", ()),
        ("1-4 ACME SPL", "3G", "1.000-0.25P-0.25L-ACME-3G", (("special", True),)),
    ],
)
def test_another_class_of_the_same_thread(text, wanted, designation, extra):
    found = other_class.resolve(resolved(text), wanted)
    assert (found.designation, found.callout.extra, found.callout.assumptions) == (designation, extra, ())


def test_the_length_of_engagement_goes_with_the_class():
    found = other_class.resolve(resolved("1/2-13 UNC-2B SE 1.00"), "3B")
    assert (found.designation, found.callout.engagement) == ("1/2-13 UNC-3B", None)


@every(
    ("text", "looser"),
    [("1/2-13 UNC-3B", ["2B", "1B"]), ("1/2-13 UNC-2B", ["1B"]), ("1/2-13 UNC-1B", []), ("1/2-14 NPT", [])],
)
def test_classes_that_leave_more_room(text, looser):
    assert [one.thread_class for one in other_class.looser(resolved(text))] == looser
