"""The endpoints of the service as the OpenAPI document describes them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from borewright.contract import audit_replies, catalogues, replies, verdicts
from borewright.contract.fields.composites import ObjectSchema, ReplySchema
from borewright.contract.requests import ALLOWANCE, DECODE, DRILL, HOLE_SPEC, TAP, THREAD, bodies, queries
from borewright.contract.requests.audit import AUDIT, AuditBatchBody, AuditRequestBody
from borewright.contract.writers import b2mml, drawing
from borewright.core.audit import audit
from borewright.core.plan import specify

from . import examples
from . import reply_schemas as shown

Json = Mapping[str, Any]


class Endpoint(NamedTuple):
    """One operation. ``reply_example`` answers the first request example, as the service would.

    ``other_replies`` are the media types beside JSON in which the same answer is made, each with its example;
    ``other_requests`` are those in which the same request can be sent. ``media_type`` is that of the reply.
    ``binary_replies`` and ``binary_requests`` are further media types, whose examples no text can hold. ``details``
    are the schemas of a reply whose ``detail`` the request chooses, that of the full one first.
    """

    method: str
    path: str
    operation_id: str
    tag: str
    summary: str
    text: str
    reply: type[ReplySchema] | None
    reply_example: Callable[[], Json] | None = None
    query: type[ObjectSchema] | None = None
    request: type[ObjectSchema] | None = None
    request_examples: Json | None = None
    other_replies: Mapping[str, Callable[[], str]] = {}
    path_parameter: tuple[str, str, tuple[str, ...]] | None = None
    reply_text: str = "The answer."
    other_requests: Mapping[str, str] = {}
    media_type: str = "application/json"
    binary_replies: tuple[str, ...] = ()
    binary_requests: tuple[str, ...] = ()
    details: tuple[type[ReplySchema], ...] = ()


TAGS: Mapping[str, str] = {
    "hole specifications": "The main job: the complete specification of a tapped hole.",
    "part plans": "All tapped holes of a part with the fewest tools.",
    "rework": "Holes that went wrong: every way to go on, with its arithmetic.",
    "shop figures": "What the shop measured instead of what the tables assume.",
    "threads": "Callouts, limits of size, standard sizes.",
    "drills": "The drill for a thread.",
    "allowances": "Coating, plating, anodize and heat-treat allowances.",
    "taps": "The tap for a hole, and what is etched on a shank.",
    "catalogues": "What the tables hold.",
    "documents": "This description, the JSON Schemas, the meaning of problems.",
    "health": "For balancers and monitoring.",
}

_COMPUTES = " The call only computes: nothing is stored, and asking again gives the same answer."


def listed(columns: Mapping[str, str]) -> str:
    """The ``columns`` of a sheet with their meanings, as a text."""
    return "; ".join(f"`{name}` {meaning}" for name, meaning in columns.items())


def _first(found: Mapping[str, dict[str, Any]]) -> dict[str, Any]:
    return next(iter(found.values()))


def _thread() -> Json:
    wanted = THREAD.asked(_first(examples.THREAD))
    return replies.thread_reply(specify.resolve_thread(wanted.request), wanted)


def _drill() -> Json:
    wanted = DRILL.asked(_first(examples.DRILL))
    return replies.drill_reply(specify.recommend_drill(wanted.request), wanted)


def _allowance() -> Json:
    wanted = ALLOWANCE.asked(_first(examples.ALLOWANCE))
    return replies.allowance_reply(specify.allow_finish(wanted.request), wanted)


def _tap() -> Json:
    wanted = TAP.asked(_first(examples.TAP))
    return replies.tap_reply(specify.recommend_tap(wanted.request), wanted)


def _decode() -> Json:
    wanted = DECODE.asked(_first(examples.DECODE))
    return replies.decode_reply(specify.decode_marking(wanted.request), wanted)


def _hole_spec() -> Json:
    wanted = HOLE_SPEC.asked(_first(examples.HOLE_SPEC))
    return replies.hole_spec_reply(specify.specify(wanted.request), wanted)


def _audit() -> Json:
    wanted = AUDIT.asked(_first(examples.AUDIT))
    return audit_replies.audit_reply(audit(wanted.request), wanted)


def _b2mml() -> str:
    return b2mml.operations_definition(_hole_spec()).decode()


def _drawing() -> str:
    wanted = HOLE_SPEC.asked(_first(examples.HOLE_SPEC))
    spec = specify.specify(wanted.request)
    return drawing.section_drawing(spec, replies.hole_spec_reply(spec, wanted)).decode()


def _audit_batch() -> Json:
    given = _first(examples.AUDIT_BATCH)
    results = []
    for index, item in enumerate(given["items"]):
        wanted = AUDIT.asked({**given["defaults"], **item})
        reply = audit_replies.audit_reply(audit(wanted.request), wanted)
        results.append({"index": index, "id": item["id"], "status": "ok", "audit": reply})
    counts = {verdict: [one["audit"]["verdict"] for one in results].count(verdict) for verdict in verdicts.AUDIT}
    return {"summary": {"items": len(results), "ok": len(results), "failed": 0, "verdicts": counts}, "results": results}


def _catalog() -> Json:
    return catalogues.thread_catalog(queries.catalog_filter((("system", "unified"), ("page_size", "2"))))


ENDPOINTS: tuple[Endpoint, ...] = (
    Endpoint(
        "post",
        "/v1/hole-specs",
        "createHoleSpec",
        "hole specifications",
        "Specify a tapped hole",
        "From a callout and the hole to everything the shop needs: limits of size, drill, finish allowance, tap,"
        " depths, operations with ready-to-print text, cautions and sources. `Accept: application/xml` gives the"
        " operations as an OperationsDefinition of B2MML, the XML schema of ISA-95: a segment an operation, with its"
        " tool, its parameters and the segment before it; the identifier is that of the hole, the version is the"
        " `spec_id`. The Business To Manufacturing Markup Language (B2MML) is used courtesy of MESA International."
        " `Accept: image/svg+xml`, or `?view=section`, gives a dimensioned section drawing to scale as ISO 6410-1 shows"
        " threads: widths in paper millimetres, `data-scale` is paper length over true length."
        " `Accept: application/pdf` gives the sheet for the machine on one page: card, section to scale, what is to be"
        " decided, limits, gauges, operations, cautions and a QR code that opens the hole on the page of this service;"
        " with `view=section` the drawing alone. `image/png` gives the drawing, `image/vnd.dxf` the hole in true size"
        " with layers by the line kinds of ISO 128. All three where the service was installed"
        " with its `print` extra; elsewhere the 406 names what is made. `detail` shows less: `figures`"
        " (schema hole-spec-figures-reply, 6 to 9 KB) or `routing` (hole-spec-routing-reply, 1.5 to 5 KB)." + _COMPUTES,
        shown.HoleSpecReply,
        _hole_spec,
        query=queries.HoleSpecQuery,
        request=bodies.HoleSpecRequestBody,
        request_examples=examples.HOLE_SPEC,
        other_replies={b2mml.MEDIA_TYPE: _b2mml, drawing.MEDIA_TYPE: _drawing},
        binary_replies=(drawing.PDF, drawing.PNG, drawing.DXF),
        details=shown.DETAILS,
    ),
    Endpoint(
        "post",
        "/v1/hole-specs/audit",
        "auditHoleSpec",
        "hole specifications",
        "Audit what a routing plans",
        "The drill, tap, depths, speeds and order that a routing plans, held against the specification of the hole;"
        " each finding with its code, severity and arithmetic. An error rejects the plan, a warning asks for a review."
        + _COMPUTES,
        shown.AuditReply,
        _audit,
        query=queries.DetailQuery,
        request=AuditRequestBody,
        request_examples=examples.AUDIT,
    ),
    Endpoint(
        "post",
        "/v1/hole-specs/audit/batch",
        "auditHoleSpecs",
        "hole specifications",
        "Audit a routing",
        "As POST /v1/hole-specs/audit for many holes, answered in order; one bad item never spoils the rest. As"
        " `application/x-ndjson` each line is an item, and each line of the answer a result, streamed." + _COMPUTES,
        shown.AuditBatchReply,
        _audit_batch,
        query=queries.BatchQuery,
        request=AuditBatchBody,
        request_examples=examples.AUDIT_BATCH,
    ),
    Endpoint(
        "post",
        "/v1/threads/resolve",
        "resolveThread",
        "threads",
        "Resolve a thread callout",
        "The thread of a callout with the limits of size of the internal thread and of its mate, to the printed digit."
        + _COMPUTES,
        shown.ThreadReply,
        _thread,
        query=queries.ExplainQuery,
        request=bodies.ThreadRequest,
        request_examples=examples.THREAD,
    ),
    Endpoint(
        "get",
        "/v1/threads",
        "getThread",
        "threads",
        "Resolve a thread callout in the query",
        "As POST /v1/threads/resolve, for a callout in the query; caches may keep it. Write `#` as `%23`.",
        shown.ThreadReply,
        _thread,
        query=queries.ThreadQuery,
    ),
    Endpoint(
        "get",
        "/v1/threads/catalog",
        "listThreads",
        "threads",
        "List the standard sizes",
        "The standard sizes of every thread system, filtered, a page at a time.",
        shown.ThreadCatalogReply,
        _catalog,
        query=queries.ThreadCatalogQuery,
    ),
    Endpoint(
        "post",
        "/v1/drills/recommend",
        "recommendDrill",
        "drills",
        "Recommend a drill",
        "The drill for a thread with percent of thread, expected hole and margins; ranked alternatives and rejected"
        " drills with reasons." + _COMPUTES,
        shown.DrillReply,
        _drill,
        query=queries.ExplainQuery,
        request=bodies.DrillRequestBody,
        request_examples=examples.DRILL,
    ),
    Endpoint(
        "post",
        "/v1/allowances",
        "allowFinish",
        "allowances",
        "Allow for a finish",
        "What a coating, plating, anodize or heat treatment does to the limits of an internal thread: limits before the"
        " finish, whether they can be made, and the tap limit for them." + _COMPUTES,
        shown.AllowanceReply,
        _allowance,
        query=queries.ExplainQuery,
        request=bodies.AllowanceRequestBody,
        request_examples=examples.ALLOWANCE,
    ),
    Endpoint(
        "post",
        "/v1/taps/recommend",
        "recommendTap",
        "taps",
        "Recommend a tap",
        "Style, chamfer and pitch-diameter limit of the tap, with the arithmetic that chose the limit." + _COMPUTES,
        shown.TapReply,
        _tap,
        query=queries.ExplainQuery,
        request=bodies.TapRequestBody,
        request_examples=examples.TAP,
    ),
    Endpoint(
        "post",
        "/v1/taps/decode",
        "decodeTap",
        "taps",
        "Read a tap's marking",
        "What is etched on a tap's shank, and the internal classes the tap can hold with what margin." + _COMPUTES,
        shown.TapDecodeReply,
        _decode,
        query=queries.ExplainQuery,
        request=bodies.TapDecodeRequest,
        request_examples=examples.DECODE,
    ),
    Endpoint(
        "get",
        "/v1/catalog/{name}",
        "getCatalogue",
        "catalogues",
        "Show a catalogue",
        "One list, whole or filtered and a page at a time: materials, finishes, drills, tap limits, thread systems with"
        " what is covered, units, and where the figures come from: documents by status, rows, and how many everyday"
        " answers lean on each.",
        shown.CatalogueReply,
        lambda: {**catalogues.catalogue("units"), "items": catalogues.catalogue_rows("units")[:2]},
        query=queries.CatalogueQuery,
        path_parameter=("name", "Name of the catalogue.", tuple(catalogues.CATALOGUES)),
    ),
    Endpoint(
        "get",
        "/v1/version",
        "getVersion",
        "catalogues",
        "Show the versions",
        "Versions of the service, of the contract and of the tables.",
        shown.VersionReply,
    ),
)
