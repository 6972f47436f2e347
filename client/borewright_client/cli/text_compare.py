"""What differs from kept specifications as a sheet for people."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from .sheet import WIDTH, Paint, Row, Sheet
from .words import NOTHING, Reply, number

#: Changes of a hole that are told; --csv has all.
_MOST_TOLD = 8


def compare(reply: Reply, paint: Paint | None = None) -> str:
    """The counts, then a hole a section with what differs and matters."""
    sheet = Sheet(paint, WIDTH)
    counts = f"{reply['keep']} stay, {reply['update']} to update, {reply['review']} to look at"
    failed = f", {reply['failed']} with a problem" if reply["failed"] else ""
    sheet.title(f"{reply['items']} kept specifications: {counts}{failed}")
    for result in reply["results"]:
        sheet.heading(f"{result['id']}: {_verdict(result)}")
        if "problem" in result:
            sheet.rows((("", _fault(fault)) for fault in result["problem"]["errors"]), sheet.paint.bad)
        else:
            sheet.rows(_rows(result["comparison"]))
    return str(sheet)


def _verdict(result: Mapping[str, Any]) -> str:
    if "problem" in result:
        return "refused"
    comparison = result["comparison"]
    causes = " or ".join(cause["cause"] for cause in comparison["why"])
    return f"{comparison['verdict']}, another {causes}" if causes else str(comparison["verdict"])


def _fault(fault: Mapping[str, Any]) -> str:
    if fault["code"] == "kept_request_missing":
        return "the reply does not say what was asked: name a file of the requests with --holes"
    return str(fault["detail"])


def _rows(comparison: Reply) -> Iterator[Row]:
    matter = [one for one in comparison["changes"] if one["matters"]]
    for one in matter[:_MOST_TOLD]:
        yield one["subject"], f"{_place(one['pointer'])}: {_shown(one['before'])} -> {_shown(one['after'])}"
    if len(matter) > _MOST_TOLD:
        yield "", f"and {len(matter) - _MOST_TOLD} more"
    if not matter:
        yield "", "too little was kept to tell what differs: post the request anew"


def _place(pointer: str) -> str:
    return pointer.removeprefix("/").replace("/", " ").replace("_", " ")


def _shown(value: Any) -> str:
    if isinstance(value, dict):
        return str(value.get("text") or value.get("code") or value.get("label") or "something else")
    if value is None or isinstance(value, list):
        return "something else" if value else NOTHING
    return value if isinstance(value, str) else number(value)
