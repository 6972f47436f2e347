"""The drill that a drawing states: the one that is meant, and whether it may be left to the shop as it stands."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.errors import DrillingError
from borewright.core.model import Drill, Unit
from borewright.core.rounding import half_even, half_up

from .drill_sizes import SPECIAL, find_drill, in_series
from .standard_drills import USUAL

#: Decimals from which a size of a drawing is one that was rounded, not a coarse one.
_ROUNDED: dict[Unit, int] = {"in": 3, "mm": 1}
_DECIMALS = re.compile(r"[.,]([0-9]+)")


def drill_of_drawing(text: str, unit: Unit) -> Drill:
    """The drill that ``text`` of a drawing means: by its label or size, else the one that is sold and reads so when it
    is rounded to the decimals written (``0.312 in`` is 5/16); a size that none has is one to order.

    Args: ``unit`` of the thread, for a bare number.
    Raises: DrillingError ``drill_unknown``, pointer ``/hole/drill``.
    Source: drill sizes of the tables.
    """
    try:
        found = find_drill(text, unit)
    except DrillingError as refusal:
        raise refusal.under("/hole/drill") from None
    return found if found.series != SPECIAL else _rounded(found, text) or found


def _rounded(special: Drill, text: str) -> Drill | None:
    own: Unit = "mm" if special.label.endswith(" mm") else "in"
    written = _DECIMALS.search(text)
    if written is None or len(written[1]) < _ROUNDED[own]:
        return None
    places, size = len(written[1]), special.diameter(own)
    near = [one for one in in_series(USUAL[own][0]) if _reads_so(one.diameter(own), size, places)]
    return min(near, key=lambda one: abs(one.diameter(own) - size), default=None)


def _reads_so(diameter: Decimal, size: Decimal, places: int) -> bool:
    """Whether a drawing may write a diameter as the size: halves are rounded to even, on many drawings up."""
    return size in (half_even(diameter, places), half_up(diameter, places))
