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
#: Processor time that a value brings, in that of an item of a batch.
_OF_A_VALUE = 0.005


def time_of_fit() -> bounds.Time:
    """The processor time of a fit: each of its values brings some of its own."""
    return bounds.Time(current_app.config["BOREWRIGHT"].max_cpu_ms, _OF_A_VALUE)


def read_measurements(time: bounds.Time) -> Json:
    """The body of the fit that the current request carries, whatever its form; the query may say what rows cannot.

    Args: ``time`` bounds the reading of a sheet; the values that were read are its items.

    Raises: Refusal (400, 413, 415), RequestInvalid.
    """
    if request.mimetype in (CSV, XLSX):
        return _with_query({"measurements": _of_sheet(time)})
    if request.mimetype == NDJSON:
        return _with_query({"measurements": _not_too_many(_of_lines(request.get_data(cache=False)), time)})
    body = read_request(_QUERY, bounds.values_of(MOST_MEASUREMENTS))
    listed = body.get("measurements")
    if isinstance(listed, list) and len(listed) <= MOST_MEASUREMENTS:
        time.allow(min(MOST_MEASUREMENTS, sum(_values(one) for one in listed)))
    return _with_query(body)


def _with_query(body: Json) -> Json:
    raw = query_object(request.args.items(multi=True), FitQuery)
    given = _QUERY.read(raw) if raw else {}
    return {**{name: raw[name] for name in given}, **body}


def _values(measurement: object) -> int:
    """How many values a measurement has, one where it has no list of them."""
    listed = measurement.values() if isinstance(measurement, dict) else ()
    return max(1, *(len(value) for value in listed if isinstance(value, list)), 1)


def _not_too_many(found: Iterator[Json], time: bounds.Time) -> list[Json]:
    listed: list[Json] = []
    values = 0
    for one in found:
        listed.append(one)
        values += _values(one)
        time.allow(_values(one))
        time.check()
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
        rows = uploads.sheet(uploads.form(), time, COLUMNS, as_one=True)
        return _not_too_many((_measurement(row, place) for place, row in enumerate(rows)), time)
    except Broken as error:
        raise Refusal("upload_truncated", f"Nothing was answered: {error}.") from None


def _measurement(row: SheetItem, place: int) -> Json:
    if isinstance(row.content, bytes):
        found: Json = orjson.loads(row.content)
        return found
    told = [replace(fault, detail=f"Row {row.number}: {fault.detail}") for fault in row.content.faults]
    raise RequestInvalid(below("measurements", below(place, told)))
