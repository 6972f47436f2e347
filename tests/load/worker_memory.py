"""Memory of a worker that has answered a routing mix or new combinations: ``python worker_memory.py [MIX [HOLES]]``.

The holes go as NDJSON batches to gunicorn with one worker, a new one for each mix.
"""

from __future__ import annotations

import http.client
import sys
from collections.abc import Iterator
from contextlib import closing
from itertools import islice

from routings import combinations, lines, routing
from serving import memory_mib, serving, workers

ROUTING_HOLES, COMBINATIONS = 20_000, 6_000
PER_BATCH = 100
#: What a worker may take, MiB.
MOST_MIB = 100
PORT = 28190


def asked(mix: str, holes: int | None = None) -> Iterator[bytes]:
    """Lines of a mix."""
    if mix == "routing":
        return lines(routing(holes or ROUTING_HOLES))
    return lines(combinations(holes or COMBINATIONS))


def batches(waiting: Iterator[bytes]) -> Iterator[bytes]:
    """Lines put together to bodies of a batch."""
    while batch := b"".join(islice(waiting, PER_BATCH)):
        yield batch


def grown(mix: str, holes: int | None = None, *, port: int = PORT) -> tuple[float, float, int]:
    """Memory of a worker before and after a mix, MiB, and how many holes were answered with a specification."""
    with serving("borewright.api.wsgi:app", port, workers=1) as service:
        (worker,) = workers(service.pid)
        before = memory_mib(worker)
        with closing(http.client.HTTPConnection("127.0.0.1", port)) as connection:
            good = sum(_specifications(connection, batch) for batch in batches(asked(mix, holes)))
        return before, memory_mib(worker), good


def _specifications(connection: http.client.HTTPConnection, batch: bytes) -> int:
    connection.request("POST", "/v1/hole-specs/batch", batch, {"Content-Type": "application/x-ndjson"})
    return connection.getresponse().read().count(b'"status":"ok"')


def main() -> int:
    most = 0.0
    for mix in sys.argv[1:2] or ("routing", "combinations"):
        before, after, good = grown(mix, *map(int, sys.argv[2:]))
        print(f"{mix}: {before:.0f} MiB before, {after:.0f} MiB after, {good:,} specifications")
        most = max(most, after)
    return 0 if most <= MOST_MIB else 1


if __name__ == "__main__":
    sys.exit(main())
