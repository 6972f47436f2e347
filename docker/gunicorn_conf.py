"""gunicorn's configuration, in the image and in `service/run`. Settings: BOREWRIGHT_* in the environment."""

import atexit
import ctypes
import gc
import logging
import os
import resource
import shutil
import signal
import sys
import tempfile

gc.disable()  # loading makes much and drops nothing: looking for garbage would only take time

#: Heaps of the C library, and the name of their bound there (malloc.h of glibc).
_HEAPS, _M_ARENA_MAX = 1, -8


def _share_heaps() -> None:
    """Let all threads share a few heaps: one of its own for each reserves 64 MiB of addresses, and they wait for one
    interpreter lock anyway.
    """
    if "MALLOC_ARENA_MAX" not in os.environ:
        bound = getattr(ctypes.CDLL(None), "mallopt", None)  # other C libraries have none, and no such heaps
        if bound is not None:
            bound(_M_ARENA_MAX, _HEAPS)


_share_heaps()

#: Set beside a folder of figures that this configuration made: which process made it, and removes it.
_MADE_BY = "FIGURES_FOLDER_MADE_BY"


def _make_folder_of_figures() -> None:
    """The workers write their figures into one folder, and /metrics sums them up; an operator may name one.

    Memory is preferred: there a disk that fills up costs no figure. Where nothing can be written each worker counts for
    itself.
    """
    made_by = os.environ.get(_MADE_BY)
    if made_by == str(os.getpid()) or (made_by is None and "PROMETHEUS_MULTIPROC_DIR" in os.environ):
        return
    os.environ.pop("PROMETHEUS_MULTIPROC_DIR", None)  # that of the process which this one replaces (SIGUSR2)
    os.environ.pop(_MADE_BY, None)
    for parent in ("/dev/shm", None):  # noqa: S108 - mkdtemp makes a folder of its own
        try:
            os.environ["PROMETHEUS_MULTIPROC_DIR"] = tempfile.mkdtemp(prefix="borewright-figures-", dir=parent)
        except OSError:
            continue
        os.environ[_MADE_BY] = str(os.getpid())
        signal.signal(signal.SIGTERM, lambda *_: sys.exit())  # until gunicorn has its own: an end like any other
        atexit.register(_remove_folder_of_figures)
        return


def _remove_folder_of_figures() -> None:
    """Remove the folder where it was made by this process: a worker inherits what its master does at its end."""
    if os.environ.get(_MADE_BY) == str(os.getpid()):
        shutil.rmtree(os.environ["PROMETHEUS_MULTIPROC_DIR"], ignore_errors=True)


def _drop_what_cannot_be_told() -> None:
    """Let a log that cannot be written (a full disk) not turn a clean end into a failed one: Python's status is 120."""
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except OSError:
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


atexit.register(_drop_what_cannot_be_told)  # registered first, it runs last
_make_folder_of_figures()  # before the first import of the metrics
if os.environ.get("GUNICORN_FD") == "":
    os.environ["GUNICORN_FD"] = "0"  # no socket is handed on, as each worker makes its own; read as a number, not used

from borewright.api.settings import SettingsError, check_open, from_environment  # noqa: E402 - see above

try:
    _settings = from_environment(os.environ)
except SettingsError as error:
    raise SystemExit(f"Borewright cannot start: {error}") from None

bind = _settings.bind
workers = _settings.workers
threads = _settings.threads
timeout = _settings.timeout_s
graceful_timeout = _settings.graceful_timeout_s
keepalive = _settings.keepalive_s
#: A connection takes a descriptor, two while a thread looks at it, and an upload a file; the rest are the worker's own.
worker_connections = max(threads + 1, min(1000, resource.getrlimit(resource.RLIMIT_NOFILE)[0] - 32 - 3 * threads))
forwarder_headers = ""  # no caller may say where the service is mounted
header_map = "refuse"  # what would be mistaken for another header is refused, not dropped without a word
loglevel = _settings.log_level

worker_class = "borewright.api.worker.ProblemWorker"
logger_class = "borewright.api.worker.QuietLogger"
preload_app = True  # loaded once, its memory shared by the workers
reuse_port = not bind.startswith("unix:")  # without it one worker may get all kept-alive connections
worker_tmp_dir = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None  # noqa: S108 - a heartbeat on disk can block
control_socket_disable = True  # needs a folder that a read-only container does not have

#: A plain hole of each unit.
_FIRST_HOLES: tuple[dict[str, object], ...] = (
    {"thread": "1/4-20 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.5}, "material": "1018"},
    {"thread": "M6", "hole": {"type": "through", "thickness": 12}, "material": "1018"},
)

_handler = {"class": "logging.StreamHandler", "formatter": "json", "stream": "ext://sys.stderr"}
logconfig_dict = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"json": {"()": "borewright.api.door.access_log.JsonFormatter"}},
    "handlers": {"console": _handler, "error_console": _handler},
    "root": {"level": _settings.log_level.upper(), "handlers": ["console"]},
    "loggers": {
        "gunicorn.error": {"level": _settings.log_level.upper(), "handlers": ["console"], "propagate": False},
        "gunicorn.access": {"level": "CRITICAL", "handlers": [], "propagate": False},
        "borewright": {"level": _settings.log_level.upper(), "handlers": ["console"], "propagate": False},
    },
}


def _worth_telling(record: logging.LogRecord) -> bool:
    """All but gunicorn's own line of where it listens, which is blank with ``reuse_port``; `when_ready` says it."""
    return not str(record.msg).startswith("Listening at:")


def on_starting(server: object) -> None:
    """Hold addresses that came by gunicorn's own command line to the same rules, and signals while it forks."""
    from borewright.api import addresses
    from borewright.api.worker import hold_signals_at_forks

    hold_signals_at_forks()
    logging.getLogger("gunicorn.error").addFilter(_worth_telling)
    try:
        check_open(_settings, *server.cfg.bind)  # type: ignore[attr-defined]
        server.marks = addresses.hold(*server.cfg.bind)  # type: ignore[attr-defined]
    except SettingsError as error:
        raise SystemExit(f"Borewright cannot start: {error}") from None


def when_ready(server: object) -> None:
    """Answer first holes, so that no worker reads tables for its own; collect garbage again, but not in what stays."""
    from borewright.api import addresses
    from borewright.api.views.hole_specs import specification

    for hole in _FIRST_HOLES:
        specification(hole)
    for address in server.cfg.bind:  # type: ignore[attr-defined]
        server.log.info("listening %s", addresses.links(address))  # type: ignore[attr-defined]
    gc.freeze()
    gc.enable()


def on_reload(server: object) -> None:
    """What :func:`when_ready` does, after this file was read again."""
    gc.collect()
    gc.enable()


def child_exit(server: object, worker: object) -> None:
    """Put the figures of a worker that is gone to those of all who went before."""
    from borewright.api.metrics import forget_worker

    if "PROMETHEUS_MULTIPROC_DIR" in os.environ:
        forget_worker(worker.pid)  # type: ignore[attr-defined]


limit_request_line = 8190
limit_request_fields = 64
limit_request_field_size = 8190
