"""Figures from outside the project: ``tests/published`` holds rows that are printed somewhere, their source in the row.

``tests/derived`` holds rows that nobody read: made by a formula, or from memory. Where a test agrees with one of those
it is consistent with it, no more; the file and its column of status say which.
"""

from __future__ import annotations

import csv
from pathlib import Path

TESTS = Path(__file__).parent


def published(name: str) -> list[dict[str, str]]:
    """The printed rows of a table, none where none was read."""
    return _rows(TESTS / "published" / f"{name}.csv")


def derived(name: str) -> list[dict[str, str]]:
    """The rows of a table that were not read."""
    return _rows(TESTS / "derived" / f"{name}.csv")


def outside(name: str) -> list[dict[str, str]]:
    """All rows of a table, the printed ones first."""
    found = published(name) + derived(name)
    assert found, name
    return found


def _rows(path: Path) -> list[dict[str, str]]:
    if not path.exists():
        return []
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("# ")))
