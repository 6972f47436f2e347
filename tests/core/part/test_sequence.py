"""Loading orders against instances whose optimum was proved by enumeration (file part_plan_instances.json)."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from itertools import product
from pathlib import Path

import pytest
from borewright.core.part import sequence
from hypothesis import given
from hypothesis import strategies as st

INSTANCES = json.loads((Path(__file__).parents[2] / "derived" / "part_plan_instances.json").read_text("utf-8"))
SEQUENCES = [case for case in INSTANCES["cases"] if case["kind"] == "sequence"]


def loading(orders, *, first=()):
    """A loading plan in which of the tools that may come next those named ``first`` do so, then by name."""
    names = sorted({tool for order in orders for tool in order}, key=lambda tool: (tool not in first, tool))
    ranked = [*first, *(tool for tool in names if tool not in first)]
    return sequence.loading(orders, rank={tool: place for place, tool in enumerate(ranked)})


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
    spotted = [["spot", "drill-b"], ["spot", "drill-a"]]
    assert loading(spotted, first=("drill-b",)).tools == ("spot", "drill-b", "drill-a")
    assert loading(spotted).tools == ("spot", "drill-a", "drill-b")
    # with a tool that comes twice in a hole: c, and whichever is named first
    assert loading([["c", "b", "c"], ["c", "a"]], first=("b",)).tools == ("c", "b", "a", "c")
    assert loading([["c", "b", "c"], ["c", "a"]], first=("a",)).tools == ("c", "a", "b", "c")


def test_orders_without_a_cycle_are_proved_however_many_they_are():
    """26 tools in the order of the alphabet, each hole with three of them: each is loaded once."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    orders = [[letters[place], letters[(place * 7) % 13 + 13]] for place in range(13)] + [[one] for one in letters]
    found = loading(orders)
    assert found.proved
    assert sorted(found.tools) == list(letters)
    assert loading([]) == sequence.LoadingOrder((), True)
    assert loading([[], ["a"]]).tools == ("a",)


def repeated(lengths):
    """Orders of these lengths that use the tool a twice and differ in their last tool only."""
    return [["a", "a", *"bcdef"[: length - 3], f"end{number}"] for number, length in enumerate(lengths)]


@pytest.mark.parametrize(
    ("lengths", "proved"),
    [
        ((4, 4, 4, 4, 4, 7, 7), True),  # 5**5 x 8**2 = 200 000 states, the most that are searched
        ((7,) * 6, False),  # 8**6 = 262 144
        ((7,) * 5, True),  # 8**5 = 32 768
    ],
)
def test_so_many_states_are_searched(lengths, proved):
    orders = repeated(lengths)
    found = loading(orders)
    assert found.proved is proved
    assert len(found.tools) == len({tool for order in orders for tool in order}) + 1
    assert all(serves(found.tools, order) for order in orders)


def test_what_is_not_searched_loads_first_what_most_holes_wait_for():
    """Seven holes wait for z, one for a; then six for y and one for b; of equal ones by rank."""
    orders = [["z", "y", "z", "x", "w", "v", f"end{number}"] for number in range(6)]
    orders += [["z", "b", "z", "x", "w", "v", "u"], ["a", "z", "a", "c", "d", "e", "f"]]
    found = loading(orders)
    assert not found.proved
    assert found.tools[:4] == ("z", "y", "z", "x")
    assert all(serves(found.tools, order) for order in orders)
