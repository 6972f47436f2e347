"""gunicorn's configuration, in the image and in `service/run`. Settings: BOREWRIGHT_* in the environment."""

import gc
import os
import shutil
import tempfile

gc.disable()  # loading makes much and drops nothing: looking for garbage would only take time

# Before the first import of the metrics: the workers write their figures into one folder, and /metrics sums them up.
if "PROMETHEUS_MULTIPROC_DIR" not in os.environ:
    os.environ["PROMETHEUS_MULTIPROC_DIR"] = tempfile.mkdtemp(prefix="borewright-figures-")

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
loglevel = _settings.log_level

worker_class = "borewright.api.worker.ProblemWorker"
preload_app = True  # loaded once, its memory shared by the workers
reuse_port = not bind.startswith("unix:")  # without it one worker may get all kept-alive connections
worker_tmp_dir = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None  # noqa: S108 - a heartbeat on disk can block
control_socket_disable = True  # needs a folder that a read-only container does not have

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


def on_starting(server: object) -> None:
    """Hold addresses that came by gunicorn's own command line to the same rule, and signals while it forks."""
    from borewright.api.worker import hold_signals_at_forks

    hold_signals_at_forks()
    try:
        check_open(_settings, *server.cfg.bind)  # type: ignore[attr-defined]
    except SettingsError as error:
        raise SystemExit(f"Borewright cannot start: {error}") from None


def when_ready(server: object) -> None:
    """Collect garbage again, but not in what is loaded and stays."""
    gc.freeze()
    gc.enable()


def child_exit(server: object, worker: object) -> None:
    """Forget the figures of a worker that is gone, as far as they are its own."""
    from prometheus_client import multiprocess

    multiprocess.mark_process_dead(worker.pid)  # type: ignore[attr-defined]


def on_exit(server: object) -> None:
    """Remove the folder of figures."""
    shutil.rmtree(os.environ["PROMETHEUS_MULTIPROC_DIR"], ignore_errors=True)


limit_request_line = 8190
limit_request_fields = 64
limit_request_field_size = 8190
