"""Least torque: the largest drill that still stays inside the hole limits for the length of engagement.

Tapping torque falls with the thread height; the internal thread's own strip area does not depend on the hole. How small
the thread may become for the screw's sake is told by ``DrillRequest.strong_enough``, a predicate of the hole diameter.
"""

from __future__ import annotations

from decimal import Decimal

from .standard_drills import Entry


def torque_order(item: Entry) -> tuple[Decimal, Decimal]:
    """Sort key that puts the largest mean hole first.

    Source: geometry; torque falls with the thread height.
    """
    return -item.hole, -item.diameter
