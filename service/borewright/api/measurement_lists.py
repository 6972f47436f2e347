"""What a shop measured, as JSON, as a JSON object a line, or as a sheet: CSV or a workbook."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import orjson
from flask import current_app, request

from borewright.api.batch.job import CSV, NDJSON, XLSX
from borewright.api.batch.lines import Broken
from borewright.api.batch.sheet_items import SheetItem
from borewright.contract.faults import RequestInvalid, below
from borewright.contract.requests.queries import query_object
from borewright.contract.requests.shop_figures_fit import COLUMNS, MOST_MEASUREMENTS, FitQuery

from .batch import bounds, uploads
from .problems import Refusal
from .request_body import read_request
from .strict_json import parse_object

Json = dict[str, Any]
_QUERY = FitQuery()


def read_measurements() -> Json:
    """The body of the fit that the current request carries, whatever its form; the query may say what rows cannot.

    Raises: Refusal (400, 413, 415), RequestInvalid.
    """
    if request.mimetype in (CSV, XLSX):
        return _with_query({"measurements": _of_sheet(bounds.Time(current_app.config["BOREWRIGHT"].max_cpu_ms))})
    if request.mimetype == NDJSON:
        return _with_query({"measurements": _not_too_many(_of_lines(request.get_data(cache=False)))})
    return _with_query(read_request(_QUERY, bounds.values_of(MOST_MEASUREMENTS)))


def _with_query(body: Json) -> Json:
    raw = query_object(request.args.items(multi=True), FitQuery)
    given = _QUERY.read(raw) if raw else {}
    return {**{name: raw[name] for name in given}, **body}


def _not_too_many(found: Iterator[Json]) -> list[Json]:
    listed: list[Json] = []
    values = 0
    for one in found:
        listed.append(one)
        values += max(len(value) if isinstance(value, list) else 1 for value in (*one.values(), None))
        if values > MOST_MEASUREMENTS:
            raise Refusal("batch_too_large", f"A list has at most {MOST_MEASUREMENTS} values.")
    return listed


def _of_lines(body: bytes) -> Iterator[Json]:
    depth = current_app.config["BOREWRIGHT"].max_json_depth
    for line in body.split(b"\n"):
        if line.strip():
            yield parse_object(line, max_depth=depth)


def _of_sheet(time: bounds.Time) -> list[Json]:
    try:
        rows = uploads.sheet(uploads.form(), time, COLUMNS)
        return _not_too_many(_measurement(row, place, time) for place, row in enumerate(time.of_each(rows)))
    except Broken as error:
        raise Refusal("upload_truncated", f"Nothing was answered: {error}.") from None


def _measurement(row: SheetItem, place: int, time: bounds.Time) -> Json:
    if isinstance(row.content, bytes):
        time.allow(1)
        found: Json = orjson.loads(row.content)
        return found
    told = [replace(fault, detail=f"Row {row.number}: {fault.detail}") for fault in row.content.faults]
    raise RequestInvalid(below("measurements", below(place, told)))
