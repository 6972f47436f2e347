"""Tables as CSV files, a folder a subject and beside them what all share, and their loader.

Each has a ``# key: value`` head, which names ``title``, ``document``, ``edition``, ``table``, ``status`` (published,
computed, second_hand, common_practice, from_memory), ``cross-check`` and the ``unit`` of each column. A blank cell is
unknown.
"""

from __future__ import annotations

import csv
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from sys import intern
from types import MappingProxyType

FOLDER = Path(__file__).parent
#: Tables whose rows are held: who reads one keeps what it makes of it, and those that read the same follow one another.
_HELD = 8


@dataclass(frozen=True, slots=True)
class Table:
    """A table as stored: ``head`` (lower-case keys) and ``rows`` (column name -> text)."""

    name: str
    head: Mapping[str, str]
    rows: tuple[Mapping[str, str], ...]


@cache
def _paths() -> Mapping[str, Path]:
    """Where each table lies: in the folder of its subject, or beside them what all share; a name once in all."""
    return {path.stem: path for path in FOLDER.rglob("*.csv")}


@lru_cache(_HELD)
def load(name: str) -> Table:
    """Read the table ``name``, in whatever folder it lies. Raises KeyError for a name that does not exist."""
    with _paths()[name].open(encoding="utf-8", newline="") as lines:
        head: dict[str, str] = {}
        for line in lines:
            if not line.startswith("#"):
                break
            key, _, value = line[1:].partition(":")
            head[key.strip().lower()] = value.strip()
        columns = next(csv.reader([line]))
        rows = tuple(
            MappingProxyType(dict(zip(columns, map(intern, cells), strict=True))) for cells in csv.reader(lines)
        )
    return Table(name, MappingProxyType(head), rows)


def names() -> tuple[str, ...]:
    """Names of all tables, sorted."""
    return tuple(sorted(_paths()))


@cache
def version() -> str:
    """Fingerprint of every table's bytes: the ``tables_version`` of a reply."""
    digest = hashlib.sha256()
    for name in names():
        digest.update(name.encode())
        digest.update(_paths()[name].read_bytes())
    return digest.hexdigest()[:12]
