"""What a finish leaves for the tools: the limits they make, the coat to come, the thread that the tap cuts."""

from __future__ import annotations

from decimal import Decimal

from allowances import HOT_DIP, ZINC_8, resolved, span
from borewright.core.finishing import allow, feasibility, limits_before_finish
from borewright.core.model import FinishInput, Material
from every import every

HALF, M8, M8_AZ = resolved("1/2-13 UNC-2B"), resolved("M8"), resolved("M8-6AZ")
MASKED, THICK = FinishInput(text="ASTM B633 Fe/Zn 8", masked=True), FinishInput(thickness=span("0", "0.01"))
AFTER = FinishInput(text="ASTM B633 Fe/Zn 8", dimensions_apply="before_finish")
ISO_AZ = FinishInput(text="ISO 10684 6AZ")


@every(
    ("thread", "finish", "pitch"),
    [
        (HALF, None, ("0.4500", "0.4565")),
        (HALF, MASKED, ("0.4500", "0.4565")),
        (HALF, AFTER, ("0.4500", "0.4565")),
        (HALF, ZINC_8, ("0.4518", "0.4565")),  # 4 x 0.00045 in
        (HALF, HOT_DIP, ("0.4680", "0.4745")),  # 0.018 in
        (HALF, THICK, ("0.4500", "0.4565")),  # cannot be made: the bare thread
        (M8, ISO_AZ, ("7.513", "7.673")),  # 0.325 mm over 7.188 and 7.348
        (M8_AZ, ISO_AZ, ("7.513", "7.673")),
    ],
)
def test_limits_that_the_tools_make(thread, finish, pitch):
    found = limits_before_finish.limits_to_make(thread, None if finish is None else allow(thread, finish))
    assert (str(found.pitch_diameter.min), str(found.pitch_diameter.max)) == pitch


@every(
    ("finish", "coming", "moves"),
    [(None, False, None), (MASKED, False, False), (AFTER, False, True), (ZINC_8, True, True), (HOT_DIP, False, False),
     (THICK, False, True), (FinishInput(text="black oxide"), True, False),
     (FinishInput(heat_treat_growth=span("0", "0.0001")), True, True)],
)  # fmt: skip
def test_the_coat_to_come(finish, coming, moves):
    allowance = None if finish is None else allow(HALF, finish)
    found = limits_before_finish.coat_to_come(allowance)
    assert (found is not None) is coming
    if allowance is not None:
        assert limits_before_finish.moves(allowance) is moves
        assert found is None or found == allowance.change


@every(
    ("thread", "finish", "larger"),
    [(HALF, None, "0"), (HALF, ZINC_8, "0"), (HALF, HOT_DIP, "0.018"), (M8, ISO_AZ, "0.325"), (M8_AZ, ISO_AZ, "0")],
)
def test_the_thread_that_the_tap_cuts(thread, finish, larger):
    found = limits_before_finish.as_cut(thread, None if finish is None else allow(thread, finish))
    for name in ("major_diameter", "pitch_diameter", "minor_diameter"):
        assert getattr(found.basic, name) - getattr(thread.basic, name) == Decimal(larger), name
    assert (found.internal, found.designation) == (thread.internal, thread.designation)


def test_whether_a_finish_can_be_put_on_at_all():
    part = Material("the part", "aluminium", None, None, None, None, None, None, None, None)
    said = limits_before_finish.is_impossible
    assert said(None) is False
    assert said(allow(HALF, HOT_DIP)) is False
    assert said(allow(HALF, HOT_DIP, material=part)) is True


@every("text", ["0-80 UNF-3B", "1/4-32 UNEF-3B", "M1-4H", "M8-4H", "M1.6-4H5H", "M5x0.5-4H", "4-4 UN-3B"])
def test_an_unmoved_thread_has_room_for_its_tap_in_the_tightest_class(text):
    thread = resolved(text)
    assert feasibility.is_feasible(thread, thread.internal)
