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
import time
from functools import partial
from typing import Any

import orjson
from gunicorn.http.errors import InvalidHeader, LimitRequestHeaders, LimitRequestLine, ParseException
from gunicorn.workers.gthread import _DEFER, ThreadWorker

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
#: Between two looks at requests that are gathered.
_LOOK_SECONDS = 0.2
#: Where no descriptor is left for a new connection it waits so long.
_FULL_SECONDS = 0.05


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
        gc.enable()  # whatever the configuration left, which is read again at SIGHUP
        gc.set_threshold(*_GC_THRESHOLDS)
        self._next_look = 0.0
        self._read_timeout_s = from_environment(os.environ).read_timeout_s
        super().init_process()

    def init_signals(self) -> None:
        """Handle signals as gunicorn does, and take those that were held meanwhile."""
        super().init_signals()
        signal.pthread_sigmask(signal.SIG_UNBLOCK, _STOP_SIGNALS)

    def accept(self, listener: Any) -> None:
        """Accept a connection; where nothing is left for one, it waits and the worker lives on."""
        try:
            super().accept(listener)
        except OSError as error:
            self.log.warning("a connection has to wait: %s", error.strerror)
            time.sleep(_FULL_SECONDS)

    def enqueue_req(self, conn: Any) -> None:
        """Give the connection's request to a thread."""
        if not isinstance(conn.sock, PatientSocket):
            conn.sock = PatientSocket(conn.sock, self._read_timeout_s)
        super().enqueue_req(conn)

    def murder_pending(self) -> None:
        """Close connections on which nothing came; what came of a request and is due gets a thread."""
        now = time.monotonic()
        if now < self._next_look:
            return
        self._next_look = now + _LOOK_SECONDS
        for conn in [conn for conn in self.pending_conns if (conn.sock.due or conn.timeout) <= now]:
            self.pending_conns.remove(conn)
            self.poller.unregister(conn.sock)
            if conn.sock.due:
                self.enqueue_req(conn)
            else:
                self.nr_conns -= 1
                conn.close()

    def handle(self, conn: Any) -> Any:
        """Answer the next request of a connection, once it is here."""
        if not conn.initialized and not conn.data_ready and not conn.wait_for_data(_FIRST_BYTE_SECONDS):
            return _DEFER
        if not conn.sock.gather(conn.parser.unreader.take_buffered if conn.parser else bytes):
            return _DEFER
        return super().handle(conn)

    def handle_request(self, req: Any, conn: Any) -> Any:
        """Answer a request whose head is here."""
        conn.sock.end_head(stream=req.path.endswith("/batch"))
        if req.version >= (1, 1) and not any(name == "HOST" for name, _ in req.headers):
            raise InvalidHeader("HOST", req=req)
        try:
            return super().handle_request(req, conn)
        finally:
            conn.sock.end_answer()

    def handle_exit(self, sig: int, frame: Any) -> None:
        """Stop taking requests, then stop as gunicorn does."""
        STOPPING.set()
        super().handle_exit(sig, frame)

    def handle_error(self, req: Any, client: Any, addr: Any, exc: Exception) -> None:
        """Answer with a problem; the log has what kind of error it was, never what was sent."""
        if isinstance(exc, TooSlow):
            code, detail = exc.code, exc.detail
        else:
            code = _code(exc)
            detail = problems.KINDS[code].title + "."
        if code == "internal_error":
            self.log.error("a request from %s failed", addr, exc_info=exc)
        else:
            self.log.warning("refused a request from %s: %s", addr, type(exc).__name__)
        try:
            _send_problem(client, code, detail)
        except OSError:
            self.log.debug("the answer to a refused request was not taken")


def _code(error: Exception) -> str:
    if isinstance(error, LimitRequestLine):
        return "address_too_long"
    if isinstance(error, LimitRequestHeaders):
        return "header_too_large"
    return "request_unreadable" if isinstance(error, ParseException) else "internal_error"


def _send_problem(socket: Any, code: str, detail: str) -> None:
    title = problems.KINDS[code].title
    body = orjson.dumps(problems.document(code, detail, (), instance="", request_id=""))
    head = (
        f"HTTP/1.1 {problems.KINDS[code].status} {title}\r\nConnection: close\r\n"
        f"Content-Type: {problems.MEDIA_TYPE}\r\nContent-Length: {len(body)}\r\n\r\n"
    )
    socket.sendall(head.encode("latin-1") + body)
