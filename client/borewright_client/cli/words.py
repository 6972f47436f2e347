"""Figures and names of replies as people write them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

Reply = Mapping[str, Any]

NOTHING = "-"


def number(value: Any) -> str:
    """A figure without trailing zeros; nothing as a dash, a yes or no as such."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.6f}".rstrip("0").rstrip(".")
    return NOTHING if value is None else str(value)


def with_unit(value: Any, unit: str) -> str:
    """A figure and its unit."""
    return NOTHING if value is None else f"{number(value)} {unit}"


def percent(chance: float | None) -> str:
    """A chance of 0 to 1 in percent."""
    return NOTHING if chance is None else f"{number(chance * 100)} %"


def plain(name: str | None) -> str:
    """A name of the contract in words."""
    return NOTHING if name is None else name.replace("_", " ")


def words(name: str | None) -> str:
    """The same before a noun: joined by hyphens."""
    return NOTHING if name is None else name.replace("_", "-")


def window(limits: Reply | None, unit: str = "") -> str:
    """Limits in a line."""
    least, most = (limits or {}).get("min"), (limits or {}).get("max")
    end = f" {unit}" if unit else ""
    if least is None and most is None:
        return NOTHING
    if most is None:
        return f"{number(least)}{end} or more"
    if least is None:
        return f"{number(most)}{end} or less"
    lower, upper = evenly((least, most))
    return f"{lower} to {upper}{end}"


def evenly(figures: Iterable[float | None]) -> list[str]:
    """Figures of one kind with the same number of decimals, so that they can be compared at a glance."""
    listed = list(figures)
    places = max((_places(figure) for figure in listed if figure is not None), default=0)
    return [NOTHING if figure is None else f"{figure:.{places}f}" for figure in listed]


def _places(figure: float) -> int:
    exponent = Decimal(number(float(figure))).as_tuple().exponent
    return max(0, -int(exponent))
