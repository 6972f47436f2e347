"""Rows of our tables beside rows from outside: what is held otherwise, not held, or held and not outside."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal

from borewright import tables

_FIGURE = re.compile(r"-?(\d+\.?\d*|\.\d+)")


def plain(cell: str) -> str | Decimal:
    """A figure as such, whatever zeros it is printed with."""
    return Decimal(cell) if _FIGURE.fullmatch(cell) else cell


def held(table: str, **only: str) -> list[dict[str, str]]:
    """The rows of a table, those with some cells where they are given."""
    return [row for row in tables.load(table).rows if all(row[column] == cell for column, cell in only.items())]


def unlike(
    outside: Iterable[Mapping[str, str]], ours: Iterable[Mapping[str, str]], key: str, compared: str
) -> Iterator[tuple[object, ...]]:
    """What tells rows from outside and ours apart: both by our names of columns, named by the ``key`` ones.

    Every row of either side must be found on the other; rows that say the same twice are one.
    """
    keys, columns = key.split(), compared.split()
    theirs, own = (
        {tuple(plain(row[one]) for one in keys): [plain(row[one]) for one in columns] for row in rows}
        for rows in (outside, ours)
    )
    for one in {*theirs, *own}:
        if theirs.get(one) != own.get(one):
            yield one, "outside:", theirs.get(one), "held:", own.get(one)
