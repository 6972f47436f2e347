"""The table of threats names every risk once, and only tests that exist."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
ROWS = re.findall(r"^\| API([0-9]+) .*$", (ROOT / "DEVELOPERS.md").read_text("utf-8"), re.M)
TABLE = [line for line in (ROOT / "DEVELOPERS.md").read_text("utf-8").splitlines() if line.startswith("| API")]


def test_ten_risks_in_order():
    assert [str(number) for number in range(1, 11)] == ROWS


def test_every_test_exists():
    for line in TABLE:
        named = re.findall(r"`(tests/[a-z0-9_/]+\.py)`", line)
        assert named, line
        assert [name for name in named if not (ROOT / name).is_file()] == []
