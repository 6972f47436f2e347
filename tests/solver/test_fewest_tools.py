"""The fewest tools against instances whose optimum is proved (part_plan_instances.json) and against enumeration."""

from __future__ import annotations

import json
import math
import random
from itertools import product
from pathlib import Path

import pytest
from borewright.core.part.selection import Row, ToolSet
from borewright.solver.fewest_tools import fewest_tools

INSTANCES = json.loads((Path(__file__).parents[1] / "published" / "part_plan_instances.json").read_text("utf-8"))
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
    found = fewest_tools(rows, limit_s=8)
    assert found.proved
    assert len(found.tools) == case["expect"]["fewest_tools"]
    assert math.exp(-lost(rows, found.candidates)) == pytest.approx(case["expect"]["expected_good_part"], abs=1e-6)


def small_part(seed: int) -> list[Row]:
    chance = random.Random(seed)
    rows = []
    for number in range(chance.randint(2, 5)):
        found = {}
        for _ in range(chance.randint(1, 5)):
            tools = (f"drill-{chance.randint(0, 4)}", f"tap-{chance.choice('AB')}{chance.randint(1, 3)}", "csk")
            found[tools] = candidate(list(tools), round(chance.uniform(0.9, 1), 4))
        rows.append(Row((f"h{number}",), chance.randint(1, 9), tuple(found.values())))
    return rows


@pytest.mark.parametrize("first", range(0, 200, 50))
def test_enumeration_agrees(first):
    for seed in range(first, first + 50):
        rows = small_part(seed)
        best = min(
            (
                len(frozenset().union(*(one.tools for one in choice))),
                sum(row.count * one.loss for row, one in zip(rows, choice, strict=True)),
            )
            for choice in product(*(row.candidates for row in rows))
        )
        found = fewest_tools(rows, limit_s=8)
        assert found.proved
        assert (len(found.tools), lost(rows, found.candidates)) == (best[0], pytest.approx(best[1], abs=1e-6))


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
    found = fewest_tools(rows, limit_s=0.0)
    assert set(found.candidates) == {name for row in rows for name in row.holes}
    assert found.at_least <= len(found.tools)


def test_solver_says_nothing(capfd):
    fewest_tools(small_part(3), limit_s=1)
    assert capfd.readouterr().out == ""
