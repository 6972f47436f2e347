"""The installed `borewright` command as a user runs it: in a pipe, and on a terminal."""

from __future__ import annotations

import contextlib
import io
import os
import pty
import select
import signal
import sys
import termios
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple
from unittest import mock

import pytest
from borewright_client.cli import main

COMMAND = Path(sys.executable).with_name("borewright")
PATIENCE_SECONDS = 15
#: What of the surroundings a terminal of its own has no use for: colours refused, the size of another terminal.
FORGOTTEN = ("NO_COLOR", "COLUMNS", "LINES")


class Done(NamedTuple):
    """How a command ended and what a terminal or a pipe got of it."""

    code: int
    out: str
    err: str = ""


#: What is waited for: a text on the terminal, or what becomes true.
Until = str | Callable[[], bool]


@pytest.fixture
def ran(service_url) -> Callable[..., Done]:
    """Runs the command as its script does, in this process: a new one would import everything again."""

    def run(*arguments: str | Path, url: str = service_url, fed: str = "") -> Done:
        out, err = io.StringIO(), io.StringIO()
        with (
            mock.patch.dict(os.environ, BOREWRIGHT_CLIENT_URL=url),
            mock.patch("sys.stdin", io.StringIO(fed)),
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(err),
        ):
            code = main([str(argument) for argument in arguments])
        return Done(code, out.getvalue().replace("\r\n", "\n"), err.getvalue())

    return run


@pytest.fixture
def borewright(ran) -> Callable[..., str]:
    """Runs the command, which must end with ``code``; gives what it printed, or what it complained of."""

    def run(*arguments: str | Path, code: int = 0, **settings: str) -> str:
        done = ran(*arguments, **settings)
        assert done.code == code, done.err
        return done.err if code in (1, 2, 3) else done.out

    return run


@pytest.fixture
def on_terminal(service_url) -> Callable[..., Done]:
    """Runs a program on a real pseudo-terminal, typing what is given after its ``until`` is shown or true."""

    def run(
        *command: str | Path, typed: Sequence[tuple[Until, str]] = (), columns: int = 100, **environment: str
    ) -> Done:
        child, terminal = pty.fork()
        if child == 0:
            known = {name: value for name, value in os.environ.items() if name not in FORGOTTEN}
            known |= {"BOREWRIGHT_CLIENT_URL": service_url, "TERM": "xterm", **environment}
            termios.tcsetwinsize(0, (24, columns))
            signal.signal(signal.SIGINT, signal.SIG_DFL)  # whoever runs the tests in the background has it ignored
            os.execve(command[0], [str(part) for part in command], known)
        shown = _talk(terminal, list(typed))
        _, status = os.waitpid(child, 0)
        os.close(terminal)
        return Done(os.waitstatus_to_exitcode(status), shown.replace("\r\n", "\n"))

    return run


def _talk(terminal: int, typed: list[tuple[Until, str]]) -> str:
    shown, since, deadline = "", 0, time.monotonic() + PATIENCE_SECONDS
    while time.monotonic() < deadline:
        if typed and _come(typed[0][0], shown[since:]):
            since = len(shown)
            os.write(terminal, typed.pop(0)[1].encode())
        if not select.select([terminal], [], [], 0.2)[0]:
            continue
        try:
            block = os.read(terminal, 65536)
        except OSError:  # the program has ended
            return shown
        if not block:
            return shown
        shown += block.decode(errors="replace")
    raise AssertionError(f"the terminal went quiet after {shown[-500:]!r}, waiting for {typed}")


def _come(until: Until, shown: str) -> bool:
    return until in shown if isinstance(until, str) else until()


@pytest.fixture(scope="session")
def command() -> Path:
    """Where the command is installed."""
    return COMMAND
