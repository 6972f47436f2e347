"""What shops usually drill for and which reamers they can buy: common practice, held here as what an answer says.

No table of either is published; the percents are those that shops give by material, for engagements to and over 1.5 D.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.drilling.candidates import reamers
from borewright.core.drilling.hole_limits import engagement_step
from borewright.core.drilling.part_remarks import percent_band
from every import every

from .choices import material, thread

#: Hardness in HB, percent of thread on 0.75 H to 1.5 D of engagement and beyond, None where nothing is held.
PERCENTS = [
    ("free-machining steel", 150, (65, 75), (60, 70)),
    ("free-machining steel", None, (65, 75), (60, 70)),
    ("carbon steel", 90, (60, 75), (55, 70)),
    ("carbon steel", 299.9, (60, 75), (55, 70)),
    ("carbon steel", 300, (55, 65), (50, 60)),
    ("carbon steel", 400.9, (55, 65), (50, 60)),
    ("carbon steel", 401, None, None),
    ("carbon steel", None, None, None),  # split by hardness: soft or hard is not known
    ("alloy steel", 200, (60, 70), (55, 65)),
    ("alloy steel", 299.9, (60, 70), (55, 65)),
    ("alloy steel", 300, (55, 65), (50, 60)),
    ("alloy steel", 400.9, (55, 65), (50, 60)),
    ("alloy steel", 401, None, None),
    ("tool steel", 200, (55, 65), (50, 60)),
    ("tool steel", 400.9, (55, 65), (50, 60)),
    ("tool steel", 401, None, None),
    ("tool steel", None, (55, 65), (50, 60)),
    ("stainless austenitic", 165, (60, 70), (55, 65)),
    ("grey iron", 200, (70, 75), (65, 70)),
    ("ductile iron", 200, (70, 75), (65, 70)),
    ("aluminium wrought", 95, (70, 75), (60, 70)),
    ("aluminium cast", 80, (70, 80), (65, 75)),
    ("zinc die cast", 80, (70, 80), (65, 75)),
    ("brass", 80, (70, 80), (65, 75)),
    ("copper", 50, (60, 70), (55, 65)),
    ("bronze", 65, (60, 70), (55, 65)),
    ("titanium", 334, (55, 65), (50, 60)),
    ("nickel", 150, (55, 65), (50, 60)),
    ("superalloy", 290, (55, 65), (50, 60)),
    ("plastic", None, None, None),
]


@every(("family", "hardness", "usual", "deep"), PERCENTS)
def test_percent_of_thread_by_material(family, hardness, usual, deep):
    """Below 0.5 D it is 75 to 83 whatever the metal, for sheet and short engagements."""
    m10, part = thread("M10"), material("of the part", "long", family, hardness)
    for length, percent in (("10", usual), ("15", usual), ("15.1", deep), ("4.9", (75, 83)), ("5", usual)):
        assert percent_band(m10, part, engagement_step(m10, Decimal(length))) == percent, length
    assert percent_band(m10, part, None) == usual


@every(
    ("unit", "first", "last", "count"),
    [
        # #60 to #1 and A to Z; 1/16 to 1-1/2 by 64ths are 93, to 3 in by 16ths 24 more; E is 1/4 in and counted once
        ("in", ("0.0400", "#60"), ("3.0000", "3 in"), 60 + 26 + 93 + 24 - 1),
        # 1 to 12 by tenths, to 30 by halves, to 50 by whole millimetres
        ("mm", ("1.000", "1 mm"), ("50.000", "50 mm"), 111 + 36 + 20),
    ],
)
def test_reamers_that_are_sold(unit, first, last, count):
    sizes = [(str(size), name) for size, name in reamers(unit)]
    assert (sizes[0], sizes[-1], len(sizes)) == (first, last, count)


@every(
    ("unit", "sold", "not_sold"),
    [
        ("in", ["#60", "#1", "A", "Z", "1/16 in", "5/64 in", "1-1/2 in", "1-9/16 in", "1-31/64 in", "2-15/16 in"],
         ["#61", "3/64 in", "1-33/64 in", "1-37/64 in", "3-1/16 in"]),
        ("mm", ["1 mm", "1.1 mm", "11.9 mm", "12 mm", "12.5 mm", "29.5 mm", "30 mm", "31 mm", "49 mm"],
         ["0.9 mm", "12.1 mm", "12.4 mm", "30.5 mm", "51 mm"]),
    ],
)  # fmt: skip
def test_steps_between_reamers(unit, sold, not_sold):
    names = {name for _, name in reamers(unit)}
    assert set(sold) <= names
    assert not names & set(not_sold)
