"""A batch request and its reply: which form comes in, which goes out, the summary or the stream."""

from __future__ import annotations

import zlib
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from socket import SHUT_RD
from typing import Any, NamedTuple

import orjson
from flask import Response, current_app, request

from borewright.api import metrics
from borewright.api.answers import JSON, RESPONSE_CACHE, computed, offered
from borewright.api.door import compression, exchange
from borewright.api.problems import Refusal
from borewright.api.response_cache import ResponseCache
from borewright.api.strict_json import parse_marked, refuse_marked
from borewright.contract.requests.batch import read_batch
from borewright.contract.requests.queries import query_object
from borewright.contract.writers import b2mml

from . import bounds, csv_form
from .answers import Answers, Result
from .intake import Intake
from .job import CSV, NDJSON, XML, Job
from .lines import Broken, blocks, lines, received

_SHOW = {CSV: csv_form.show, XML: b2mml.result}
_IN = (JSON, NDJSON, CSV)
_PER_CHUNK = 64
_CHUNK_BYTES = 65_536
#: The limits of a batch are counted here, after inflation; None would be the limit of single requests.
_UNBOUNDED = 2**62


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
    form = request.mimetype
    query = job.query.read(query_object(request.args.items(multi=True), type(job.query)))
    only = query.pop("only_review", None)
    if form not in _IN or request.mimetype_params.get("charset", "utf-8").lower() != "utf-8":
        words = ", ".join(_IN)
        raise Refusal("media_type_unsupported", f"Send {words} in UTF-8.", allowed=_IN, headers={"Accept-Post": words})
    wanted, time = _wanted(form), bounds.Time(settings.max_cpu_ms * job.cost)
    if form == JSON:
        items, defaults, marked = _array(job)
        answers = _answers(job, wanted, {**query, **defaults})
        results: Iterator[Result] = (answers.of_item(item, marked=marked) for item in items)
    else:
        answers = _answers(job, wanted, query)
        results = _streamed(answers, form, time)
    results = time.of_results(results)
    shown = Shown(job.verdicts, only is not None)
    if wanted == JSON:
        return _summary(results, shown)
    return _stream(bounds.ending_well(results, answers.refused), wanted, shown)


def _wanted(form: str) -> str:
    """The form of the answer: the one that was sent, where the caller does not mind."""
    if request.headers.get("Accept") in (None, "*/*"):
        return form
    return request.accept_mimetypes.best_match((form, *(other for other in offered() if other != form))) or form


def _answers(job: Job, form: str, defaults: Mapping[str, Any]) -> Answers:
    settings = current_app.config["BOREWRIGHT"]
    return Answers(
        job,
        form=form,
        show=_SHOW.get(form),
        defaults=defaults,
        instance=request.path,
        request_id=exchange.of(request.environ).request_id,
        max_depth=settings.max_json_depth,
        cache=current_app.config[RESPONSE_CACHE] if job.kept else ResponseCache(0),
    )


def _compressed() -> bool:
    encoding = (request.headers.get("Content-Encoding") or "identity").lower()
    if encoding not in ("identity", "gzip"):
        raise Refusal("content_encoding_unsupported", "Send the body as it is, or in gzip.", allowed=("gzip",))
    return encoding == "gzip"


def _array(job: Job) -> tuple[list[Any], dict[str, Any], bool]:
    """Items and defaults of a batch that is one JSON object, and whether reading marked faults."""
    settings = current_app.config["BOREWRIGHT"]
    request.max_content_length = _UNBOUNDED
    try:
        upload = received(request.stream)
        body = b"".join(blocks(upload, compressed=_compressed(), most_bytes=settings.max_batch_bytes))
    except Broken as error:
        raise Refusal("upload_truncated", f"Nothing was answered: {error}.") from None
    found, marked = parse_marked(
        body, max_depth=settings.max_json_depth + 2, most=bounds.values_of(settings.max_batch_items, job.of_item)
    )
    if marked:
        refuse_marked({"defaults": found.get("defaults")} if type(found) is dict else found)
    items, defaults = read_batch(found)
    if len(items) > settings.max_batch_items:
        raise _too_many(settings.max_batch_items)
    return items, defaults, marked


def _too_many(most: int) -> Refusal:
    text = f"A batch as one JSON document has at most {most} items; {NDJSON} and {CSV} stream without that limit."
    return Refusal("batch_too_large", text, pointer="/items")


def _streamed(answers: Answers, form: str, time: bounds.Time) -> Iterator[Result]:
    """The results of an upload that is read while it is answered."""
    settings = current_app.config["BOREWRIGHT"]
    request.max_content_length = _UNBOUNDED
    upload = Intake(received(request.stream), most_waiting=settings.max_waiting_bytes, hang_up=_hang_up())
    found = lines(time.of_blocks(blocks(upload, compressed=_compressed(), most_bytes=settings.max_stream_bytes)))
    items: Iterator[bytes | Refusal | None] = (line for line in found if line is None or (line and not line.isspace()))
    if form == CSV:
        try:
            items = csv_form.items(found)
        except Broken as error:
            raise Refusal("upload_truncated", f"Nothing was answered: {error}.") from None
    return _until_broken(answers, bounds.at_most(items, settings.max_stream_items))


def _hang_up() -> Callable[[], None]:
    """What makes the server receive nothing more of the current request."""
    connection = request.environ.get("gunicorn.socket")

    def hang_up() -> None:
        if connection is not None:
            with suppress(OSError):
                connection.shutdown(SHUT_RD)

    return hang_up


def _until_broken(answers: Answers, items: Iterator[bytes | Refusal | None]) -> Iterator[Result]:
    results = (answers.refused(item) if isinstance(item, Refusal) else answers.of_line(item) for item in items)
    try:
        yield from bounds.without_rubbish(results)
    except Broken as error:
        yield answers.refused(Refusal("upload_truncated", f"What was complete is answered above; {error}."))
    except Refusal as error:
        yield answers.refused(error)


def _summary(results: Iterable[Result], wanted: Shown) -> Response:
    """One JSON document: the summary comes first, so that every item is answered before the first byte leaves."""
    most = current_app.config["BOREWRIGHT"].max_batch_items
    shown: list[bytes] = []
    counts = Counter[str | None]()
    kept = size = 0
    for index, result in enumerate(results):
        if index >= most:
            raise _too_many(most)
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
    return computed((b'{"summary":', summary, b',"results":[', b",".join(shown), b"]}"))


def _line(index: int, result: Result) -> bytes:
    first, *rest = result.shown
    return b"".join((b'{"index":%d,' % index, first[1:], *rest))


def _stream(results: Iterator[Result], form: str, wanted: Shown) -> Response:
    chunks = _chunks(results, form, wanted)
    gzip = compression.asked_for(request.headers.get("Accept-Encoding", ""))
    response = Response(_deflated(chunks) if gzip else chunks, mimetype=form)
    if gzip:
        response.headers["Content-Encoding"] = "gzip"
    return response


def _chunks(results: Iterator[Result], form: str, wanted: Shown) -> Iterator[bytes]:
    """The rows of an answer: at most 64 at a time, fewer where they are long."""
    waiting = {CSV: [csv_form.head()], XML: [b2mml.OPENING]}.get(form, [])
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
    return b"%d%s" % (index, b"".join(result.shown)) if form == CSV else _line(index, result) + b"\n"


def _deflated(chunks: Iterator[bytes]) -> Iterator[bytes]:
    deflate = zlib.compressobj(1, zlib.DEFLATED, 31)
    for chunk in chunks:
        yield deflate.compress(chunk) + deflate.flush(zlib.Z_SYNC_FLUSH)
    yield deflate.flush()
