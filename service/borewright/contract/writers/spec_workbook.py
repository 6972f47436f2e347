"""Specifications as a workbook: a sheet of holes, one of what is to be decided, one of tools."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import orjson

from borewright.contract.requests.csv_columns import OF_PLACE, OUTPUT
from borewright.contract.sheets.flat import as_no_date, found

from . import workbook
from .workbook import MEDIA_TYPE, Table

__all__ = ["MEDIA_TYPE", "show", "written"]

Json = dict[str, Any]
#: Columns of an answer; those of the request stand before them, its id among them.
_ANSWER = tuple(name for name in OUTPUT if name not in (*OF_PLACE, "id"))
_PATHS = [name.split(".") for name in _ANSWER]
_REVIEW = ("id", "verdict", "code", "text", "column", "cell")
_TOOLS = ("kind", "tool", "included angle", "substrate", "surface", "holes", "ids")
#: What a tool is known by, whichever it has.
_NAMES = ("label", "marking", "condition")
_NO_TOOLS = ("wash", "finish")
#: Of more choices than these none is probable.
_FEW = 3


def show(result: Json) -> bytes:
    """What the sheets have of the result of an item."""
    spec = result.get("spec") or {}
    known = {**result, **spec, "status": result["status"]}
    return orjson.dumps(
        {
            "id": result["id"],
            "verdict": spec.get("verdict"),
            "cells": [as_no_date(found(known, path)) for path in _PATHS],
            "review": list(_review(result, spec)),
            "tools": list(_tools(spec)),
        }
    )


def _review(result: Json, spec: Json) -> Iterator[Sequence[object]]:
    for decision in spec.get("review", ()):
        yield decision["code"], decision["text"], None, None
    for fault in result.get("problem", {}).get("errors", ()):
        yield fault["code"], _said(fault), fault.get("column", fault["pointer"]), fault.get("cell")


def _told(result: Json, times: Counter[str]) -> Iterator[Sequence[object]]:
    if times.get(result["id"], 1) > 1:
        yield "same_id", f"{times[result['id']]} holes of this sheet have this id.", "id", result["id"]
    yield from result["review"]


def _said(fault: Json) -> str:
    """What is wrong, and what was meant where the detail does not name it itself; of many nothing is probable."""
    detail, meant = str(fault["detail"]), [str(one) for one in fault.get("did_you_mean", ())]
    if all(one in detail for one in meant):
        return detail
    if len(meant) <= _FEW:
        return f"{detail} Probably {' or '.join(meant)} is meant."
    return f"{detail} It can be {', '.join(meant[:-1])} or {meant[-1]}."


def _tools(spec: Json) -> Iterator[Sequence[object]]:
    for operation in spec.get("operations", ()):
        tool = operation["tool"]
        if operation["operation"] in _NO_TOOLS:
            continue
        name = next((tool[key] for key in _NAMES if key in tool), None)
        if operation["operation"] == "inspect":
            name = " ".join(filter(None, (spec["thread"]["designation"], name)))
        yield tool["kind"], as_no_date(name), tool.get("included_angle"), tool.get("substrate"), tool.get("surface")


def written(head: Sequence[str], asked: Sequence[Sequence[object]], results: Sequence[Json]) -> bytes:
    """The workbook. Args: ``head`` and ``asked`` are the columns and cells that were sent, ``results`` as shown."""
    times = Counter(result["id"] for result in results if result["id"])
    holes = [[*cells, *result["cells"]] for cells, result in zip(asked, results, strict=True)]
    review = [
        (result["id"], result["verdict"] or "problem", *row) for result in results for row in _told(result, times)
    ]
    return workbook.written(
        (
            Table("holes", (*head, *_ANSWER), holes),
            Table("review", _REVIEW, review),
            Table("tools", _TOOLS, list(_kit(results))),
        )
    )


def _kit(results: Iterable[Json]) -> Iterator[Sequence[object]]:
    """Each tool once, in the order in which holes need it, with the holes that it makes."""
    ids: dict[tuple[object, ...], list[str]] = {}
    for place, result in enumerate(results, 1):
        for tool in dict.fromkeys(map(tuple, result["tools"])):
            ids.setdefault(tool, []).append(result["id"] or f"hole {place}")
    for tool, names in ids.items():
        yield *tool, len(names), names
