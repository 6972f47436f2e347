"""A second service on an address would answer in turns with the first: it does not start, and says who is there."""

from __future__ import annotations

import os
import re
import socket
import subprocess
import sys
import time
from pathlib import Path

import pytest
from borewright.api import addresses
from borewright.api.settings import SettingsError

ROOT = Path(__file__).parent.parent.parent
START_SECONDS = 30


def starting(address: str) -> subprocess.Popen[str]:
    """gunicorn with the project's configuration, with one worker and all that it says."""
    command = [
        str(Path(sys.executable).with_name("gunicorn")),
        *("--config", str(ROOT / "docker" / "gunicorn_conf.py"), "borewright.api.wsgi:app"),
    ]
    names = {"BOREWRIGHT_BIND": address, "BOREWRIGHT_WORKERS": "1"}
    return subprocess.Popen(command, env={**os.environ, **names}, stderr=subprocess.PIPE, text=True)


def first_to_end(services: list[subprocess.Popen[str]]) -> subprocess.Popen[str]:
    deadline = time.monotonic() + START_SECONDS
    while time.monotonic() < deadline:
        for service in services:
            if service.poll() is not None:
                return service
        time.sleep(0.05)
    raise AssertionError("both stayed")


def let_go(marks: list[socket.socket]) -> None:
    for mark in marks:
        mark.close()


def test_a_second_service_is_refused_and_told_who_is_there(service_url):
    address = service_url.removeprefix("http://")
    second = starting(address)
    _, said = second.communicate(timeout=START_SECONDS)
    assert second.returncode != 0
    assert re.search(rf"the address {address} is taken: process [0-9]+ listens there: .*gunicorn", said)


def test_of_two_that_start_at_once_one_stays(processes):
    address = f"127.0.0.1:{processes.free_port()}"
    both = [starting(address), starting(address)]
    processes.wait(f"http://{address}")
    ended = first_to_end(both)
    stayed = next(service for service in both if service is not ended)
    assert f"the address {address} is taken" in ended.communicate()[1]
    assert stayed.poll() is None
    stayed.terminate()
    said = stayed.communicate(timeout=START_SECONDS)[1]
    assert f"listening on {address}: page http://{address}/ documents http://{address}/docs" in said


def test_another_program_is_named():
    with socket.create_server(("127.0.0.1", 0)) as other:
        address = f"127.0.0.1:{other.getsockname()[1]}"
        with pytest.raises(SettingsError, match=f"process {os.getpid()} listens there: .*python"):
            addresses.hold(address)
    let_go(addresses.hold(address))


def test_a_service_on_all_addresses_holds_each_of_them():
    with socket.create_server(("0.0.0.0", 0)) as other, pytest.raises(SettingsError, match="is taken"):
        addresses.hold(f"127.0.0.1:{other.getsockname()[1]}")


def test_a_socket_in_the_file_system_is_held_while_somebody_listens(tmp_path):
    path = str(tmp_path / "service.sock")
    with socket.socket(socket.AF_UNIX) as other:
        other.bind(path)
        other.listen()
        with pytest.raises(SettingsError, match=f"process {os.getpid()} listens there"):
            addresses.hold(f"unix:{path}")
    let_go(addresses.hold(f"unix:{path}"))  # what a service that was killed leaves behind is no holder


def test_a_service_started_in_place_of_a_running_one_shares_its_address(monkeypatch):
    monkeypatch.setenv("GUNICORN_PID", "1")
    with socket.create_server(("127.0.0.1", 0)) as other:
        assert addresses.hold(f"127.0.0.1:{other.getsockname()[1]}") == []


@pytest.mark.parametrize(
    ("address", "page"), [("0.0.0.0:8080", "http://127.0.0.1:8080/"), ("10.1.2.3:80", "http://10.1.2.3:80/")]
)
def test_the_log_names_an_address_that_can_be_opened(address, page):
    assert f"page {page} " in addresses.links(address)
