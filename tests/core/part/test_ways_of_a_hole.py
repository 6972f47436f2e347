"""The ways in which a hole can be made and what each costs it: chances, limits and times set by hand.

The hole is 1/4-20 UNC-2B, drilled #7 (0.2010 in), tapped H5 with a clearance of one pitch, 0.05 in.
"""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.core.model import Hole, Length
from borewright.core.part.alternatives import MORE_THREAD, OTHER_SERIES, Alternative, acceptance, alternatives, timed
from borewright.core.part.selection import ToolSet
from borewright.core.part.used_tools import used_tools
from borewright.core.part.within_reach import within_reach
from borewright.core.plan.specify import specify
from borewright.core.requests import Prescribed, Stock, TapBuild
from every import every
from made_parts import asked, inch, specified

THROUGH = Hole("through", thickness=inch(0.5))
#: A changed tool costs a millionth, and of equals the better chance wins by a hundred-millionth of its logarithm.
CHANGED, BETTER = 1e-6, 1e-8


def drilled(own, label, chance, *, series="number", **more):
    """The drill of a hole but for its name and chance; none is in the crib."""
    first = own.drill.recommended
    return replace(
        first, drill=replace(first.drill, label=label, series=series), acceptance=chance, in_stock=None, **more
    )


def tapped(own, limit, chance, **more):
    first = own.tap.recommended
    named = None if limit is None else replace(first.limit, label=limit)
    return replace(first, limit=named, marking=f"1/4-20 {limit}", acceptance=chance, in_stock=None, **more)


def weighed(drills, taps, *, own=None, chances=(0.9, 0.8), least=0.0, stated=None, taps_in_crib=None):
    """Ways of the hole with its own drill and tap at ``chances`` and the other ``drills`` and ``taps``."""
    own = own or specified()
    drill = replace(
        own.drill, recommended=drilled(own, "#7", chances[0]), alternatives=tuple(one(own) for one in drills)
    )
    tap = replace(own.tap, recommended=tapped(own, "H5", chances[1]), alternatives=tuple(one(own) for one in taps))
    hole = replace(own.request.hole, drill=stated)
    found = own._replace(drill=drill, tap=tap, request=replace(own.request, hole=hole, stock=Stock(taps=taps_in_crib)))
    return alternatives(found, used_tools(own), least)


def drill(label, chance, **more):
    return lambda own: drilled(own, label, chance, **more)


def tap(limit, chance, **more):
    return lambda own: tapped(own, limit, chance, **more)


def told(ways):
    return {(*way.fixed[:2],): (way.candidate.acceptance, way.candidate.loss) for way in ways}


def lost(chance, own):
    return max(0.0, math.log(own / chance)) + CHANGED - BETTER * math.log(chance)


def test_each_drill_goes_with_each_tap():
    """Chances are multiplied, losses added; better tools than the hole's own lose nothing but the change."""
    ways = weighed([drill("#6", 0.95), drill("#5", 0.6)], [tap("H3", 0.4), tap("H6", 1.0)])
    assert ways[0].fixed == (None, None, None)
    assert told(ways) == {
        (None, None): (pytest.approx(specified().process.acceptance.both), 0.0),
        (None, "H3"): (pytest.approx(0.36), pytest.approx(lost(0.4, 0.8), rel=1e-9)),
        (None, "H6"): (pytest.approx(0.9), pytest.approx(1e-6, rel=1e-9)),
        ("#6", None): (pytest.approx(0.76), pytest.approx(lost(0.95, 0.9), rel=1e-9)),
        ("#6", "H3"): (pytest.approx(0.38), pytest.approx(lost(0.95, 0.9) + lost(0.4, 0.8), rel=1e-9)),
        ("#6", "H6"): (pytest.approx(0.95), pytest.approx(lost(0.95, 0.9) + 1e-6, rel=1e-9)),
        ("#5", None): (pytest.approx(0.48), pytest.approx(lost(0.6, 0.9), rel=1e-9)),
        ("#5", "H3"): (pytest.approx(0.24), pytest.approx(lost(0.6, 0.9) + lost(0.4, 0.8), rel=1e-9)),
        ("#5", "H6"): (pytest.approx(0.6), pytest.approx(lost(0.6, 0.9) + 1e-6, rel=1e-9)),
    }
    # ln(0.9/0.6) = ln 1.5 = 0.405465; ln(0.8/0.4) = ln 2 = 0.693147
    assert told(ways)["#5", "H3"][1] == pytest.approx(0.405465 + 0.693147, abs=3e-6)
    assert all(way.candidate.time_s == 0 and way.far == 0 for way in ways)
    own = {one.name for one in used_tools(specified())}
    other = next(way.candidate.tools for way in ways if way.fixed[:2] == ("#6", "H3"))
    drills = {"#6 twist drill", "#7 twist drill"}
    assert (own - other, other - own) == (
        {"#7 twist drill", specified().tap.recommended.marking + ", spiral flute, semi-bottoming"},
        {"#6 twist drill", "1/4-20 H3, spiral flute, semi-bottoming"},
    )
    assert {way.drill for way in ways} == drills | {"#5 twist drill"}
    assert {way.prescribed for way in ways if way.drill == "#5 twist drill"} == {
        Prescribed("#5", limit, None) for limit in (None, "H3", "H6")
    }


@every(
    ("least", "kept"),
    [
        # #6 reaches 0.95 x 0.8 = 0.76, with H6 0.95; #7 with H6 0.9; the best is kept where none reaches the least
        (0.76, {("#6", None), (None, "H6"), ("#6", "H6")}),
        (0.761, {(None, "H6"), ("#6", "H6")}),
        (0.95, {("#6", "H6")}),
        (0.96, {("#6", "H6")}),
    ],
)
def test_a_way_reaches_the_least_chance_or_the_best_there_is(least, kept):
    ways = weighed([drill("#6", 0.95)], [tap("H6", 1.0)], least=least)
    assert {way.fixed[:2] for way in ways[1:]} == kept


@every(
    ("drills", "taps", "kept"),
    [
        # what is not sold, has no known chance, or is reamed
        ([drill("#6", 0.95, special=True), drill("#5", None), drill("#4", 0.9, operation="drill_and_ream")], [], set()),
        ([], [tap("H3", None), tap("H2", 0.9, availability="special"), tap(None, 0.9)], set()),
        # a tap of another build is another way, not this one
        ([], [tap("H3", 0.9, style="straight_flute")], set()),
        ([], [tap("H3", 0.9, surface="TiN"), tap("H2", 0.9, substrate="carbide")], set()),
    ],
)  # fmt: skip
def test_what_is_no_way(drills, taps, kept):
    assert {way.fixed[:2] for way in weighed(drills, taps)[1:]} == kept


def test_another_chamfer_is_another_build():
    other = specified(hole=THROUGH).tap.recommended.chamfer
    assert {way.fixed[:2] for way in weighed([], [tap("H3", 0.9, chamfer=other)])[1:]} == set()


def test_the_crib_is_taken_where_it_holds_any_that_will_do():
    def crib(label, chance):
        return lambda own: replace(drilled(own, label, chance), in_stock=True)

    def crib_tap(limit, chance):
        return lambda own: replace(tapped(own, limit, chance), in_stock=True)

    ways = weighed([drill("#6", 0.95), crib("#5", 0.6)], [tap("H3", 0.9), crib_tap("H2", 0.7)])
    assert {way.fixed[:2] for way in ways} == {(drill, tap) for drill in (None, "#5") for tap in (None, "H2")}


def test_a_drill_of_the_drawing_is_the_only_one():
    assert {way.fixed[:2] for way in weighed([drill("#6", 0.95)], [tap("H3", 0.9)], stated="#7")} == {
        (None, None), (None, "H3")
    }  # fmt: skip


@pytest.mark.parametrize("changed", [
    {"drill": None}, {"tap": None}, {"drill": {"acceptance": None}}, {"tap": {"acceptance": None}},
    {"drill": {"operation": "drill_and_ream"}},
], ids=["no drill", "no tap", "drill", "tap", "reamed"])  # fmt: skip
def test_a_hole_without_known_chances_keeps_its_own_way(changed):
    own = specified()
    assert len(alternatives(own, used_tools(own), 0.95)) > 1
    of = {name: None if how is None else replace(getattr(own, name), recommended=replace(
        getattr(own, name).recommended, **how)) for name, how in changed.items()}  # fmt: skip
    (way,) = alternatives(own._replace(**of), used_tools(own), 0.95)
    assert (way.fixed, way.far, way.candidate.loss, way.drill) == ((None, None, None), 0, 0.0, "#7 twist drill")
    assert way.candidate.tools == {one.name for one in used_tools(own)}
    assert alternatives(own._replace(drill=None), (), 0.95)[0].drill == ""


def test_a_chance_that_is_not_known_refuses_nothing():
    own = specified()
    for both in (None, 0.87):
        known = own.process._replace(acceptance=replace(own.process.acceptance, both=both))
        assert acceptance(own._replace(process=known)) == (1.0 if both is None else both)


#: Aluminium is cut to 75 percent up to 1.5 D and to 70 percent beyond it (common practice); a little more is no more.
FAR = {"number": 0, "metric": OTHER_SERIES}


@every(
    ("series", "percent", "own_percent", "own_series", "asked_series", "in_stock", "far"),
    [
        ("number", 70, 70, "number", None, None, 0),
        ("metric", 70, 70, "number", None, None, OTHER_SERIES),
        ("metric", 70, 70, "number", ("number", "metric"), None, 0),
        ("metric", 70, 70, "number", None, True, 0),
        ("metric", 70, 70, "metric", None, None, 0),
        ("number", 95, 70, "number", None, None, MORE_THREAD),
        ("number", 95, 95, "number", None, None, 0),
        ("number", 70, 95, "number", None, None, 0),
        ("metric", 95, 70, "number", None, None, MORE_THREAD + OTHER_SERIES),
        ("metric", 95, 70, "number", None, True, MORE_THREAD),
    ],
)
def test_how_far_a_drill_is_from_what_the_shop_would_take(
    series, percent, own_percent, own_series, asked_series, in_stock, far
):
    own = specified(drill_series=asked_series)
    given = {"expected_percent_thread": Decimal(percent), "percent_thread": Decimal(0)}
    first = drilled(own, "#7", 0.9, series=own_series)
    first = replace(first, expected_percent_thread=Decimal(own_percent), percent_thread=Decimal(0))
    other = replace(drilled(own, "#6", 0.9, series=series, **given), in_stock=in_stock)
    drill = replace(own.drill, recommended=first, alternatives=(other,))
    ways = alternatives(own._replace(drill=drill), used_tools(own), 0.0)
    assert {way.far for way in ways if way.fixed[0] == "#6"} == {far}
    assert {way.of_other_series for way in ways if way.fixed[0] == "#6"} == {bool(far & OTHER_SERIES)}
    assert {way.far for way in ways if way.fixed[0] is None} == {0}


def test_the_length_of_engagement_says_how_much_thread_is_usual():
    """78 percent is within 5 of the 75 that are usual to 1.5 D, 0.375 in, and more than 5 over the 70 beyond it."""
    for stated, depth, far in ((None, 0.37, 0), (None, 0.5, MORE_THREAD), (0.37, 0.5, 0), (0.5, 0.37, MORE_THREAD)):
        length = None if stated is None else inch(stated)
        own = specified(hole=Hole("blind", full_thread_depth=inch(depth)), length_of_engagement=length)
        percents = {"expected_percent_thread": Decimal(78), "percent_thread": Decimal(78)}
        first = replace(drilled(own, "#7", 0.9), expected_percent_thread=Decimal(60), percent_thread=Decimal(60))
        drill = replace(own.drill, recommended=first, alternatives=(drilled(own, "#6", 0.9, **percents),))
        ways = alternatives(own._replace(drill=drill), used_tools(own), 0.0)
        assert {way.far for way in ways if way.fixed[0] == "#6"} == {far}, (stated, depth)


def cut_in(own, *, tap_s, drill_s):
    cutting = replace(own.process.cutting, tap_time_s=tap_s, drill_time_s=drill_s)
    return own._replace(process=own.process._replace(cutting=cutting))


@every(
    ("kind", "tap_s", "drill_s", "longer_s"),
    [
        # semi-bottoming ends at 2.5 threads, plug at 5: 2.5 x 0.05 = 0.125 in less of 0.75 tapped and 0.86 drilled
        ("blind", 6.0, 8.6, -1.0 - 1.25),
        ("blind", 6.0, None, -1.0),
        ("blind", None, 8.6, -1.25),
        # through: 0.125 of 0.8 in of tap travel, and drilled through in any case
        ("through", 6.4, 8.6, -1.0),
    ],
)
def test_a_shorter_chamfer_saves_its_length(kind, tap_s, drill_s, longer_s):
    own = specified(hole=THROUGH if kind == "through" else None, material="grey iron")
    assert own.depths.tap_travel == Decimal("0.8" if kind == "through" else "0.75")
    assert kind == "through" or own.depths.drill_tip_depth == Decimal("0.86")
    assert own.tap.recommended.chamfer.threads_max == 5
    ways = alternatives(cut_in(own, tap_s=tap_s, drill_s=drill_s), used_tools(own), 0.0)
    build = TapBuild("straight_flute", "semi_bottoming")
    assert {way.fixed[2] for way in ways} == {None, build}
    assert {way.candidate.time_s for way in ways if way.fixed[2] is None} == {0}
    assert {round(way.candidate.time_s, 9) for way in ways if way.fixed[2]} == {longer_s}
    (same,) = [way for way in ways if way.fixed == (None, None, build)]
    assert same.candidate.loss == pytest.approx(CHANGED - BETTER * math.log(own.tap.recommended.acceptance), rel=1e-9)
    assert "1/4-20" in max(same.candidate.tools - {one.name for one in used_tools(own)})
    unknown = own._replace(process=own.process._replace(cutting=None))
    assert {way.candidate.time_s for way in alternatives(unknown, used_tools(own), 0.0)} == {0}


def test_a_crib_of_taps_does_not_say_how_they_are_built():
    own = specified(hole=THROUGH)
    taps = (tap("H3", 0.9),)
    builds = {TapBuild("spiral_point", "semi_bottoming"), TapBuild("spiral_flute", "semi_bottoming")}
    assert {way.fixed[2] for way in weighed([], taps, own=own)} == {None, *builds}
    assert {way.fixed[1] for way in weighed([], taps, own=own) if way.fixed[2]} == {None, "H3"}
    assert {way.fixed[2] for way in weighed([], taps, own=own, taps_in_crib=("H3", "H5"))} == {None}


def made(label, build=None, *, time_s=0.0):
    return Alternative(ToolSet(frozenset({label}), 0.9, 0.0, time_s), (label, None, build), f"{label} twist drill")


HARD = asked(material="4140 40 HRC")


def seconds(label):
    found = specify(replace(HARD, prescribed=Prescribed(label)))
    return sum(one.line.time_s for one in found.operations if one.line.time_s is not None)


def test_time_is_that_of_all_operations_against_the_own_way_in_tenths_of_a_second():
    own, other = seconds(None), seconds("13/64")
    assert abs(own - other) > 0.1
    for time_s in (0.0, 0.02, 0.26, -0.26, 7.0):
        first, second, third = timed(HARD, (made(None), made("13/64", time_s=time_s), made(None, time_s=time_s)))
        assert first.candidate.time_s == 0
        exact = time_s + other - own
        assert second.candidate.time_s == pytest.approx(round(10 * exact) / 10, abs=1e-9)
        assert third.candidate.time_s == pytest.approx(round(10 * time_s) / 10, abs=1e-9)
    # half of a step counts upwards: 0.25 is 0.3, -0.25 is -0.2
    half = [timed(HARD, (made(None, time_s=time),))[0].candidate.time_s for time in (0.25, -0.25, 0.249, -0.251)]
    assert half == pytest.approx([0.3, -0.2, 0.2, -0.3], abs=1e-9)


def test_operations_without_a_time_take_none():
    """Without a material no time is held at all: every way takes as long."""
    for way in timed(asked(material=None), (made(None, time_s=1.0), made("13/64", time_s=1.0))):
        assert way.candidate.time_s == pytest.approx(1.0)


def reaching(name, chance, far=0):
    return Alternative(ToolSet(frozenset({name}), chance, 0.0), (name, None, None), name, far)


@every(
    ("ways", "kept"),
    [
        # all as near as the own; at the least chance, not below it
        ({"A": [("a", 0.95, 0), ("b", 0.95, 0), ("c", 0.949, 0)]}, {"A": "ab"}),
        # more thread only where nothing nearer reaches it
        ({"A": [("a", 0.95, 0), ("b", 0.99, 2)]}, {"A": "a"}),
        ({"A": [("a", 0.9, 0), ("b", 0.95, 2), ("c", 0.95, 2)]}, {"A": "bc"}),
        # another series is bought for no hole, however well it does
        ({"A": [("a", 0.95, 0), ("b", 0.99, 1)]}, {"A": "a"}),
        ({"A": [("a", 0.9, 0), ("b", 0.99, 1), ("c", 0.99, 3)]}, {"A": "a"}),
        # one that another hole has in its own series may serve, but not with more thread, nor below the least chance
        ({"A": [("a", 0.95, 0), ("b", 0.95, 1)], "B": [("b", 0.95, 0)]}, {"A": "ab", "B": "b"}),
        ({"A": [("a", 0.95, 0), ("b", 0.949, 1)], "B": [("b", 0.95, 0)]}, {"A": "a", "B": "b"}),
        ({"A": [("a", 0.95, 0), ("b", 0.99, 3)], "B": [("b", 0.95, 0)]}, {"A": "a", "B": "b"}),
        ({"A": [("a", 0.9, 0), ("b", 0.99, 1)], "B": [("b", 0.95, 0)]}, {"A": "ab", "B": "b"}),
        # its own where nothing reaches the least chance
        ({"A": [("a", 0.1, 0), ("b", 0.2, 0)]}, {"A": "a"}),
    ],
)
def test_ways_no_farther_than_need_be(ways, kept):
    given = {name: tuple(reaching(*way) for way in some) for name, some in ways.items()}
    found = within_reach(given, 0.95)
    assert {name: "".join(way.drill for way in some) for name, some in found.items()} == kept


def test_the_chamfer_of_a_metric_hole_is_in_millimetres():
    """M6, P = 1 mm: 2.5 threads of chamfer less are 2.5 mm."""
    own = specified("M6", Hole("blind", full_thread_depth=Length(Decimal(12), "mm")), "grey iron")
    ways = alternatives(cut_in(own, tap_s=float(own.depths.tap_travel), drill_s=0.0), used_tools(own), 0.0)
    assert {round(way.candidate.time_s, 9) for way in ways if way.fixed[2]} == {-2.5}
