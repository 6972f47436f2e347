"""The endpoints for many items at once and for whoever runs the service, as the OpenAPI document describes them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import orjson

from borewright.contract import replies, verdicts
from borewright.contract.note_reply import note_reply
from borewright.contract.requests import HOLE_SPEC
from borewright.contract.requests.batch import BatchRequestBody
from borewright.contract.requests.csv_columns import COLUMNS, OUTPUT
from borewright.contract.requests.note import NOTE, NoteRequestBody
from borewright.contract.requests.queries import BatchQuery, NoQuery
from borewright.contract.sections.batch import BatchReply, SheetReadReply
from borewright.contract.sections.notes import NoteReply
from borewright.contract.writers import b2mml, workbook
from borewright.core import notes
from borewright.core.plan import specify

from . import examples
from . import reply_schemas as shown
from .endpoints import Endpoint, listed

_HOLE = examples.HOLE_SPEC["metric_through"]
_ROW = {"id": _HOLE["id"], "thread": _HOLE["thread"], "hole.type": "through", "hole.thickness": "25 mm"}
_BATCH = {
    "one_material": {
        "defaults": {"material": "6061-T6"},
        "items": [
            {"id": "KRP-2210-B1", "thread": "M6", "hole": {"type": "blind", "full_thread_depth": 12}},
            {"id": "KRP-2210-B3", "thread": "M10", "hole": {"type": "through", "thickness": 20}},
        ],
    }
}


def _result() -> dict[str, Any]:
    wanted = HOLE_SPEC.asked(_HOLE)
    reply = replies.hole_spec_reply(specify.specify(wanted.request), wanted)
    return {"index": 0, "id": wanted.request.id, "status": "ok", "spec": reply}


def _note() -> Mapping[str, Any]:
    wanted = NOTE.asked(next(iter(examples.NOTE.values())))
    return note_reply(notes.read(wanted.request.request), wanted)


def _row_read() -> dict[str, Any]:
    hole = {"type": _ROW["hole.type"], "thickness": _ROW["hole.thickness"]}
    request = {"id": _ROW["id"], "thread": _ROW["thread"], "hole": hole}
    return {"index": 0, "row": 2, "id": _ROW["id"], "status": "ok", "request": request}


def _sheet_read() -> Mapping[str, Any]:
    counts = {"items": 1, "ok": 1, "failed": 0, "verdicts": {"read": 1}}
    return {"summary": counts, "columns": [], "results": [_row_read()]}


def _b2mml() -> str:
    return (b2mml.OPENING + b2mml.result(_result()) + b2mml.CLOSING).decode()


def _batch() -> Mapping[str, Any]:
    result = _result()
    counts = {verdict: int(verdict == result["spec"]["verdict"]) for verdict in verdicts.HOLE}
    return {"summary": {"items": 1, "ok": 1, "failed": 0, "verdicts": counts}, "results": [result]}


OPERATIONS: tuple[Endpoint, ...] = (
    Endpoint(
        "post",
        "/v1/hole-specs/batch",
        "createHoleSpecs",
        "hole specifications",
        "Specify many tapped holes",
        "Each item is a request as POST /v1/hole-specs takes it (its published schema is hole-spec-request), or has in"
        " place of `thread` a `note` of one hole (and `general_notes`) as POST /v1/notes/read takes it, and is"
        " answered on its own, in order; one that is wrong has its problem in its place and spoils no other. One JSON"
        " document holds a limited number of items and bytes, which the 413 tells."
        " `application/x-ndjson`, an item a line, and `text/csv`, a hole a row, are answered while they are read,"
        " without that limit: read while you write, or send slices. Blank lines are skipped. An upload that breaks off"
        " is answered as far as it was complete; the last result then has the problem `upload_truncated`, which tells"
        " where. Any form is answered in any form by `Accept`, its own where the caller does not mind; `gzip` is read"
        " and written. A CSV is in UTF-8 or UTF-16, with commas, semicolons or tabs (`sep=;` is read), its first row"
        " names columns; a workbook (.xlsx) has holes on its first sheet, at most as many as a JSON document. Headings"
        " may be in any case, say a unit (`Depth (mm)`) and use usual words (`Callout`, `Thru`, `Wall`); those that are"
        " not simply names of columns are told in `columns`, or in the header `Borewright-Columns`; one that can mean"
        " two columns is refused. A date that a spreadsheet made of a callout, a drill or a depth is refused with what"
        " it probably was. Faults name `column` and `cell`. Columns that are read: "
        + listed({name: column.meaning for name, column in COLUMNS.items()})
        + ". Lists are joined by `;`; a bare length is in the unit of `unit_system`, else of the thread; text carries"
        " its own unit; the columns are the same whatever `explain` and `detail` say. Columns that are written: "
        + listed(OUTPUT)
        + ". A workbook that is written has three sheets: the columns as they were sent and after them those of the"
        " answer, what is to be decided, and the tools with their holes; it can be sent again."
        " Lists are joined by ` | `; a fraction has its unit (`5/16 in`), a text that a spreadsheet would take for a"
        " formula has an apostrophe before it."
        " `Accept: application/xml` gives an OperationsDefinitionInformation of B2MML with an OperationsDefinition an"
        " item, in order; that of an item that was refused has a description that says why, and no segments."
        " The call only computes: nothing is stored, and asking again gives the same answer.",
        BatchReply,
        _batch,
        query=BatchQuery,
        request=BatchRequestBody,
        request_examples=_BATCH,
        other_requests={
            "application/x-ndjson": orjson.dumps(_HOLE).decode() + "\n",
            "text/csv": "\r\n".join((",".join(_ROW), ",".join(_ROW.values()), "")),
        },
        other_replies={
            "application/x-ndjson": lambda: orjson.dumps(_result()).decode() + "\n",
            "text/csv": lambda: ",".join(OUTPUT) + "\r\n",
            b2mml.MEDIA_TYPE: _b2mml,
        },
        binary_requests=(workbook.MEDIA_TYPE,),
        binary_replies=(workbook.MEDIA_TYPE,),
    ),
    Endpoint(
        "post",
        "/v1/hole-specs/requests",
        "readHoleSheet",
        "hole specifications",
        "Read a sheet of holes into requests",
        "A CSV or a workbook (.xlsx) as POST /v1/hole-specs/batch reads it: each row as the request that it stands for,"
        " not judged yet, to be sent with what a sheet cannot say, as `shop_figures` in the `defaults` of a batch or of"
        " a part plan. Headings and cells that cannot be read are told as there. The call only computes: nothing is"
        " stored.",
        SheetReadReply,
        _sheet_read,
        query=NoQuery,
        other_requests={"text/csv": "\r\n".join((",".join(_ROW), ",".join(_ROW.values()), ""))},
        other_replies={"application/x-ndjson": lambda: orjson.dumps(_row_read()).decode() + "\n"},
        binary_requests=(workbook.MEDIA_TYPE,),
    ),
    Endpoint(
        "post",
        "/v1/notes/read",
        "readNote",
        "hole specifications",
        "Read a hole note",
        "A hole note as a drawing prints it, or as a program exports it, and the general notes of the drawing: each"
        " tapped hole of it as a request of POST /v1/hole-specs, with its number, what the note says, and the pieces it"
        " was read from. What could mean two things is a question with its options, what was not understood is listed"
        " and changes nothing; damage by copying is mended only where exactly one repair fits, and told. ASME and ISO"
        " forms, older shop notation, German, French, Italian, Spanish and Japanese words. The call only computes:"
        " nothing is stored, and asking again gives the same answer.",
        NoteReply,
        _note,
        request=NoteRequestBody,
        request_examples=examples.NOTE,
    ),
    Endpoint(
        "get",
        "/metrics",
        "getMetrics",
        "health",
        "Show the figures for monitoring",
        "Requests by route and status, a histogram of their seconds, items of batches, answers from bytes, refusals by"
        " code, summed over the workers; in Prometheus' text form.",
        None,
        media_type="text/plain",
    ),
    Endpoint(
        "get",
        "/health/live",
        "getLive",
        "health",
        "Is the process alive",
        "Answers as long as the process does.",
        shown.HealthReply,
        lambda: {"status": "live"},
    ),
    Endpoint(
        "get",
        "/health/ready",
        "getReady",
        "health",
        "Does the service take requests",
        "503 with `Retry-After` while the service is stopping.",
        shown.HealthReply,
        lambda: {"status": "ready"},
    ),
    Endpoint(
        "get",
        "/openapi.json",
        "getOpenApi",
        "documents",
        "Show this description",
        "The OpenAPI 3.1 document of the service.",
        None,
        reply_text="The document.",
    ),
    Endpoint(
        "get",
        "/schemas/{name}.schema.json",
        "getSchema",
        "documents",
        "Show a JSON Schema",
        "The JSON Schema (2020-12) of one request or reply.",
        None,
        path_parameter=("name", "Name of the schema, e.g. hole-spec-request.", ()),
        reply_text="The schema.",
    ),
    Endpoint(
        "get",
        "/problems",
        "listProblems",
        "documents",
        "List the problems",
        "Every problem that an answer can carry, with its HTTP status; as a page for people where HTML is asked for.",
        shown.ProblemList,
        binary_replies=("text/html",),
    ),
    Endpoint(
        "get",
        "/problems/{code}",
        "getProblem",
        "documents",
        "Show what a problem means",
        "The address that the `type` of a problem names; as a page for people where HTML is asked for.",
        shown.ProblemMeaning,
        binary_replies=("text/html",),
        path_parameter=("code", "Code of the problem, e.g. callout_ambiguous.", ()),
    ),
)
