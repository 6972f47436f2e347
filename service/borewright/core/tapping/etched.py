"""The marking a tap is ordered by, in the marks of the trade: ``1/2-13 NC HSS G H3``, ``M8x1.25 HSS G D5``."""

from __future__ import annotations

from functools import lru_cache

from ..model import Thread
from ..rounding import plain

#: Systems etched as size, threads per inch and series, without the class.
_SIZE_AND_PITCH = ("unified", "unified_j", "insert_unified", "whitworth", "nptf")
_CARBIDE = {"carbide": "CARB"}


def marking(thread: Thread, *, substrate: str, label: str | None) -> str:
    """The text on the shank of a ground tap.

    Args: ``label`` of the limit, None where the tap has none.
    Source: marks of ASME B94.9 (size, series, grade, G for ground, limit); common practice.
    """
    grade = _CARBIDE.get(substrate, substrate)
    if label is None:
        return f"{head(thread)} {grade} G"
    if label.startswith("basic plus "):
        return f"{head(thread)} {grade} G +{label[11:]}"
    return f"{head(thread)} {grade} G {label.replace(' ', '')}"


@lru_cache(1024)
def head(thread: Thread) -> str:
    """Size, pitch and series as they are etched, with LH for a left-hand tap."""
    name = _name(thread)
    return f"{name} LH" if thread.hand == "left" and not name.endswith("LH") else name


def _name(thread: Thread) -> str:
    if thread.starts > 1:
        return thread.designation
    if thread.system in ("iso_metric", "metric_j", "insert_metric"):
        letter = "MJ" if thread.system == "metric_j" else "M"
        name = f"{letter}{plain(thread.nominal_diameter)}x{plain(thread.pitch)}"
    elif thread.system in _SIZE_AND_PITCH and thread.threads_per_inch is not None:
        name = f"{thread.size.lstrip('#')}-{plain(thread.threads_per_inch)} {_series(thread)}".rstrip()
    else:
        return thread.designation
    return f"{name} STI" if thread.system.startswith("insert_") else name


def _series(thread: Thread) -> str:
    """UNC is etched NC, 8UN as 8N; UNJ keeps its letters, NPTF is etched without its inspection class."""
    if thread.system == "nptf":
        return "NPTF"
    series = thread.series or ""
    return series.lstrip("0123456789") if thread.system == "unified_j" else series.replace("UN", "N")
