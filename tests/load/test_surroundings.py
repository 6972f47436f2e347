"""What surrounds the service goes wrong: full and missing folders, few descriptors, signals. No answer is lost.

``in_surroundings.py`` runs these tests, and all others of faults, on 64 MiB of files, after a reload, and under 512 MiB
of addresses.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import socket
import subprocess
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import IO

import pytest
import requests

HOLE = {"thread": "M8", "hole": {"type": "through", "thickness": 12}}
SECONDS = 30
#: Each process of the service writes down, again and again, whether it collects garbage.
TELLS_OF_GARBAGE = """
import gc, os, pathlib, threading, time
def tell():
    while True:
        pathlib.Path(os.environ["GARBAGE"], str(os.getpid())).write_text(str(gc.isenabled()))
        time.sleep(0.05)
start = lambda: threading.Thread(target=tell, daemon=True).start()
os.register_at_fork(after_in_child=start)
"""
Start = Callable[..., tuple[str, subprocess.Popen[bytes]]]


@pytest.fixture
def started(processes) -> Iterator[Start]:
    """Starts a service with commands of a shell before it, which may mount: it has mounts of its own."""
    running: list[subprocess.Popen[bytes]] = []

    def start(before: str = "", **environment: str) -> tuple[str, subprocess.Popen[bytes]]:
        port = processes.free_port()
        service = processes.start(port, before=before, BOREWRIGHT_LOG_LEVEL="error", **environment)
        running.append(service)
        processes.workers(service)
        return f"http://127.0.0.1:{port}", service

    yield start
    for service in running:
        if service.poll() is None:
            assert processes.stop(service) == 0


def ask(url: str, times: int = 20) -> set[int]:
    """Statuses of holes asked on connections of their own, so that either worker may get them."""
    sent = {"json": HOLE, "headers": {"Connection": "close"}, "timeout": 10}
    return {requests.post(f"{url}/v1/hole-specs", **sent).status_code for _ in range(times)}


def figures(url: str) -> float:
    """The answers to holes that all workers have counted."""
    text = requests.get(f"{url}/metrics", timeout=10).text
    name = 'borewright_requests_total{method="POST",route="/v1/hole-specs",status="200"} '
    return sum(float(line.removeprefix(name)) for line in text.splitlines() if line.startswith(name))


def fill(file: IO[bytes]) -> None:
    """Write until the disk is full."""
    with contextlib.suppress(OSError):
        while True:
            file.write(b"x" * 4096)


def test_a_full_disk_under_the_figures_kills_no_worker(started, processes, tmp_path):
    url, service = started(
        f"mount -t tmpfs -o size=2m tmpfs {tmp_path}; mkdir {tmp_path}/figures",
        PROMETHEUS_MULTIPROC_DIR=f"{tmp_path}/figures",
    )
    workers = processes.workers(service)
    with Path(f"/proc/{service.pid}/root{tmp_path}/fill").open("wb", buffering=0) as filled:
        fill(filled)
    for depth in range(1, 30):  # routes and statuses that no file has yet
        requests.post(f"{url}/v1/hole-specs", json={**HOLE, "depth": depth}, timeout=10)
        assert requests.get(f"{url}/v1/threads?thread=M{depth}", timeout=10).status_code in (200, 422)
    assert ask(url) == {200}
    assert requests.get(f"{url}/metrics", timeout=10).status_code == 200
    os.kill(workers[0], signal.SIGKILL)
    while workers[0] in processes.workers(service):
        time.sleep(0.02)
    assert ask(url) == {200}


def test_a_folder_of_figures_that_is_removed_costs_no_answer(started, processes, tmp_path):
    (tmp_path / "figures").mkdir()
    url, service = started(PROMETHEUS_MULTIPROC_DIR=str(tmp_path / "figures"))
    shutil.rmtree(tmp_path / "figures")
    assert ask(url) == {200}
    for victim in processes.workers(service):
        os.kill(victim, signal.SIGKILL)
        while victim in processes.workers(service):
            time.sleep(0.02)
    processes.wait(url)
    assert ask(url) == {200}
    assert requests.get(f"{url}/metrics", timeout=10).status_code == 200


@pytest.mark.long
def test_workers_that_die_again_and_again_leave_no_files_and_no_figure_is_lost(started, processes, tmp_path):
    url, service = started(PROMETHEUS_MULTIPROC_DIR=str(tmp_path))
    for _ in range(4):
        assert ask(url, 5) == {200}
        for victim in processes.workers(service):
            os.kill(victim, signal.SIGKILL)
            while victim in processes.workers(service):
                time.sleep(0.02)
        processes.wait(url)
    assert figures(url) == 20
    names = {file.name.rpartition("_")[2] for file in tmp_path.glob("*.db")}
    assert names <= {"gone.db", *(f"{process}.db" for process in (service.pid, *processes.workers(service)))}


def collecting(folder: Path, workers: list[int]) -> bool:
    """Whether all workers collect garbage, as soon as each has told."""
    until = time.monotonic() + SECONDS
    while not all((folder / str(worker)).exists() for worker in workers):
        assert time.monotonic() < until
        time.sleep(0.02)
    while not all((folder / str(worker)).read_text() == "True" for worker in workers):
        if time.monotonic() > until:
            return False
        time.sleep(0.02)
    return True


def test_a_reload_restores_what_the_start_did(started, processes, tmp_path):
    (tmp_path / "sitecustomize.py").write_text(TELLS_OF_GARBAGE)
    (tmp_path / "garbage").mkdir()
    url, service = started(
        PYTHONPATH=f"{tmp_path}:{os.environ.get('PYTHONPATH', '')}", GARBAGE=str(tmp_path / "garbage")
    )
    before = processes.workers(service)
    assert collecting(tmp_path / "garbage", before)
    service.send_signal(signal.SIGHUP)
    until = time.monotonic() + SECONDS
    while set(before) & set(found := processes.workers(service)):
        assert time.monotonic() < until
        time.sleep(0.02)
    assert collecting(tmp_path / "garbage", found)
    assert ask(url) == {200}
    assert figures(url) >= 20


@pytest.mark.long
def test_another_master_takes_over(started, processes):
    """SIGUSR2, then SIGTERM to the first: nobody is refused, and the second has figures of its own."""
    url, service = started()
    assert ask(url) == {200}
    workers = set(processes.workers(service))
    service.send_signal(signal.SIGUSR2)
    (second,) = set(processes.workers(service, 3)) - workers
    try:
        children = Path(f"/proc/{second}/task/{second}/children")
        until = time.monotonic() + SECONDS
        while len(children.read_text().split()) < 2:
            assert time.monotonic() < until
            time.sleep(0.05)
        assert processes.stop(service) == 0
        assert ask(url) == {200}
        assert figures(url) >= 20
    finally:
        os.kill(second, signal.SIGTERM)
    until = time.monotonic() + SECONDS
    while Path(f"/proc/{second}/cmdline").exists() and Path(f"/proc/{second}/cmdline").read_bytes():
        assert time.monotonic() < until
        time.sleep(0.05)


@pytest.mark.long
def test_a_folder_for_uploads_that_cannot_be_written(started):
    """Batches are answered, and a client that reads only when it has sent all has to read earlier."""
    url, _ = started("mount -t tmpfs -o ro tmpfs /tmp")
    assert ask(url) == {200}
    lines = b'{"thread": "M8", "hole": {"type": "through", "thickness": 12}}\n' * 500
    sent = {"data": lines, "headers": {"Content-Type": "application/x-ndjson"}, "timeout": 30}
    assert requests.post(f"{url}/v1/hole-specs/batch", **sent).content.count(b'"status":"ok"') == 500


@pytest.mark.long
def test_uploads_leave_room_on_the_disk(started):
    """A client that sends and never reads fills a small folder for uploads up to what is left to others.

    It gives up before the service does, which then takes and forgets the rest.
    """
    url, service = started("mount -t tmpfs -o size=24m tmpfs /tmp", BOREWRIGHT_READ_TIMEOUT_S="9")
    line = b'{"thread": "M8", "hole": {"type": "through", "thickness": 12}}'.ljust(1000) + b"\n"
    host, port = url.removeprefix("http://").split(":")
    with socket.create_connection((host, int(port)), timeout=1) as sender:
        sender.sendall(
            b"POST /v1/hole-specs/batch HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-ndjson\r\n"
            b"Content-Length: 100000000\r\n\r\n"
        )
        for _ in range(400):
            try:
                sender.sendall(line * 250)
            except OSError:
                break
        else:
            pytest.fail("the service took a hundred megabytes")
        disk = os.statvfs(f"/proc/{service.pid}/root/tmp")
        assert disk.f_bavail * disk.f_frsize >= 16_000_000
    assert ask(url) == {200}


def test_few_descriptors(started):
    """More connections than a worker has descriptors for: those that have waited longest make room."""
    url, service = started("ulimit -n 64")
    host, port = url.removeprefix("http://").split(":")
    with contextlib.ExitStack() as held:
        for _ in range(150):
            connection = held.enter_context(socket.create_connection((host, int(port)), timeout=5))
            connection.sendall(b"GET /health/live HTTP/1.1\r\nHost: x\r\nX-Half: ")
        began = time.monotonic()
        assert ask(url) == {200}
        assert time.monotonic() - began < SECONDS
    assert ask(url) == {200}
    assert service.poll() is None
