"""What is counted, for GET /metrics: over all workers where the server set up a folder for them."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from prometheus_client import (
    CollectorRegistry,
    Counter,
    Gauge,
    Histogram,
    exposition,
    generate_latest,
    multiprocess,
    values,
)
from prometheus_client.metrics_core import Metric
from prometheus_client.registry import Collector

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
_HITS = Counter("borewright_cache_hits", "Answers from bytes, by kind of request.", ("kind",), registry=_REGISTRY)
_KEPT = Gauge(
    "borewright_response_cache_answers",
    "Answers that are kept, sum over the workers.",
    registry=_REGISTRY,
    multiprocess_mode="livesum",
)
_KEPT_BYTES = Gauge(
    "borewright_response_cache_bytes",
    "Bytes of the answers that are kept and of their questions, sum over the workers.",
    registry=_REGISTRY,
    multiprocess_mode="livesum",
)
_REFUSALS = Counter("borewright_refusals", "Answers that are a problem, by code.", ("code",), registry=_REGISTRY)


def count_request(method: str, route: str, status: int, seconds: float) -> None:
    """An answer went out. Args: ``route`` is the rule, never the address as typed."""
    _REQUESTS.labels(method, route, str(status)).inc()
    _SECONDS.labels(route).observe(seconds)


def count_refusal(code: str) -> None:
    """An answer is a problem."""
    _REFUSALS.labels(code).inc()


def count_items(*, ok: int, failed: int, kept: int) -> None:
    """Items of a batch were answered, ``kept`` of them from bytes."""
    _ITEMS.labels("ok").inc(ok)
    _ITEMS.labels("error").inc(failed)
    _HITS.labels("batch").inc(kept)


def count_cache_hit() -> None:
    """A single request was answered from bytes."""
    _HITS.labels("single").inc()


def show_response_cache(*, answers: int, size: int) -> None:
    """The answers that this worker keeps now, and their bytes."""
    _KEPT.set(answers)
    _KEPT_BYTES.set(size)


def text() -> bytes:
    """All figures in Prometheus' text form."""
    registry = _REGISTRY
    if values.ValueClass is not values.MutexValue:
        registry = CollectorRegistry()
        registry.register(_Workers())
    return generate_latest(registry)


class _Workers(Collector):
    """The figures of all workers, also of those that are gone; a file that its worker died over has nothing in it."""

    def collect(self) -> Iterable[Metric]:
        """The sums."""
        found = sorted(Path(os.environ["PROMETHEUS_MULTIPROC_DIR"]).glob("*.db"))
        written = [str(file) for file in found if file.stat().st_size]
        merged: Iterable[Metric] = multiprocess.MultiProcessCollector.merge(written)  # type: ignore[no-untyped-call]
        return merged
