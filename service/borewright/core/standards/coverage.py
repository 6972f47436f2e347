"""What each thread system covers, and how well: the rows of the catalogue of thread systems."""

from __future__ import annotations

from dataclasses import dataclass

from borewright.tables import load


@dataclass(frozen=True, slots=True)
class TableStatus:
    """One table a system stands on: its name, title, the document it was taken from and the status of its figures."""

    name: str
    title: str
    document: str
    status: str


@dataclass(frozen=True, slots=True)
class Coverage:
    """A thread system: its document, what is covered, what is not, and the tables behind it."""

    system: str
    document: str
    edition: str
    covers: str
    does_not_cover: str
    tables: tuple[TableStatus, ...] = ()


def tables_of(*names: str) -> tuple[TableStatus, ...]:
    """Status of the tables ``names``, taken from their heads; ``status`` says so where single rows have their own."""
    return tuple(_status(name) for name in names)


def _status(name: str) -> TableStatus:
    table = load(name)
    own = sorted({row["status"] for row in table.rows if row.get("status")} - {table.head["status"]})
    status = table.head["status"] + (f" (some rows {', '.join(own)})" if own else "")
    return TableStatus(name, table.head["title"], table.head["document"], status)
