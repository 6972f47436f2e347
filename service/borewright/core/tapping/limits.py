"""Which pitch-diameter limits a thread's taps are made to, whatever its system: the front of the limit tables."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from ..model import Range, Status, TapLimit, Thread
from . import ground_inch, insert, metric
from .model import Candidate, Origin

Family = Literal["inch", "metric", "insert"]

_FAMILIES: dict[str, Family] = {
    "unified": "inch",
    "unified_j": "inch",
    "iso_metric": "metric",
    "metric_j": "metric",
    "insert_unified": "insert",
    "insert_metric": "insert",
}
_LABEL = re.compile(r"(H|L|D|DU|ISO) ?-?([0-9]{1,2})")
_LETTERS: dict[Family, tuple[str, ...]] = {
    "inch": ("H", "L"),
    "metric": ("D", "DU", "ISO"),
    "insert": ("H",),
}
_PLUS_HIGH = "basic + amount"
_PLUS_INCH = Origin("ASME B94.9", "2008 (R2018)", "Machinery's Handbook 31st ed. p. 972, limits off the even numbers")
_PLUS_METRIC = Origin("ISO 2857", "1973", "band of 0.2 t, position given as an amount over basic")


def family(thread: Thread) -> Family | None:
    """The kind of tap limits a thread's system uses, None where no tap-limit table is held for it."""
    return _FAMILIES.get(thread.system)


def normal_label(text: str) -> str | None:
    """The standard spelling of a limit label (``h3`` -> ``H3``, ``iso2`` -> ``ISO 2``), None when it is no label."""
    found = _LABEL.fullmatch(text.strip().upper())
    if found is None:
        return None
    letters, number = found[1], int(found[2])
    if number == 0 or (letters == "ISO" and number not in (1, 2, 3)):
        return None
    return f"ISO {number}" if letters == "ISO" else f"{letters}{number}"


def letters_for(thread: Thread) -> tuple[str, ...]:
    """The letters that open a limit label of the thread's taps; empty where no table is held."""
    kind = family(thread)
    return () if kind is None else _LETTERS[kind]


def labelled(thread: Thread, label: str) -> Candidate | None:
    """The limit of that label for a thread.

    Args: ``label`` in the spelling of :func:`normal_label`.
    Returns: None where the label is of another kind of tap, or the tables do not cover the thread's size and pitch.
    Source: ASME B94.9 (H, L, D, DU), ISO 2857 (ISO 1 to 3).
    """
    kind = family(thread)
    letters = label.rstrip("0123456789 ")
    if kind is None or letters not in _LETTERS[kind]:
        return None
    if kind == "inch":
        return ground_inch.labelled(thread, label)
    if kind == "insert":
        return insert.labelled(thread, label)
    return metric.classed(thread, int(label[-1])) if letters == "ISO" else metric.numbered(thread, label)


@lru_cache(1024)
def listed(thread: Thread) -> tuple[Candidate, ...]:
    """Every limit that taps of the thread are made to, in order of size within each kind.

    Source: ASME B94.9 (H, D), ISO 2857 (classes); an insert thread has the printed limits of its size only.
    """
    kind = family(thread)
    if kind == "inch":
        return ground_inch.listed(thread)
    if kind == "metric":
        return metric.listed(thread)
    if kind == "insert":
        return tuple(candidate for _, candidate in insert.listed(thread))
    return ()


def plus_tolerance(thread: Thread) -> Decimal | None:
    """Tolerance of a tap ordered as basic plus an amount, in the thread's unit; None where none is known.

    Source: ASME B94.9 tolerance of H limits; 0.2 t of ISO 2857.
    """
    kind = family(thread)
    if kind == "inch":
        return ground_inch.plus_tolerance(thread)
    return metric.plus_tolerance(thread) if kind == "metric" else None


def basic_plus(thread: Thread, *, amount: Decimal, tolerance: Decimal) -> Candidate:
    """A limit ordered by amount: maximum pitch diameter = basic + ``amount``, both in the thread's unit.

    Source: ASME B94.9 tap marking, limits that are no even number of steps; band of ISO 2857 for metric threads.
    """
    basic = thread.basic.pitch_diameter
    high = basic + amount
    low = high - tolerance
    status: Status = "computed" if thread.unit == "in" else "from_memory"
    return Candidate(
        TapLimit(f"basic plus {amount}", Range(low, high), status),
        low,
        high,
        _PLUS_INCH if thread.unit == "in" else _PLUS_METRIC,
        _PLUS_HIGH,
        ground_inch.LOW_OF_HIGH,
        {"basic": basic, "amount": amount, "tolerance": tolerance},
    )
