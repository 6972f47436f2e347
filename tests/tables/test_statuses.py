"""What is said to have been read stands a second time in ``seen.csv``: no status is promoted in passing.

A row of ``seen.csv`` says of how many rows of a table the document was opened (published), or a copy that names
document and table (second_hand). Whoever reads more, writes it there and tells where.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from pathlib import Path

from borewright import tables

SEEN = Path(__file__).with_name("seen.csv")


def test_no_more_is_said_to_have_been_read_than_was():
    with SEEN.open(encoding="utf-8", newline="") as lines:
        seen = {(row["table"], row["status"], row["document"]): int(row["rows"]) for row in csv.DictReader(lines)}
    said = Counter()
    for name in tables.names():
        table = tables.load(name)
        for row in table.rows:
            status = row.get("status") or table.head["status"]
            document = row.get("source") or row.get("document") or table.head["document"]
            if status == "published":
                said[name, status, document] += 1
            elif status == "second_hand":
                said[name, status, ""] += 1
    differing = {key: (said[key], seen.get(key, 0)) for key in {*said, *seen} if said[key] != seen.get(key, 0)}
    assert differing == {}, "said in the tables, seen by seen.csv"


#: What a row says of itself that nobody read: by rule, from memory, of the shop or our own.
_UNREAD = re.compile(
    r"(?!.*\bseen\b)(memory|common.practice|our own|computed|formula only|derived)\b|.*\bcomputed from the rule"
)


def test_the_printed_rows_of_the_tests_were_read():
    """What was not read lies in ``tests/derived``."""
    files = sorted((Path(__file__).parents[1] / "published").glob("*.csv"))
    assert len(files) > 40
    unread = {}
    for file in files:
        lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
        rows = csv.DictReader(line for line in lines if not line.startswith("# "))
        found = [
            row for row in rows if any(_UNREAD.match(row.get(one) or "") for one in ("status", "deviations_status"))
        ]
        unread |= {file.name: found} if found else {}
    assert unread == {}
