"""Keys of the service as it runs: both workers follow the file of keys, and no open address without them."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import requests
from borewright.api import keys

ROOT = Path(__file__).parent.parent.parent
GUNICORN = [
    str(Path(sys.executable).with_name("gunicorn")),
    *("--config", str(ROOT / "docker" / "gunicorn_conf.py"), "borewright.api.wsgi:app"),
]
FIRST, SECOND = "kestrel-ridge-routing-0123456789-1", "kestrel-ridge-routing-0123456789-2"
FOLLOWED_SECONDS = 2
RELOAD_SECONDS = 60
CONNECTIONS = 24


@dataclass
class Locked:
    """A service of two workers, its file of keys and its folder of figures."""

    url: str
    service: subprocess.Popen[bytes]
    file: Path
    figures: Path


@pytest.fixture(scope="module")
def locked_of_module(tmp_path_factory, processes) -> Iterator[Locked]:
    folder, port = tmp_path_factory.mktemp("locked"), processes.free_port()
    file, figures = folder / "keys", folder / "figures"
    file.write_text(keys.line_of("routing", FIRST) + "\n")
    figures.mkdir()
    service = processes.start(port, BOREWRIGHT_API_KEYS_FILE=str(file), PROMETHEUS_MULTIPROC_DIR=str(figures))
    try:
        yield Locked(f"http://127.0.0.1:{port}", service, file, figures)
    finally:
        assert processes.stop(service) == 0


@pytest.fixture
def locked(locked_of_module) -> Locked:
    """Two workers that ask for the first key."""
    locked_of_module.file.write_text(keys.line_of("routing", FIRST) + "\n")
    assert eventually(lambda: statuses(locked_of_module.url, FIRST) == {200})
    return locked_of_module


def statuses(url: str, key: str) -> set[int]:
    """What new connections get, each of them from one worker or the other."""
    return {
        requests.get(f"{url}/v1/version", headers={"X-Api-Key": key, "Connection": "close"}, timeout=10).status_code
        for _ in range(CONNECTIONS)
    }


def eventually(holds: Callable[[], bool]) -> bool:
    until = time.monotonic() + FOLLOWED_SECONDS
    while not holds():
        if time.monotonic() > until:
            return False
        time.sleep(0.05)
    return True


def test_both_workers_follow_the_file(locked, processes):
    url, file = locked.url, locked.file
    assert (statuses(url, FIRST), statuses(url, SECOND)) == ({200}, {401})
    counted = [locked.figures / f"counter_{worker}.db" for worker in processes.workers(locked.service)]
    assert all(file.exists() for file in counted), "one worker answered everything"
    with file.open("a") as added:
        added.write(keys.line_of("routing", SECOND) + "\n")
    assert eventually(lambda: statuses(url, SECOND) == {200})
    assert statuses(url, FIRST) == {200}
    replacement = file.with_suffix(".new")
    replacement.write_text(keys.line_of("routing", SECOND) + "\n")
    replacement.replace(file)
    assert eventually(lambda: statuses(url, FIRST) == {401})
    assert statuses(url, SECOND) == {200}


def test_reload_with_a_useless_file_keeps_the_service_and_lets_nobody_in(locked, processes):
    before = set(processes.workers(locked.service))
    locked.file.write_text("half written")
    locked.service.send_signal(signal.SIGHUP)
    until = time.monotonic() + RELOAD_SECONDS
    while before & set(processes.workers(locked.service)):
        assert time.monotonic() < until, "a worker is still that of before"
        time.sleep(0.02)
    assert statuses(locked.url, FIRST) == {401}
    locked.file.write_text(keys.line_of("routing", FIRST))
    assert statuses(locked.url, FIRST) == {200}


@pytest.mark.parametrize(
    ("variable", "value", "told"),
    [
        ("BOREWRIGHT_BIND", "0.0.0.0:{port}", "the address 0.0.0.0:{port} is open to others"),
        ("GUNICORN_CMD_ARGS", "--bind=0.0.0.0:{port}", "the address 0.0.0.0:{port} is open to others"),
        ("GUNICORN_CMD_ARGS", "--bind=127.0.0.1:{port} --bind=:{port}", "is open to others"),
        ("BOREWRIGHT_API_KEYS_FILE", "/no/such/file", "/no/such/file cannot be read: No such file or directory"),
        ("BOREWRIGHT_API_KEYS_FILE", "/dev/null", "/dev/null holds no key"),
        ("BOREWRIGHT_THREADS", "many", "BOREWRIGHT_THREADS needs a whole number from 1 to 256, not 'many'"),
    ],
)
def test_start_is_refused_with_a_sentence(processes, variable, value, told):
    port = processes.free_port()
    ended = subprocess.run(
        GUNICORN,
        env={**os.environ, "BOREWRIGHT_LOG_LEVEL": "warning", variable: value.format(port=port)},
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )
    assert ended.returncode != 0
    assert ended.stderr.startswith("Borewright cannot start: ")
    assert told.format(port=port) in ended.stderr
    assert len(ended.stderr.splitlines()) == 1
