"""Every call of the service, once: a method an endpoint, for both kinds of client."""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Sized
from typing import Any

from . import replies
from .answers import json_object
from .batch import Lines
from .call import Body, Call, Called, Paged, Pages, Streamed, get, post, post_for, written
from .errors import ClientError

#: Names that :meth:`Calls.catalog` takes.
CATALOGS = ("materials", "finishes", "drills", "tap-limits", "thread-systems", "units")


class Calls:
    """The calls. ``fields`` are further fields of the request, a :class:`~decimal.Decimal` is taken as a number."""

    @Called
    def resolve_thread(self, /, thread: str | Body, **fields: Any) -> Call[replies.ThreadReply]:
        """``POST /v1/threads/resolve``: the thread of a callout and its limits of size."""
        return post("/v1/threads/resolve", {"thread": thread, **fields})

    @Called
    def recommend_drill(self, /, thread: str | Body, **fields: Any) -> Call[replies.DrillReply]:
        """``POST /v1/drills/recommend``: the drill, ranked alternatives and rejected drills."""
        return post("/v1/drills/recommend", {"thread": thread, **fields})

    @Called
    def allowance(self, /, thread: str | Body, finish: str | Body, **fields: Any) -> Call[replies.AllowanceReply]:
        """``POST /v1/allowances``: limits before a coating, plating or heat treatment."""
        return post("/v1/allowances", {"thread": thread, "finish": finish, **fields})

    @Called
    def recommend_tap(self, /, thread: str | Body, **fields: Any) -> Call[replies.TapReply]:
        """``POST /v1/taps/recommend``: the tap, its chamfer and pitch-diameter limit."""
        return post("/v1/taps/recommend", {"thread": thread, **fields})

    @Called
    def decode_tap(self, /, marking: str, **fields: Any) -> Call[replies.TapDecodeReply]:
        """``POST /v1/taps/decode``: what is etched on a tap's shank and the classes it holds."""
        return post("/v1/taps/decode", {"marking": marking, **fields})

    @Called
    def read_note(self, /, note: str, **fields: Any) -> Call[replies.NoteReply]:
        """``POST /v1/notes/read``: the holes of a note as requests, what is asked back, what was not read."""
        return post("/v1/notes/read", {"note": note, **fields})

    @Called
    def rework(self, /, request: Body) -> Call[replies.ReworkReply]:
        """``POST /v1/rework``: ways to go on with a hole that went wrong; ``found`` says what was found at it."""
        return post("/v1/rework", request)

    @Called
    def hole_spec(self, /, request: Body) -> Call[replies.HoleSpecReply]:
        """``POST /v1/hole-specs``: the complete specification of one tapped hole.

        ``shop_figures`` in the request, as :meth:`fit_shop_figures` gives them, stand in place of the tables' figures
        where material and size fit; so do they in the requests of drills, taps, allowances, audits, rework and part
        plans, and in the ``defaults`` of batches.
        """
        return post("/v1/hole-specs", request)

    @Called
    def hole_spec_figures(self, /, request: Body) -> Call[replies.HoleSpecFigures]:
        """``POST /v1/hole-specs`` with ``detail`` figures: the specification without texts."""
        return post("/v1/hole-specs", {**request, "detail": "figures"})

    @Called
    def hole_spec_routing(self, /, request: Body) -> Call[replies.HoleSpecRouting]:
        """``POST /v1/hole-specs`` with ``detail`` routing: what a routing and a card at the machine need."""
        return post("/v1/hole-specs", {**request, "detail": "routing"})

    @Called
    def drawing(self, /, request: Body, media_type: str = "image/svg+xml") -> Call[bytes]:
        """``POST /v1/hole-specs`` as a section to scale (SVG; PNG where the service prints) or machine sheet (PDF)."""
        return post_for("/v1/hole-specs", request, media_type)

    @Called
    def b2mml(self, /, request: Body) -> Call[bytes]:
        """``POST /v1/hole-specs`` as XML: the operations as an OperationsDefinition of B2MML."""
        return post_for("/v1/hole-specs", request, "application/xml")

    @Called
    def b2mml_batch(self, /, items: Sequence[Body], **fields: Any) -> Call[bytes]:
        """``POST /v1/hole-specs/batch`` as XML: an OperationsDefinition of B2MML an item."""
        return post_for("/v1/hole-specs/batch", {"items": list(items), **fields}, "application/xml")

    @Called
    def audit(self, /, request: Body) -> Call[replies.AuditReply]:
        """``POST /v1/hole-specs/audit``: what a routing plans for a hole, checked; ``as_planned`` holds the plan."""
        return post("/v1/hole-specs/audit", request)

    @Called
    def audit_batch(self, /, items: Sequence[Body], **fields: Any) -> Call[replies.AuditBatchReply]:
        """``POST /v1/hole-specs/audit/batch``: a routing checked, item by item; ``defaults`` fill all items."""
        return post("/v1/hole-specs/audit/batch", {"items": list(items), **fields})

    @Called
    def rework_batch(self, /, items: Sequence[Body], **fields: Any) -> Call[replies.ReworkBatchReply]:
        """``POST /v1/rework/batch``: ways for many holes that went wrong, in order; ``defaults`` fill all items."""
        return post("/v1/rework/batch", {"items": list(items), **fields})

    @Called
    def read_sheet(self, /, content: bytes, media_type: str = "text/csv") -> Call[replies.SheetReadReply]:
        """``POST /v1/hole-specs/requests``: the rows of a sheet of holes as requests, not judged yet.

        Args:
            content: the bytes of a CSV or of a workbook.
            media_type: which of the two; that of a workbook is
                ``application/vnd.openxmlformats-officedocument.spreadsheetml.sheet``.
        """
        return Call("POST", "/v1/hole-specs/requests", json_object, content, sent=media_type)

    @Called
    def compare(self, /, before: Body, after: Body | None = None, **fields: Any) -> Call[replies.CompareReply]:
        """``POST /v1/hole-specs/compare``: what differs from a kept specification, why, and whether it matters.

        Args:
            before: a kept reply, or ``{"request", "reply"}`` or ``{"request", "spec_id"}``.
            after: the request to answer now; needed where no request was kept.
        """
        return post("/v1/hole-specs/compare", {"before": before, "after": after, **fields})

    @Streamed
    def compare_batch(
        self, /, items: Iterable[Body], *, slice_size: int = 500, progress: bool = False
    ) -> Lines[replies.CompareResult]:
        """``POST /v1/hole-specs/compare/batch``: a whole routing after an upgrade, as :meth:`batch` takes items.

        Args:
            items: ``{"before", "after"?}`` as :meth:`compare` takes them, with an ``id`` that the result gets.
            slice_size: most items a request.
            progress: show a bar on a terminal.
        """
        return Lines("/v1/hole-specs/compare/batch", map(written, items), slice_size, _count(items), progress)

    @Streamed
    def batch(
        self, /, items: Iterable[Body], *, defaults: Body | None = None, slice_size: int = 500, progress: bool = False
    ) -> Lines[replies.BatchResult]:
        """``POST /v1/hole-specs/batch``: an answer an item, in order, while the items are being taken.

        Items are sent in slices, and what comes back is yielded at once, so that neither is ever held whole. Where a
        connection breaks, only the items without answer are asked again: none is lost, none comes twice.

        Args:
            items: requests as :meth:`hole_spec` takes them; any iterable, also one without end.
            defaults: fields for every item that does not have them itself.
            slice_size: most items a request.
            progress: show a bar on a terminal, with the extra ``borewright-client[progress]``.

        Yields:
            ``{"index", "id", "status": "ok" | "error", "spec" | "problem"}``, ``index`` over the whole run.
        """
        lines = (written({**defaults, **item} if defaults else item) for item in items)
        return Lines("/v1/hole-specs/batch", lines, slice_size, _count(items), progress)

    @Called
    def plan_part(self, /, request: Body) -> Call[replies.PartPlanReply]:
        """``POST /v1/part-plans``: all tapped holes of a part with the fewest tools, their order, time and kit."""
        return post("/v1/part-plans", request)

    @Called
    def b2mml_part(self, /, request: Body) -> Call[bytes]:
        """``POST /v1/part-plans`` as XML: an OperationsDefinition of B2MML, a segment a loading."""
        return post_for("/v1/part-plans", request, "application/xml")

    @Called
    def fit_shop_figures(self, /, measurements: Sequence[Body], **fields: Any) -> Call[replies.ShopFiguresReply]:
        """``POST /v1/shop-figures/fit``: what the shop measured; ``shop_figures`` of the reply go with later calls.

        ``client.hole_spec({..., "shop_figures": reply["shop_figures"]})``. The service keeps nothing: keep them.
        Fields as in the contract: unit_system, gauge_uncertainty, selection,
        confidence, exclude_flagged.
        """
        return post("/v1/shop-figures/fit", {"measurements": list(measurements), **fields})

    @Called
    def threads(self, /, **filters: Any) -> Call[replies.ThreadCatalogReply]:
        """``GET /v1/threads/catalog``: a page of standard sizes; filters as in the contract."""
        return get("/v1/threads/catalog", filters)

    @Paged
    def thread_pages(self, /, **filters: Any) -> Pages[replies.ThreadCatalogReply]:
        """``GET /v1/threads/catalog``: all pages of standard sizes, one after the other."""
        page, last = filters.pop("page", 1), None
        while last is None or page <= last:
            reply = yield get("/v1/threads/catalog", {**filters, "page": page})
            page, last = page + 1, reply["pages"]

    @Called
    def catalog(self, /, name: str, **filters: Any) -> Call[replies.CatalogueReply]:
        """``GET /v1/catalog/<name>``: one of :data:`CATALOGS`."""
        return get(f"/v1/catalog/{name}", filters)

    @Called
    def version(self) -> Call[replies.VersionReply]:
        """``GET /v1/version``: versions of the service and of its tables."""
        return get("/v1/version", {})

    @Called
    def ready(self) -> Call[bool]:
        """``GET /health/ready``: True when the service takes requests."""
        return Call("GET", "/health/ready", lambda _: True, instead=_not_ready)


def _not_ready(_: ClientError) -> bool:
    return False


def _count(items: Iterable[Body]) -> int | None:
    return len(items) if isinstance(items, Sized) else None
