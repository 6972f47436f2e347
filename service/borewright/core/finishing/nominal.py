"""What one stated figure of thickness means beside its class: the class's own figure, or another nominal of it."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple, cast

from borewright.core.caches import read_once
from borewright.core.model import MM_PER_INCH, Range, Source, Status, Unit
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.rounding import MOST_PLACES, half_even, plain
from borewright.tables import load

from .products import CONVERTED_PLACES, Product

#: A figure within the first share of the class's own is the same one converted, within the second one that was rounded.
_SAME_SHARE, _ROUNDED_SHARE = figure("same_nominal_share"), figure("same_thickness_share")
_HUNDRED = Decimal(100)


class Meant(NamedTuple):
    """What a figure means: ``thickness`` None for that of the class, else the limits; ``said`` in words."""

    thickness: Range | None
    said: str
    source: Source | None = None


class _Nominal(NamedTuple):
    """A class with its nominal and its tolerance as a share of it."""

    inches: Decimal
    share: Decimal
    source: Source

    def in_unit(self, unit: Unit) -> Decimal:
        return self.inches if unit == "in" else self.inches * MM_PER_INCH


def meant(figure: Decimal, row: Product, unit: Unit) -> Meant | None:
    """What a single figure, not called a minimum or maximum, means for a class.

    Args:
        figure: as stated, in ``unit``.
        row: the class that the finish names.
        unit: of the figure.

    Returns:
        None where the figure is neither the class's own nor that of a class with a known tolerance.

    Source: finish_nominals.csv; the class's minimum where its document states no maximum.
    """
    held = _nominals().get((row.specification.name, row.finish_class))
    own = row.least(unit) if held is None else (held.in_unit(unit),)
    if any(_same(figure, one) for one in own):
        return Meant(None, f"the thickness stated is that of {row.label}")
    if held is None:
        return None
    limits = Range(
        half_even(figure * (1 - held.share), CONVERTED_PLACES[unit]),
        half_even(figure * (1 + held.share), CONVERTED_PLACES[unit]),
    )
    share = plain(held.share * _HUNDRED)
    said = f"{length(figure, unit, CONVERTED_PLACES[unit])} is the nominal, with the +/-{share} % of {row.label}"
    return Meant(limits, said, held.source)


def _same(figure: Decimal, own: Decimal) -> bool:
    """Equal, or the class's figure with the digits that were written (0.1 mm is not 0.05 mm)."""
    apart, places = abs(figure - own), min(-int(figure.normalize().as_tuple().exponent), MOST_PLACES)
    is_rounded = apart <= _ROUNDED_SHARE * max(figure, own) and half_even(own, places) == figure
    return apart <= _SAME_SHARE * own or is_rounded


@read_once
def _nominals() -> Mapping[tuple[str, str | None], _Nominal]:
    return {
        (row["specification"], row["finish_class"] or None): _Nominal(
            Decimal(row["nominal_in"]),
            Decimal(row["tolerance_percent"]) / _HUNDRED,
            Source("finish.thickness", row["document"], row["edition"], row["locator"], cast(Status, row["status"])),
        )
        for row in load("finish_nominals").rows
    }
