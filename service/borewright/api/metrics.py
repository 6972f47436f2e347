"""What is counted, for GET /metrics: over all workers where the server set up a folder for them."""

from __future__ import annotations

from prometheus_client import CollectorRegistry, Counter, Histogram, exposition, generate_latest, multiprocess, values

MEDIA_TYPE = exposition.CONTENT_TYPE_PLAIN_0_0_4

_BUCKETS = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 10.0, 60.0)
_REGISTRY = CollectorRegistry()
_REQUESTS = Counter("borewright_requests", "Requests.", ("method", "route", "status"), registry=_REGISTRY)
_SECONDS = Histogram(
    "borewright_request_seconds",
    "Seconds from a request to its answer, for a streamed one to its end.",
    ("route",),
    buckets=_BUCKETS,
    registry=_REGISTRY,
)
_ITEMS = Counter("borewright_batch_items", "Items of batches.", ("status",), registry=_REGISTRY)
_HITS = Counter("borewright_batch_cache_hits", "Items of batches that were answered from bytes.", registry=_REGISTRY)
_REFUSALS = Counter("borewright_refusals", "Answers that are a problem, by code.", ("code",), registry=_REGISTRY)


def count_request(method: str, route: str, status: int, seconds: float) -> None:
    """An answer went out. Args: ``route`` is the rule, never the address as typed."""
    _REQUESTS.labels(method, route, str(status)).inc()
    _SECONDS.labels(route).observe(seconds)


def count_refusal(code: str) -> None:
    """An answer is a problem."""
    _REFUSALS.labels(code).inc()


def count_items(*, ok: int, failed: int) -> None:
    """Items of a batch were answered."""
    _ITEMS.labels("ok").inc(ok)
    _ITEMS.labels("error").inc(failed)


def count_cache_hit() -> None:
    """An item was answered from bytes."""
    _HITS.inc()


def text() -> bytes:
    """All figures in Prometheus' text form."""
    registry = _REGISTRY
    if values.ValueClass is not values.MutexValue:
        registry = CollectorRegistry()
        multiprocess.MultiProcessCollector(registry)  # type: ignore[no-untyped-call]
    return generate_latest(registry)
