"""The countersink at the faces, worked by hand: 1.05 D wide (DIN 76-1: 1 to 1.05 D), inch 90, metric 120 degrees.

To a diameter d from a hole h it goes (d - h)/(2 tan(a/2)) deep: half the difference at 90 degrees. In sheet it may take
0.15 of the wall at each face, else the edges are broken by a twentieth (common practice, table way_of_making).
"""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.hole import countersink
from borewright.core.model import Hole, Length
from borewright.core.model.holes import Counterbore
from borewright.core.model.holes import StatedCountersink as Stated
from every import every

ROOT_3 = math.tan(math.radians(60))


def thread(text):
    return standards.resolve(callout.read(text))


def length(value, unit):
    return None if value is None else Length(Decimal(str(value)), unit)


def entry(text, *, wall=None, stated=None, angle=None, sides="one", bore=None, major, hole, kind="through", full=None):
    found = thread(text)
    unit = found.unit
    sink = None
    if stated is not None or angle is not None:
        sink = Stated(length(stated, unit), None if angle is None else Decimal(angle), sides)
    space = Hole(
        kind,
        full_thread_depth=length(full, unit),
        thickness=length(wall, unit),
        countersink=sink,
        counterbore=None if bore is None else Counterbore(length(bore[0], unit), length(bore[1], unit)),
    )
    return countersink.at_entry(found, space, major_diameter=Decimal(str(major)), hole_diameter=Decimal(str(hole)))


def test_the_usual_one():
    """1.05 x 0.5 = 0.525 in; 1.05 x 8 = 8.4 mm; an insert's hole has its own angle."""
    assert entry("1/2-13 UNC-2B", major="0.5", hole="0.42", kind="blind", full=1).diameter == Decimal("0.525")
    assert entry("M8", major=8, hole="6.8", kind="blind", full=16).diameter == Decimal("8.40")
    for text, angle in (("1/2-13 UNC-2B", 90), ("M8", 120), ("1/4-20 STI", 120), ("M8 STI", 120)):
        assert countersink.angle(thread(text), Hole("blind")) == angle, text
    asked = Hole("blind", countersink=Stated(None, Decimal(82), "one"))
    assert countersink.angle(thread("1/2-13 UNC-2B"), asked) == 82


def test_the_usual_one_ends_at_the_counterbore():
    """Inside 12 mm of counterbore 8.4 mm fits, in one of 8.2 mm it is no wider than that."""
    for bore, wide in ((12, "8.40"), (8.2, "8.2")):
        found = entry("M8", major=8, hole="6.8", kind="blind", full=16, bore=(bore, 3))
        assert found.diameter == Decimal(wide)


@every(
    ("text", "wall", "bore", "limited"),
    [
        # (0.525 - 0.426)/2 = 0.0495 deep at 90 degrees: 0.15 of 0.33
        ("1/2-13 UNC-2B", 0.331, None, False),
        ("1/2-13 UNC-2B", 0.329, None, True),
        # a counterbore of 0.1 leaves 0.33 of 0.43
        ("1/2-13 UNC-2B", 0.431, (1, 0.1), False),
        ("1/2-13 UNC-2B", 0.429, (1, 0.1), True),
    ],
)
def test_sheet_has_its_edges_broken(text, wall, bore, limited):
    """A twentieth of the wall at each face, which at 90 degrees widens the hole by a tenth of it."""
    found = entry(text, major="0.5", hole="0.426", wall=wall, bore=bore)
    left = Decimal(str(wall)) - (0 if bore is None else Decimal(str(bore[1])))
    assert [one.code for one in found.cautions] == (["countersink_limited"] if limited else [])
    assert found.taken == (left / 10 if limited else 0)
    assert float(found.diameter) == pytest.approx(0.426 + float(left) / 10 if limited else 0.525)
    if limited:
        assert f"{float(left) * 0.9:.4f}".rstrip("0")[:5] in found.cautions[0].text  # of full thread


def test_a_thread_of_its_own_depth_or_no_wall_is_no_sheet():
    for fields in ({"wall": 0.3, "full": 0.2}, {"wall": None}, {"wall": 0.3, "full": 0.2, "kind": "blind"}):
        found = entry("1/2-13 UNC-2B", major="0.5", hole="0.425", **fields)
        assert (found.diameter, found.taken, found.cautions) == (Decimal("0.525"), 0, ())


@every(
    ("text", "stated", "angle", "sides", "wall", "taken", "asks"),
    [
        # (0.58 - 0.42)/2 = 0.08 of 0.5; 0.15 of it is 0.075
        ("1/2-13 UNC-2B", "0.58", 90, "one", 0.5, "0.08", True),
        ("1/2-13 UNC-2B", "0.58", 90, "both", 0.5, "0.16", True),
        ("1/2-13 UNC-2B", "0.569", 90, "one", 0.5, "0", False),
        # (9 - 6.8)/(2 tan 60) = 0.635 of 4 mm
        ("M8", "9", None, "one", 4, 2.2 / (2 * ROOT_3), True),
        # 82 degrees: 0.16/(2 tan 41) = 0.0920
        ("1/2-13 UNC-2B", "0.58", 82, "one", 0.5, 0.16 / (2 * math.tan(math.radians(41))), True),
    ],
)
def test_a_stated_countersink_that_takes_much_of_the_wall(text, stated, angle, sides, wall, taken, asks):
    hole, major = ("0.42", "0.5") if text.startswith("1/2") else ("6.8", "8")
    found = entry(text, stated=stated, angle=angle, sides=sides, wall=wall, major=major, hole=hole)
    assert found.diameter == Decimal(stated)
    assert [one.code for one in found.decisions] == (["countersink_deep"] if asks else [])
    assert float(found.taken) == pytest.approx(float(taken), rel=1e-6)
    if asks:
        left = wall - float(taken)
        words = found.decisions[0].text.replace("\N{NO-BREAK SPACE}", " ")
        assert f"{left:.3f}".rstrip("0") in words.split("in a wall of")[1]
        assert ("on each side" in words) is (sides == "both")
        deep = float(taken) / (2 if sides == "both" else 1)
        assert f", is {float(f'{deep:.3f}'):g} mm deep in a wall of 4 mm" in words or text != "M8"
        assert f" {float(f'{deep:.3f}'):g} in deep" in words or text == "M8"


@every(
    ("asked", "asks"),
    [
        # 0.08 deep in what a counterbore of 0.1 leaves of 0.6, of which 0.15 are 0.075
        ({"wall": "0.6", "bore": ("1", "0.1")}, True),
        ({"wall": "0.6"}, False),
        ({"wall": "0.5", "full": "0.4"}, False),
        ({"wall": "0.5", "full": "0.4", "kind": "blind"}, False),
        ({"wall": "0.5", "kind": "blind"}, False),
        ({"wall": None}, False),
    ],
)
def test_where_a_stated_one_is_asked_about(asked, asks):
    found = entry("1/2-13 UNC-2B", stated="0.58", angle=90, major="0.5", hole="0.42", **asked)
    assert (found.diameter, bool(found.decisions)) == (Decimal("0.58"), asks)
    if asks:
        assert "in a wall of 0.5 in: 0.42 in of full thread" in found.decisions[0].text.replace(
            "\N{NO-BREAK SPACE}", " "
        )


def test_the_largest_that_may_be_stated_is_told_to_a_thousandth():
    """0.15 of 2 mm at 120 degrees: 6.8 + 0.3 x 2 tan 60 = 7.8392 mm."""
    with pytest.raises(HoleError) as refused:
        entry("M8", stated="11", wall=2, major=8, hole="6.8")
    assert refused.value.faults[0].allowed == ("at most 7.839\N{NO-BREAK SPACE}mm",)


def test_less_than_a_pitch_of_thread_is_none():
    """0.16 in of wall less a pitch of 1/13 leaves 0.0831: 0.083 deep goes, 0.0835 not."""
    assert entry("1/2-13 UNC-2B", stated="0.586", angle=90, wall="0.16", major="0.5", hole="0.42").decisions
    with pytest.raises(HoleError) as refused:
        entry("1/2-13 UNC-2B", stated="0.587", angle=90, wall="0.16", major="0.5", hole="0.42")
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("countersink_does_not_fit", "/hole/countersink/diameter")
    # 0.15 of the wall at 90 degrees: 0.42 + 0.3 x 0.16
    assert fault.allowed == ("at most 0.468\N{NO-BREAK SPACE}in",)


@every(
    ("stated", "bore", "fits"),
    [
        ("6.8", None, False),
        ("6.81", None, True),
        ("12", (12, 3), True),
        ("12.1", (12, 3), False),
        ("6.8", (12, 3), False),
    ],
)
def test_a_stated_one_is_wider_than_the_hole_and_inside_its_counterbore(stated, bore, fits):
    asked = {"stated": stated, "bore": bore, "major": 8, "hole": "6.8", "kind": "blind", "full": 16}
    if fits:
        assert entry("M8", **asked).diameter == Decimal(stated)
        return
    with pytest.raises(HoleError) as refused:
        entry("M8", **asked)
    least, *most = refused.value.faults[0].allowed
    assert least == "more than 6.8\N{NO-BREAK SPACE}mm"
    assert most == ([] if bore is None else ["at most 12\N{NO-BREAK SPACE}mm"])


def test_how_well_the_usual_countersink_is_known():
    """DIN 76-1 was not read; the federal standard leaves the diameter to the shop."""
    assert {unit: (source.document, source.status) for unit, source in countersink.SOURCES.items()} == {
        "in": ("FED-STD-H28/2B", "common_practice"),
        "mm": ("DIN 76-1", "from_memory"),
    }
