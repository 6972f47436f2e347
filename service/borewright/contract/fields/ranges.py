"""The least and the greatest that requests may give, declared once for each kind of quantity, in every unit.

They are wide: what the trade makes lies well inside, and most slips of the keyboard outside. Inside them every figure
can be worked out; what a thread, a tool or a table then allows is the domain's matter.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any, NamedTuple

from borewright.contract.faults import invalid, shown
from borewright.core.rounding import plain


class Span(NamedTuple):
    """Least and greatest in ``unit``, both allowed; ``1`` is the unit of counts and ratios."""

    unit: str
    least: Decimal
    most: Decimal

    def words(self) -> str:
        """The span as people write it."""
        return f"{self.least:f} to {self.most:f}" + (f" {self.unit}" if self.unit != "1" else "")


class Range(NamedTuple):
    """What a kind of quantity may be: a span for each unit that a number of it may be in.

    ``zero``: it may be nothing at all. ``signed``: it may be nothing, or negative; the spans are those of its size.
    """

    spans: tuple[Span, ...]
    zero: bool = False
    signed: bool = False

    def check(self, value: Decimal, unit: str | None, *, written: object) -> None:
        """Refuse a value outside: of the span of ``unit``, or of every one where that is None: a number without unit.

        Raises: RequestInvalid ``value_out_of_range``, which tells every span and shows what was ``written``: a decimal
        was a bare number in ``unit``.
        """
        if not self._has(value, unit):
            raise invalid(
                "value_out_of_range",
                f"{_said(written, unit)} is out of range: {self.words()}.",
                allowed=[span.words() for span in self.spans],
            )

    def json_schema(self) -> dict[str, Any]:
        """JSON Schema of a number whose unit is told elsewhere: inside the widest of the spans."""
        least = _number(min(span.least for span in self.spans))
        most = _number(max(span.most for span in self.spans))
        too_small: list[dict[str, Any]] = [{"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": least}]
        if self.signed:
            too_small.append({"type": "number", "exclusiveMinimum": -least, "exclusiveMaximum": 0})
            return {"type": "number", "minimum": -most, "maximum": most, "not": {"anyOf": too_small}}
        if self.zero:
            return {"type": "number", "minimum": 0, "maximum": most, "not": too_small[0]}
        return {"type": "number", "minimum": least, "maximum": most}

    def words(self) -> str:
        """Every span in words."""
        words = "from " + ", or from ".join(span.words() for span in self.spans)
        return words + ("; or 0, or as much below 0" if self.signed else "; or 0" if self.zero else "")

    def _has(self, value: Decimal, unit: str | None) -> bool:
        if not value.is_finite():
            return False
        if value.is_zero():
            return self.zero
        size = abs(value) if self.signed else value
        return any(span.least <= size <= span.most for span in self.spans if unit in (None, span.unit))


def _said(written: object, unit: str | None) -> str:
    return f"{plain(written)} {unit}" if isinstance(written, Decimal) else shown(written)


def _number(bound: Decimal) -> int | float:
    return int(bound) if bound == bound.to_integral_value() else float(bound)


def _range(*spans: tuple[str, str, str]) -> Range:
    return Range(tuple(Span(unit, Decimal(least), Decimal(most)) for unit, least, most in spans))


#: Depths, diameters, pitches: the finest pitch of a standard is 0.08 mm.
LENGTH = _range(("in", "0.0001", "100"), ("mm", "0.001", "2540"))
#: What may be missing altogether.
LENGTH_OR_NONE = LENGTH._replace(zero=True)
#: What lies on a surface, from a microinch.
COAT = _range(("in", "0.000001", "1"), ("mm", "0.00001", "25"))
#: A limit of a coat, or what a drilled hole is larger than its drill.
COAT_OR_NONE = COAT._replace(zero=True)
#: What heat treatment adds to a diameter.
GROWTH = COAT._replace(zero=True, signed=True)
STRESS = _range(("psi", "150", "1000000"), ("MPa", "1", "7000"))
TORQUE = _range(("lbf*in", "0.01", "800000"), ("N*m", "0.001", "100000"))
POWER = _range(("hp", "0.002", "13000"), ("kW", "0.001", "10000"))
FRACTION = _range(("1", "0.0001", "1"))._replace(zero=True)
PERCENT = _range(("%", "0.1", "100"))
SPINDLE_SPEED = _range(("rev/min", "0.1", "200000"))
THREADS_PER_INCH = _range(("1", "0.5", "1000"))
STARTS = _range(("1", "1", "24"))
POINT_ANGLE = _range(("degrees", "60", "180"))
CHAMFER_THREADS = _range(("1", "0.5", "12"))
SAFETY_FACTOR = _range(("1", "0.1", "10"))
PAGE = _range(("1", "1", "100000"))
PAGE_SIZE = _range(("1", "1", "500"))
#: Times that a machine takes beside cutting.
SECONDS = _range(("s", "0.01", "3600"))._replace(zero=True)
#: Equal holes of a part, parts of a lot.
PIECES = _range(("1", "1", "1000000"))
#: What a shop measured.
MEASURED_PIECES = _range(("1", "1", "1000000"))
BROKEN = MEASURED_PIECES._replace(zero=True)
SPREAD = _range(("1", "0.0000001", "1000"))
SCALE_FACTOR = _range(("1", "0.001", "100000"))
SIGNED_SHARE = _range(("1", "0.000001", "10"))._replace(zero=True, signed=True)
TORQUE_FACTOR = _range(("1", "0.01", "100"))
CONFIDENCE = _range(("1", "0.5", "0.999"))
