"""Limits of inch taps: H and L numbers of ground taps, and the limits of cut-thread taps (ASME B94.9), in inches.

One number is 0.0005 in of pitch diameter. An H number counts to the maximum over basic, an L number to the minimum
below it; the tolerance is 0.0005 in through 1 in. Over 1 in the rows printed in the 2008 edition win, for sizes it
does not list the older rule holds (from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple, cast

from borewright.core.caches import read_once
from borewright.core.citation import Cite, cite
from borewright.core.model import Range, Status, TapLimit, Thread
from borewright.tables import load

from .tap_candidates import Candidate

STEP_IN = Decimal("0.0005")
#: Highest number that is read; the published list ends at H11 through 1 in.
HIGHEST_NUMBER = 99
_LISTED_TO_1_IN = range(1, 12)
_LISTED_OVER_1_IN = range(2, 11, 2)
_ONE_IN = Decimal(1)
_NOT_LISTED = (
    "the list ends below this size: an older rule is used, with the same maximum and a wider tolerance than that of"
    " ASME B94.9-2008"
)

HIGH_ABOVE = "basic + n * step"
LOW_OF_HIGH = "tap_max - tolerance"
_LOW_BELOW = "basic - n * step"
HIGH_OF_LOW = "tap_min + tolerance"


class _SizeRange(NamedTuple):
    over_in: Decimal
    through_in: Decimal | None
    coarsest_tpi: Decimal | None
    tolerance_in: Decimal
    statuses: Mapping[str, Status]
    origin: Cite


class _Rule(NamedTuple):
    tolerance_in: Decimal
    status: Status
    origin: Cite
    note: str | None


def label_rule(label: str, *, nominal_in: Decimal, tpi: Decimal) -> _Rule | None:
    """Tolerance and source of a limit number at a size.

    Args: ``label`` as ``H3`` or ``L2``; ``nominal_in`` basic major diameter in inches; ``tpi`` threads per inch.
    Returns: None where no rule covers the size and pitch.
    Source: ASME B94.9-2008 (R2018), Machinery's Handbook 31st ed. p. 972 and Table 21; older rule from memory.
    """
    printed = _printed_over_1_in().get((nominal_in, tpi))
    if printed is not None:
        status: Status = "published" if label == printed.label else "computed"
        return _Rule(printed.tolerance_in, status, printed.origin, None)
    for row in _ranges():
        inside = nominal_in > row.over_in and (row.through_in is None or nominal_in <= row.through_in)
        if inside and (row.coarsest_tpi is None or tpi >= row.coarsest_tpi):
            over = row.over_in >= _ONE_IN
            status = row.statuses.get(label, "from_memory" if over else "computed")
            return _Rule(row.tolerance_in, status, row.origin, _NOT_LISTED if over else None)
    return None


def labelled(thread: Thread, label: str) -> Candidate | None:
    """The H or L limit of a thread, None where no rule covers its size.

    Args: ``thread`` with inch basic pitch diameter; ``label`` as ``H3`` or ``L2``.
    Source: ASME B94.9 as in :func:`label_rule`.
    """
    rule = label_rule(label, nominal_in=thread.nominal_diameter, tpi=_tpi(thread))
    return None if rule is None else _numbered(thread.basic.pitch_diameter, label, rule)


def h_limits(thread: Thread) -> tuple[Candidate, ...]:
    """The H limits that are made for a thread: H1 to H11 through 1 in, even numbers to H10 above.

    Source: ASME B94.9 as in :func:`label_rule`.
    """
    numbers = _LISTED_TO_1_IN if thread.nominal_diameter <= _ONE_IN else _LISTED_OVER_1_IN
    found = (labelled(thread, f"H{number}") for number in numbers)
    return tuple(candidate for candidate in found if candidate is not None)


def cut_thread(thread: Thread) -> Candidate | None:
    """Limits of a cut-thread machine-screw tap (#0 to #14), None for a size the table does not hold.

    Source: ASME B94.9-2008 (R2018) Table 22, Machinery's Handbook 31st ed.
    """
    limits = _cut_thread_rows().get((thread.nominal_diameter, _tpi(thread)))
    if limits is None:
        return None
    basic = thread.basic.pitch_diameter
    return Candidate(
        TapLimit("cut", limits, "published"),
        cast(Decimal, limits.min),
        cast(Decimal, limits.max),
        cite("tap_limits_cut_inch"),
        "table",
        "table",
        {"basic": basic},
    )


def plus_tolerance(thread: Thread) -> Decimal | None:
    """Tolerance in inches of a tap of ``thread`` ordered as basic plus an amount: that of the H limits of its size.

    Source: ASME B94.9 as in :func:`label_rule`.
    """
    rule = label_rule("H", nominal_in=thread.nominal_diameter, tpi=_tpi(thread))
    return None if rule is None else rule.tolerance_in


def _numbered(basic: Decimal, label: str, rule: _Rule) -> Candidate:
    number = int(label[1:])
    reach = number * STEP_IN
    inputs = {"basic": basic, "n": number, "step": STEP_IN, "tolerance": rule.tolerance_in}
    if label[0] == "H":
        high = basic + reach
        low = high - rule.tolerance_in
        limit = TapLimit(label, Range(low, high), rule.status)
        return Candidate(limit, low, high, rule.origin, HIGH_ABOVE, LOW_OF_HIGH, inputs, rule.note)
    low = basic - reach
    high = low + rule.tolerance_in
    limit = TapLimit(label, Range(low, high), rule.status)
    return Candidate(limit, low, high, rule.origin, HIGH_OF_LOW, _LOW_BELOW, inputs, rule.note)


def _tpi(thread: Thread) -> Decimal:
    return thread.threads_per_inch if thread.threads_per_inch is not None else 1 / thread.pitch


class _Printed(NamedTuple):
    label: str
    tolerance_in: Decimal
    origin: Cite


@read_once
def _printed_over_1_in() -> Mapping[tuple[Decimal, Decimal], _Printed]:
    table = load("tap_limits_over_1in")
    origin = cite(table.name)
    return {
        (Decimal(row["nominal_in"]), Decimal(row["tpi"])): _Printed(
            row["label"], Decimal(row["max_over_basic_in"]) - Decimal(row["min_over_basic_in"]), origin
        )
        for row in table.rows
    }


@read_once
def _ranges() -> tuple[_SizeRange, ...]:
    table = load("tap_limits_ground_inch")
    grouped: dict[tuple[str, str], list[Mapping[str, str]]] = {}
    for row in table.rows:
        grouped.setdefault((row["over_in"], row["through_in"]), []).append(row)
    return tuple(_size_range(rows, table.head["document"]) for rows in grouped.values())


def _size_range(rows: list[Mapping[str, str]], document: str) -> _SizeRange:
    first = rows[0]
    return _SizeRange(
        Decimal(first["over_in"] or 0),
        Decimal(first["through_in"]) if first["through_in"] else None,
        Decimal(first["coarsest_tpi"]) if first["coarsest_tpi"] else None,
        Decimal(first["max_over_basic_in"]) - Decimal(first["min_over_basic_in"]),
        {row["label"]: cast(Status, row["status"]) for row in rows},
        Cite(document, first["edition"], first["locator"], cast(Status, first["status"])),
    )


@read_once
def _cut_thread_rows() -> Mapping[tuple[Decimal, Decimal], Range]:
    return {
        (Decimal(row["nominal_in"]), Decimal(row["tpi"])): Range(
            Decimal(row["pitch_min_in"]), Decimal(row["pitch_max_in"])
        )
        for row in load("tap_limits_cut_inch").rows
    }
