"""The figures at which a thread is made another way than by drill and tap: common practice, kept in one table."""

from __future__ import annotations

from decimal import Decimal

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.model import Source, Unit


def figure(quantity: str) -> Decimal:
    """A threshold of ``tables/way_of_making.csv``.

    Source: shop practice; each row of the table says its reason.
    """
    return _figures()[quantity]


def size(quantity: str, unit: Unit) -> Decimal:
    """A threshold that is a length, in ``unit``: the table holds a round figure for each.

    Source: as :func:`figure`.
    """
    return figure(f"{quantity}_{unit}")


@read_once
def _figures() -> dict[str, Decimal]:
    return {row["quantity"]: Decimal(row["value"]) for row in tables.load("way_of_making").rows}


def source(field: str, quantity: str) -> Source:
    """The source of a decision that hangs on a threshold.

    Source: the table's own head.
    """
    return Source(field, "shop practice", "", f"way_of_making: {quantity}", "common_practice")
