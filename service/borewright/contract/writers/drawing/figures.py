"""Figures of a reply as the drawing prints them, with the zeros that the standards print."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

_PLACES = {"in": 4, "mm": 3}


def plain(value: float) -> str:
    """A length as a drawing dimensions it: at most four decimals."""
    return f"{round(value, 4):g}"


def window(limits: Mapping[str, Any], diameter: str, unit: str) -> str:
    """Limits of a diameter: four decimals of inches at least, three of millimetres (ASME B1.30, ISO 965)."""
    ends = [limits[diameter][side] for side in ("min", "max")]
    said = [_printed(end, _PLACES[unit]) for end in ends if end is not None]
    if len(said) == 1:
        return f"{'at most' if ends[0] is None else 'at least'} {said[0]}"
    return " to ".join(said) or "not held"


def _printed(value: float, places: int) -> str:
    fixed = f"{value:.{places}f}"
    return fixed if float(fixed) == value else f"{value:.7g}"
