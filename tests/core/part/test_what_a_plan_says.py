"""What the plan of a part says of its holes: what changes and why, what is to be decided, spare taps."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

from borewright.core.part.alternatives import alternatives
from borewright.core.part.changes import changes
from borewright.core.part.model import PartHole, PartPlan, PartRequest, Times
from borewright.core.part.part_notes import notes
from borewright.core.part.planned import _Alone, _Together, plan_part
from borewright.core.part.selection import Selection, Stage
from borewright.core.part.spare_taps import spare_taps
from borewright.core.part.tool_list import tool_list
from borewright.core.part.used_tools import used_tools
from borewright.core.plan.specify import specify
from borewright.core.requests import Prescribed
from borewright.core.shop_figures.figures import MeasuredTapLife, ShopFigures
from borewright.core.time_left import UNBOUNDED
from every import every
from made_parts import asked, line, planned, specified
from scipy.special import pdtrik

TIMES = Times(6.0, 1.0)


def figured(*, both=0.99, percent="75", expected="70", torque=2.0):
    """The hole with these figures: chance, percent of thread by drill and by hole, torque of its tap."""
    own = specified()
    acceptance = replace(own.process.acceptance, both=both)
    cutting = own.process.cutting
    if torque is None:
        cutting = None
    else:
        band = cutting.tap.torque._replace(value=torque)
        tap = cutting.tap._replace(torque=None if torque == 0 else band)
        cutting = replace(cutting, tools=replace(cutting.tools, tap=tap))
    percents = {"percent_thread": Decimal(percent), "expected_percent_thread": expected and Decimal(expected)}
    drill = replace(own.drill, recommended=replace(own.drill.recommended, **percents))
    return own._replace(drill=drill, process=own.process._replace(acceptance=acceptance, cutting=cutting))


def of(name, drill, tap, **figures):
    return planned(name, line("drill", label=drill), line("tap", marking=tap), of=figured(**figures))


def test_a_hole_that_keeps_its_tools_does_not_change():
    own = of("A", "#7", "H5")
    assert changes([own], {"A": own}, 0.95) == ()


@every(
    ("now", "before", "differences"),
    [
        # percent of the hole that is expected, else of the drill; what is not known on both sides is not told
        ({"expected": "68"}, {}, (-2.0, 0.0, 0.0)),
        ({"percent": "72", "expected": None}, {"percent": "75", "expected": None}, (-3.0, 0.0, 0.0)),
        ({"percent": "72", "expected": None}, {}, (2.0, 0.0, 0.0)),
        ({"both": 0.96}, {}, (0.0, -0.03, 0.0)),
        ({"both": 0.99 + 1e-12}, {}, (0.0, 0.0, 0.0)),
        ({"both": None}, {}, (0.0, None, 0.0)),
        ({}, {"both": None}, (0.0, None, 0.0)),
        ({"torque": 2.5}, {}, (0.0, 0.0, 0.5)),
        ({"torque": None}, {}, (0.0, 0.0, None)),
        ({}, {"torque": 0}, (0.0, 0.0, None)),
    ],
)
def test_what_a_change_costs(now, before, differences):
    (found,) = changes([of("A", "#6", "H5", **now)], {"A": of("A", "#7", "H5", **before)}, 0.95)
    told = (found.percent_thread, found.acceptance, found.torque_n_m)
    assert tuple(one if one is None else round(one, 9) for one in told) == differences
    assert (found.hole, found.before, found.after) == ("A", ("#7 twist drill",), ("#6 twist drill",))


def test_a_change_without_a_drill_has_no_percent():
    own, now = of("A", "#7", "H5"), of("A", "#7", "H3")
    bare = replace(now, specification=now.specification._replace(drill=None))
    (found,) = changes([bare], {"A": own}, 0.95)
    assert (found.percent_thread, found.before, found.after) == (
        None, ("H5, spiral flute, plug",), ("H3, spiral flute, plug",)
    )  # fmt: skip


def test_a_change_says_why():
    own = {name: of(name, "#7", "H5") for name in "AB"} | {"C": of("C", "#6", "H5", both=0.9)}
    moved = [of("A", "#6", "H3"), of("B", "#6", "H5"), own["C"]]
    first, second = changes(moved, own, 0.95)
    assert first.why == "#6 twist drill serves B, C too"
    assert second.why == "#6 twist drill serves A, C too"
    # a hole below the least chance by itself; both of its tools are new and serve others
    moved = [own["A"], of("B", "#7", "H5"), of("C", "#7", "H3", both=0.96), of("D", "#6", "H3")]
    (third, *_) = changes([moved[2], moved[0], moved[3]], {**own, "D": moved[3]}, 0.95)
    assert third.why == (
        "by itself it reaches 90.0 %, less than the 95.0 % asked for; #7 twist drill serves A too;"
        " H3, spiral flute, plug serves D too"
    )
    for both in (0.95, None):  # at the least chance, or not known
        (alone,) = changes([of("A", "#6", "H5")], {"A": of("A", "#7", "H5", both=both)}, 0.95)
        assert alone.why == "it takes less time"


def test_a_tool_that_serves_many_names_twelve_holes():
    for others, end in ((12, "h12 too"), (13, "h12 and 1 more too"), (20, "h12 and 8 more too")):
        holes = [of("A", "#6", "H5"), *(of(f"h{number}", "#6", "H5") for number in range(1, others + 1))]
        own = {one.hole.name: one for one in holes} | {"A": of("A", "#7", "H5")}
        (found,) = changes(holes, own, 0.95)
        assert found.why.endswith(end), found.why
        assert found.why.count("h") == 12


REQUEST = PartRequest((), 0.95, "fewest_tools", TIMES)


def drilled(series, in_stock=None, asked_series=None, label="5.1 mm", of=None):
    own = of or specified(drill_series=asked_series)
    first = own.drill.recommended
    first = replace(first, drill=replace(first.drill, series=series, label=label), in_stock=in_stock)
    return planned("A", "drill", of=own._replace(drill=replace(own.drill, recommended=first)))


@every(
    ("series", "in_stock", "asked_series", "told"),
    [
        ("metric", None, None, True),
        ("metric", False, None, True),
        ("metric", True, None, False),
        ("metric", None, ("metric",), False),
        ("number", None, None, False),
        ("letter", True, None, False),
    ],
)
def test_drills_that_an_inch_shop_may_not_have_are_named(series, in_stock, asked_series, told):
    holes = [drilled(series, in_stock, asked_series), planned("B", "drill", of=specified()._replace(drill=None))]
    found = " | ".join(notes(REQUEST, [*holes, *holes]).assumptions)
    assert ("of another series than the threads'" in found) is told
    assert found.count("5.1 mm") == told
    assert "of another series" not in " | ".join(notes(REQUEST, [drilled("metric", of=specified("M6"))]).assumptions)


def test_times_that_are_usual_are_said_with_their_field():
    for usual in ((), ("tool_changes",), ("positioning",), ("tool_changes", "positioning")):
        request = replace(REQUEST, times=Times(7.5, 1.25, frozenset(usual)))
        found = notes(request, [planned("A", "drill", of=specified(material=None))])
        said = " | ".join(found.assumptions)
        assert ("chip to chip takes 7.5 s" in said, "machine.tool_change_time" in said) == (
            "tool_changes" in usual,
        ) * 2
        assert ("next hole and settling there takes 1.25 s" in said) is ("positioning" in usual)
        assert [one.field for one in found.sources] == [f"time.{name}" for name in usual]
    found = notes(REQUEST, [planned("A", "drill", of=specified(material=None)), planned("B", "drill")])
    assert [(one.field, one.status) for one in found.sources] == [("time.cutting", "computed")]
    assert "every hole keeps at least 95.0 % chance of acceptance where it is known" in found.assumptions


def breaking(rate, count=1, name="A", marking="H5"):
    life = MeasuredTapLife(count=400, rate=rate, rate_high=rate, broken=3)
    request = asked(shop_figures=None if rate is None else ShopFigures(tap_life=(life,)))
    return planned(name, "drill", line("tap", marking=marking), count=count, of=specified()._replace(request=request))


@every(
    ("rate", "count", "lot", "spares"),
    [
        # Poisson's printed tables: of 0.05 none in 0.9512; of 0.1 none in 0.9048, one or none in 0.9953; of 1 two or
        # fewer in 0.9197, three in 0.9810; of 3 five in 0.9161, six in 0.9665; of 10 fourteen in 0.9165, 15 in 0.9513
        (0.05, 1, 1, None),
        (0.1, 1, 1, 1),
        (0.01, 10, 10, 3),
        (0.0075, 4, 100, 6),
        (0.1, 5, 20, 15),
        (-math.log(0.95), 1, 1, None),  # none in just 0.95 of the lots
        (None, 4, 100, None),
    ],
)
def test_spare_taps_are_enough_for_nineteen_lots_of_twenty(rate, count, lot, spares):
    hole = breaking(rate, count)
    found = list(spare_taps([hole], tool_list([hole]), lot))
    if spares is None:
        assert found == []
        return
    expected = f"{rate * count * lot:.2g} are expected to break in {count * lot:,} holes by what the shop counted"
    assert found == [f"{spares} spare of H5, spiral flute, plug: {expected}"]


def test_spares_of_the_holes_that_a_tap_serves_are_added():
    """H5: 0.5 x 2 + 1 x 1 + 0 of a hole without figures = 2, five or fewer in 0.9834, four in 0.9473; H3: 1."""
    holes = [breaking(0.5, 2, "A"), breaking(1.0, 1, "B"), breaking(None, 7, "C"), breaking(1.0, 1, "D", "H3")]
    found = list(spare_taps(holes, tool_list(holes), 1))
    assert [(text.split(":")[0], text.split(" in ")[1].split()[0]) for text in found] == [
        ("5 spare of H5, spiral flute, plug", "10"),
        ("3 spare of H3, spiral flute, plug", "1"),
    ]


def test_a_large_lot_has_as_many_spares_as_the_distribution_says():
    """Poisson as SciPy has it; from 500 breaks on where the next term of the approximation would tell."""
    hole = breaking(0.001, 1000)
    for lot in (200, 499, 500, 501, 627, 629, 657, 658, 659, 744, 800, 5000, 100_000, 1_000_000):
        (text,) = spare_taps([hole], tool_list([hole]), lot)
        assert int(text.split()[0]) == math.ceil(pdtrik(0.95, lot)), lot


def taking(pick):
    """A solver that takes what ``pick`` says of each row, and remembers the rows that it was asked."""
    seen = []

    def solve(rows, request):
        seen.append(rows)
        chosen = {name: pick(row) for row in rows for name in row.holes}
        return Selection(chosen, 3, (Stage("tools", 5, 5, True), Stage("loss", 0.25, 0.125, False)))

    return solve, seen


def part(*holes, objective="fewest_tools", least=0.95, **more):
    return PartRequest(holes, least, objective, TIMES, **more)


def test_equal_holes_are_one_row_with_the_counts_of_all():
    first, other = PartHole("A", asked(id="A"), 3, "/holes/0"), PartHole("B", asked(id="B"), 4, "/holes/1")
    third = PartHole("C", asked("5/16-18 UNC-2B"), 1)
    solve, seen = taking(lambda row: row.candidates[0])
    found = plan_part(part(first, third, other), solve)
    assert [(row.holes, row.count) for row in seen[0]] == [(("A", "B"), 7), (("C",), 1)]
    assert [one.hole.name for one in found.holes] == ["A", "C", "B"]
    assert (found.changes, found.bound, found.optimal, found.proved) == ((), 3, False, ("tools",))
    assert found.loss == Stage("loss", 0.25, 0.125, False)
    assert (found.by_themselves, found.saved) == (6, (0, 6, 6))  # spot drill and countersink serve both threads
    assert (found.verdict, found.review, found.refused) == ("ready", (), ())
    assert [one.named_specification().request.id for one in found.holes] == ["A", "C", "B"]
    assert isinstance(found, PartPlan)


def test_as_specified_a_hole_has_its_own_way_only():
    solve, seen = taking(lambda row: row.candidates[0])
    hole = PartHole("A", asked())
    for objective, many in (("as_specified", False), ("fewest_tools", True), ("least_time", True)):
        seen.clear()
        plan_part(part(hole, objective=objective), solve)
        assert (len(seen[0][0].candidates) > 1) is many
        assert len(seen) == 1


def test_times_are_compared_where_the_least_time_is_asked_only():
    """Of 4140 at 40 HRC #8 cuts some tenths of a second longer than #7."""
    times = []
    for objective in ("fewest_tools", "least_time"):
        solve, seen = taking(lambda row: row.candidates[0])
        plan_part(part(PartHole("A", asked(material="4140 40 HRC")), objective=objective), solve)
        times.append({one.time_s for one in seen[0][0].candidates})
    assert times[0] == {0}
    assert len(times[1]) > 1


def test_a_way_that_the_hole_does_not_bear_out_is_not_offered_again():
    """Of 1/2-13 a tap of H11 would leave a decision (threads that often miss their limits), whatever the drill; with
    each of five drills it is taken until none is left, then the first way, the hole's own."""

    def oversize(row):
        return next((one for one in row.candidates if any("H11" in tool for tool in one.tools)), row.candidates[0])

    solve, seen = taking(oversize)
    every_series = ("fractional", "number", "letter", "metric")
    hole = PartHole("A", asked("1/2-13 UNC-2B", drill_series=every_series))
    found = plan_part(part(hole, least=0.3), solve)
    rows = [one for (one,) in seen]
    assert len(rows) == 6
    for before, after in pairwise(rows):
        assert set(before.candidates) - set(after.candidates) == {oversize(before)}
    assert [len(one.candidates) for one in rows] == list(
        range(len(rows[0].candidates), len(rows[0].candidates) - 6, -1)
    )
    assert (found.holes[0].specification.review, found.changes) == ((), ())
    assert frozenset(one.name for one in found.holes[0].used) == rows[0].candidates[0].tools


def test_a_hole_is_warned_only_where_its_own_way_does_not_do():
    """10.6 mm makes 1/2-13 UNC-3B in titanium as a rule, its own 27/64 in one hole of ten; but the tap turns harder."""

    def drilled_smaller(row):
        return next((one for one in row.candidates if "10.6 mm twist drill" in one.tools), row.candidates[0])

    hole = PartHole("A", asked("1/2-13 UNC-3B", material="Ti-6Al-4V", drill_series=("fractional", "metric")))
    own = specified("1/2-13 UNC-3B", None, "Ti-6Al-4V", drill_series=("fractional", "metric")).process.acceptance.both
    for least, taken in ((0.95, True), (0.1, False), (own, False), (own + 1e-9, True)):
        solve, seen = taking(drilled_smaller)
        (made,) = plan_part(part(hole, least=least), solve).holes
        assert drilled_smaller(seen[0][0]).acceptance > 0.95
        assert ("10.6 mm twist drill" in {one.name for one in made.used}) is taken
        assert ("tap_break_risk" in {one.code for one in made.specification.cautions()}) is taken


def test_a_drill_of_another_series_that_just_reaches_the_least_chance_is_proposed():
    """Of 3/8-16 UNC-3B in grey iron no inch drill but 5/16 holds 0.3070 to 0.3141 in; 7.9 mm (0.3110 in) does too."""
    request = asked("3/8-16 UNC-3B", material="grey iron class 30")
    own = specified("3/8-16 UNC-3B", None, "grey iron class 30")
    best = max(way.candidate.acceptance for way in alternatives(own, used_tools(own), 1.0))
    for least, words in ((best, "No drill of the thread's own series"), (best + 1e-9, "No tools make this hole")):
        solve, _ = taking(lambda row: row.candidates[0])
        (one,) = plan_part(part(PartHole("A", request), least=least), solve).review
        assert one.text.startswith(words)
        assert "mm twist drill" in one.text


def test_who_must_decide_is_named_with_the_best_that_can_be_reached():
    """With a least chance of one nothing is reached; with none everything is."""
    solve, _ = taking(lambda row: row.candidates[0])
    hole = PartHole("A", asked())
    own = specified().process.acceptance.both
    assert plan_part(part(hole, least=own), solve).review == ()
    (one,) = plan_part(part(hole, least=1.0), solve).review
    assert (one.code, one.hole) == ("least_acceptance_not_reached", "A")
    # of the chances 0.99994 of H5 and H3 and 0.99999 of #8 and 5 mm the best pair is one of #8's or 5 mm's
    assert one.text.startswith(
        "No tools make this hole with the least acceptance of 100.0 %: with its own it reaches 98.6 %"
    )
    assert ", at best 99.99" in one.text
    assert one.text.endswith("Decide: accept less, or ream the hole, or change its limits.")
    (alone,) = plan_part(part(hole, least=1.0, objective="as_specified"), solve).review
    assert alone.text == (
        "No tools make this hole with the least acceptance of 100.0 %: with its own it reaches 98.6 %, and none reach"
        " more. Decide: accept less, or ream the hole, or change its limits."
    )


def test_the_verdict_of_a_part_is_that_of_its_worst_hole():
    solve, _ = taking(lambda row: row.candidates[0])
    good, bad = (
        PartHole("A", asked()),
        PartHole("X", asked(hole=None, thread="M8", prescribed=Prescribed("#80")), 1, "/holes/1"),
    )
    asks = PartHole("B", asked("1 1/4-7 UNC-2B", material="4140 45 HRC"))
    never = PartHole("C", asked(material="4140 66 HRC"))
    assert plan_part(part(good), solve).verdict == "ready"
    found = plan_part(part(good, asks), solve)
    assert found.verdict == "review"
    own = specified("1 1/4-7 UNC-2B", None, "4140 45 HRC")
    assert [(one.code, one.hole, one.text) for one in found.review] == [(one.code, "B", one.text) for one in own.review]
    assert plan_part(part(good, never), solve).verdict == "infeasible"
    found = plan_part(part(good, bad), solve)
    assert (found.verdict, [one.name for one in found.refused]) == ("infeasible", ["X"])
    assert all(fault.pointer.startswith("/holes/1") for fault in found.refused[0].faults)
    assert plan_part(part(good, refused=found.refused), solve).refused == found.refused
    assert plan_part(part(good, refused=found.refused), solve).verdict == "infeasible"


def ways_of(own, *chances):
    """Ways of a hole with these chances of acceptance, each with a drill of its own that nobody sells."""
    first, *_ = alternatives(own, used_tools(own), 0.95)
    made = [first]
    for number, chance in enumerate(chances):
        tools = first.candidate._replace(tools=frozenset({f"drill {number}"}), acceptance=chance)
        made.append(first._replace(candidate=tools, fixed=(f"drill {number}", None, None)))
    return tuple(made)


@every(("bad", "rounds"), [(0, 1), (3, 4), (11, 12), (12, 13), (13, 13), (30, 13)])
def test_a_hole_that_bears_nothing_out_has_its_own_way_after_twelve_rounds(bad, rounds):
    """Each round takes away the way that was chosen; after the twelfth only the hole's own is left."""
    own = specified()

    def last(row):
        assert len(seen) < 40
        return row.candidates[-1]

    solve, seen = taking(last)
    hole = PartHole("A", own.request)
    one = _Alone((hole,), own, used_tools(own), ways_of(own, *[0.99] * bad))
    _, made = _Together((one,), part(hole), solve, UNBOUNDED).best()
    assert [len(row.candidates) for (row,) in seen] == [1 + bad - count for count in range(rounds - 1)] + [1]
    assert made["A"] == (own, one.used)


@every(("least", "taken"), [(0.85, "drill 0"), (0.9, "drill 0"), (0.91, "drill 1"), (0.99, "drill 1"), (0.995, None)])
def test_the_nearest_way_that_reaches_the_least_chance_is_the_best(least, taken):
    """The first way, of the farther series, has 0.99, the second 0.9; where none reaches it, the likeliest."""
    own = specified()
    first, near, far = ways_of(own, 0.9, 0.99)
    never = first._replace(candidate=first.candidate._replace(acceptance=0.5), far=2)
    one = _Alone((PartHole("A", own.request),), own, used_tools(own), (never, far._replace(far=1), near))
    assert one.best(least).fixed[0] == (taken or "drill 1")


@every(("tools", "more", "stays"), [(None, 0.0, True), (None, 1e-9, False), ("other", 0.0, False)])
def test_a_way_is_borne_out_by_its_very_tools_with_the_least_chance(tools, more, stays):
    """1/4-20 drilled #8 instead of #7: a chance that is just the least one will do."""
    own = specified()
    used = used_tools(own)
    way = next(one for one in alternatives(own, used, 0.0) if one.fixed[0] == "#8" and one.fixed[1] is None)
    if tools is not None:
        way = way._replace(candidate=way.candidate._replace(tools=frozenset({tools})))
    hole = PartHole("A", own.request)
    least = specify(replace(own.request, prescribed=way.prescribed)).process.acceptance.both + more
    one = _Alone((hole,), own, used, (way,))
    solve, _ = taking(lambda row: row.candidates[0])
    found = _Together((one,), part(hole, least=least), solve, UNBOUNDED)._tried(one, way)
    assert (found is not None) is stays


def test_a_hole_is_one_of_one_part_unless_it_is_said():
    solve, seen = taking(lambda row: row.candidates[0])
    found = plan_part(part(PartHole("A", asked())), solve)
    assert [row.count for row in seen[0]] == [1]
    assert found.time.lot_s == found.time.total_s
