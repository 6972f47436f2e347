"""What is counted, for GET /metrics: over all workers where the server set up a folder for them.

Figures never fail a request: what cannot be counted is not counted, and told once.
"""

from __future__ import annotations

import errno
import logging
import os
import sys
from collections.abc import Callable, Iterable
from functools import cache, wraps
from pathlib import Path
from typing import Any

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
from prometheus_client.mmap_dict import MmapedDict
from prometheus_client.registry import Collector

MEDIA_TYPE = exposition.CONTENT_TYPE_PLAIN_0_0_4
_log = logging.getLogger("borewright")


class _ReservedFile(MmapedDict):
    """A file of figures whose room on the disk is reserved before it is mapped into memory.

    Writing to mapped memory for which the disk has no room ends the process (SIGBUS).
    """

    def __init__(self, filename: str, read_mode: bool = False) -> None:
        if not read_mode:
            os.makedirs(os.path.dirname(filename), exist_ok=True)
            with open(filename, "ab") as file:
                os.posix_fallocate(file.fileno(), 0, _RESERVED_BYTES)
        super().__init__(filename, read_mode)  # type: ignore[no-untyped-call]

    def _init_value(self, key: str) -> None:
        if self._used + len(key.encode()) + _BESIDE_KEY_BYTES > self._capacity:
            raise OSError(errno.ENOSPC, "the file of figures is full")
        super()._init_value(key)  # type: ignore[no-untyped-call]


#: Three files a worker; the figures of all routes with every status that they have take less than half of one.
_RESERVED_BYTES = 262_144
#: Length, padding, value and time.
_BESIDE_KEY_BYTES = 32
values.MmapedDict = _ReservedFile  # type: ignore[attr-defined]  # the library has no way to name another one


def _never_fails(count: Callable[..., None]) -> Callable[..., None]:
    """A function that counts, of which no error reaches who called it."""
    told = False

    @wraps(count)
    def try_to_count(*given: Any, **named: Any) -> None:
        nonlocal told
        try:
            count(*given, **named)
        except Exception as error:
            if not told:
                _log.warning("figures are not counted: %s", error)
            told = True

    return try_to_count


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


@_never_fails
def count_request(method: str, route: str, status: int, seconds: float) -> None:
    """An answer went out. Args: ``route`` is the rule, never the address as typed."""
    requests, times = _of_route(method, route, status)
    requests.inc()
    times.observe(seconds)


@cache
def _of_route(method: str, route: str, status: int) -> tuple[Counter, Histogram]:
    """Figures of a rule with a status: to look them up by their labels takes as long as to count."""
    return _REQUESTS.labels(method, route, str(status)), _SECONDS.labels(route)


@_never_fails
def count_refusal(code: str) -> None:
    """An answer is a problem."""
    _REFUSALS.labels(code).inc()


@_never_fails
def count_items(*, ok: int, failed: int, kept: int) -> None:
    """Items of a batch were answered, ``kept`` of them from bytes."""
    _ITEMS.labels("ok").inc(ok)
    _ITEMS.labels("error").inc(failed)
    _HITS.labels("batch").inc(kept)


@_never_fails
def count_cache_hit() -> None:
    """A single request was answered from bytes."""
    _HITS.labels("single").inc()


@_never_fails
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


@_never_fails
def forget_worker(process: int) -> None:
    """A worker is gone: what it counted is added to that of all who went before, so that files do not pile up."""
    folder = Path(os.environ["PROMETHEUS_MULTIPROC_DIR"])
    for kind in ("counter", "histogram"):
        left = folder / f"{kind}_{process}.db"
        if _has_figures(left):
            gone = _ReservedFile(str(folder / f"{kind}_gone.db"))
            for key, value, _, _ in MmapedDict.read_all_values_from_file(str(left)):  # type: ignore[no-untyped-call]
                before, _ = gone.read_value(key)  # type: ignore[no-untyped-call]
                gone.write_value(key, before + value, 0.0)  # type: ignore[no-untyped-call]
            gone.close()  # type: ignore[no-untyped-call]
        left.unlink(missing_ok=True)
    for left in folder.glob(f"gauge_*_{process}.db"):
        left.unlink(missing_ok=True)


class _Workers(Collector):
    """The figures of all workers, also of those that are gone; a file that its worker died over has nothing in it."""

    def collect(self) -> Iterable[Metric]:
        """The sums."""
        found = sorted(Path(os.environ["PROMETHEUS_MULTIPROC_DIR"]).glob("*.db"))
        written = [str(file) for file in found if _has_figures(file)]
        merged: Iterable[Metric] = multiprocess.MultiProcessCollector.merge(written)  # type: ignore[no-untyped-call]
        return merged


def _has_figures(file: Path) -> bool:
    try:
        with file.open("rb") as opened:
            used = int.from_bytes(opened.read(4), sys.byteorder)
    except OSError:  # gone meanwhile
        return False
    return 8 < used <= _RESERVED_BYTES
