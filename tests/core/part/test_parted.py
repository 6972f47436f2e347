"""A row of holes taken apart where drill and tap can be chosen each for itself, worked by hand."""

from __future__ import annotations

import pytest
from borewright.core.part.part_notes import percent
from borewright.core.part.parted import parted
from borewright.core.part.selection import Row, ToolSet
from every import every


def way(tools, loss=0.0, time=0.0):
    return ToolSet(frozenset(tools.split()), 0.99, loss, time)


def row(*candidates):
    return Row(("h1", "h2"), 7, candidates)


def costs(rows):
    """Tools, loss and time of each candidate, row by row."""
    return [{" ".join(sorted(one.tools)): (one.loss, one.time_s) for one in each.candidates} for each in rows]


#: Losses 0.05 with d1 and t1, 0.1 more for d2 and 0.2 for t2; 3 s, 2 s more and 4 s.
PAIRS = (way("d1 t1", 0.05, 3), way("d1 t2", 0.25, 7), way("d2 t1", 0.15, 5), way("d2 t2", 0.35, 9))


def test_what_adds_up_is_two_rows_of_single_tools():
    found = list(parted([row(*PAIRS)]))
    drills, taps = costs(found)
    assert drills == {"d1": (0, 0), "d2": (pytest.approx(0.1), pytest.approx(2))}
    assert taps == {"t1": (0, 0), "t2": (pytest.approx(0.2), pytest.approx(4))}
    assert {(one.holes, one.count) for one in found} == {(("h1", "h2"), 7)}


def test_three_kinds_of_tools_are_three_rows():
    every_way = [way(f"{s} {d} {t}", 0.1 * (s == "s2") + 0.3 * (d == "d2"), 2.0 * (t == "t2"))
                 for s in ("s1", "s2") for d in ("d1", "d2") for t in ("t1", "t2")]  # fmt: skip
    drills, spots, taps = costs(parted([row(*every_way)]))
    assert drills == {"d1": (0, 0), "d2": (pytest.approx(0.3), 0)}
    assert spots == {"s1": (0, 0), "s2": (pytest.approx(0.1), 0)}
    assert taps == {"t1": (0, 0), "t2": (0, 2)}


@every(
    "candidates",
    [
        (*PAIRS[:3], way("d2 t2", 0.36, 9)),  # the losses do not add up
        (*PAIRS[:3], way("d2 t2", 0.34, 9)),
        (*PAIRS[:3], way("d2 t2", 0.35, 9.1)),  # the times do not
        (*PAIRS[:3], way("d2 t2", 0.35, 8.9)),
        PAIRS[:3],  # a pair is missing
        (*PAIRS, way("d2 t2", 0.4, 3)),  # a pair is there twice
        (way("a"), way("b", 0.1)),  # never together: one group
        (way("a b"), way("b c"), way("a c")),
        (way("a"),),
    ],
)
def test_what_does_not_stays_one_row(candidates):
    whole = row(*candidates)
    assert list(parted([whole])) == [whole]


def test_what_differs_by_a_billionth_is_the_same_figure():
    for loss, time in ((1e-9, 0.0), (0.0, 1e-9)):
        whole = row(way("d1 t1"), way("d1 t2"), way("d2 t1"), way("d2 t2", loss, time))
        assert len(list(parted([whole]))) == 2
        whole = row(way("d1 t1"), way("d1 t2"), way("d2 t1"), way("d2 t2", 2 * loss, 2 * time))
        assert len(list(parted([whole]))) == 1


@every(
    ("chance", "said"),
    [
        (0.95, "95.0 %"),
        (0.99949, "99.9 %"),
        (0.9995, "99.95 %"),
        (0.99999, "99.999 %"),
        (0.9999999, "99.9999 %"),
        (1.0, "100.0 %"),
        (0.0, "0.0 %"),
    ],
)
def test_a_chance_near_1_is_cut_and_not_rounded(chance, said):
    assert percent(chance) == said
