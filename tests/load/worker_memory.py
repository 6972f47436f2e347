"""Memory of a process that has answered a routing mix or new combinations: ``python worker_memory.py [MIX [HOLES]]``.

The holes go as NDJSON batches through the application itself; each mix is asked of a process of its own.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

from borewright.api import create_app
from borewright.api.settings import Settings
from routings import combinations, lines, routing
from serving import memory_mib

ROUTING_HOLES, COMBINATIONS = 20_000, 6_000
PER_BATCH = 100
#: What a worker may take, MiB.
MOST_MIB = 100


def asked(mix: str, holes: int | None = None) -> Iterator[bytes]:
    """Lines of a mix."""
    if mix == "routing":
        return lines(routing(holes or ROUTING_HOLES))
    return lines(combinations(holes or COMBINATIONS))


def answer(waiting: Iterator[bytes]) -> int:
    """Answer lines in batches. Returns: how many were answered with a specification."""
    client, good = create_app(Settings(max_cpu_ms=3_600_000)).test_client(), 0  # measuring is slow
    while batch := b"".join(islice(waiting, PER_BATCH)):
        reply = client.post("/v1/hole-specs/batch", data=batch, content_type="application/x-ndjson")
        good += sum(chunk.count(b'"status":"ok"') for chunk in reply.iter_encoded())
        reply.close()
    return good


def grown(mix: str, holes: int | None = None) -> tuple[float, float, int]:
    """Memory before and after a mix, MiB, and how many holes were answered with a specification."""
    before = memory_mib(os.getpid())
    good = answer(asked(mix, holes))
    return before, memory_mib(os.getpid()), good


def main() -> int:
    if len(sys.argv) > 1:
        before, after, good = grown(sys.argv[1], *map(int, sys.argv[2:]))
        print(f"{sys.argv[1]}: {before:.0f} MiB before, {after:.0f} MiB after, {good:,} specifications")
        return 0 if after <= MOST_MIB else 1
    failed = [subprocess.run([sys.executable, Path(__file__), mix], check=False) for mix in ("routing", "combinations")]
    return max(one.returncode for one in failed)


if __name__ == "__main__":
    sys.exit(main())
