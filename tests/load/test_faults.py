"""Faults with real processes: nginx in front of two services, things killed and restarted while clients ask.

What must hold: no wrong answer, nothing lost or mixed up, and recovery within seconds.
"""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from email.utils import parsedate_to_datetime
from pathlib import Path
from threading import Event, Thread

import pytest
import requests
from borewright_client import Client, ClientError

#: Loaded by every Python process of a service at its start: its wall clock is off by the seconds that a file holds.
SETTABLE_CLOCK = """
import os, time
told = time.time
def off():
    with open(os.environ["CLOCK_OFF"]) as file:
        return float(file.read() or 0)
time.time = lambda: told() + off()
time.time_ns = lambda: int(time.time() * 1e9)
"""
RECOVERY_SECONDS = 10
#: Answers that speak for a service under way; on a busy machine they are waited for.
MANY = 100
#: Items of a batch whose workers are killed.
SIZES = [6_000, pytest.param(1_000_000, marks=pytest.mark.long)]
THREADS = ("3/8-16 UNC-2B", "1/2-13 UNC-2B", "M8", "M10", "1/4-20 UNC-2B")
DRILLS = {"3/8-16 UNC-2B": "5/16", "1/2-13 UNC-2B": "27/64", "M8": "6.8 mm", "M10": "8.5 mm", "1/4-20 UNC-2B": "#7"}


@dataclass
class Asking:
    """Clients that ask without pause and judge every answer."""

    url: str
    stopped: Event = field(default_factory=Event)
    answered: int = 0
    failed: list[str] = field(default_factory=list)

    def run(self, number: int) -> None:
        with Client(self.url, retries=5, timeout=10) as client:
            asked = 0
            while not self.stopped.is_set():
                asked += 1
                thread = THREADS[asked % len(THREADS)]
                name = f"KRP-{number}-{asked}"
                depth = 0.5 + asked * 1e-6 if "U" in thread else 12 + asked * 1e-4
                hole = {"type": "blind", "full_thread_depth": depth}
                try:
                    spec = client.hole_spec({"id": name, "thread": thread, "hole": hole})
                except ClientError as error:
                    self.failed.append(f"{name}: {error}")
                    continue
                right = spec["id"] == name and spec["drill"]["recommended"]["label"] == DRILLS[thread]
                if not right:
                    self.failed.append(f"{name}: wrong answer")
                self.answered += 1

    def go_on(self) -> None:
        """Return as soon as many more are answered."""
        enough, until = self.answered + MANY, time.monotonic() + RECOVERY_SECONDS
        while self.answered <= enough:
            assert time.monotonic() < until, f"{self.answered} are answered, {len(self.failed)} have failed"
            time.sleep(0.02)


@pytest.fixture
def asking(farm) -> Iterator[Asking]:
    """Four clients under way while the test breaks things; every answer must have been right."""
    clients = Asking(farm.url)
    with ThreadPoolExecutor(4) as pool:
        running = [pool.submit(clients.run, number) for number in range(4)]
        try:
            clients.go_on()
            yield clients
            clients.go_on()
        finally:
            clients.stopped.set()
        for done in running:
            done.result(30)
    assert clients.failed == []


def test_killed_worker(farm, asking):
    port = next(iter(farm.services))
    victim = farm.workers(port)[0]
    os.kill(victim, signal.SIGKILL)
    farm.replaces(port, {victim})


def test_killed_service_comes_back(farm, asking, processes):
    port, service = next(iter(farm.services.items()))
    for process in (*farm.workers(port), service.pid):
        os.kill(process, signal.SIGKILL)
    service.wait(10)
    asking.go_on()
    farm.services[port] = processes.start(port)
    processes.wait(f"http://127.0.0.1:{port}", RECOVERY_SECONDS)


@pytest.mark.parametrize("items", SIZES)
def test_through_nginx_with_a_worker_killed(farm, items, tell):
    """The client's results are whole and in order though the worker that answers is killed in the middle."""
    with Client(farm.url, retries=5, timeout=60) as client:
        holes = ({"id": f"KRP-{n}", "thread": "M8", "hole": {"type": "through", "thickness": 12}} for n in range(items))
        number = 0
        for result in client.batch(holes):
            assert (result["index"], result["id"], result["status"]) == (number, f"KRP-{number}", "ok")
            number += 1
            if number == items // 2:
                killing = Thread(target=kill_all_workers, args=(farm,))
                killing.start()
        killing.join()
        tell(f"{items:,} items by the client through nginx, all workers killed in the middle")
        assert number == items


def kill_all_workers(farm) -> None:
    """Whichever worker answers: all of the first service, then, once they are back, all of the second."""
    for port in farm.services:
        killed = farm.workers(port)
        for worker in killed:
            os.kill(worker, signal.SIGKILL)
        farm.replaces(port, set(killed))


def test_reload_and_stop_under_load(farm, asking, processes):
    first, second = farm.services
    before = set(farm.workers(first))
    farm.services[first].send_signal(signal.SIGHUP)
    farm.replaces(first, before)
    processes.wait(f"http://127.0.0.1:{first}", RECOVERY_SECONDS)
    asking.go_on()
    assert processes.stop(farm.services[second]) == 0, "SIGTERM ends the service cleanly"


def test_slow_half_open_and_vanishing_clients(service_url):
    """Connections that send a byte now and then, or nothing, or leave in the middle, never starve the others."""
    host, port = service_url.removeprefix("http://").split(":")
    head = b"POST /v1/hole-specs HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{"
    held = []
    for part in (b"", b"POST /v1/hole-sp", head):
        for _ in range(4):
            connection = socket.create_connection((host, int(port)), timeout=5)
            connection.sendall(part)
            held.append(connection)
    for connection in held[-2:]:
        connection.close()  # left in the middle of the body
    with Client(service_url, timeout=10) as client:
        began = time.monotonic()
        for _ in range(20):
            assert client.resolve_thread("M8")["designation"] == "M8x1.25-6H"
        assert time.monotonic() - began < RECOVERY_SECONDS
    for connection in held[:-2]:
        connection.close()


def test_clients_that_vanish_in_the_middle_of_a_batch(processes):
    """Gone while they send, or while they are sent to: their threads end, and the worker answers the others."""
    port = processes.free_port()
    service = processes.start(port, BOREWRIGHT_WORKERS="1")
    (worker,) = Path(f"/proc/{service.pid}/task/{service.pid}/children").read_text("ascii").split()
    threads = Path(f"/proc/{worker}/task")
    line = b'{"thread":"M8","hole":{"type":"through","thickness":12},"material":"4140"}\n'
    head = b"POST /v1/hole-specs/batch HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-ndjson\r\n"
    try:
        ask_all(f"http://127.0.0.1:{port}")
        most = 1 + 8  # the worker's own and those that answer
        for sent, read in ((line * 5000, 0), (line * 20_000, 100_000), (line[:30], 0)):
            for _ in range(4):
                connection = socket.create_connection(("127.0.0.1", port), timeout=10)
                connection.sendall(head + b"Content-Length: 90000000\r\n\r\n" + sent)
                assert len(connection.recv(read)) > 0 or not read
                connection.close()
        ask_all(f"http://127.0.0.1:{port}")
        deadline = time.monotonic() + RECOVERY_SECONDS
        while len(list(threads.iterdir())) > most and time.monotonic() < deadline:
            time.sleep(0.05)
        assert len(list(threads.iterdir())) <= most
        assert Path(f"/proc/{worker}").exists(), "the worker died"
    finally:
        processes.stop(service)


@pytest.fixture
def in_trouble(processes) -> Iterator[Callable[..., tuple[str, subprocess.Popen[bytes]]]]:
    """Starts a service that logs everything to ``log``, with more variables in its environment."""
    running: list[subprocess.Popen[bytes]] = []

    def start(log: str, **environment: str) -> tuple[str, subprocess.Popen[bytes]]:
        port = processes.free_port()
        with Path(log).open("wb") as written:
            service = processes.start(port, output=written, BOREWRIGHT_LOG_LEVEL="debug", **environment)
        running.append(service)
        return f"http://127.0.0.1:{port}", service

    yield start
    for service in running:
        if service.poll() is None:
            processes.stop(service)


def ask_all(url: str) -> None:
    with Client(url, timeout=5) as client:
        for thread in THREADS:
            spec = client.hole_spec({"thread": thread, "hole": {"type": "blind", "full_thread_depth": "12 mm"}})
            assert spec["drill"]["recommended"]["label"] == DRILLS[thread]


def test_full_disk_for_logs(in_trouble, processes):
    """Every line of the log fails with "no space left on device"; answers, refusals and a clean stop do not."""
    url, service = in_trouble("/dev/full")
    for _ in range(5):
        ask_all(url)
        assert requests.post(f"{url}/v1/hole-specs", json={"thread": "nothing"}, timeout=5).status_code == 422
    assert processes.stop(service) == 0


def test_clock_jumps(in_trouble, tmp_path):
    """The wall clock leaps under a running service: no worker is taken for hung, every answer is right."""
    clock = tmp_path / "clock"
    clock.write_text("0", "ascii")
    (tmp_path / "sitecustomize.py").write_text(SETTABLE_CLOCK, "ascii")
    path = os.pathsep.join(filter(None, (str(tmp_path), os.environ.get("PYTHONPATH"))))
    url, service = in_trouble(str(tmp_path / "log"), PYTHONPATH=path, CLOCK_OFF=str(clock))
    master = Path(f"/proc/{service.pid}/task/{service.pid}/children")
    deadline = time.monotonic() + RECOVERY_SECONDS
    while len(workers := master.read_text("ascii").split()) < 2 and time.monotonic() < deadline:
        time.sleep(0.05)
    assert len(workers) == 2
    for jump in ("100000000", "-100000000", "-7200", "0"):
        before = told_time(url)
        clock.write_text(jump, "ascii")
        assert abs(told_time(url) - before) > timedelta(hours=1), "the clock did not jump"
        for _ in range(2):
            ask_all(url)
            time.sleep(0.5)
    assert master.read_text("ascii").split() == workers, "a worker was replaced"


def told_time(url: str) -> datetime:
    """The time that the service puts into its answers."""
    return parsedate_to_datetime(requests.get(f"{url}/health/live", timeout=5).headers["Date"])
