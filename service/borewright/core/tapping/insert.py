"""Limits of ground taps for screw-thread inserts (STI), inch and metric, as ASME B94.9 prints them.

The basis is no clean rounding of the formula, so the tables are carried; other H numbers of a listed size are
0.0005 in steps away from the printed row. The metric table prints inches.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple, cast

from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.model import MM_PER_INCH, Range, Status, TapLimit, Thread
from borewright.core.rounding import half_even
from borewright.tables import load

from .ground_inch import STEP_IN
from .tap_candidates import Candidate

_TABLES = {"in": "tap_limits_sti_inch", "mm": "tap_limits_sti_metric"}
#: Classes of holes that a printed column serves; 4H5H has the pitch diameter of 4H.
_CLASSES = {"2B": ("2B",), "3B": ("3B",), "4H": ("4H", "4H5H"), "5H 6H": ("5H", "6H")}
_SIZE = {"in": ("nominal_in", "tpi"), "mm": ("nominal_mm", "pitch_mm")}
_FORMULAS = {
    ("in", True): ("table", "table"),
    ("in", False): ("printed_min + (n - printed_n) * step", "printed_max + (n - printed_n) * step"),
    ("mm", True): ("half_even(printed_min * 25.4, 4)", "half_even(printed_max * 25.4, 4)"),
    ("mm", False): (
        "half_even((printed_min + (n - printed_n) * step) * 25.4, 4)",
        "half_even((printed_max + (n - printed_n) * step) * 25.4, 4)",
    ),
}


class StiRow(NamedTuple):
    """One printed STI tap limit: its classes, its pitch diameter in inches and what is odd about the print."""

    classes: tuple[str, ...]
    label: str
    min_in: Decimal
    max_in: Decimal
    status: Status
    note: str


def rows_for(unit: str, *, nominal: Decimal, pitch_or_tpi: Decimal) -> tuple[StiRow, ...]:
    """Printed STI tap limits of a size, empty when the tables do not hold it.

    Args: ``unit`` of the nominal thread; ``nominal`` its diameter; ``pitch_or_tpi`` tpi for inch, pitch for mm.
    Source: ASME B94.9-2008 (R2018) Tables 25 and 26a, Machinery's Handbook 31st ed. pp. 1006-1007.
    """
    return _rows(unit).get((nominal, pitch_or_tpi), ())


def printed_limits(thread: Thread) -> tuple[tuple[str, Candidate], ...]:
    """Printed limits of an insert thread, each with the classes it is meant for.

    Source: as :func:`rows_for`.
    """
    return tuple((name, _candidate(thread, row, int(row.label[1:]))) for row in _of(thread) for name in row.classes)


def for_class(thread: Thread) -> Candidate | None:
    """The limit printed for the class of an insert thread, None for a size that the tables do not hold.

    Source: as :func:`rows_for`.
    """
    return next((candidate for name, candidate in printed_limits(thread) if name == thread.thread_class), None)


def labelled(thread: Thread, label: str) -> Candidate | None:
    """The H limit ``label`` of an insert thread, printed or stepped from the printed row; None for a size not held.

    Source: as :func:`rows_for`.
    """
    rows = _of(thread)
    if not rows or label[0] != "H":
        return None
    row = next((row for row in rows if row.label == label), rows[0])
    return _candidate(thread, row, int(label[1:]))


def _of(thread: Thread) -> tuple[StiRow, ...]:
    per = thread.threads_per_inch if thread.unit == "in" else thread.pitch
    return () if per is None else rows_for(thread.unit, nominal=thread.nominal_diameter, pitch_or_tpi=per)


def _candidate(thread: Thread, row: StiRow, number: int) -> Candidate:
    printed = int(row.label[1:])
    shift = (number - printed) * STEP_IN
    low_in, high_in = row.min_in + shift, row.max_in + shift
    low, high = (low_in, high_in) if thread.unit == "in" else (_mm(low_in), _mm(high_in))
    exact = number == printed
    low_formula, high_formula = _FORMULAS[thread.unit, exact]
    inputs = {"printed_min": row.min_in, "printed_max": row.max_in, "n": number, "printed_n": printed, "step": STEP_IN}
    return Candidate(
        TapLimit(f"H{number}", Range(low, high), row.status if exact else "computed"),
        low,
        high,
        cite(_TABLES[thread.unit]),
        high_formula,
        low_formula,
        inputs,
        row.note if exact and row.note else None,
    )


def _mm(inches: Decimal) -> Decimal:
    return half_even(inches * MM_PER_INCH, 4)


@read_once
def _rows(unit: str) -> Mapping[tuple[Decimal, Decimal], tuple[StiRow, ...]]:
    nominal, per = _SIZE[unit]
    found: dict[tuple[Decimal, Decimal], list[StiRow]] = {}
    table = load(_TABLES[unit])
    for row in table.rows:
        sti = StiRow(
            _CLASSES[row["class"]],
            row["label"],
            Decimal(row["pitch_min_in"]),
            Decimal(row["pitch_max_in"]),
            cast(Status, row.get("status") or table.head["status"]),
            row.get("note") or "",
        )
        found.setdefault((Decimal(row[nominal]), Decimal(row[per])), []).append(sti)
    return {size: tuple(rows) for size, rows in found.items()}
