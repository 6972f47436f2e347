"""One service an address: a second one on the same port would answer in turns with the first, and nobody would know."""

from __future__ import annotations

import errno
import json
import os
import socket
import sys
from collections.abc import Iterator
from http.client import HTTPConnection, HTTPException

from .settings import SettingsError

_ASK_SECONDS = 1.0
#: Only Linux has sockets with a name and no file.
_HAS_MARKS = sys.platform.startswith("linux")


def hold(*addresses: str) -> list[socket.socket]:
    """Take each of ``addresses`` (``HOST:PORT`` or ``unix:/PATH``) for this service alone.

    A process that gunicorn started in place of a running one (SIGUSR2) shares its address until that one goes.
    Returns: marks to be kept open while the service lives, so that of two that start at once one gives way.

    Raises: SettingsError where another program listens there; it says which, as far as that can be seen.
    """
    if "GUNICORN_PID" in os.environ:
        return []
    marks: list[socket.socket] = []
    for address in addresses:
        if _is_taken(address) or not _mark(address, marks):
            raise SettingsError(f"the address {address} is taken: {_holder(address)}; name another in BOREWRIGHT_BIND")
    return marks


def links(address: str) -> str:
    """Where a person looks first at a service that listens on ``address``."""
    if address.startswith("unix:"):
        return f"on {address}"
    host, _, port = address.rpartition(":")
    seen = {"0.0.0.0": "127.0.0.1", "[::]": "[::1]"}.get(host, host)  # noqa: S104 - an address to look at
    base = f"http://{seen}:{port}"
    return f"on {address}: page {base}/ documents {base}/docs health {base}/health/ready"


def _is_taken(address: str) -> bool:
    if address.startswith("unix:"):
        return _answers_locally(address.removeprefix("unix:"))
    return any(not _can_bind(family, where) for family, where in _places(address))


def _places(address: str) -> Iterator[tuple[int, tuple[object, ...]]]:
    """Socket families and addresses; none for a name that nothing resolves, which gunicorn will say."""
    host, _, port = address.rpartition(":")
    try:
        found = socket.getaddrinfo(host.strip("[]"), int(port), type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE)
    except OSError:
        return
    for family, _, _, _, where in found:
        yield family, where


def _can_bind(family: int, where: tuple[object, ...]) -> bool:
    """Whether nobody listens there; other faults of an address are left to gunicorn to tell."""
    with socket.socket(family) as tried:
        tried.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)  # what is closing is no holder
        try:
            tried.bind(where)
        except OSError as error:
            return error.errno != errno.EADDRINUSE
    return True


def _answers_locally(path: str) -> bool:
    with socket.socket(socket.AF_UNIX) as tried:
        tried.settimeout(_ASK_SECONDS)
        try:
            tried.connect(path)
        except OSError:
            return False
    return True


def _mark(address: str, marks: list[socket.socket]) -> bool:
    """Whether no other service has the mark of ``address``; it is ours from now on."""
    if not _HAS_MARKS:
        return True
    mark = socket.socket(socket.AF_UNIX)
    marks.append(mark)
    try:
        mark.bind(f"\0borewright {address}")
    except OSError:
        return False
    return True


def _holder(address: str) -> str:
    """Who listens on ``address``, by what its health says, and how to find out more."""
    if address.startswith("unix:"):
        return "a program listens on that socket"
    host, _, port = address.rpartition(":")
    who = "a Borewright service answers there" if _is_ours(host.strip("[]"), int(port)) else "another program holds it"
    return f"{who} (ss -ltnp 'sport = :{port}' shows its process)"


def _is_ours(host: str, port: int) -> bool:
    asked = HTTPConnection(host, port, timeout=_ASK_SECONDS)
    try:
        asked.request("GET", "/health/live")
        return bool(json.loads(asked.getresponse().read(65_536)) == {"status": "live"})
    except (OSError, HTTPException, ValueError):
        return False
    finally:
        asked.close()
