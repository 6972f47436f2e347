"""A part plan as tables: tools, operations once a tool with their holes, holes, changes, what is to be decided."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from typing import Any

from borewright.contract.sheets.flat import as_no_date, found

from . import workbook
from .workbook import Table

Json = Mapping[str, Any]
#: A spreadsheet takes a text that begins so for a formula.
_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r")
_TOOLS = ("tool", "kind", "diameter", "units.length", "count", "in_stock", "availability", "holes")
_OPERATIONS = (
    "step", "stage", "operation", "tool", "count", "spindle_speed", "feed", "units.feed", "time", "tool_change",
    "positioning", "holes", "text",
)  # fmt: skip
_HOLES = (
    "id", "verdict", "headline.drill", "headline.tap", "headline.depth", "headline.speed", "headline.gauge", "spec_id",
)  # fmt: skip
_CHANGES = (
    "hole", "from", "to", "why", "cost.percent_thread", "cost.acceptance", "cost.torque", "units.torque",
)  # fmt: skip
_REVIEW = ("hole", "code", "text", "did_you_mean")


def tables(reply: Json) -> dict[str, Table]:
    """The tables of a reply of POST /v1/part-plans by name."""
    made = (
        _table("tools", _TOOLS, reply["tools"], reply),
        _table("operations", _OPERATIONS, in_order(reply), reply),
        _table("holes", _HOLES, reply["holes"], reply),
        _table("changes", _CHANGES, reply["changes"], reply),
        _table("review", _REVIEW, _to_decide(reply), reply),
    )
    return {table.name: table for table in made}


def in_order(reply: Json) -> Iterator[Json]:
    """Every operation of the ``reply`` in its order: the loadings of each set-up, then what is done away from the
    spindle, which has a ``text`` and neither a step nor a tool.
    """
    steps, away = reply["sequence"], reply["away_from_spindle"]
    stages = {step["stage"] for step in steps} | {one["after_stage"] for one in away}
    for stage in sorted(stages):
        yield from (step for step in steps if step["stage"] == stage)
        yield from ({**one, "stage": stage} for one in away if one["after_stage"] == stage)


def as_workbook(reply: Json) -> bytes:
    """The tables, a sheet each."""
    return workbook.written(tables(reply).values())


def as_csv(table: Table) -> bytes:
    """A table as CSV in UTF-8."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\r\n")
    rows.writerow(table.head)
    rows.writerows([_cell(value) for value in row] for row in table.rows)
    return text.getvalue().encode()


def _cell(value: object) -> str:
    text = workbook.shown(value)
    return f"'{text}" if text.startswith(_FORMULA) and not isinstance(value, (int, float)) else text


def _table(name: str, head: tuple[str, ...], rows: Any, reply: Json) -> Table:
    known = ({**row, "units": reply["units"]} for row in rows)
    return Table(name, head, [[as_no_date(found(row, path.split("."))) for path in head] for row in known])


def _to_decide(reply: Json) -> Iterator[Json]:
    yield from reply["review"]
    for hole in reply["refused"]:
        yield from ({**fault, "hole": hole["hole"], "text": fault["detail"]} for fault in hole["errors"])
