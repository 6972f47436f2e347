"""The worker: gunicorn's threaded one, with additions of ours.

A request that is no HTTP never reaches the application; gunicorn answers it with an HTML page, this worker with a
problem. Callers that keep a thread waiting are given up (:mod:`slow_callers`). When it is told to stop, new requests on
open connections are answered 503 with ``Retry-After``, also when that comes in the moment of its start
(:func:`hold_signals_at_forks`).
"""

from __future__ import annotations

import gc
import os
import signal
from functools import partial
from typing import Any

import orjson
from gunicorn.workers.gthread import ThreadWorker

from . import problems
from .draining import STOPPING
from .settings import from_environment
from .slow_callers import PatientSocket, TooSlow

#: The default (700, 10, 10) spends a quarter of a request on looking through replies that are freed anyway.
_GC_THRESHOLDS = (100_000, 50, 100)
#: A connection on which nothing comes at first waits without a thread.
_FIRST_BYTE_SECONDS = 0.1
#: What tells a process to stop.
_STOP_SIGNALS = (signal.SIGTERM, signal.SIGINT, signal.SIGQUIT)
_CODES = {b"400": "request_unreadable", b"414": "address_too_long", b"431": "header_too_large"}


def hold_signals_at_forks() -> None:
    """Let a new worker get its signals when it can read them, for gunicorn's master.

    Until a worker has handlers of its own it has those of the master, which write a signal down for a loop that only
    the master runs. A worker that was told to stop so early was never told again, and killed when its time was over.
    """
    release = partial(signal.pthread_sigmask, signal.SIG_UNBLOCK, _STOP_SIGNALS)
    release()  # a master that another one started has them held
    os.register_at_fork(
        before=partial(signal.pthread_sigmask, signal.SIG_BLOCK, _STOP_SIGNALS), after_in_parent=release
    )


class ProblemWorker(ThreadWorker):  # type: ignore[misc]
    """A threaded worker that answers broken requests with problems and announces that it stops."""

    def init_process(self) -> None:
        """Keep the tables out of garbage collection, and collect seldom: a request leaves no cycles behind."""
        gc.freeze()
        gc.set_threshold(*_GC_THRESHOLDS)
        self._read_timeout_s = from_environment(os.environ).read_timeout_s
        super().init_process()

    def init_signals(self) -> None:
        """Handle signals as gunicorn does, and take those that were held meanwhile."""
        super().init_signals()
        signal.pthread_sigmask(signal.SIG_UNBLOCK, _STOP_SIGNALS)

    def enqueue_req(self, conn: Any) -> None:
        """Give the connection's request to a thread, but not for long."""
        if not isinstance(conn.sock, PatientSocket):
            conn.sock = PatientSocket(conn.sock, self._read_timeout_s)
            wait = conn.wait_for_data
            conn.wait_for_data = lambda seconds: wait(min(seconds, _FIRST_BYTE_SECONDS))
        super().enqueue_req(conn)

    def handle(self, conn: Any) -> Any:
        """Answer the next request of a connection."""
        conn.sock.begin_head()
        return super().handle(conn)

    def handle_request(self, req: Any, conn: Any) -> Any:
        """Answer a request whose head is here."""
        conn.sock.end_head()
        try:
            return super().handle_request(req, conn)
        finally:
            conn.sock.end_answer()

    def handle_exit(self, sig: int, frame: Any) -> None:
        """Stop taking requests, then stop as gunicorn does."""
        STOPPING.set()
        super().handle_exit(sig, frame)

    def handle_error(self, req: Any, client: Any, addr: Any, exc: Exception) -> None:
        """Log as gunicorn does, and let its answer go out as a problem."""
        if isinstance(exc, TooSlow):
            self.log.warning("gave up a request from %s: its head did not come in time", addr)
            _ProblemSocket(client).send_problem(exc.code, exc.detail)
            return
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
        self.send_problem(code, problems.KINDS[code].title + ".")

    def send_problem(self, code: str, detail: str) -> None:
        """Send a problem and no more."""
        title = problems.KINDS[code].title
        body = orjson.dumps(problems.document(code, detail, (), instance="", request_id=""))
        head = (
            f"HTTP/1.1 {problems.KINDS[code].status} {title}\r\nConnection: close\r\n"
            f"Content-Type: {problems.MEDIA_TYPE}\r\nContent-Length: {len(body)}\r\n\r\n"
        )
        self._socket.sendall(head.encode("latin-1") + body)
