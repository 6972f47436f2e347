"""A batch request and its reply: which form comes in, which goes out, the summary or the stream."""

from __future__ import annotations

import zlib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

import orjson
from flask import Response, current_app, request

from borewright.api import metrics
from borewright.api.answers import JSON, RESPONSE_CACHE, computed, offered, written
from borewright.api.door import compression, exchange
from borewright.api.problems import Refusal
from borewright.api.response_cache import ResponseCache
from borewright.contract.requests.queries import query_object
from borewright.contract.writers import b2mml, spec_workbook

from . import bounds, csv_form, uploads
from .answers import Answers, Result
from .job import CSV, NDJSON, XLSX, XML, Job
from .lines import Broken
from .requests_asked import RequestsAsked
from .sheet_items import COLUMNS_HEADER, Columns, SheetItem

_SHOW = {XML: b2mml.result, XLSX: spec_workbook.show}
_PER_CHUNK = 64
_CHUNK_BYTES = 65_536
#: Ids of a sheet that are remembered to find them again.
_MOST_IDS = 10_000


class Shown(NamedTuple):
    """Which results are shown: all, or ``only`` those that a person must look at."""

    verdicts: tuple[str, ...]
    only: bool

    def has(self, result: Result) -> bool:
        """Whether a result is shown; what is wrong with an item is never left out."""
        return not self.only or result.verdict != self.verdicts[0]


def reply(job: Job) -> Response:
    """The answer to a batch. Raises Refusal where the batch as a whole cannot be read."""
    settings = current_app.config["BOREWRIGHT"]
    form = uploads.form()
    query = job.query.read(query_object(request.args.items(multi=True), type(job.query)))
    only = query.pop("only_review", None)
    wanted, time = _wanted(form), bounds.Time(settings.max_cpu_ms, job.cost)
    columns: Columns | None = None
    asked = RequestsAsked()
    if form == JSON:
        items, defaults, marked = uploads.array(job)
        answers = _answers(job, wanted, {**query, **defaults})
        found = asked.of_items(items) if wanted == XLSX else items
        results: Iterator[Result] = (answers.of_item(item, marked=marked) for item in found)
    elif form == NDJSON:
        answers, lines = _answers(job, wanted, query), uploads.lines_of_items(time)
        lines = asked.of_lines(lines) if wanted == XLSX else lines
        results = _until_broken(answers, map(answers.of_piece, lines))
    else:
        answers, sheet = _answers(job, wanted, query), uploads.sheet(form, time, job.columns)
        columns, rows = Columns(sheet.told), bounds.at_most(iter(sheet), uploads.most_rows(form))
        rows = asked.of_rows(rows) if wanted == XLSX else rows
        results = _until_broken(answers, _of_rows(answers, rows))
    results = time.of_results(results)
    shown = Shown(job.verdicts, only is not None)
    if wanted == JSON:
        return _summary(results, shown, columns)
    results = bounds.ending_well(results, answers.refused)
    response = _workbook(results, shown, asked) if wanted == XLSX else _stream(results, job, wanted, shown)
    if columns is not None and columns.header:
        response.headers[COLUMNS_HEADER] = columns.header
    return response


def _of_rows(answers: Answers, items: Iterator[SheetItem]) -> Iterator[Result]:
    """The answers to the rows of a sheet; of those with the id of one before, the first of a sheet are told."""
    rows: dict[str, int] = {}
    for item in items:
        before = rows.get(item.name) if item.name else None
        if item.name and before is None and len(rows) < _MOST_IDS:
            rows[item.name] = item.number
        yield answers.of_row(item, before)


def _until_broken(answers: Answers, results: Iterator[Result]) -> Iterator[Result]:
    try:
        yield from bounds.without_rubbish(results)
    except Broken as error:
        yield answers.refused(Refusal("upload_truncated", f"What was complete is answered above; {error}."))
    except Refusal as error:
        yield answers.refused(error)


def _wanted(form: str) -> str:
    """The form of the answer: the one that was sent, where the caller does not mind and it is written here."""
    possible = offered()
    first = form if form in possible else JSON
    if request.headers.get("Accept") in (None, "*/*"):
        return first
    return request.accept_mimetypes.best_match((first, *(other for other in possible if other != first))) or first


def _answers(job: Job, form: str, defaults: Mapping[str, Any]) -> Answers:
    settings = current_app.config["BOREWRIGHT"]
    return Answers(
        job,
        form=form,
        show=job.csv.show if form == CSV else _SHOW.get(form),
        defaults=defaults,
        instance=request.path,
        request_id=exchange.of(request.environ).request_id,
        max_depth=settings.max_json_depth,
        cache=current_app.config[RESPONSE_CACHE] if job.kept else ResponseCache(0),
    )


def _summary(results: Iterable[Result], wanted: Shown, columns: Columns | None) -> Response:
    """One JSON document: the summary comes first, so that every item is answered before the first byte leaves."""
    most = current_app.config["BOREWRIGHT"].max_batch_items
    shown: list[bytes] = []
    counts = Counter[str | None]()
    kept = size = 0
    for index, result in enumerate(results):
        if index >= most:
            raise uploads.too_many(most)
        counts[result.verdict] += 1
        kept += result.kept
        if wanted.has(result):
            shown.append(_line(index, result))
            size += len(shown[-1])
        bounds.check_answer(size, most)
    items, failed = counts.total(), counts[None]
    metrics.count_items(ok=items - failed, failed=failed, kept=kept)
    verdicts = {verdict: counts[verdict] for verdict in wanted.verdicts}
    summary = orjson.dumps({"items": items, "ok": items - failed, "failed": failed, "verdicts": verdicts})
    told = b'"columns":%b,' % orjson.dumps(columns.told) if columns is not None else b""
    return computed((b'{"summary":', summary, b",", told, b'"results":[', b",".join(shown), b"]}"))


def _workbook(results: Iterable[Result], wanted: Shown, asked: RequestsAsked) -> Response:
    """One workbook, gathered before it is sent."""
    most = current_app.config["BOREWRIGHT"].max_batch_items
    shown: list[tuple[int, Any]] = []
    counts = Counter[bool]()
    size = kept = 0
    for index, result in enumerate(results):
        if index >= most:
            raise uploads.too_many(most)
        counts[result.ok] += 1
        kept += result.kept
        if wanted.has(result):
            content = b"".join(result.shown)
            size += len(content)
            bounds.check_answer(size, most)
            shown.append((index, orjson.loads(content)))
    metrics.count_items(ok=counts[True], failed=counts[False], kept=kept)
    head = asked.head()
    cells = asked.cells(head, (index for index, _ in shown))
    return written(spec_workbook.written(head, cells, [one for _, one in shown]), XLSX)


def _line(index: int, result: Result) -> bytes:
    first, *rest = result.shown
    place = b'{"index":%d,' % index
    if result.row is not None:
        place += b'"row":%d,' % result.row
    if result.same_id_as_row is not None:
        place += b'"same_id_as_row":%d,' % result.same_id_as_row
    return b"".join((place, first[1:], *rest))


def _stream(results: Iterator[Result], job: Job, form: str, wanted: Shown) -> Response:
    chunks = _chunks(results, job, form, wanted)
    gzip = compression.asked_for(request.headers.get("Accept-Encoding", ""))
    response = Response(_deflated(chunks) if gzip else chunks, mimetype=form)
    if gzip:
        response.headers["Content-Encoding"] = "gzip"
    return response


def _chunks(results: Iterator[Result], job: Job, form: str, wanted: Shown) -> Iterator[bytes]:
    """The rows of an answer: at most 64 at a time, fewer where they are long."""
    waiting = {CSV: [job.csv.head()], XML: [b2mml.OPENING]}.get(form, [])
    size = ok = failed = kept = 0
    for index, result in enumerate(results):
        row = _row(index, result, form) if wanted.has(result) else b""
        ok, failed, kept = ok + result.ok, failed + (not result.ok), kept + result.kept
        waiting.append(row)
        size += len(row)
        if len(waiting) >= _PER_CHUNK or size > _CHUNK_BYTES:
            metrics.count_items(ok=ok, failed=failed, kept=kept)
            yield b"".join(waiting)
            waiting, size, ok, failed, kept = [], 0, 0, 0, 0
    metrics.count_items(ok=ok, failed=failed, kept=kept)
    if form == XML:
        waiting.append(b2mml.CLOSING)
    if waiting:
        yield b"".join(waiting)


def _row(index: int, result: Result, form: str) -> bytes:
    if form == XML:
        return b"".join(result.shown)  # a definition has no number, only its place
    if form == CSV:
        return b"".join((csv_form.place(index, result.row, result.same_id_as_row), *result.shown))
    return _line(index, result) + b"\n"


def _deflated(chunks: Iterator[bytes]) -> Iterator[bytes]:
    deflate = zlib.compressobj(1, zlib.DEFLATED, 31)
    for chunk in chunks:
        yield deflate.compress(chunk) + deflate.flush(zlib.Z_SYNC_FLUSH)
    yield deflate.flush()
