"""Insert holes: the insert that fits, its tang and the gauge of the thread that it makes."""

import pytest
from borewright.contract.requests import HOLE_SPEC
from borewright.core.plan.specify import specify


def spec(thread, hole):
    return specify(HOLE_SPEC.asked({"thread": thread, "hole": hole, "material": "6061-T6"}).request)


def blind(depth):
    return {"type": "blind", "full_thread_depth": depth}


# by hand: 1/4-20, P = 0.05: 1.5 D + P = 0.425, 2 D + P = 0.55, 1 D + P = 0.3; M8, P = 1.25: 2 D + P = 17.25;
# a through hole needs the nominal length: 1 D of M8 = 8
@pytest.mark.parametrize(
    ("thread", "hole", "diameters", "long"),
    [
        ("1/4-20 UNC-2B STI", blind(0.5), 1.5, "0.375"),
        ("1/4-20 UNC-2B STI", blind(0.55), 2, "0.5"),
        ("1/4-20 UNC-2B STI", blind(0.549), 1.5, "0.375"),
        ("1/4-20 UNC-2B STI", blind(5), 3, "0.75"),
        ("M8 STI", blind(17.25), 2, "16"),
        ("M8 STI", blind(17.2), 1.5, "12"),
        ("M8 STI", {"type": "through", "thickness": 8}, 1, "8"),
        ("M8 STI 1.5D", {"type": "through", "thickness": 20}, 1.5, "12"),
    ],
)
def test_the_longest_insert_that_the_hole_holds(thread, hole, diameters, long):
    lines = [one.line for one in spec(thread, hole).operations]
    assert [one.operation for one in lines[-5:]] == ["tap", "inspect", "install_insert", "break_off_tang", "inspect"]
    install = lines[-3]
    nominal = "M8x1.25-5H" if thread.startswith("M8") else "1/4-20 UNC-2B"  # ISO 261; class as ASME B18.29.1 and .2M
    assert install.tool == {"kind": "insert installing tool", "nominal_thread": nominal}
    assert install.parameters["insert_length_diameters"] == diameters
    assert format(install.parameters["insert_length"].normalize(), "f") == long
    assert "GO thread plug" in lines[-1].text


def test_metric_inserts_lie_below_the_face():
    """0.75 and 1.5 pitches of 1.25 mm: 0.9375 and 1.875 mm, two decimals."""
    install = next(o.line for o in spec("M8 STI", blind(16)).operations if o.line.operation == "install_insert")
    assert tuple(map(str, (install.parameters["set_down"].min, install.parameters["set_down"].max))) == ("0.94", "1.88")


@pytest.mark.parametrize("hole", [blind(9.2), {"type": "through", "thickness": 7.9}])
def test_a_hole_too_shallow_for_any_insert_is_for_a_person(hole):
    found = spec("M8 STI", hole)
    assert found.verdict == "review"
    assert [one.pointer for one in found.review if one.code == "no_insert_fits"] == ["/hole/" + [*hole][1]]
    assert "install_insert" not in [one.line.operation for one in found.operations]


def test_other_threads_take_no_insert():
    assert {"install_insert", "break_off_tang"}.isdisjoint(o.line.operation for o in spec("M8", blind(16)).operations)
