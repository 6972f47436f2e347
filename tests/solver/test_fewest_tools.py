"""The fewest tools against instances whose optimum is proved (part_plan_instances.json) and against enumeration."""

from __future__ import annotations

import json
import math
import random
import subprocess
import sys
from collections.abc import Iterable
from itertools import product
from pathlib import Path

import pytest
from borewright.core.part.selection import Row, ToolSet
from borewright.solver.fewest_tools import Work, fewest_tools, least_time

INSTANCES = json.loads((Path(__file__).parents[1] / "derived" / "part_plan_instances.json").read_text("utf-8"))
SELECTIONS = [case for case in INSTANCES["cases"] if case["kind"] == "selection"]


def candidate(tools: list[str], acceptance: float) -> ToolSet:
    return ToolSet(frozenset(tools), acceptance, -math.log(acceptance))


def lost(rows: list[Row], chosen: dict[str, ToolSet]) -> float:
    return sum(row.count * chosen[row.holes[0]].loss for row in rows)


@pytest.mark.parametrize("case", SELECTIONS, ids=lambda case: case["id"])
def test_optimum_of_the_instances(case):
    rows = [
        Row(
            (hole["id"],),
            hole["count"],
            tuple(
                candidate(one["tools"], one["acceptance"])
                for one in hole["candidates"]
                if one["acceptance"] >= case["least_acceptance"]
            ),
        )
        for hole in case["holes"]
    ]
    found = fewest_tools(rows, Work(8))
    assert found.proved
    assert len(found.tools) == case["expect"]["fewest_tools"]
    assert math.exp(-lost(rows, found.candidates)) == pytest.approx(case["expect"]["expected_good_part"], abs=1e-6)


def small_part(seed: int) -> list[Row]:
    """A part with few holes; whole percents and whole seconds, so that many choices lose equally."""
    chance = random.Random(seed)
    rows = []
    for number in range(chance.randint(2, 5)):
        found = {}
        for _ in range(chance.randint(1, 5)):
            tools = (f"drill-{chance.randint(0, 4)}", f"tap-{chance.choice('AB')}{chance.randint(1, 3)}", "csk")
            acceptance = chance.randint(94, 99) / 100
            found[tools] = ToolSet(frozenset(tools), acceptance, -math.log(acceptance), float(chance.randint(0, 9)))
        rows.append(Row((f"h{number}",), chance.randint(1, 9), tuple(found.values())))
    return rows


def figures(rows: list[Row], choice: Iterable[ToolSet]) -> tuple[int, float, float]:
    """Tools, loss and time of a choice, a candidate for each row."""
    choice = tuple(choice)
    pairs = list(zip(rows, choice, strict=True))
    return (
        len(frozenset().union(*(one.tools for one in choice))),
        round(sum(row.count * one.loss for row, one in pairs), 9),
        sum(row.count * one.time_s for row, one in pairs),
    )


def test_enumeration_agrees_on_200_parts():
    """In all three stages; and in the least time with 6 s for a change of tools, of equals with the fewest tools and
    then the least loss."""
    for seed in range(200):
        rows = small_part(seed)
        every = [figures(rows, choice) for choice in product(*(row.candidates for row in rows))]
        found = fewest_tools(rows, Work(8))
        assert found.proved
        assert figures(rows, (found.candidates[row.holes[0]] for row in rows)) == min(every)
        quick = least_time(rows, Work(8), tool_change_s=6.0)
        tools, loss, seconds = figures(rows, (quick.candidates[row.holes[0]] for row in rows))
        least = min((6 * tools + seconds, tools, loss) for tools, loss, seconds in every)
        assert (6 * tools + seconds, tools, loss) == least


def drill_and_tap(kinds: int) -> list[Row]:
    """Holes whose drills and taps are chosen apart, and neighbours share drills; 45 candidates each."""
    chance = random.Random(kinds)
    rows = []
    for number in range(400):
        size, kind = number % 24, chance.randrange(kinds)
        drills = {f"d{3 * size + kind % 3 + step}": 0.001 * abs(step) for step in range(-4, 5)}
        taps = {f"t{size} H{kind % 2 + step}": 0.002 * abs(step) for step in range(-2, 3)}
        pairs = (
            ToolSet(frozenset((drill, tap)), math.exp(-lost - less), lost + less)
            for (drill, lost), (tap, less) in product(drills.items(), taps.items())
        )
        rows.append(Row((f"h{number}",), chance.randint(1, 9), tuple(pairs)))
    return rows


def test_400_holes_with_45_candidates_are_proved():
    found = fewest_tools(drill_and_tap(9), Work(60))
    assert found.proved
    assert sum(tool.startswith("t") for tool in found.tools) == 24  # one tap a size: each accepts what all holes share


def test_time_that_is_over_gives_a_plan_and_the_gap():
    chance = random.Random(1)
    rows = [
        Row(
            (f"h{number}",),
            1,
            tuple(
                candidate([f"d{chance.randint(0, 40)}", f"t{chance.randint(0, 20)}"], chance.uniform(0.9, 1))
                for _ in range(30)
            ),
        )
        for number in range(60)
    ]
    found = fewest_tools(rows, Work(0.0))
    assert set(found.candidates) == {name for row in rows for name in row.holes}
    assert found.at_least <= len(found.tools)


def test_solver_says_nothing(capfd):
    fewest_tools(small_part(3), Work(1))
    assert capfd.readouterr().out == ""


#: Prints from a thread of its own what a log would, while parts are planned; the solver is loaded meanwhile.
_PRINTING = """
import os, threading
from importlib import import_module

printed, ended = 0, threading.Event()

def print_on():
    global printed
    while not ended.is_set():
        os.write(1, b"line %d\\n" % printed)
        printed += 1

writer = threading.Thread(target=print_on)
writer.start()
highs = import_module("borewright.solver.highs")
for _ in range(500):
    highs.Model(1, 1).least([1.0], highs.Deadline(9))
ended.set()
writer.join()
os.write(1, b"%d" % printed)
"""


@pytest.mark.parametrize("closed", ["", "os.close(1)"])
def test_the_solver_takes_nothing_from_what_others_print(closed):
    """A worker's threads print while one of them asks the solver: every line arrives, and nothing else."""
    script = _PRINTING if not closed else f"import os\n{closed}\nimport borewright.solver.highs"
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, check=True, timeout=60)
    *lines, printed = ran.stdout.split(b"\n")
    if not closed:
        assert int(printed) > 1000
        assert sorted(lines) == sorted(b"line %d" % number for number in range(int(printed)))
