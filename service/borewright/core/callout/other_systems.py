"""The same size in other systems: what a callout without a system name, or with the wrong one, may have meant."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal, InvalidOperation

from borewright.core.caches import read_once
from borewright.core.rounding import plain
from borewright.core.standards.metric import sizes as metric_series
from borewright.core.standards.unified import sizes as unified_series
from borewright.tables import load

_PIPE = (("npt", "{size}-{tpi} NPT"), ("iso_228", "G {size}"), ("iso_7", "Rc {size}"))


@read_once
def _designations() -> dict[str, tuple[tuple[Decimal, str], ...]]:
    """Size -> (threads per inch, designation) of every inch-sized system but Unified."""
    table: dict[str, list[tuple[Decimal, str]]] = {}
    for size, tpi, designation in _rows():
        table.setdefault(size, []).append((Decimal(tpi), designation))
    return {size: tuple(found) for size, found in table.items()}


def _rows() -> Iterator[tuple[str, str, str]]:
    for name, form in _PIPE:
        for row in load(name).rows:
            size, tpi = row["size"], row["threads_per_inch"]
            yield size, tpi, form.format(size=size, tpi=plain(Decimal(tpi)))
    for row in load("whitworth").rows:
        size, tpi = row["size"], row["threads_per_inch"]
        yield size, tpi, f"{size}-{plain(Decimal(tpi))} {row['series']}"
    for row in load("acme").rows:
        size, tpi = row["size"], row["threads_per_inch"]
        yield size, tpi, f"{size}-{plain(Decimal(tpi))} ACME"


def as_metric(size: str, pitch: Decimal | None = None) -> tuple[str, ...]:
    """The metric callout that ``size`` and ``pitch``, as bare mm, may have meant (``8 x 1.25`` -> ``M8x1.25``)."""
    try:
        diameter = Decimal(size)
    except InvalidOperation:
        return ()
    if pitch is None:
        return (f"M{plain(diameter)}",) if metric_series.coarse_pitch(diameter) else ()
    known = metric_series.series_for(diameter, pitch_mm=pitch)
    return (f"M{plain(diameter)}x{plain(pitch)}",) if known else ()


def unified(label: str, tpi: Decimal) -> tuple[str, ...]:
    """The Unified thread of the size ``label`` with ``tpi`` threads per inch, where a series holds it."""
    series = unified_series.series_for(label, tpi)
    return (f"{label}-{plain(tpi)} {series.lstrip('0123456789')}",) if series else ()


def with_size(size: str, tpi: Decimal | None = None) -> tuple[str, ...]:
    """Designations of other systems that have the ``size``, and where given ``tpi`` threads per inch."""
    return tuple(name for count, name in _designations().get(size, ()) if tpi is None or count == tpi)
