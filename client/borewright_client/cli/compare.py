"""`borewright compare`: kept specifications in, what the service answers otherwise now out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import click

from ..client import Client, Reply
from .batch import opened
from .command import argument, command, option
from .exit_codes import REFUSED, REJECTED, WrongUse
from .holes import is_csv

#: What a line that can be compared by itself has.
_COMPARED = "before"


def _judge(reply: Reply) -> int:
    return REFUSED if reply["failed"] else REJECTED if reply["update"] else 0


@command(
    "compare", "what the service answers otherwise now than when specifications were kept",
    argument("kept", "FILE"),
    option("--holes", metavar="FILE", type=click.Path(),
           help="requests of now, .csv or .ndjson, by id, or else by place; needed where none were kept"),
    examples=("old.ndjson", "old.ndjson --holes holes.csv", "old.ndjson --csv"),
    more="FILE is .ndjson, as `borewright batch --with-requests` writes it; or a reply, or before and after, a line.\n"
    "Whether it matters: a tool, depth, limit, gauge, operation, decision or caution differs.\n",
    judge=_judge,
)  # fmt: skip
def compare(client: Client, options: SimpleNamespace) -> Reply:
    """Counts by verdict, and what differs in each specification that is not kept."""
    counts = dict.fromkeys(("items", "keep", "update", "review", "failed"), 0)
    results: list[Mapping[str, Any]] = []
    for result in client.compare_batch(_items(options)):
        verdict = result["comparison"]["verdict"] if "comparison" in result else "failed"
        counts["items"] += 1
        counts[verdict] += 1
        if verdict != "keep":
            results.append(result)
    return {**counts, "results": results}


def _items(options: SimpleNamespace) -> Iterator[Mapping[str, Any]]:
    if is_csv(options.kept):
        raise WrongUse(f"{options.kept}: what was kept is .ndjson, a specification a line")
    requests = [hole.request for hole in opened(Path(options.holes))] if options.holes else []
    by_id = {request["id"]: request for request in requests if request.get("id")}
    for place, line in enumerate(opened(Path(options.kept))):
        item = line.request if _COMPARED in line.request else {_COMPARED: line.request}
        name = item.get("id") or item[_COMPARED].get("id") or f"line {line.row}"
        request = by_id.get(name) or (requests[place] if not by_id and place < len(requests) else None)
        yield {"id": name, **item} if request is None else {"id": name, **item, "after": request}
