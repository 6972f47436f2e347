"""Which series of a thread system was probably meant by one that it does not have."""

from __future__ import annotations

from collections.abc import Sequence

from borewright.core.errors import nearest

#: The coarse and the fine series of the systems that grade their pitches.
_GRADES = (frozenset({"UNC", "UNJC", "BSW", "COARSE"}), frozenset({"UNF", "UNJF", "BSF", "FINE"}))


def series_meant(series: str, known: Sequence[str]) -> tuple[str, ...]:
    """The one of ``known`` that ``series`` (any case) stands for: the only one, that of the same grade, else the
    nearest in spelling; nothing where none is near.
    """
    grade = next((names for names in _GRADES if series.upper() in names), frozenset())
    alike = tuple(known) if len(known) == 1 else tuple(name for name in known if name.upper() in grade)
    return alike or nearest(series, known, most=1)
