"""Requests with what the trade expects of their answers: tests/derived/trade_cases.json, its source in each row."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from borewright.api import create_app

_FILE = Path(__file__).parent.parent / "derived" / "trade_cases.json"
CASES: list[dict[str, Any]] = json.loads(_FILE.read_text(encoding="utf-8"))["cases"]
_STEP = re.compile(r"([a-z_0-9]*)(?:\[(\*|\d+|\?[a-z_]+)\])?")


@pytest.fixture(scope="module")
def client():
    return create_app().test_client()


def found(reply: Any, path: str) -> list[Any]:
    """The values at a dotted path; ``[*]`` is every item, ``[0]`` one, ``[?tap]`` the operations of that name."""
    values = [reply]
    for step in path.split("."):
        name, index = _STEP.fullmatch(step).groups()  # type: ignore[union-attr]
        values = [value.get(name) if isinstance(value, dict) else None for value in values]
        if index is not None:
            values = [item for value in values for item in _items(value or [], index)]
    return values


def _items(listed: list[Any], index: str) -> list[Any]:
    if index == "*":
        return listed
    if index.startswith("?"):
        return [item for item in listed if item["operation"] == index[1:]]
    return listed[int(index) : int(index) + 1]


def holds(check: dict[str, Any], status: int, reply: dict[str, Any]) -> bool:
    """Whether a reply is as a check wants it."""
    if "any" in check:
        return any(holds(one, status, reply) for one in check["any"])
    if "status" in check:
        return status == check["status"]
    values = found(reply, check["path"])
    words = " | ".join(str(value) for value in values)
    tests = {
        "with": lambda wanted: wanted in words,
        "without": lambda wanted: wanted not in words,
        "in": lambda wanted: values[0] in wanted,
        "not": lambda wanted: values[0] != wanted,
        "equals": lambda wanted: bool(values) and values[0] == wanted,
        "near": lambda wanted: abs(values[0] - wanted) <= check["within"],
        "most": lambda wanted: values[0] <= wanted,
        "least": lambda wanted: values[0] is not None and values[0] >= wanted,
        "least_of": lambda other: values[0] >= found(reply, other)[0],
        "null_or_least": lambda other: values[0] is None or values[0] >= found(reply, other)[0],
        "count": lambda wanted: len(values) == wanted,
        "empty": lambda _: values in ([], [[]]),
    }
    return all(test(check[name]) for name, test in tests.items() if name in check)


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['id']}-{case['subject']}")
def test_what_the_trade_expects(client, case):
    answer = client.post(case["endpoint"], json=case["request"])
    assert answer.status_code < 500
    failed = [check for check in case["checks"] if not holds(check, answer.status_code, answer.json)]
    assert failed == [], json.dumps(answer.json, indent=1)[:3000]


def test_every_case_is_checked_and_names_its_source():
    assert len(CASES) >= 75
    assert all(case["checks"] and case["source"] for case in CASES)
