"""What the current request sends as a batch: one JSON document, lines, or a sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from socket import SHUT_RD
from typing import Any

from flask import current_app, request

from borewright.api.answers import JSON
from borewright.api.problems import Refusal
from borewright.api.settings import Settings
from borewright.api.strict_json import parse_marked, refuse_marked
from borewright.contract.requests.batch import read_batch
from borewright.contract.requests.csv_columns import COLUMNS, Column

from . import bounds
from .csv_rows import CsvRows, in_utf_8
from .intake import Intake
from .job import CSV, NDJSON, XLSX, Job
from .lines import Broken, blocks, lines, received
from .sheet_items import SheetItems

_IN = (JSON, NDJSON, CSV, XLSX)
#: Marks of XML that a row of a workbook may have: three hundred cells of two.
_MARKS_A_ROW = 600
#: UTF-16 is known by its bytes; what the header says of it is only believed to be a text.
_CHARSETS: Mapping[str, tuple[str, ...]] = {CSV: ("utf-8", "utf-16", "utf-16le", "utf-16be")}
#: The limits of a batch are counted here, after inflation; None would be the limit of single requests.
_UNBOUNDED = 2**62


def form() -> str:
    """The media type that is sent. Raises Refusal where it is not read here."""
    sent = request.mimetype
    charset = request.mimetype_params.get("charset", "utf-8").lower()
    if sent not in _IN or charset not in _CHARSETS.get(sent, ("utf-8",)):
        words = ", ".join(_IN)
        raise Refusal("media_type_unsupported", f"Send {words} in UTF-8.", allowed=_IN, headers={"Accept-Post": words})
    return sent


def array(job: Job) -> tuple[list[Any], dict[str, Any], bool]:
    """Items and defaults of a batch that is one JSON object, and whether reading marked faults.

    Args: ``job`` says how much an item may hold.
    """
    settings = current_app.config["BOREWRIGHT"]
    found, marked = parse_marked(
        _whole(settings.max_batch_bytes),
        max_depth=settings.max_json_depth + 2,
        most=bounds.values_of(settings.max_batch_items, job.of_item),
    )
    if marked:
        refuse_marked({"defaults": found.get("defaults")} if type(found) is dict else found)
    items, defaults = read_batch(found)
    if len(items) > settings.max_batch_items:
        raise too_many(settings.max_batch_items)
    return items, defaults, marked


def too_many(most: int) -> Refusal:
    """The refusal of a document with more items than that."""
    text = f"A batch as one JSON document has at most {most} items; {NDJSON} and {CSV} stream without that limit."
    return Refusal("batch_too_large", text, pointer="/items")


def lines_of_items(time: bounds.Time, *, as_one: bool = False) -> Iterator[bytes | None]:
    """The lines of an upload as it arrives, without blank ones; None for one that was too long.

    Args: ``as_one`` = nothing is answered before all are read, so they are bounded as one document.
    """
    found = (line for line in _lines(time, as_one=as_one) if line is None or (line and not line.isspace()))
    return bounds.at_most(found, current_app.config["BOREWRIGHT"].max_stream_items)


def sheet(form: str, time: bounds.Time, columns: Mapping[str, Column] = COLUMNS, *, as_one: bool = False) -> SheetItems:
    """The rows of an upload as it arrives. Raises Refusal for a head that cannot be used.

    Args: ``as_one`` = nothing is answered before all are read, so they are bounded as one document.
    """
    if form == XLSX:
        return SheetItems(_workbook_rows(), columns)
    try:
        rows = CsvRows(_lines(time, text=True, as_one=as_one), columns)
        return SheetItems(iter(rows), columns, decimal_comma=rows.dialect.decimal_comma)
    except Broken as error:
        raise Refusal("upload_truncated", f"Nothing was answered: {error}.") from None


def most_rows(form: str) -> int:
    """Most rows of a sheet, 0 = no limit: a workbook is one document."""
    settings: Settings = current_app.config["BOREWRIGHT"]
    return settings.max_batch_items if form == XLSX else settings.max_stream_items


def _workbook_rows() -> Iterator[tuple[int, list[str] | Refusal]]:
    from borewright.contract.sheets import workbooks  # who sends no workbooks does without

    settings = current_app.config["BOREWRIGHT"]
    most = workbooks.Most(settings.max_batch_bytes, _MARKS_A_ROW * settings.max_batch_items)
    try:
        yield from workbooks.rows(_whole(settings.max_batch_bytes), most)
    except workbooks.WorkbookRefused as error:
        raise Refusal.of(error.faults) from None


def _whole(most_bytes: int) -> bytes:
    request.max_content_length = _UNBOUNDED
    try:
        return b"".join(blocks(received(request.stream), compressed=_compressed(), most_bytes=most_bytes))
    except Broken as error:
        raise Refusal("upload_truncated", f"Nothing was answered: {error}.") from None


def _lines(time: bounds.Time, *, text: bool = False, as_one: bool = False) -> Iterator[bytes | None]:
    settings = current_app.config["BOREWRIGHT"]
    request.max_content_length = _UNBOUNDED
    upload = Intake(received(request.stream), most_waiting=settings.max_waiting_bytes, hang_up=_hang_up())
    most = settings.max_batch_bytes if as_one else settings.max_stream_bytes
    found = blocks(upload, compressed=_compressed(), most_bytes=most)
    return lines(time.of_each(in_utf_8(found) if text else found))


def _compressed() -> bool:
    encoding = (request.headers.get("Content-Encoding") or "identity").lower()
    if encoding not in ("identity", "gzip"):
        raise Refusal("content_encoding_unsupported", "Send the body as it is, or in gzip.", allowed=("gzip",))
    return encoding == "gzip"


def _hang_up() -> Callable[[], None]:
    """What makes the server receive nothing more of the current request."""
    connection = request.environ.get("gunicorn.socket")

    def hang_up() -> None:
        if connection is not None:
            with suppress(OSError):
                connection.shutdown(SHUT_RD)

    return hang_up
