"""Work in forked processes, a few at a time: what each says, and the time of a processor that it took."""

from __future__ import annotations

import os
import resource
import signal
import sys
import traceback
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple, TypeVar

Job = TypeVar("Job")
#: Of a processor for a test: a mistake that makes it hang fails it then. For a process, where that cannot be told it.
_TEST_SECONDS, _PROCESS_SECONDS = 15, 300
_MOST_MEMORY = 4 << 30


class Hangs(BaseException):
    """A test has taken so long that it will not end; no ``except Exception`` keeps it."""


class _Running(NamedTuple):
    job: object
    pipe: int


def in_forks(jobs: Iterable[Job], do: Callable[[Job], str], *, processes: int) -> Iterator[tuple[Job, str, float]]:
    """Each job with what ``do`` returns for it in a process of its own, and its seconds of a processor, as they end."""
    waiting, running = iter(jobs), {}
    more = True
    while more or running:
        while more and len(running) < processes:
            job = next(waiting, None)
            if more := job is not None:
                process, pipe = _fork(job, do)
                running[process] = _Running(job, pipe)
        if running:
            process, status, used = os.wait4(-1, 0)
            if process in running:
                job, pipe = running.pop(process)
                yield job, _said(pipe, status), used.ru_utime + used.ru_stime  # type: ignore[misc]


def begin_test() -> None:
    """Give the test that begins its time."""
    signal.signal(signal.SIGPROF, _hangs)
    signal.setitimer(signal.ITIMER_PROF, _TEST_SECONDS, _TEST_SECONDS)


def _hangs(*_: object) -> None:
    raise Hangs


def _fork(job: Job, do: Callable[[Job], str]) -> tuple[int, int]:
    read, write = os.pipe()
    process = os.fork()
    if process:
        os.close(write)
        return process, read
    code = 70
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (_PROCESS_SECONDS, _PROCESS_SECONDS))
        resource.setrlimit(resource.RLIMIT_AS, (_MOST_MEMORY, _MOST_MEMORY))
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.write(write, do(job).encode())
        code = 0
    except BaseException:
        traceback.print_exc(file=sys.__stderr__)
    finally:
        os._exit(code)


def _said(pipe: int, status: int) -> str:
    with os.fdopen(pipe, "rb") as read:
        said = read.read().decode()
    if os.waitstatus_to_exitcode(status) != 0:
        raise RuntimeError(f"the tests do not run: {status}")
    return said
