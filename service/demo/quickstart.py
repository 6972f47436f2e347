"""Starts the real service on a free port, sends the demo parts through the client, prints what comes back."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from borewright_client import Client, RequestRefused
from borewright_client.cli import text

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
PARTS = HERE / "kestrel_ridge_pumps.json"
IN_FULL = "KRP-4105-D1"
START_SECONDS = 30


def main() -> int:
    """Run the demonstration; 0 when every hole was specified and the service stopped cleanly."""
    port = free_port()
    service = start(port)
    try:
        with Client(f"http://127.0.0.1:{port}") as client:
            wait_until_ready(client, service)
            version = client.version()
            print(f"Borewright {version['version']}, tables {version['tables_version']}, port {port}\n")
            failed = show(client)
    finally:
        service.send_signal(signal.SIGTERM)
        stopped = service.wait(timeout=START_SECONDS)
    if failed or stopped != 0:
        print(f"{failed} holes refused, service ended with {stopped}", file=sys.stderr)
        return 1
    print("\nService stopped cleanly.")
    return 0


def free_port() -> int:
    """A port of the loopback address that nobody listens on now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def start(port: int) -> subprocess.Popen[bytes]:
    """The service as `service/run` starts it, on another port."""
    gunicorn = Path(sys.executable).with_name("gunicorn")
    command = [str(gunicorn), "--config", str(ROOT / "docker" / "gunicorn_conf.py"), "borewright.api.wsgi:app"]
    environment = {**os.environ, "BOREWRIGHT_BIND": f"127.0.0.1:{port}", "BOREWRIGHT_LOG_LEVEL": "warning"}
    return subprocess.Popen(command, env=environment)  # noqa: S603 - our own program, no shell


def wait_until_ready(client: Client, service: subprocess.Popen[bytes]) -> None:
    """Return when the service answers; end the demonstration when it does not start."""
    for _ in range(START_SECONDS * 10):
        if client.ready():
            return
        if service.poll() is not None:
            break
        time.sleep(0.1)
    raise SystemExit("the service did not start")


def requests() -> Iterator[tuple[dict[str, Any], dict[str, Any]]]:
    """Each hole of the demo parts: the part, and the request that describes the hole."""
    for part in json.loads(PARTS.read_text(encoding="utf-8"))["parts"]:
        for hole in part["holes"]:
            request = {"material": part["material"], **({"finish": part["finish"]} if "finish" in part else {}), **hole}
            request.pop("use")
            yield part, request


def show(client: Client) -> int:
    """Print the table of all holes and one hole in full; return how many were refused."""
    failed = 0
    heads = ("hole", "thread", "drill", "% thread", "drill depth", "tap", "chamfer", "pitch diameter to make", "finish")
    rows: list[tuple[str, ...]] = []
    parts: list[str] = []
    full: dict[str, Any] | None = None
    for part, request in requests():
        try:
            spec = client.hole_spec(request)
        except RequestRefused as refused:
            failed += 1
            print(f"{request['id']} refused: {refused}", file=sys.stderr)
            continue
        if part["part"] not in parts:
            parts.append(part["part"])
        full = spec if spec["id"] == IN_FULL else full
        rows.append(row(spec))
    print_table(heads, rows)
    print(f"\n{len(rows)} holes of {len(parts)} parts of Kestrel Ridge Pumps.\n")
    if full is not None:
        print(f"Hole {IN_FULL} in full:\n")
        print(text.spec(full))
    return failed


def row(spec: dict[str, Any]) -> tuple[str, ...]:
    """One hole as a line of the table."""
    drill, tap = spec["drill"]["recommended"], spec["tap"]["recommended"]
    last = tap.get("second_tap") or tap
    to_make = (spec["tap"]["limits_to_make"] or spec["thread"]["internal"])["pitch_diameter"]
    finish = spec["finish"]["finish"] if spec["finish"] else None
    return (
        spec["id"],
        spec["thread"]["designation"],
        drill["label"] + (" + ream" if drill["operation"] == "drill_and_ream" else ""),
        "-" if drill["percent_thread"] is None else f"{drill['percent_thread']:.0f}",
        f"{spec['depths']['drill_depth']:g} {spec['units']['length']}",
        tap["marking"],
        last["chamfer"]["name"].replace("_", "-"),
        " - ".join(f"{limit:g}" if limit is not None else "?" for limit in (to_make["min"], to_make["max"])),
        " ".join(str(finish[part]) for part in ("specification", "class") if finish.get(part)) if finish else "-",
    )


def print_table(heads: tuple[str, ...], rows: list[tuple[str, ...]]) -> None:
    """Print rows under their heads, each column as wide as its widest cell."""
    widths = [max(map(len, column)) for column in zip(heads, *rows, strict=True)]
    for cells in (heads, tuple("-" * width for width in widths), *rows):
        print("  ".join(f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True)).rstrip())


if __name__ == "__main__":
    sys.exit(main())
