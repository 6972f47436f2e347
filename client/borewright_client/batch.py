"""Many items: sent in slices as NDJSON, asked again where an answer broke off, yielded in order."""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sized
from itertools import islice
from typing import Any, Protocol

from .errors import ClientError, NoAnswer, RequestRefused

Body = Mapping[str, Any]
Reply = dict[str, Any]

#: A slice ends earlier where its lines reach this size: it is then sent whole before its answers are read.
_SLICE_BYTES = 524_288
_TRIES = 6
_FIRST_WAIT_SECONDS = 0.2
_LONGEST_WAIT_SECONDS = 5.0

#: Sends lines and yields the lines of the answer; breaks off with a ClientError.
Ask = Callable[[bytes], Iterator[bytes]]


class _Bar(Protocol):
    def update(self, n: int) -> object: ...

    def close(self) -> None: ...


def run(
    ask: Ask, items: Iterable[Body], *, defaults: Body | None = None, slice_size: int = 500, progress: bool = False
) -> Iterator[Reply]:
    """The results of ``items`` in order, ``index`` counted over the whole run; see :meth:`Client.batch`."""
    if slice_size < 1:
        raise ValueError("slice_size must be at least 1")
    total = len(items) if isinstance(items, Sized) else None
    bar = _bar(total) if progress else None
    index = 0
    try:
        for lines in _slices((_line(item, defaults) for item in items), slice_size):
            for result in _answers(ask, lines):
                result["index"] = index
                index += 1
                if bar is not None:
                    bar.update(1)
                yield result
    finally:
        if bar is not None:
            bar.close()


def _line(item: Body, defaults: Body | None) -> bytes:
    body = {**defaults, **item} if defaults else item
    return json.dumps(body, allow_nan=False, separators=(",", ":")).encode() + b"\n"


def _slices(lines: Iterator[bytes], most: int) -> Iterator[list[bytes]]:
    found: list[bytes] = []
    size = 0
    for line in lines:
        found.append(line)
        size += len(line)
        if len(found) >= most or size >= _SLICE_BYTES:
            yield found
            found, size = [], 0
    if found:
        yield found


def _answers(ask: Ask, lines: list[bytes]) -> Iterator[Reply]:
    """The result of each line. What was answered is not asked again; without any answer it is tried a few times."""
    answered, tries = 0, 0
    while answered < len(lines):
        before = answered
        try:
            for result in _results(ask(b"".join(islice(lines, answered, None)))):
                answered += 1
                yield result
            if answered < len(lines):
                raise NoAnswer(f"the answer ended after {answered} of {len(lines)} items")
        except RequestRefused:
            raise
        except ClientError as error:
            tries = 1 if answered > before else tries + 1
            if tries >= _TRIES:
                raise
            time.sleep(_wait(error, tries))


def _results(lines: Iterator[bytes]) -> Iterator[Reply]:
    """Whole results as they come; one that says that the upload broke off ends the answer."""
    for line in lines:
        try:
            result: Reply = json.loads(line)
        except ValueError:
            raise NoAnswer("the answer broke off within a line") from None
        problem = result.get("problem", {})
        if problem.get("code") == "upload_truncated":
            raise NoAnswer("the service did not get the whole slice")
        if problem.get("code") == "batch_too_large":
            raise RequestRefused(problem["status"], problem)
        yield result


def _wait(error: ClientError, tries: int) -> float:
    said: float | None = getattr(error, "retry_after", None)
    return said if said is not None else min(_FIRST_WAIT_SECONDS * 2**tries, _LONGEST_WAIT_SECONDS)


def _bar(total: int | None) -> _Bar | None:
    """A bar on a terminal, None in a pipe or without the extra ``borewright-client[progress]``."""
    if not sys.stderr.isatty():
        return None
    try:
        from tqdm import tqdm
    except ImportError:
        return None
    bar: _Bar = tqdm(total=total, unit="item")
    return bar
