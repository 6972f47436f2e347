"""Which sizes and pitches the Unified series hold (ASME B1.1), for readers, resolvers and catalogues.

Three kinds of thread exist: those of the standard series (a series name belongs to each), the selected
special combinations whose limits the standard tabulates (``UNS``), and every other combination (``UNS`` too,
limits by formula only).
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import cast

from borewright.core.caches import read_once
from borewright.core.model import Status
from borewright.tables import load

#: Series names in the order of the standard's table.
SERIES: tuple[str, ...] = (
    "UNC",
    "UNF",
    "UNEF",
    "4UN",
    "6UN",
    "8UN",
    "12UN",
    "16UN",
    "20UN",
    "28UN",
    "32UN",
)

#: Columns that list the series whose cell of a size was not read in the document.
_LESS_KNOWN: tuple[Status, ...] = ("second_hand", "from_memory")

#: Label -> basic major diameter in inches of the standard series, smallest first.
SIZES: Mapping[str, Decimal] = MappingProxyType(
    {row["nominal"]: Decimal(row["basic_major_in"]) for row in load("unified_series").rows}
)

_LABELS: Mapping[Decimal, str] = MappingProxyType({diameter: label for label, diameter in SIZES.items()})


@read_once
def _by_size() -> Mapping[str, Mapping[str, Decimal]]:
    table: dict[str, Mapping[str, Decimal]] = {}
    for row in load("unified_series").rows:
        # a series name in a constant-pitch column says that the thread goes by that name
        cells = {name: Decimal(row[name]) for name in SERIES if row[name][:1].isdigit()}
        table[row["nominal"]] = MappingProxyType(cells)
    return table


@read_once
def _statuses() -> Mapping[tuple[str, str], Status]:
    return {
        (row["nominal"], name): status
        for row in load("unified_series").rows
        for status in _LESS_KNOWN
        for name in row[status].split()
    }


@read_once
def _selected() -> Mapping[tuple[Decimal, Decimal], Status]:
    known: dict[tuple[Decimal, Decimal], Status] = {}
    for row in load("unified_selected_uns").rows:
        known[Decimal(row["basic_major_in"]), Decimal(row["tpi"])] = cast(Status, row["status"])
    return known


def label_for(basic_major_in: Decimal) -> str | None:
    """Label of a standard-series size with ``basic_major_in``, None where there is none."""
    return _LABELS.get(basic_major_in)


def pitches_for(size: str) -> Mapping[str, Decimal]:
    """Series name -> threads per inch of a standard-series size, in the order of ``SERIES``; empty when unknown.

    A thread is listed once, under the name it goes by: 1-8 is UNC, so 1 in has no 8UN.
    """
    return _by_size().get(size, MappingProxyType({}))


def series_for(size: str, tpi: Decimal) -> str | None:
    """Name of the standard series that holds ``size`` with ``tpi`` threads per inch, None where none does."""
    for name, threads in pitches_for(size).items():
        if threads == tpi:
            return name
    return None


def series_status(size: str, series: str) -> Status:
    """How well the cell of ``size`` in the standard-series table is known."""
    return _statuses().get((size, series), "published")


def selected_uns() -> tuple[tuple[str, Decimal, Decimal], ...]:
    """The tabulated UNS combinations: (size label, basic major diameter in inches, threads per inch)."""
    rows = load("unified_selected_uns").rows
    return tuple((row["nominal"], Decimal(row["basic_major_in"]), Decimal(row["tpi"])) for row in rows)


def selected_uns_status(*, basic_major_in: Decimal, tpi: Decimal) -> Status | None:
    """Status of the tabulated UNS combination of ``basic_major_in`` and ``tpi``, None where the standard does not
    tabulate it.
    """
    return _selected().get((basic_major_in, tpi))
