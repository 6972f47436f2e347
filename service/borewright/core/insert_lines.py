"""What follows the tapped hole of a screw-thread insert: it goes in, its tang comes off, the thread is gauged."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache

from .model import Thread
from .operation import Line
from .quantity_text import length
from .rounding import plain
from .threads.insert_object import LENGTHS


@lru_cache(512)
def lines(thread: Thread, kind: str, full_thread: Decimal) -> tuple[Line, ...]:
    """The operations after the hole; none for a thread without insert.

    Args:
        kind: blind or through.
        full_thread: depth of full thread, the wall of a through hole, in the thread's unit.

    Returns: installing, breaking off the tang, inspecting; the longest insert that fits where the callout names none.

    Source: ASME B18.29.2M and NASM33537 for the lengths that fit (full thread = length + 1 P); common practice for the
    sequence.
    """
    insert = thread.extra.get("insert")
    return () if insert is None else tuple(_lines(str(insert["nominal_thread"]), *_fitting(thread, kind, full_thread)))


def _fitting(thread: Thread, kind: str, full_thread: Decimal) -> tuple[str, dict[str, object]]:
    """The insert's length in words, and as a parameter."""
    found = _length(thread, kind, full_thread)
    if found is None:
        return "no listed length fits this depth", {}
    size, diameters = found
    named = "" if diameters is None else f" ({plain(diameters)} D)"
    return f"{length(size, thread.unit)} long{named}", {"insert_length": size}


def _length(thread: Thread, kind: str, full_thread: Decimal) -> tuple[Decimal, Decimal | None] | None:
    insert = thread.extra["insert"]
    asked = insert.get("insert_length")
    if isinstance(asked, Decimal):
        return asked, None
    needs = "full_thread_depth" if kind == "blind" else "insert_length"
    for diameters, suffix in sorted(LENGTHS.items(), reverse=True):
        needed, size = insert.get(f"{needs}_{suffix}"), insert.get(f"insert_length_{suffix}")
        if isinstance(needed, Decimal) and isinstance(size, Decimal) and needed <= full_thread:
            return size, diameters
    return None


def _lines(name: str, words: str, parameters: dict[str, object]) -> Iterator[Line]:
    yield Line(
        "install_insert",
        {"kind": "insert installation tool"},
        parameters,
        f"Install insert {name}, {words}, below flush",
    )
    yield Line(
        "break_off_tang",
        {"kind": "tang break-off tool"},
        {},
        "Break off the tang and take it out of the hole (an insert without tang: nothing to do)",
    )
    yield Line(
        "inspect",
        {"kind": "thread plug gauge"},
        {},
        f"Inspect installed insert with the GO thread plug of {name}; no coil stands above the face",
    )
