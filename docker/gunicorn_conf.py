"""gunicorn's configuration, in the image and in `service/run`. Settings: BOREWRIGHT_* in the environment."""

import os

from borewright.api.settings import SettingsError, from_environment

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

limit_request_line = 8190
limit_request_fields = 64
limit_request_field_size = 8190
