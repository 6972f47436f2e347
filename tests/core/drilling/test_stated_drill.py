"""The drill that a drawing means: by its label, by its printed size, or by a size rounded to the decimals written.

Sizes: 5/16 = 0.3125, 27/64 = 0.421875, 5/64 = 0.078125, 9/64 = 0.140625 in; #47 0.0785, #28 0.1405 in
(tests/published/drills.csv); metric drills rise by 0.25 mm from 14 mm on.
"""

from __future__ import annotations

import pytest
from borewright.core.drilling.stated_drill import drill_of_drawing
from borewright.core.errors import DrillingError
from every import every


@every(
    ("text", "unit", "label"),
    [
        ("#7", "in", "#7"),
        (".201", "in", "#7"),
        ("0.422", "in", "27/64"),
        # a half to even and a half up
        ("0.312", "in", "5/16"),
        ("0.313 in", "mm", "5/16"),
        ("0,313 in", "in", "5/16"),
        ("0.311", "in", "0.311 in"),
        ("0.314", "in", "0.314 in"),
        # two that read so: the nearer one
        ("0.078", "in", "5/64"),
        ("0.141", "in", "9/64"),
        # two decimals of an inch are a coarse size, no rounded one
        ("0.31", "in", "0.31 in"),
        ("4.1 in", "in", "4.1 in"),
        ("14.2", "mm", "14.25 mm"),
        ("14.3 mm", "in", "14.25 mm"),
        ("14.8", "mm", "14.75 mm"),
        ("14.7", "mm", "14.7 mm"),
        ("14.26", "mm", "14.26 mm"),
        # none of the other unit
        ("105", "mm", "105 mm"),
    ],
)
def test_what_a_drawing_means(text, unit, label):
    assert drill_of_drawing(text, unit).label == label


def test_what_is_no_drill_points_at_the_hole():
    with pytest.raises(DrillingError) as refused:
        drill_of_drawing("Ø big", "mm")
    assert [(one.code, one.pointer) for one in refused.value.faults] == [("drill_unknown", "/hole/drill")]
