"""Plain plug gauges for the minor diameter, class by the 10 percent rule."""

from __future__ import annotations

from decimal import Decimal

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.model import MM_PER_INCH, Range, Thread
from borewright.core.practice import figure
from borewright.core.quantity_text import printed_length

from .gauge_notes import GaugeNotes
from .gauge_sets import PlainPlug

#: Classes from coarse to fine; ASME B1.2 asks for Z on minor diameters (from memory), so the shop class ZZ is not used.
_CLASSES = ("Z", "Y", "X", "XX", "XXX")

_SHARE = figure("plain_gauge_share")
_CITE = "ASME B89.1.5 (1998)"


def plain_plug(thread: Thread, minor: Range, sheet: GaugeNotes) -> PlainPlug | None:
    """GO and NOT GO plain plugs for the limits ``minor`` of ``thread``, in its unit: GO plus, NOT GO minus; None where
    a limit is open.

    Args: ``sheet`` takes the notes.
    Source: ASME B89.1.5 (1998), plain gauge tolerances (metric values are exact conversions); 10 percent rule.
    """
    if minor.min is None or minor.max is None:
        return None
    found = _class(thread, minor.max - minor.min, minor.max)
    if found is None:
        sheet.caution(
            "gauge_tolerance_not_held", f"ASME B89.1.5 holds no plain plug of {printed_length(minor.max, thread.unit)}."
        )
        return PlainPlug(None, Range(minor.min, None), Range(None, minor.max))
    name, tolerance, by_rule = found
    if not by_rule:
        sheet.caution(
            "gauge_takes_much_tolerance",
            f"Even class {name} takes more than a tenth of the minor-diameter tolerance of"
            f" {printed_length(minor.max - minor.min, thread.unit)}.",
        )
    if thread.unit == "mm":
        sheet.assume("plain plugs by ASME B89.1.5 (metric values): ISO plain gauge tolerances are not held")
    sheet.cite("plain_plug", cite("gauge_plain_plug").at(f"class {name}, 10 percent rule"))
    go = sheet.zone(
        "plain_plug.go",
        ("d", "d + x"),
        {"d": minor.min, "x": tolerance},
        Range(minor.min, minor.min + tolerance),
        _CITE,
    )
    not_go = sheet.zone(
        "plain_plug.not_go",
        ("d - x", "d"),
        {"d": minor.max, "x": tolerance},
        Range(minor.max - tolerance, minor.max),
        _CITE,
    )
    return PlainPlug(name, go, not_go)


def _class(thread: Thread, product_tolerance: Decimal, diameter: Decimal) -> tuple[str, Decimal, bool] | None:
    """Coarsest class that takes no more than its share, its tolerance in the thread's unit; the finest if none does."""
    factor = MM_PER_INCH if thread.unit == "mm" else Decimal(1)
    row = next((row for low, high, row in _rows() if low <= diameter / factor <= high), None)
    if row is None:
        return None
    for name in _CLASSES:
        if row[name] * factor <= _SHARE * product_tolerance:
            return name, row[name] * factor, True
    return _CLASSES[-1], row[_CLASSES[-1]] * factor, False


@read_once
def _rows() -> tuple[tuple[Decimal, Decimal, dict[str, Decimal]], ...]:
    return tuple(
        (Decimal(row["over_in"]), Decimal(row["to_in"]), {name: Decimal(row[name]) for name in _CLASSES})
        for row in tables.load("gauge_plain_plug").rows
    )
