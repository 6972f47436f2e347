"""The table of threats says of each attack what stops it, and names tests that exist."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
PART = (ROOT / "DEVELOPERS.md").read_text("utf-8").partition("\n## Threats\n")[2].partition("\n## ")[0]
ROWS = [line.strip("|").split("|") for line in PART.splitlines() if line.startswith("| ")][1:]


def test_every_attack_has_an_answer():
    assert len(ROWS) > 15
    assert [row for row in ROWS if len(row) != 3 or not all(cell.strip() for cell in row)] == []


def test_every_test_exists():
    for attack, _, tests in ROWS:
        named = re.findall(r"`(tests/[a-z0-9_/]+\.py)`", tests)
        assert named, attack
        assert [name for name in named if not (ROOT / name).is_file()] == []
