"""One tap or two: what the hole, the form and the run-out leave to a first tap, and what finishes it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.errors import HoleError
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest


def mm(value: str) -> Length:
    return Length(Decimal(value), "mm")


def spec(thread: str, hole: Hole, *, material="4140", method="cut"):
    return specify(
        HoleSpecRequest(thread=callout.read(thread), hole=hole, material=MaterialInput(name=material), method=method)
    )


def chamfers(found) -> tuple[str, str | None]:
    second = found.tap.second_tap
    return found.tap.recommended.chamfer.name, None if second is None else second.chamfer.name


@pytest.mark.parametrize(
    ("thread", "hole", "material", "expected"),
    [
        ("M10", Hole("blind", mm("15")), "4140", ("semi_bottoming", None)),
        ("M10", Hole("blind", mm("15"), drill_depth_limit=mm("20")), "4140", ("plug", "bottoming")),
        ("M10", Hole("blind", mm("15"), thickness=mm("22.5")), "4140", ("plug", "bottoming")),
        ("1/2-13 UNC-2B", Hole("blind", mm("25"), drill_depth_limit=mm("31.5")), "grey iron", ("plug", "bottoming")),
        ("M10", Hole("blind", mm("10"), run_out="bs_1936"), "4140", ("plug", "bottoming")),
        ("M10", Hole("blind", mm("10"), run_out="din_76_1"), "4140", ("semi_bottoming", None)),
        ("M8", Hole("through", thickness=mm("12")), "304", ("plug", None)),
        ("1-5 ACME-2G", Hole("through", thickness=mm("25")), "bronze", ("taper", "plug")),
        ("Tr 24x5", Hole("blind", mm("40")), "4140", ("plug", "bottoming")),
        ("1-5 STUB ACME-2G", Hole("through", thickness=mm("25")), "4140", ("plug", None)),
    ],
)  # fmt: skip
def test_a_second_tap_where_one_cannot_do_it(thread, hole, material, expected):
    """Common practice: a bottoming tap finishes what a plug tap's chamfer leaves; deep forms are roughed first."""
    found = spec(thread, hole, material=material)
    assert chamfers(found) == expected
    taps = [line for line in found.operations if line.line.operation == "tap"]
    assert len(taps) == (1 if expected[1] is None else 2)


@pytest.mark.parametrize("method", ["cut", "form"])
def test_full_threads_that_even_a_bottoming_tap_cannot_reach_are_refused_with_advice(method):
    hole = Hole("blind", mm("15"), drill_depth_limit=mm("17.9"))
    with pytest.raises(HoleError) as caught:
        spec("M10", hole, material="6061-T6", method=method)
    fault = caught.value.faults[0]
    assert (fault.code, fault.pointer) == ("drill_depth_limit_too_shallow", "/hole/drill_depth_limit")
    for advice in ("mill the thread", "relief groove"):
        assert advice in fault.detail


def test_a_run_out_too_short_for_any_tap_says_what_is_missing():
    """M10, 10 mm, BS 1936 gives 2 mm: 1.5 mm of clearance and 3 mm of bottoming chamfer leave 2.5 mm half cut."""
    found = spec("M10", Hole("blind", mm("10"), run_out="bs_1936"))
    said = {caution.code: caution.text for caution in found.depths.notes.cautions}
    assert "last 2.5 mm of thread" in said["run_out_short"].replace("\N{NO-BREAK SPACE}", " ")
    assert "relief groove at least 4.5 mm" in said["run_out_short"].replace("\N{NO-BREAK SPACE}", " ")
    assert found.depths.tap_travel <= found.depths.drill_depth
