"""What helps against a problem: its cause, an example that shows it, and what to do next; a row each code."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple


class Help(NamedTuple):
    """Why a problem comes, a request that meets it (or what does), and how it is mended."""

    cause: str
    example: str
    remedy: str


def _load() -> dict[str, Help]:
    with Path(__file__).with_suffix(".csv").open(encoding="utf-8", newline="") as lines:
        return {row.pop("code"): Help(**row) for row in csv.DictReader(lines)}


#: By code. A test holds that every code has its row.
HELP: Mapping[str, Help] = _load()
