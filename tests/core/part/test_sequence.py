"""Loading orders against instances whose optimum was proved by enumeration (file part_plan_instances.json)."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from itertools import product
from pathlib import Path

import pytest
from borewright.core.part.sequence import loading
from hypothesis import given
from hypothesis import strategies as st

INSTANCES = json.loads((Path(__file__).parents[2] / "derived" / "part_plan_instances.json").read_text("utf-8"))
SEQUENCES = [case for case in INSTANCES["cases"] if case["kind"] == "sequence"]


def serves(tools: Sequence[str], order: Iterable[str]) -> bool:
    """Whether an order is a subsequence of the tools."""
    rest = iter(tools)
    return all(tool in rest for tool in order)


@pytest.mark.parametrize("case", SEQUENCES, ids=lambda case: case["id"])
def test_fewest_loads(case):
    found = loading(case["sequences"])
    assert found.proved
    assert len(found.tools) == case["expect"]["fewest_loads"]
    assert len(set(found.tools)) == case["expect"]["distinct_tools"]
    assert (len(found.tools) == len(set(found.tools))) is case["expect"]["each_tool_once"]
    assert all(serves(found.tools, order) for order in case["sequences"])


ORDERS = st.lists(st.lists(st.sampled_from("abc"), min_size=1, max_size=3, unique=True), min_size=1, max_size=3)


@given(orders=ORDERS)
def test_no_shorter_plan_exists(orders):
    """Enumeration of every shorter row of tools; three tools and three orders leave 3**n of them."""
    found = loading(orders)
    assert all(serves(found.tools, order) for order in orders)
    shorter = product("abc", repeat=min(len(found.tools) - 1, 6))
    assert not any(all(serves(tools, order) for order in orders) for tools in shorter)


def test_what_is_too_large_to_search_is_still_a_plan_and_not_called_proved():
    orders = [[f"d{number}", f"c{number % 3}", f"d{(number + 7) % 20}"] for number in range(20)]
    found = loading(orders)
    assert not found.proved
    assert all(serves(found.tools, order) for order in orders)


def test_rank_decides_between_tools_that_may_come_next():
    assert loading([["spot", "drill-b"], ["spot", "drill-a"]], rank={"drill-b": 1, "drill-a": 2}).tools == (
        "spot",
        "drill-b",
        "drill-a",
    )
