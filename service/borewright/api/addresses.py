"""One service an address: a second one on the same port would answer in turns with the first, and nobody would know."""

from __future__ import annotations

import errno
import os
import socket
import sys
from collections.abc import Iterator
from pathlib import Path

from .settings import SettingsError

#: Only Linux has sockets with a name and no file.
_HAS_MARKS = sys.platform.startswith("linux")
_PROCESSES = Path("/proc")
#: States of the kernel's tables net/tcp and net/unix.
_TCP_LISTEN, _UNIX_LISTENS = "0A", "00010000"
#: Characters of a command that are shown.
_SHOWN = 200


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
        return _local_socket(address) is not None
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


# --- who listens, as the kernel tells (Linux; elsewhere nobody is named) ------------------------------


def _holder(address: str) -> str:
    """The process that listens on ``address``; one of another user may not be seen."""
    sockets = {_local_socket(address)} if address.startswith("unix:") else _listening(address.rpartition(":")[2])
    for process in _PROCESSES.glob("[0-9]*"):
        if sockets & _sockets_of(process):
            command = (process / "cmdline").read_bytes().replace(b"\0", b" ").decode("utf-8", "replace")
            return f"process {process.name} listens there: {command.strip()[:_SHOWN]}"
    return "another program listens there"


def _sockets_of(process: Path) -> set[str | None]:
    """Numbers of the sockets that a process has open; none where it is gone or another's."""
    try:
        opened = [os.path.realpath(descriptor).rpartition("/")[2] for descriptor in (process / "fd").iterdir()]
    except OSError:
        return set()
    return {name[8:-1] for name in opened if name.startswith("socket:[")}


def _listening(port: str) -> set[str | None]:
    """Numbers of the sockets that listen on a TCP port."""
    ending = f":{int(port):04X}"
    rows = [row.split() for family in ("tcp", "tcp6") for row in _kernel_table(family)]
    return {row[9] for row in rows if row[1].endswith(ending) and row[3] == _TCP_LISTEN}


def _local_socket(address: str) -> str | None:
    """The number of the socket that listens under a name in the file system."""
    rows = [row.split() for row in _kernel_table("unix")]
    path = address.removeprefix("unix:")
    return next((row[6] for row in rows if row[7:] == [path] and row[3] == _UNIX_LISTENS), None)


def _kernel_table(name: str) -> list[str]:
    try:
        return (_PROCESSES / "self" / "net" / name).read_text("utf-8", "replace").splitlines()[1:]
    except OSError:
        return []
