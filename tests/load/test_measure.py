"""The measurements run and tell every goal. What they find is a table, never a verdict of a test."""

from __future__ import annotations

import json
import shutil
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
import measure

GOALS = 19


@pytest.fixture(autouse=True)
def wrk():
    if shutil.which("wrk") is None:
        pytest.fail("wrk is needed: apt-get install wrk")


def told(folder: Path) -> list[dict[str, object]]:
    rows = json.loads((folder / "load.json").read_text("utf-8"))
    assert len((folder / "load.md").read_text("utf-8").splitlines()) == len(rows) + 2
    return rows


def test_every_goal_is_measured(tmp_path):
    measure.write(measure.measure(seconds=0.5, rounds=1, items=80), tmp_path)
    rows = told(tmp_path)
    assert len({row["name"] for row in rows}) == GOALS
    assert all(row["ratio"] >= 0 for row in rows)


@pytest.mark.long
def test_the_table_is_written(capsys):
    """Writes load.md and load.json into .run, as the command does."""
    rows = measure.measure(seconds=3, rounds=3, items=40_000)
    measure.write(rows, measure.ROOT / ".run")
    with capsys.disabled():
        print("\n" + measure.table(rows))
    assert len(told(measure.ROOT / ".run")) == GOALS
