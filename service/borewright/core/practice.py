"""Figures of shop practice and our own decisions, each with its reason and status in a table.

``practice.csv`` holds thresholds, shares, allowances and usual angles of all rules, ``way_of_making.csv`` those that
decide how a thread is made. A module binds the figures that it needs when it is imported.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import TYPE_CHECKING

from borewright import tables

from .caches import read_once

if TYPE_CHECKING:  # the model takes its usual angles from here
    from .model import Unit

TABLES = ("practice", "way_of_making")


def figure(name: str) -> Decimal:
    """The figure ``name`` in the unit of its row, with the digits of the table.

    Raises: KeyError for a name that no table holds.
    Source: practice and way_of_making tables; each row gives its own.
    """
    return _figures()[name]


def number(name: str) -> float:
    """The figure ``name`` in the unit of its row, for rules that reckon with floats.

    Source: as :func:`figure`.
    """
    return float(figure(name))


def count(name: str) -> int:
    """The figure ``name``, a whole number of what its row says.

    Source: as :func:`figure`.
    """
    return int(figure(name))


def sizes(name: str) -> Mapping[Unit, Decimal]:
    """The figure ``name`` for threads of each unit: the tables hold a round one for each, in that unit or in degrees.

    Source: as :func:`figure`.
    """
    return MappingProxyType({"in": figure(f"{name}_in"), "mm": figure(f"{name}_mm")})


def longest_chamfer(key: str) -> Decimal:
    """The longest chamfer, in threads, of the taps that the table of chamfers calls ``key``.

    Raises: KeyError for a name that the table does not hold.
    Source: tap_chamfers table.
    """
    return {row["key"]: Decimal(row["threads_max"]) for row in tables.load("tap_chamfers").rows}[key]


@read_once
def _figures() -> Mapping[str, Decimal]:
    return MappingProxyType({row["name"]: Decimal(row["value"]) for table in TABLES for row in tables.load(table).rows})
