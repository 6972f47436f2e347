"""The problem that is left to choose, its choice hole by hole and its order, worked by hand."""

from __future__ import annotations

import math

import pytest
from borewright.core.part.selection import (
    Row,
    ToolSet,
    best_of,
    best_with,
    components,
    core_of,
    greedy,
    least_loss,
    least_time,
    log_chance,
)


def way(tools, loss=0.0, time=0.0, acceptance=1.0):
    return ToolSet(frozenset(tools.split()), acceptance, loss, time)


def row(name, *candidates, count=1):
    return Row(tuple(name.split()), count, candidates)


def left(rows):
    """What core_of leaves, as text: needed tools; holes, count and candidates of each row."""
    core = core_of(rows)
    return set(core.needed), {
        " ".join(one.holes): (one.count, {" ".join(sorted(each.tools)) for each in one.candidates}) for one in core.rows
    }


def test_the_logarithm_of_no_chance_is_that_of_a_billionth_of_a_thousandth():
    assert log_chance(1.0) == 0
    assert log_chance(0.5) == pytest.approx(-math.log(2))
    assert log_chance(1e-11) == pytest.approx(-11 * math.log(10))
    assert log_chance(0.0) == log_chance(-0.1) == pytest.approx(-12 * math.log(10))


def test_a_way_that_is_beaten_is_dropped():
    """A drill less and no worse beats; with less loss or less time a longer list of tools stays."""
    a, b = way("d1 t", 0.1, 5), way("d2 t", 0.1, 5)
    assert left([row("h", a, b)]) == ({"t"}, {"h": (1, {"d1", "d2"})})
    for more, kept in ((way("d1 t x", 0.1, 5), False), (way("d1 t x", 0.05, 5), True), (way("d1 t x", 0.1, 4), True),
                       (way("d1 t x", 0.2, 9), False), (way("d1 t x", 0.05, 9), True)):  # fmt: skip
        assert ("d1 x" in left([row("h", a, b, more)])[1]["h"][1]) is kept, more


def test_of_two_ways_with_the_same_tools_the_better_stays():
    better, worse, faster = way("a", 0.1, 5), way("a", 0.2, 5), way("a", 0.2, 4)
    core = core_of([row("h", worse, better, way("b"))])
    assert {(each.loss, each.time_s) for each in core.rows[0].candidates} == {(0.1, 5.0), (0.0, 0.0)}
    core = core_of([row("h", faster, better, way("b", 0.3, 1))])
    assert {(each.loss, each.time_s) for each in core.rows[0].candidates} == {(0.1, 5.0), (0.2, 4.0), (0.3, 1.0)}


def test_what_a_row_needs_in_any_case_is_taken_out_of_all():
    """h1 needs t1 and d1; with d1 at hand h2's other way loses nothing by it and d2 is not needed; nothing is left."""
    rows = [row("h1", way("d1 t1")), row("h2", way("d1 t2"), way("d2 t2"))]
    assert left(rows) == ({"d1", "t1", "t2"}, {"h1 h2": (2, {""})})


def test_rows_with_the_same_ways_are_one():
    same = way("a"), way("b")
    assert left([row("h2", *same, count=3), row("h1", *same[::-1], count=2)]) == (set(), {"h1 h2": (5, {"a", "b"})})


def test_rows_that_share_no_tool_are_solved_apart():
    """h1 and h2 share b, h2 and h3 share c, h4 nothing with them; a row with nothing to choose is none."""
    rows = [row("h1", way("a"), way("b")), row("h2", way("b"), way("c")), row("h3", way("c d"), way("e")),
            row("h4", way("x"), way("y")), row("h5", way(""))]  # fmt: skip
    groups = {tuple(sorted(each.holes[0] for each in group)) for group in components(rows)}
    assert groups == {("h1", "h2", "h3"), ("h4",)}


def test_the_choice_hole_by_hole():
    """Fewest new tools, then least loss, then by name; rows with the fewest ways first, of those the most holes."""
    assert greedy([row("h", way("a b", 0.0), way("c", 0.5))]) == {"c"}
    assert greedy([row("h", way("a", 0.2), way("b", 0.1))]) == {"b"}
    assert greedy([row("h", way("b", 0.1), way("a", 0.1))]) == {"a"}
    # h2 has one way, so that c is there when h1 is asked: c costs nothing new
    assert greedy([row("h1", way("a", 0.0), way("c", 0.5)), row("h2", way("c"))]) == {"c"}
    # as many ways each: the row of nine holes chooses first
    often = row("h2", way("b", 0.0), way("c", 0.1), count=9)
    assert greedy([row("h1", way("a", 0.0), way("b", 0.1)), often]) == {"b"}
    assert greedy([row("h1", way("a", 0.0), way("b", 0.1), count=9), row("h2", way("b", 0.0), way("c", 0.1))]) == {
        "a", "b"
    }  # fmt: skip


def test_the_best_way_that_tools_allow():
    slow, fast, other = way("a", 0.1, 9), way("a b", 0.2, 3), way("c", 0.0, 0)
    hole = row("h1 h2", fast, slow, other)
    at_hand = frozenset("ab")
    assert best_of(hole, at_hand) is slow
    assert best_of(hole, at_hand, least_time) is fast
    assert best_with([hole], at_hand, least_loss) == {"h1": slow, "h2": slow}
    assert best_of(hole, frozenset("abc")) is other
    # equal in loss: the faster; equal in time: the less loss
    assert best_of(row("h", way("a", 0.1, 9), way("b", 0.1, 3)), at_hand).time_s == 3
    assert best_of(row("h", way("a", 0.2, 3), way("b", 0.1, 3)), at_hand, least_time).loss == 0.1
    with pytest.raises(ValueError, match="empty"):
        best_of(hole, frozenset("b"))


def test_rows_stand_by_the_names_of_their_holes_and_equal_sets_by_those_of_their_tools():
    """So that the same part is solved alike in whatever order its holes are sent."""
    rows = [row("h3", way("c"), way("d")), row("h1", way("a"), way("b")), row("h2", way("e"), way("f"))]
    assert [one.holes for one in core_of(rows).rows] == [("h1",), ("h2",), ("h3",)]
    # of a, d and b, c the first name decides
    assert greedy([row("h", way("b c", 0.1), way("a d", 0.1))]) == {"a", "d"}
