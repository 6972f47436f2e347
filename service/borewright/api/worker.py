"""The worker: gunicorn's threaded one, with two additions of ours.

A request that is no HTTP never reaches the application; gunicorn answers it with an HTML page, this worker with a
problem. When it is told to stop, new requests on open connections are answered 503 with ``Retry-After``.
"""

from __future__ import annotations

import gc
from typing import Any

import orjson
from gunicorn.workers.gthread import ThreadWorker

from . import problems
from .draining import STOPPING

#: The default (700, 10, 10) spends a quarter of a request on looking through replies that are freed anyway.
_GC_THRESHOLDS = (100_000, 50, 100)
_CODES = {b"400": "request_unreadable", b"414": "address_too_long", b"431": "header_too_large"}


class ProblemWorker(ThreadWorker):  # type: ignore[misc]
    """A threaded worker that answers broken requests with problems and announces that it stops."""

    def init_process(self) -> None:
        """Keep the tables out of garbage collection, and collect seldom: a request leaves no cycles behind."""
        gc.freeze()
        gc.set_threshold(*_GC_THRESHOLDS)
        super().init_process()

    def handle_exit(self, sig: int, frame: Any) -> None:
        """Stop taking requests, then stop as gunicorn does."""
        STOPPING.set()
        super().handle_exit(sig, frame)

    def handle_error(self, req: Any, client: Any, addr: Any, exc: Exception) -> None:
        """Log as gunicorn does, and let its answer go out as a problem."""
        super().handle_error(req, _ProblemSocket(client), addr, exc)


class _ProblemSocket:
    """A socket on which gunicorn's HTML answer to a broken request leaves as a problem."""

    def __init__(self, socket: Any) -> None:
        self._socket = socket

    def __getattr__(self, name: str) -> Any:
        return getattr(self._socket, name)

    def sendall(self, answer: bytes) -> None:
        """Send a problem with the meaning of ``answer``."""
        status = answer.split(b" ", 2)[1] if answer.startswith(b"HTTP/1.1 ") else b"400"
        code = _CODES.get(status, "internal_error" if status >= b"500" else "request_refused")
        title = problems.KINDS[code].title
        body = orjson.dumps(problems.document(code, title + ".", (), instance="", request_id=""))
        head = (
            f"HTTP/1.1 {problems.KINDS[code].status} {title}\r\nConnection: close\r\n"
            f"Content-Type: {problems.MEDIA_TYPE}\r\nContent-Length: {len(body)}\r\n\r\n"
        )
        self._socket.sendall(head.encode("latin-1") + body)
