"""The holes of a part that come as a sheet or as lines: read like a batch, gathered before they are planned."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import orjson
from flask import current_app

from borewright.api.problems import Refusal
from borewright.api.strict_json import parse_object
from borewright.contract.requests.part_plan import MOST_HOLES
from borewright.contract.sheets.rows import PART_COLUMNS
from borewright.core.errors import BorewrightError, Fault

from . import bounds, uploads
from .job import NDJSON
from .lines import Broken

Json = dict[str, Any]
#: A hole, or why there is none and the id that it has.
_Found = Json | tuple[str | None, BorewrightError | Refusal]


def holes(form: str, time: bounds.Time) -> tuple[list[Json], dict[int, tuple[Fault, ...]]]:
    """The holes of the current request in their order, and the faults of those that could not be read, by place.

    Raises: Refusal where the upload as a whole cannot be read.
    """
    found: list[Json] = []
    unread: dict[int, tuple[Fault, ...]] = {}
    try:
        for place, one in enumerate(bounds.at_most(_read(form, time), MOST_HOLES)):
            if isinstance(one, dict):
                found.append(one)
            else:
                name, error = one
                found.append({"id": name} if name else {})
                unread[place] = error.faults
            time.check()
    except Broken as error:
        raise Refusal("upload_truncated", f"Nothing was answered: {error}.") from None
    return found, unread


def _read(form: str, time: bounds.Time) -> Iterator[_Found]:
    if form == NDJSON:
        for line in uploads.lines_of_items(time, as_one=True):
            yield _of_line(line)
        return
    for row in uploads.sheet(form, time, PART_COLUMNS, as_one=True):
        yield orjson.loads(row.content) if isinstance(row.content, bytes) else (row.name, row.content)


def _of_line(line: bytes | None) -> _Found:
    if line is None:
        return None, Refusal("line_too_long", "This hole is longer than a line may be, and was skipped.")
    try:
        return parse_object(line, max_depth=current_app.config["BOREWRIGHT"].max_json_depth)
    except (BorewrightError, Refusal) as error:
        return None, error
