"""Which pitch-diameter limits of a thread's taps are stocked; any other limit is made to order."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Literal, NamedTuple, cast

from borewright.core.caches import cached, read_once
from borewright.core.citation import Cite, cite
from borewright.core.model import Overtap, Status, Thread
from borewright.core.requests import TapLimits
from borewright.core.standards.metric import sizes as metric_series
from borewright.core.standards.unified.series_names import un_form, without_number
from borewright.tables import load

from . import etched, insert, limits, metric

Availability = Literal["standard", "special"]
Method = Literal["cut", "form"]


#: Oversize taps for galvanized threads are sold by the overtap of the standard.
OVERTAPS = Cite(
    "shop practice", "", "taps for galvanized threads, sold by the overtap of ASTM A563 or ISO 965-5", "common_practice"
)


class _Row(NamedTuple):
    system: str
    method: str
    nominal: Decimal | None
    per: Decimal | None
    series: str
    through: Decimal | None
    labels: tuple[str, ...]
    stocked: Cite


@cached(64)
def stocked_limits(thread: Thread, method: Method) -> Mapping[str, Cite]:
    """Labels of the limits in which taps of ``thread`` for ``method`` are stocked, over all systems of limits, with the
    list that says so; empty for none.

    A thread of more than one start is tapped with taps made to order.
    Source: ASME B94.9 as reprinted in Machinery's Handbook 31st ed. Tables 20, 21, 25 and 26a; else common practice or
    from memory, as each row says.
    """
    kind = limits.family(thread)
    if kind is None or thread.starts > 1:
        return {}
    if kind == "insert":
        return _printed_for_inserts(thread)
    systems: tuple[TapLimits, ...] = ("inch_h",) if kind == "inch" else ("iso_class", "metric_d")
    found: dict[str, Cite] = {}
    for system in systems:
        for row in _matching(thread, system, method):
            for label in row.labels:
                found.setdefault(label, row.stocked)
    if kind == "metric" and method == "cut":
        found |= _tabled_d(thread)
    return found


def availability(thread: Thread, method: Method, label: str | None, overtap: Overtap | None = None) -> Availability:
    """Whether a tap of ``thread`` with the limit ``label`` is stocked for ``method``; taps without a limit are ordered
    by thread and class.

    Args: ``overtap`` of a thread that is tapped after hot-dip zinc.
    Source: as :func:`stocked_limits`; taps for galvanized threads by the overtap of their standard: common practice.
    """
    if overtap is not None and label == f"{etched.PLUS}{overtap.amount}":
        return "standard"
    if label is None:
        return "special" if thread.starts > 1 else "standard"
    return "standard" if label in stocked_limits(thread, method) else "special"


def _matching(thread: Thread, system: TapLimits, method: Method) -> tuple[_Row, ...]:
    """The rows of the thread's size; of its series only where there are none."""
    rows = [row for row in _rows() if row.system == system and row.method == method]
    per = thread.threads_per_inch if thread.unit == "in" else thread.pitch
    of_size = tuple(row for row in rows if row.nominal == thread.nominal_diameter and row.per == per)
    if of_size:
        return of_size
    series = _series(thread)
    of_series = (
        row
        for row in rows
        if row.nominal is None and row.series == series and row.through and thread.nominal_diameter <= row.through
    )
    first = next(of_series, None)
    return () if first is None else (first,)


def _series(thread: Thread) -> str | None:
    """UNC, UNF, UNEF or UN of an inch thread (UNJ taps are UN taps), coarse or fine of ISO 261."""
    if thread.unit == "mm":
        return metric_series.series_for(thread.nominal_diameter, pitch_mm=thread.pitch)
    return un_form(without_number(thread.series or ""))


def _printed_for_inserts(thread: Thread) -> Mapping[str, Cite]:
    found = {}
    for _, candidate in insert.printed_limits(thread):
        found[candidate.limit.label] = candidate.origin.rated(candidate.limit.status)
    return found


def _tabled_d(thread: Thread) -> Mapping[str, Cite]:
    return dict.fromkeys(metric.tabled_d(thread), cite("tap_limits_metric_d"))


@read_once
def _rows() -> tuple[_Row, ...]:
    table = load("tap_stock_limits")
    return tuple(_row(row, table.head) for row in table.rows)


def _row(row: Mapping[str, str], head: Mapping[str, str]) -> _Row:
    status = cast(Status, row["status"])
    printed = (head["document"], "2008 (R2018)") if status == "published" else ("shop practice", "")
    return _Row(
        row["system"],
        row["method"],
        Decimal(row["nominal"]) if row["nominal"] else None,
        Decimal(row["per"]) if row["per"] else None,
        row["series"],
        Decimal(row["through"]) if row["through"] else None,
        tuple(row["labels"].split("; ")),
        Cite(*printed, row["basis"], status),
    )
