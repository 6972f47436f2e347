"""Length fields of requests."""

from __future__ import annotations

from typing import Any

from borewright.contract.fields import ranges
from borewright.contract.fields.ranges import Range
from borewright.contract.fields.strict import QuantityField

IN_UNITS = "A bare number is in the length unit of `unit_system`; text carries its own unit."


def length(description: str, allowed: Range = ranges.LENGTH, **given: Any) -> QuantityField:
    """A length field inside what is ``allowed``."""
    return QuantityField(f"{description} {IN_UNITS}", "length", allowed, **given)
