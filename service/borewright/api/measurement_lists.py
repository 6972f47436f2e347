"""What a shop measured, as JSON, as CSV with a head of field names, or as a JSON object a line."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Mapping
from typing import Any

import orjson
from flask import current_app, request

from borewright.contract.requests.queries import query_object
from borewright.contract.requests.shop_figures_fit import COLUMNS, MOST_MEASUREMENTS, FitQuery, OneOrMany
from borewright.core.errors import nearest

from .batch import bounds
from .problems import Refusal
from .request_body import read_request
from .strict_json import parse_object

CSV, NDJSON = "text/csv", "application/x-ndjson"
_QUERY = FitQuery()
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]{1,18})?")
_LEADING_POINT = re.compile(r"-?\.[0-9]{1,18}")


def read_measurements() -> dict[str, Any]:
    """The body of the fit that the current request carries, whatever its form; the query may say what rows cannot.

    Raises: Refusal (400, 413, 415), RequestInvalid.
    """
    if request.mimetype not in (CSV, NDJSON):
        return _with_query(read_request(_QUERY, bounds.values_of(MOST_MEASUREMENTS)))
    body = request.get_data(cache=False)
    rows = _csv_rows(body) if request.mimetype == CSV else _json_lines(body)
    listed: list[dict[str, Any]] = []
    for row in rows:
        listed.append(row)
        if len(listed) > MOST_MEASUREMENTS:
            raise Refusal("batch_too_large", f"A list has at most {MOST_MEASUREMENTS} measurements.")
    return _with_query({"measurements": listed})


def _with_query(body: dict[str, Any]) -> dict[str, Any]:
    given = _QUERY.read(query_object(request.args.items(multi=True), FitQuery)) if request.args else {}
    raw = query_object(request.args.items(multi=True), FitQuery)
    return {**{name: raw[name] for name in given}, **body}


def _json_lines(body: bytes) -> Iterator[dict[str, Any]]:
    depth = current_app.config["BOREWRIGHT"].max_json_depth
    for line in body.split(b"\n"):
        if line.strip():
            yield parse_object(line, max_depth=depth)


def _csv_rows(body: bytes) -> Iterator[dict[str, Any]]:
    try:
        text = body.decode("utf-8-sig")
        reader = csv.DictReader(io.StringIO(text, newline=""), strict=True, restkey="", restval="")
        for name in _head(reader.fieldnames):
            if name not in COLUMNS:
                raise Refusal(
                    "csv_column_unknown",
                    "The head of the CSV has a column that is not known.",
                    pointer="/" + name[:80].replace("~", "~0").replace("/", "~1"),
                    allowed=COLUMNS,
                    did_you_mean=nearest(name[:80], COLUMNS),
                )
        for row in reader:
            if "" in row:
                raise Refusal("csv_unreadable", f"Line {reader.line_num} has more cells than the head.")
            if any(cell.strip() for cell in row.values()):
                yield _measurement(row)
    except (csv.Error, UnicodeDecodeError) as error:
        raise Refusal("csv_unreadable", f"The list cannot be read as CSV in UTF-8: {error}.") from None


def _head(names: Any) -> list[str]:
    head = [name.strip() for name in names or ()]
    if not head:
        raise Refusal("csv_unreadable", "The CSV has no head of column names.")
    if len(set(head)) < len(head):
        raise Refusal("csv_unreadable", "The head of the CSV has the same column twice.")
    return head


def _measurement(row: Mapping[str, str]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, cell in row.items():
        path, _, last = name.strip().rpartition(".")
        if not (text := cell.strip()):
            continue
        field = COLUMNS[name.strip()]
        value: Any = _value(text, field.takes)
        if isinstance(field, OneOrMany) and ";" in text:
            value = [_value(part.strip(), field.takes) for part in text.split(";") if part.strip()]
        if not path:
            found[last] = value
            continue
        inner = found.setdefault(path, {})
        if not isinstance(inner, dict):
            raise Refusal("csv_unreadable", f"The columns {path} and {name} say the same thing.")
        inner[last] = value
    return found


def _value(text: str, takes: tuple[str, ...]) -> Any:
    if "number" in takes and _LEADING_POINT.fullmatch(text):
        text = text.replace(".", "0.", 1)
    return orjson.loads(text) if "number" in takes and _NUMBER.fullmatch(text) else text
