"""Drills weighed one against the other: what is good enough, from which pool, in which order, and who comes first.

Round figures put together by hand: M10x1.5 from 8.4 to 8.8 mm, aimed at 8.5 mm; 5 percent of thread are 0.05 x 1.299038
P = 0.09742785 mm on diameter. Chances are given, so that only their order counts.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from math import inf

from borewright.core.chance.distributions import Spread
from borewright.core.chance.made_sizes import Aim
from borewright.core.drilling import ranking
from borewright.core.drilling.drill_sizes import find_drill
from borewright.core.drilling.standard_drills import OwnOversize
from borewright.core.model import PercentTarget
from every import every

from .weighed import case_of, half_inch, held, item, ranked, row


@dataclass(frozen=True)
class Never:
    def __call__(self, hole_diameter):
        return False

    def why_not(self, hole_diameter):
        return "too weak"


#: Holes are as large as their drills, so that those of a chart are true to size.
TRUE = OwnOversize(Decimal(0))


def by_label(*rows):
    return {one.drill.label: one for one in rows}


def labels(items):
    return None if items is None else [one.drill.label for one in items]


LARGE = item("8.7 mm", "8.81")
WIDE = item("9.5 mm", "9.6")
LEAST = {"asked": {"objective": "least_torque"}}
NO_TOP = {"limits": ("8.4", None), "top": None}


@every(
    ("one", "changed", "rows", "good"),
    [
        (item("8.4 mm", "8.5"), {}, (), True),
        (item("8.39 mm", "8.5"), {}, (), False),
        (item("8.8 mm", "8.8"), {}, (), True),
        (item("8.8 mm"), {}, (), True),
        (item("8.81 mm", "8.8"), {}, (), False),
        # the mean hole throws out no drill of a chart that is meant for the class
        (LARGE, {}, (), False),
        (LARGE, {"top": None}, (), True),
        (LARGE, {}, (row("8.7 mm"),), True),
        (LARGE, {}, (row("8.6 mm"),), False),
        (LARGE, {}, (row("8.7 mm", variant="choice"),), True),
        (LARGE, {}, (row("8.7 mm", for_class=False),), False),
        (LARGE, {}, (row("8.7 mm", status="computed"),), False),
        (LARGE, LEAST, (row("8.7 mm"),), False),
        # the one drill of a chart is taken as it is where no largest limit is held
        (WIDE, NO_TOP, (row("9.5 mm"),), True),
        (WIDE, {}, (row("9.5 mm"),), False),
        (WIDE, NO_TOP, (), False),
        (WIDE, NO_TOP, (row("9.5 mm", variant="choice"),), False),
        (WIDE, NO_TOP, (row("9.5 mm", for_class=False),), False),
        (WIDE, {**NO_TOP, "moved": True}, (row("9.5 mm"),), False),
        (WIDE, {**NO_TOP, **LEAST}, (row("9.5 mm"),), False),
        # a formed hole is judged by its mean
        (item("8.3 mm", "8.4"), {"asked": {"method": "form"}}, (), True),
        (item("8.3 mm", "8.4"), {}, (), False),
        (item("8.4 mm", "8.39"), {"asked": {"method": "form"}}, (), False),
        # strength is asked about where the largest hole is
        (item("8.5 mm", "8.6"), {"asked": {"objective": "least_torque", "may_take": Never()}}, (), False),
        (item("8.5 mm", "8.6"), {"asked": {"may_take": Never()}}, (), True),
        (item("8.5 mm", "8.6"), LEAST, (), True),
        # a taper thread has the drills of its chart and no other
        (WIDE, {"text": "1/4-18 NPT"}, (row("9.5 mm"),), True),
        (item("8.5 mm"), {"text": "1/4-18 NPT"}, (row("9.5 mm"),), False),
    ],
)
def test_what_is_good_enough(one, changed, rows, good):
    assert ranking.good_enough(case_of(**changed), one, by_label(*rows)) is good


def test_the_wall_chart_asks_no_mean_hole():
    one = item("27/64", "0.4350", unit="in")
    assert ranking.good_enough(half_inch(), one, {})
    assert not ranking.good_enough(half_inch(**LEAST), one, {})
    assert not ranking.good_enough(half_inch(), item("7/16", "0.4400", unit="in"), {})


@every(
    ("hole", "top", "large"),
    [("8.8", "8.8", False), ("8.81", "8.8", True), ("8.79", "8.8", False), ("8.9", None, False)],
)
def test_what_cuts_too_large(hole, top, large):
    assert ranking.cuts_too_large(case_of(top=top), item("8.5 mm", hole)) is large


@every(
    ("ends", "found"),
    [(("8.4", "8.8"), ("8.4", "8.8")), ((None, "8.8"), ("8.5", "8.8")), (("8.4", None), ("8.4", "8.5"))],
)
def test_ends_of_the_hole(ends, found):
    """An open end is the hole aimed at, 8.5 mm."""
    assert ranking.hole_ends(case_of(ends=ends)) == tuple(map(Decimal, found))


def test_how_far_a_drill_is_off():
    """A cut hole is aimed at with the drill, a formed one with the mean hole."""
    one = item("8.3 mm", "8.45")
    assert ranking.distance_to_target(case_of(), one) == Decimal("0.2")
    assert ranking.distance_to_target(case_of(), item("8.6 mm", "8.7")) == Decimal("0.1")
    assert ranking.distance_to_target(case_of(asked={"method": "form"}), one) == Decimal("0.05")


def test_keys_of_the_orders():
    one = item("8.6 mm", "8.7", chance=0.75)
    assert ranking.torque_order(one) == (Decimal("-8.7"), Decimal("-8.6"))
    assert ranking.likelier_first(case_of(), one) == (-0.75, Decimal("0.1"), Decimal("-8.6"))
    assert ranking.likelier_first(case_of(), item("8.4 mm")) == (0.0, Decimal("0.1"), Decimal("-8.4"))


@every(
    ("chances", "best"),
    [
        ({"8.4 mm": 0.5, "8.6 mm": 0.75, "8.7 mm": 0.6}, "8.6 mm"),
        # of equals the nearest to 8.5 mm, of these the larger; what is not known counts for nothing
        ({"8.3 mm": 0.5, "8.6 mm": 0.5, "8.8 mm": 0.5}, "8.6 mm"),
        ({"8.8 mm": 0.5, "8.6 mm": 0.5, "8.4 mm": 0.5}, "8.6 mm"),
        ({"8.4 mm": 0.5, "8.6 mm": 0.5}, "8.6 mm"),
        ({"8.5 mm": None, "8.7 mm": 0.0}, "8.7 mm"),
        ({"8.5 mm": None}, None),
        ({}, None),
    ],
)
def test_the_most_accepted(chances, best):
    found = ranking.most_accepted(case_of(), [item(label, chance=one) for label, one in chances.items()])
    assert (None if found is None else found.drill.label) == best


@every(
    ("better", "worse", "clearly"),
    [(0.8, 0.75, False), (0.81, 0.75, True), (0.7, 0.75, False), (None, 0.75, False), (0.9, None, False)],
)
def test_clearly_likelier_is_more_than_five_in_a_hundred(better, worse, clearly):
    one, other = item("8.6 mm", chance=better), item("8.5 mm", chance=worse)
    assert ranking.clearly_likelier(case_of(), one, other) is clearly


# --- which drills are looked at ---------------------------------------------------------------------------


def rack_of(*sizes, **chances):
    return held(*(item(f"{size} mm") for size in sizes))


SIZES = ("7.9", "8", "8.1", "8.2", "8.3", "8.4", "8.6", "8.8", "8.9", "9", "9.1", "9.2", "9.3")


def test_three_drills_beside_the_ends_are_told():
    """Inside 8.4, 8.6 and 8.8; the three next below and above, nearest to 8.5 first."""
    found = ranking.rank(case_of(first=rack_of(*SIZES)))
    assert labels(found.good) == ["8.6 mm", "8.4 mm", "8.8 mm"]
    assert labels(found.refused) == ["8.3 mm", "8.2 mm", "8.1 mm", "8.9 mm", "9 mm", "9.1 mm"]


def test_at_most_eight_are_told():
    crib = tuple(item(f"{size} mm") for size in ("7.9", "9.2", "8", "9.3"))
    found = ranking.rank(case_of(aimed="8.51", first=rack_of(*SIZES), crib=crib))
    assert labels(found.refused) == ["8.3 mm", "8.2 mm", "8.9 mm", "8.1 mm", "9 mm", "8 mm", "9.1 mm", "7.9 mm"]
    assert found.in_crib == ()


def test_a_drill_for_forming_may_be_smaller_than_its_hole():
    """The ends are 0.4 mm apart: drills from 8.0 mm are looked at, and three below them."""
    sizes = ("7.6", "7.7", "7.8", "7.9", "8", "8.2", "8.6", "8.9")
    found = ranking.rank(case_of(asked={"method": "form"}, first=rack_of(*sizes)))
    assert labels(found.good) == ["8.6 mm"]
    assert labels(found.refused) == ["8.2 mm", "8.9 mm", "8 mm", "7.9 mm", "7.8 mm", "7.7 mm"]
    cut = ranking.rank(case_of(first=rack_of(*sizes)))
    assert labels(cut.refused) == ["8.2 mm", "8.9 mm", "8 mm", "7.9 mm"]


INCH = (item("Q", unit="mm"), item("R", unit="mm"), item("S", unit="mm"))


def test_drills_of_second_choice_come_behind():
    """Q is 8.433, R 8.611 and S 8.839 mm; only those inside are looked at."""
    found = ranking.rank(case_of(first=rack_of("8.4", "8.7", "8.9"), second=held(*INCH)))
    assert labels(found.good) == ["8.4 mm", "8.7 mm", "Q", "R"]
    assert labels(found.refused) == ["8.9 mm"]


@every(
    ("aimed", "percent", "order"),
    [
        # 8.4 mm is 0.09742785 mm off and still near; then Q (0.0644 off) comes first, 8.4 mm behind it
        ("8.49742785", PercentTarget(target=Decimal(70)), ["8.4 mm", "Q", "R"]),
        ("8.49742786", PercentTarget(target=Decimal(70)), ["Q", "8.4 mm", "R"]),
        ("8.49742786", PercentTarget(min=Decimal(70)), ["8.4 mm", "Q", "R"]),
        ("8.49742786", None, ["8.4 mm", "Q", "R"]),
    ],
)
def test_a_percent_asked_for_is_met_nearly(aimed, percent, order):
    asked = {} if percent is None else {"percent": percent}
    found = ranking.rank(case_of(aimed=aimed, asked=asked, first=rack_of("8.4"), second=held(*INCH)))
    assert labels(found.good) == order


def test_a_formed_hole_is_met_nearly_too():
    found = ranking.rank(case_of(asked={"method": "form"}, first=rack_of("8.4", "8.6"), second=held(*INCH)))
    assert labels(found.good) == ["Q", "8.6 mm", "8.4 mm", "R"]


def test_each_drill_counts_once_where_it_is_found_first():
    found = ranking.rank(
        case_of(
            first=rack_of("8.5", "8.6", "9"),
            crib=(item("8.6 mm"), item("8.45 mm"), item("9 mm")),
            chart=(row("8.7 mm"),),
        )
    )
    assert labels(found.good) == ["8.7 mm", "8.5 mm", "8.6 mm", "8.45 mm"]
    assert labels(found.in_crib) == ["8.45 mm", "8.6 mm"]
    assert labels(found.refused) == ["9 mm"]
    assert [*found.rows] == ["8.7 mm"]


@every(
    ("rows", "changed", "order"),
    [
        # 8.5 mm is nearest; a straight drill of the chart goes before it, one of several counts as any other
        ((row("8.7 mm"),), {}, ["8.7 mm", "8.5 mm"]),
        ((row("8.7 mm", variant="choice"),), {}, ["8.5 mm", "8.7 mm"]),
        ((row("8.7 mm"),), {"asked": {"percent": PercentTarget(target=Decimal(77))}}, ["8.5 mm", "8.7 mm"]),
        ((row("8.7 mm"),), {"asked": {"series": ("metric",)}}, ["8.7 mm", "8.5 mm"]),
        ((row("8.7 mm"),), {"asked": {"series": ("letter",)}}, ["8.5 mm"]),
        # reamed and larger ones of shops are no answer
        ((row("8.7 mm", variant="shop"),), {}, ["8.5 mm"]),
        ((row("8.7 mm", variant="reamed"),), {}, ["8.5 mm"]),
        # a size that is not sold comes last
        ((row("8.52 mm"),), {}, ["8.5 mm", "8.52 mm"]),
        # inch drills of a metric chart are of second choice where there is one
        ((row("R", variant="choice"),), {"second": held()}, ["8.5 mm", "R"]),
        ((row("R", variant="choice"),), {"first": rack_of("8.8"), "second": held()}, ["8.8 mm", "R"]),
        ((row("8.7 mm", variant="choice"),), {"first": rack_of("8.8"), "second": held()}, ["8.7 mm", "8.8 mm"]),
        ((row("R", variant="choice"),), {"first": rack_of("8.8")}, ["R", "8.8 mm"]),
    ],
)
def test_drills_of_a_chart(rows, changed, order):
    asked = {"oversize": TRUE, **changed.get("asked", {})}
    case = case_of(**{"first": rack_of("8.5"), "chart": rows, **changed, "asked": asked})
    assert labels(ranking.rank(case).good) == order


def test_drills_of_a_taper_chart():
    """Nothing but the chart: its straight ones, where it has none those of shops."""
    npt = {"text": "1/4-18 NPT", "limits": (None, None), "ends": (None, None), "top": None, "aimed": "0.4375"}
    straight, shop = row("7/16", unit="in"), row("29/64", unit="in", variant="shop")
    near = held(item("7/16", unit="in"), item("29/64", unit="in"))
    assert labels(ranking.rank(case_of(**npt, chart=(straight, shop), first=near)).good) == ["7/16"]
    assert labels(ranking.rank(case_of(**npt, chart=(shop,), first=near)).good) == ["29/64"]
    special = ranking.rank(case_of(**npt, chart=(row("0.44 in", unit="in"), shop), first=near))
    assert labels(special.good) == ["0.44 in"]
    assert ranking.rank(case_of(**npt, chart=(row("7/16", unit="in", variant="reamed"),), first=near)).good == ()


# --- in which order ---------------------------------------------------------------------------------------


def test_the_nearest_comes_first_and_the_larger_of_two():
    found = ranking.rank(case_of(first=rack_of("8.4", "8.6", "8.7"), asked={"percent": PercentTarget(min=Decimal(1))}))
    assert labels(found.good) == ["8.6 mm", "8.4 mm", "8.7 mm"]


def test_of_equal_drills_the_fraction_comes_first():
    """1/4 and E are 0.25 in: fractions, numbers, letters, metric sizes."""
    equal = held(item("E", unit="in"), item("1/4", unit="in"))
    for asked in ({}, {"objective": "least_torque"}, {"objective": "acceptance"}):
        case = half_inch(limits=("0.24", "0.26"), ends=("0.24", "0.26"), aimed="0.25", top="0.26", asked=asked)
        assert labels(ranking.rank(replace(case, first=equal)).good) == ["1/4", "E"]
    case = case_of("5/16-18 UNC-2B", limits=("0.24", "0.26"), ends=("0.24", "0.26"), aimed="0.25", top="0.26")
    series = replace(case, request=replace(case.request, percent=PercentTarget(target=Decimal(75))), first=equal)
    assert labels(ranking.rank(series).good) == ["1/4", "E"]


def test_the_wall_chart_goes_by_nearness_alone():
    near, far = item("27/64", "0.4345", unit="in"), item("Z", "0.4180", unit="in")
    case = half_inch(limits=("0.41", "0.434"), ends=("0.41", "0.434"), first=held(near, far))
    assert labels(ranking.rank(case).good) == ["27/64", "Z"]
    apart = held(item("0.42 in", unit="in"), item("0.4302 in", unit="in"))  # as far from 0.4251 in
    assert labels(ranking.rank(replace(case, first=apart)).good) == ["0.4302 in", "0.42 in"]
    asked = {"objective": "least_torque"}
    found = ranking.rank(replace(case, request=replace(case.request, **asked)))
    assert (labels(found.good), labels(found.refused)) == (["Z"], ["27/64"])


def test_the_largest_mean_hole_comes_first_for_least_torque():
    rack = held(item("8.5 mm", "8.7"), item("8.6 mm", "8.65"), item("8.4 mm", "8.7"))
    assert labels(ranking.rank(case_of(first=rack, **LEAST)).good) == ["8.5 mm", "8.4 mm", "8.6 mm"]


def test_the_likeliest_comes_first_where_chances_are_asked_for():
    rack = held(item("8.4 mm", chance=0.5), item("8.6 mm", chance=0.9), item("8.5 mm", chance=0.75))
    found = ranking.rank(case_of(first=rack, asked={"objective": "acceptance"}))
    assert labels(found.good) == ["8.6 mm", "8.5 mm", "8.4 mm"]
    assert (found.by_chance, found.most_accepted.drill.label) == (True, "8.6 mm")
    for first in (held(SURE), held(SURE, item("8.5 mm"))):
        assert ranking.rank(case_of(first=first, asked={"objective": "acceptance"})).by_chance
    unknown = ranking.rank(case_of(first=rack_of("8.5"), asked={"objective": "acceptance"}))
    assert (unknown.by_chance, unknown.most_accepted) == (False, None)


#: The nearest, and one that is accepted clearly more often.
NEAR, SURE = item("8.5 mm", chance=0.75), item("8.7 mm", chance=0.9)


@every(
    ("changed", "order", "by_chance"),
    [
        ({}, ["8.7 mm", "8.5 mm"], True),
        ({"first": held(NEAR, item("8.7 mm", chance=0.8))}, ["8.5 mm", "8.7 mm"], False),
        ({"chart": (row("8.5 mm"),)}, ["8.5 mm", "8.7 mm"], False),
        ({"chart": (row("8.5 mm", status="computed"),)}, ["8.7 mm", "8.5 mm"], True),
        ({"chart": (row("8.6 mm", variant="choice"),)}, ["8.7 mm", "8.5 mm"], True),
        ({"asked": {"percent": PercentTarget(target=Decimal(77))}}, ["8.5 mm", "8.7 mm"], False),
        ({"asked": {"percent": PercentTarget(min=Decimal(50))}}, ["8.7 mm", "8.5 mm"], True),
        ({"asked": {"method": "form"}}, ["8.5 mm", "8.7 mm"], False),
        (LEAST, ["8.7 mm", "8.5 mm"], False),
        ({"text": "1/2-13 UNC-2B"}, ["8.5 mm", "8.7 mm"], False),
    ],
)
def test_when_a_clearly_likelier_drill_goes_before_the_nearest(changed, order, by_chance):
    asked = {"oversize": TRUE, **changed.get("asked", {})}
    found = ranking.rank(case_of(**{"first": held(NEAR, SURE), **changed, "asked": asked}))
    first = [one for one in labels(found.good) if one in order]
    assert (first, found.by_chance) == (order, by_chance)


def test_of_whom_the_most_accepted_is_taken():
    """First of those that come first and do not cut too large, then of those of second choice, never of the crib."""
    second = held(item("R", chance=0.95))
    half, below = replace(item("8.5 mm"), made=Spread(9.0, 0.01)), Aim(-inf, 9.0)
    listed = {"chart": (row("8.6 mm"),), "asked": {"oversize": OwnOversize(Decimal("0.35"))}}  # 8.95 mm, above 8.8
    both = ranking.rank(case_of(first=held(half), second=second, aim=below, **listed))
    assert both.most_accepted.drill.label == "8.5 mm"
    other = ranking.rank(case_of(first=rack_of("8.4"), second=second))
    assert other.most_accepted.drill.label == "R"
    crib = ranking.rank(case_of(first=rack_of("8.4"), crib=(item("8.45 mm", chance=0.9),)))
    assert crib.most_accepted is None


# --- where each cuts too large ----------------------------------------------------------------------------


def test_the_drill_that_misses_least_makes_a_decision():
    """Inside 8.4 to 8.8 with mean holes above: the least of the usual ones that are sold."""
    rack = held(item("8.4 mm", "8.9"), item("8.6 mm", "8.85"), item("8.45 mm", "8.81"), item("8.3 mm", "8.79"))
    found = ranking.rank(case_of(first=rack, second=held(item("Q", "8.82"))))
    assert labels(found.good) == ["8.6 mm"]
    assert labels(found.refused) == ["8.45 mm", "Q", "8.4 mm", "8.3 mm"]
    others = ranking.rank(case_of(first=held(item("8.3 mm", "8.79")), second=held(item("Q", "8.82"), item("R", "8.9"))))
    assert labels(others.good) == ["Q"]
    assert ranking.rank(case_of(first=held(item("8.45 mm", "8.81")))).good == ()
    assert ranking.rank(case_of(first=held(item("8.4 mm", "8.9")), asked={"method": "form"})).good == ()
    assert ranking.rank(case_of(first=rack_of("8.3", "8.9"))).good == ()
    few = ranking.rank(case_of(first=held(item("8.6 mm", "8.85")), asked={"may_take": Never(), **LEAST["asked"]}))
    assert labels(few.good) == ["8.6 mm"]


def test_drills_of_a_chart_that_cut_large_stand_only_first():
    """8.5 and 8.6 mm are listed for the class and drill 0.35 mm more: the second of them is among the refused."""
    case = case_of(first=rack_of("8.4"), chart=(row("8.6 mm"), row("8.5 mm")))
    wide = replace(case, request=replace(case.request, oversize=OwnOversize(Decimal("0.35"))))
    found = ranking.rank(wide)
    assert (labels(found.good), labels(found.refused)) == (["8.5 mm", "8.4 mm"], ["8.6 mm"])


# --- the crib ---------------------------------------------------------------------------------------------


@every(
    ("crib", "in_crib"),
    [
        (None, None),
        ((), []),
        ((item("8.6 mm"), item("8.5 mm"), item("9 mm")), ["8.5 mm", "8.6 mm"]),
        ((item("8.7 mm"), item("8.4 mm")), ["8.4 mm", "8.7 mm"]),
        # none but the best of all may cut larger than the limits
        ((item("8.6 mm", "8.9"), item("8.4 mm")), ["8.4 mm"]),
        ((item("8.5 mm", "8.9"), item("8.4 mm")), ["8.5 mm", "8.4 mm"]),
    ],
)
def test_what_of_the_crib_will_do(crib, in_crib):
    assert labels(ranking.rank(case_of(first=rack_of("8.5", "8.6"), crib=crib)).in_crib) == in_crib


def test_a_chart_drill_in_the_crib_that_cuts_large_is_no_stand_in():
    """8.6 mm is listed and would be taken if it were the best; 8.5 mm, listed too, is nearer."""
    rows = (row("8.5 mm", variant="choice"), row("8.6 mm", variant="choice"))
    found = ranking.rank(case_of(first=rack_of("8.4"), chart=rows, crib=(item("8.6 mm", "8.9"), item("8.7 mm"))))
    assert labels(found.in_crib) == ["8.7 mm"]


def test_the_crib_is_judged_by_chance_where_the_best_is_not_in_it():
    best, near, sure = item("8.5 mm", chance=0.99), item("8.6 mm", chance=0.5), item("8.7 mm", chance=0.75)
    found = ranking.rank(case_of(first=held(best), crib=(near, sure)))
    assert (labels(found.in_crib), found.by_chance) == (["8.7 mm", "8.6 mm"], True)
    held_too = ranking.rank(case_of(first=held(best), crib=(near, sure, best)))
    assert (labels(held_too.in_crib), held_too.by_chance) == (["8.5 mm", "8.6 mm", "8.7 mm"], False)
    sure_of_crib = ranking.rank(case_of(first=held(near), crib=(near, item("8.45 mm", chance=0.9))))
    assert (labels(sure_of_crib.in_crib), sure_of_crib.by_chance) == (["8.6 mm", "8.45 mm"], False)
    plain = ranking.rank(case_of(first=held(NEAR, SURE), crib=(item("8.6 mm"),)))
    assert (labels(plain.in_crib), plain.by_chance) == (["8.6 mm"], False)
    empty = ranking.rank(case_of(first=held(NEAR, SURE), crib=()))
    assert (labels(empty.in_crib), empty.by_chance) == ([], True)
    assert ranking.rank(case_of(first=held(NEAR, SURE))).by_chance


# --- the drill that a chart gives -------------------------------------------------------------------------


@every(
    ("rows", "good", "label"),
    [
        ((), (), None),
        # a straight one before one of several; one that holds before one that does not; the nearest; the larger
        ((row("8.5 mm", variant="choice"), row("8.9 mm")), (item("8.5 mm"),), "8.9 mm"),
        ((row("8.5 mm"), row("8.7 mm")), (item("8.7 mm"),), "8.7 mm"),
        ((row("8.3 mm"), row("8.6 mm")), (), "8.6 mm"),
        ((row("8.4 mm"), row("8.6 mm")), (), "8.6 mm"),
        ((row("8.8 mm"), row("8.4 mm")), (), "8.4 mm"),
    ],
)
def test_the_drill_of_the_chart(rows, good, label):
    found = ranking.chart_drill_for(case_of(), ranked(*good, rows=rows))
    assert (None if found is None else found.drill.label) == label


def test_labels_are_those_of_the_tables():
    assert [str(find_drill(label).diameter_mm.quantize(Decimal("0.001"))) for label in ("Q", "R", "S")] == [
        "8.433", "8.611", "8.839",
    ]  # fmt: skip
