"""Requests by chance to every route: bodies in every form that it takes, and queries."""

from __future__ import annotations

import csv
import gzip
import io
from collections.abc import Iterator
from typing import NamedTuple
from urllib.parse import quote

import orjson
from borewright.contract.documents import published
from borewright.contract.requests import csv_columns, shop_figures_fit
from borewright.contract.writers import workbook
from made_values import SCHEMAS, Json, Maker

JSON, NDJSON, CSV, XLSX = "application/json", "application/x-ndjson", "text/csv", workbook.MEDIA_TYPE
BODIES = {
    "/v1/threads/resolve": "thread-request",
    "/v1/drills/recommend": "drill-request",
    "/v1/allowances": "allowance-request",
    "/v1/taps/recommend": "tap-request",
    "/v1/taps/decode": "tap-decode-request",
    "/v1/hole-specs": "hole-spec-request",
    "/v1/hole-specs/audit": "audit-request",
    "/v1/hole-specs/compare": "compare-request",
    "/v1/notes/read": "note-request",
    "/v1/part-plans": "part-plan-request",
    "/v1/rework": "rework-request",
    "/v1/shop-figures/fit": "shop-figures-request",
}
#: What takes a list of them, or a line each.
BATCHES = ("/v1/hole-specs", "/v1/hole-specs/audit", "/v1/hole-specs/compare", "/v1/rework")
#: What takes the list of a body as lines and as a sheet, under this name in its JSON.
SHEETS = {"/v1/part-plans": "holes", "/v1/shop-figures/fit": "measurements"}
COLUMNS = {"/v1/shop-figures/fit": shop_figures_fit.COLUMNS}
OPENAPI: Json = orjson.loads(published.openapi_json())
GETS: dict[str, list[Json]] = {
    path: methods["get"].get("parameters", []) for path, methods in OPENAPI["paths"].items() if "get" in methods
}
PAGES = (
    "/",
    "/note",
    "/part",
    "/rework",
    "/shop-figures",
    "/docs",
    "/embed.js",
    "/link.svg",
    "/page/page.js",
    "/favicon.ico",
)
NAMES = [
    "materials",
    "finishes",
    "drills",
    "tap-limits",
    "thread-systems",
    "units",
    "hole-spec-request",
    "problem",
    "x",
    "%00",
]
CODES = ["field_unknown", "too_much_work", "x", "..%2f", "%F0%9F"]
QUERIES = (
    "explain=true",
    "detail=routing",
    "only=review",
    "table=tools",
    "detail=x",
    "explain=true&explain=true",
    "x=%00",
)
ACCEPTED = (JSON, "*/*", "image/svg+xml", "image/vnd.dxf", "application/xml", NDJSON, CSV, XLSX, "text/html", "x/y")
Headers = dict[str, str]


class Asked(NamedTuple):
    """A request: where, by GET where ``body`` is None."""

    path: str
    body: bytes | None
    headers: Headers


def asked(maker: Maker) -> Asked:
    """A request by chance."""
    if maker.random.random() < 0.1:
        return _got(maker)
    path = maker.random.choice(list(BODIES))
    spoilt, part = maker.random.choice([0, 0, 30, 8]), maker.random.random()
    if path in BATCHES and part < 0.15:
        found = _batch(maker, path, spoilt)
    elif path in SHEETS and part < 0.4:
        found = _list(maker, path, spoilt)
    else:
        found = path, maker.body(SCHEMAS[BODIES[path]], spoilt=spoilt), JSON
    path, body, form = found
    if maker.random.random() < 0.1:
        path += "?" + maker.random.choice(QUERIES)
    headers = {"Content-Type": form, "Accept": maker.random.choice(ACCEPTED) if maker.random.random() < 0.1 else JSON}
    if maker.random.random() < 0.03:
        body, headers = gzip.compress(body, 1), {**headers, "Content-Encoding": "gzip"}
    return Asked(path, body, headers)


def _batch(maker: Maker, path: str, spoilt: int) -> tuple[str, bytes, str]:
    """Some items as one document, as lines, or as a sheet; some of them are notes."""
    schema, form = SCHEMAS[BODIES[path]], maker.random.choice([JSON, NDJSON, NDJSON, CSV, XLSX])
    items = maker.random.randint(1, 6)
    if form in (CSV, XLSX):
        values = [maker.value(schema, spoilt=spoilt) for _ in range(items)]
        asked_back = path == "/v1/hole-specs" and maker.random.random() < 0.3
        task = "requests" if asked_back else "batch"
        return f"{path}/{task}", _sheet(maker, values, form, list(csv_columns.COLUMNS)), form
    bodies = [maker.body(schema, spoilt=spoilt) for _ in range(items)]
    if maker.random.random() < 0.3:
        bodies.append(orjson.dumps({"note": maker.note()}))
    return f"{path}/batch", b"\n".join(bodies) if form == NDJSON else b'{"items":[%b]}' % b",".join(bodies), form


def _list(maker: Maker, path: str, spoilt: int) -> tuple[str, bytes, str]:
    """The list of a body, a line or a row each."""
    form = maker.random.choice([NDJSON, CSV, XLSX])
    found = maker.value(SCHEMAS[BODIES[path]], spoilt=spoilt)
    values = found.get(SHEETS[path]) if isinstance(found, dict) else None
    values = values if isinstance(values, list) else [values]
    if form == NDJSON:
        return path, b"\n".join(map(orjson.dumps, values)), form
    return path, _sheet(maker, values, form, list(COLUMNS.get(path, csv_columns.COLUMNS))), form


def _sheet(maker: Maker, values: list[object], form: str, known: list[str]) -> bytes:
    """Values as the rows of a sheet: a column for each of their fields, now and then one by chance or none."""
    rows = [dict(_cells(value)) for value in values]
    head = sorted({name for row in rows for name in row}) or ["thread"]
    if maker.random.random() < 0.3:
        head.append(maker.random.choice([*known, "x", "", "Ø", "=1+1"]))
    cells = [[row.get(name, "") for name in head] for row in rows]
    if form == XLSX:
        return workbook.written([workbook.Table("holes", head, cells)])
    file = io.StringIO()
    writer = csv.writer(file, delimiter=maker.random.choice([",", ",", ";", "\t"]))
    writer.writerows([head, *cells])
    return file.getvalue().encode(maker.random.choice(["utf-8", "utf-8-sig"]))


def _cells(value: object, name: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(value, dict) and value:
        for one, more in value.items():
            yield from _cells(more, f"{name}.{one}" if name else one)
    elif isinstance(value, list):
        yield name, " | ".join(str(one) for one in value)
    else:
        yield name, str(value)


def _got(maker: Maker) -> Asked:
    """A document, a catalogue or a page, with a query by chance."""
    path = maker.random.choice([*GETS, *PAGES])
    for name, words in (("{name}", NAMES), ("{code}", CODES)):
        path = path.replace(name, maker.random.choice(words))
    query = [(one["name"], _word(maker, one)) for one in GETS.get(path, []) if one.get("in") == "query"]
    query = [one for one in query if maker.random.random() < 0.4]
    if path in PAGES:
        query = [("address", "http://localhost/" + "x" * maker.random.choice([1, 50, 3000])), ("thread", maker.note())]
    if maker.random.random() < 0.2:
        query.append((maker.random.choice(["x", "thread", "page", "page_size"]), maker.note()))
    headers = {"Accept": maker.random.choice(ACCEPTED), "If-None-Match": maker.random.choice(["*", '"x"', "x"])}
    return Asked(path + "?" + "&".join(f"{name}={quote(word)}" for name, word in query), None, headers)


def _word(maker: Maker, parameter: Json) -> str:
    shared = {"$defs": OPENAPI["components"]["schemas"]}
    body = maker.body(parameter.get("schema", {"type": "string"}) | shared, spoilt=8)
    return body.decode().strip('"')
