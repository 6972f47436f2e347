"""The worker: gunicorn's threaded one, with additions of ours.

A request that is no HTTP never reaches the application; gunicorn answers it with an HTML page, this worker with a
problem (:mod:`broken_requests`). No caller keeps a thread from others: a request is gathered before a thread takes it,
what takes long has threads of its own (:mod:`slow_callers`), and a connection that is closed is waited for without any.
A short request takes none of them: to hand it over and back takes as long as to answer it.
When it is told to stop, new requests on open connections are answered 503 with ``Retry-After``, also when that comes in
the moment of its start (:func:`hold_signals_at_forks`).
"""

from __future__ import annotations

import gc
import os
import signal
import time
from collections import deque
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from functools import partial
from selectors import EVENT_READ
from socket import SHUT_WR
from typing import Any, NamedTuple

from gunicorn.glogging import Logger
from gunicorn.http.errors import InvalidHeader, UnsupportedTransferCoding
from gunicorn.workers.gthread import _DEFER, ThreadWorker

from . import broken_requests
from .draining import STOPPING
from .incoming import Stage
from .settings import from_environment
from .slow_callers import Patience, PatientSocket

#: The default (700, 10, 10) spends a quarter of a request on looking through replies that are freed anyway.
_GC_THRESHOLDS = (100_000, 50, 100)
#: What tells a process to stop.
_STOP_SIGNALS = (signal.SIGTERM, signal.SIGINT, signal.SIGQUIT)
#: Between two looks at connections that wait.
_LOOK_SECONDS = 0.2
#: Where no descriptor is left for a new connection it waits so long.
_FULL_SECONDS = 0.05
#: A connection that is closed stays open so long for what its caller still sends, so that he gets to see the answer.
_LEAVING_SECONDS = 2.0
_PIECE = 65_536
#: What the caller of a request that is here gets for taking the answer, and that of a long one, while others wait.
_HURRIED, _HURRIED_LONG = Patience(0.1, 16_777_216), Patience(2.0, 16_384)


class QuietLogger(Logger):  # type: ignore[misc]
    """gunicorn's log without its lines of requests, which the door writes (:mod:`door.access_log`)."""

    access_log_enabled = False


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


class _Threads(ThreadPoolExecutor):
    """Threads of which one is always there: where no more can be made, it answers what the others would."""

    def __init__(self, most: int) -> None:
        super().__init__(max_workers=most)
        self.submit(int).result()

    def _adjust_thread_count(self) -> None:
        try:
            super()._adjust_thread_count()
        except RuntimeError:
            if not self._threads:
                raise

    def crowded(self) -> bool:
        """Whether a request waits for one of these threads, or the process for all of them."""
        return self._work_queue.qsize() > 0 or STOPPING.is_set()


class _Answered(NamedTuple):
    """What gunicorn asks of a thread that has answered, where none had to. Args: ``kept`` = the connection goes on."""

    kept: Any

    def cancelled(self) -> bool:
        """Never."""
        return False

    def exception(self) -> None:
        """None: gunicorn has told it."""

    def result(self) -> Any:
        """Whether the connection goes on."""
        return self.kept


class ProblemWorker(ThreadWorker):  # type: ignore[misc]
    """A threaded worker that answers broken requests with problems and announces that it stops."""

    def init_process(self) -> None:
        """Keep the tables out of garbage collection, and collect seldom: a request leaves no cycles behind."""
        gc.freeze()
        gc.enable()  # whatever the configuration left, which is read again at SIGHUP
        gc.set_threshold(*_GC_THRESHOLDS)
        self._next_look, self._answering = 0.0, False
        self._read_timeout_s = from_environment(os.environ).read_timeout_s
        self._long = self.get_thread_pool()
        self._leaving: deque[Any] = deque()
        super().init_process()

    def get_thread_pool(self) -> _Threads:
        """The threads for requests that are here; as many are for those that take long."""
        return _Threads(self.cfg.threads)

    def init_signals(self) -> None:
        """Handle signals as gunicorn does, and take those that were held meanwhile."""
        super().init_signals()
        signal.pthread_sigmask(signal.SIG_UNBLOCK, _STOP_SIGNALS)

    # --- connections, in the main thread -------------------------------------------------------------

    def accept(self, listener: Any) -> None:
        """Accept a connection; where nothing is left for one, it waits and the worker lives on."""
        if self.nr_conns >= self.worker_connections - 1:
            self._make_room()
        try:
            super().accept(listener)
        except OSError as error:
            self.log.warning("a connection has to wait: %s", error.strerror)
            time.sleep(_FULL_SECONDS)

    def _make_room(self) -> None:
        """Close the connection that has waited longest for a request, or for the rest of one."""
        waiting = self._leaving or max(self.pending_conns, self.keepalived_conns, key=len)
        if waiting:
            self._close(waiting.popleft())

    def enqueue_req(self, conn: Any) -> None:
        """Gather what has come of the connection's request; once it is here, answer it or give it to a thread."""
        if not isinstance(conn.sock, PatientSocket):
            conn.sock = PatientSocket(conn.sock, self._read_timeout_s)
        stage = conn.sock.gather(conn.parser.unreader.take_buffered if conn.parser else bytes)
        if stage is Stage.COMING:
            super().finish_request(conn, _Answered(_DEFER))
        elif stage is Stage.LONG:
            self._give(self._long, conn, partial(self._answer, conn, self._long, _HURRIED_LONG))
        elif stage is Stage.SHORT and not self._answering:
            self._answering = True  # what comes after it in the same piece does not go deeper and deeper
            try:
                self._answer_here(conn)
            finally:
                self._answering = False
        else:
            self._give(self.tpool, conn, partial(self._answer, conn, self.tpool, _HURRIED))

    def _give(self, threads: _Threads, conn: Any, work: Callable[[], Any]) -> None:
        """Let a thread work for a connection, and go on with it here afterwards."""
        going = threads.submit(work)
        going.add_done_callback(lambda done: self.method_queue.defer(self.finish_request, conn, done))

    def _answer_here(self, conn: Any) -> None:
        """Answer without waiting for anything: a thread sends what the caller does not take at once."""
        conn.sock.hold()
        kept = self._answer(conn, self.tpool, _HURRIED)
        try:
            rest = conn.sock.send_held()
        except OSError:
            kept, rest = False, b""
        if rest:
            self._give(self.tpool, conn, partial(self._send_rest, conn, rest, kept))
        else:
            self.finish_request(conn, _Answered(kept))

    def _send_rest(self, conn: Any, rest: bytes, kept: Any) -> Any:
        conn.sock.sendall(rest)
        return kept

    def finish_request(self, conn: Any, done: Future[Any] | _Answered) -> None:
        """Go on with a connection whose request is answered."""
        if done.cancelled() or done.exception() is not None or not done.result():
            self._leave(conn)
        else:
            super().finish_request(conn, done)

    def _leave(self, conn: Any) -> None:
        """Close a connection when its caller has seen the end of it, without waiting for him here."""
        try:
            conn.sock.shutdown(SHUT_WR)
            self.poller.register(conn.sock, EVENT_READ, partial(self._read_away, conn))
        except (OSError, ValueError):
            self.nr_conns -= 1
            conn.close()
            return
        conn.timeout = time.monotonic() + _LEAVING_SECONDS
        self._leaving.append(conn)

    def _read_away(self, conn: Any, client: Any) -> None:
        if conn in self._leaving and not conn.sock.read_away(_PIECE):
            self._leaving.remove(conn)
            self._close(conn)

    def on_client_socket_readable(self, conn: Any, client: Any) -> None:
        """Take the next request of a kept connection, unless it made room in the moment in which it came."""
        if conn in self.keepalived_conns:
            super().on_client_socket_readable(conn, client)

    def on_pending_socket_readable(self, conn: Any, client: Any) -> None:
        """Take more of a request, unless its connection made room in the moment in which it came."""
        if conn in self.pending_conns:
            super().on_pending_socket_readable(conn, client)

    def _close(self, conn: Any) -> None:
        self.poller.unregister(conn.sock)
        self.nr_conns -= 1
        conn.close()

    def murder_pending(self) -> None:
        """Close connections on which nothing came; what came of a request and is due gets a thread.

        A worker that stops waits for nothing more to come: a connection that asked nothing would hold it up for as
        long as connections are kept.
        """
        if self.nr_conns >= self.worker_connections:  # no connection is accepted, which would make room
            self._make_room()
        now = time.monotonic()
        if now < self._next_look:
            return
        self._next_look = now + _LOOK_SECONDS
        while self._leaving and self._leaving[0].timeout <= now:
            self._close(self._leaving.popleft())
        for conn in [
            one for one in self.pending_conns if (one.sock.due or (one.timeout if self.alive else now)) <= now
        ]:
            self.pending_conns.remove(conn)
            if conn.sock.due:
                self.poller.unregister(conn.sock)
                self.enqueue_req(conn)
            else:
                self._close(conn)

    # --- requests ------------------------------------------------------------------------------------

    def _answer(self, conn: Any, threads: _Threads, hurried: Patience) -> Any:
        conn.data_ready = True
        conn.sock.begin_answer(threads.crowded, hurried)
        return self.handle(conn)

    def handle_request(self, req: Any, conn: Any) -> Any:
        """Answer a request whose head is here."""
        expects, req._expected_100_continue = req._expected_100_continue, False
        conn.sock.end_head(req, stream=req.path.endswith("/batch"), expects=expects)
        if req.version >= (1, 1) and not any(name == "HOST" for name, _ in req.headers):
            raise InvalidHeader("HOST", req=req)
        if any(name == "TRANSFER-ENCODING" and value.lower() != "chunked" for name, value in req.headers):
            raise UnsupportedTransferCoding("")
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
        known_as = broken_requests.request_id(client.gathered)
        if broken_requests.code_of(exc) == "internal_error":
            self.log.error("request %s from %s failed", known_as, addr, exc_info=exc)
        else:
            self.log.warning("refused request %s from %s: %s", known_as, addr, type(exc).__name__)
        try:
            client.sendall(broken_requests.answer(exc, known_as))
        except OSError:
            self.log.debug("the answer to a refused request was not taken")
