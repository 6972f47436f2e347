"""Measures the service against floors in one run and writes a Markdown table and a JSON file.

Run: `bash tests/run long tests/load`, or `python tests/load/measure.py [FOLDER]`. Absolute figures drift on shared
machines; the ratios within one run are what counts. Needs wrk (Debian package).
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from batches import batches
from client_calls import client
from rows import Row, table
from serving import ROOT, serving
from single_requests import single_requests
from start import memory, start

PORT = 28100


def measure(*, seconds: float, rounds: int, items: int) -> list[Row]:
    """All goals.

    Args: ``seconds`` of load a round of single requests, ``rounds`` of them; ``items`` of the largest batch.
    """
    with serving("borewright.api.wsgi:app", PORT) as service:
        asked = single_requests(service, seconds=seconds, rounds=rounds, port=PORT)
        called = client(calls=int(100 * seconds), port=PORT)
    return [
        *asked,
        *batches(items=items, port=PORT + 60),
        *start(starts=2 * rounds - 1, port=PORT + 20),
        *memory(holes=items // 2, port=PORT + 90),
        *called,
    ]


def write(rows: list[Row], folder: Path) -> None:
    """The table as load.md, the figures as load.json."""
    folder.mkdir(exist_ok=True)
    (folder / "load.md").write_text(table(rows), encoding="utf-8")
    (folder / "load.json").write_text(json.dumps([vars(row) for row in rows], indent=2), encoding="utf-8")


def main() -> int:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / ".run"
    rows = measure(seconds=3, rounds=3, items=40_000)
    write(rows, folder)
    print(table(rows))
    return 0


if __name__ == "__main__":
    sys.exit(main())
