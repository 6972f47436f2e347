"""Texts of the domain in the units of a reply.

The domain marks a quantity by a no-break space before its unit (``core.quantity_text``). Here it becomes the same
quantity in the reply's unit with an ordinary blank: as many digits as the other unit needs to say the same.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import NamedTuple

from borewright.contract.fields.request_units import UNIT_OF_SYSTEM
from borewright.contract.fields.units import Dimension
from borewright.core.caches import cached
from borewright.core.model import MM_PER_INCH
from borewright.core.model import Unit as Unit
from borewright.core.quantity_text import NO_BREAK
from borewright.core.rounding import half_even, plain

from .fields import units

_CACHED = 4096
_NUMBER = r"-?\d+(?:\.\d+)?"


class _Pair(NamedTuple):
    """A unit of the other set and what one of it is there, for numbers of three significant digits."""

    other: str
    times: Decimal


def _physical(dimension: Dimension, inch: str, metric: str) -> dict[str, dict[Unit, _Pair]]:
    ratio = units.factor(dimension, inch)  # the metric unit is the base of the dimension
    return {inch: {"mm": _Pair(metric, ratio)}, metric: {"in": _Pair(inch, 1 / ratio)}}


_PHYSICAL: dict[str, dict[Unit, _Pair]] = {
    **_physical("torque", "lbf*in", "N*m"),
    **_physical("force", "lbf", "N"),
    **_physical("power", "hp", "kW"),
    **_physical("stress", "psi", "MPa"),
    **_physical("speed", "ft/min", "m/min"),
    "in/rev": {"mm": _Pair("mm/rev", MM_PER_INCH)},
    "mm/rev": {"in": _Pair("in/rev", 1 / MM_PER_INCH)},
    "um": {"in": _Pair("in", 1 / (1000 * MM_PER_INCH))},
    "ksi": {"mm": _Pair("MPa", units.factor("stress", "ksi"))},
}
#: A tool named by a size (``6.8 mm drill``) with that size after it.
_NAMED = re.compile(
    rf"(?P<name>(?<![\w./])(?P<number>{_NUMBER}) (?P<unit>mm|in)(?: drill)?) \((?P<size>{_NUMBER}) (?P=unit)\)"
)
_SAME = Decimal("0.01")
_MOST_PLACES = 5


def _quantity(asked: Unit) -> re.Pattern[str]:
    """A quantity in a unit that is not of the set of ``asked``."""
    foreign = (*(unit for unit, others in _PHYSICAL.items() if asked in others), "mm" if asked == "in" else "in")
    names = "|".join(re.escape(unit) for unit in foreign)
    return re.compile(rf"({_NUMBER})(?: (to|and|or|\+/-) ({_NUMBER}))?{NO_BREAK}({names})(?![\w/*])")


_QUANTITY: dict[Unit, re.Pattern[str]] = {"in": _quantity("in"), "mm": _quantity("mm")}
#: What a tool named by a size has before that size: most texts have none, and are not searched.
_BEFORE_SIZE = (" mm (", " in (", " drill (")


def unit_asked(body: Mapping[str, object]) -> Unit | None:
    """The unit that a body asks for in ``unit_system``, None where it asks for none, or for none that there is."""
    asked = body.get("unit_system")
    return UNIT_OF_SYSTEM.get(asked) if isinstance(asked, str) else None


@cached(_CACHED)
def in_units(text: str, asked: Unit | None) -> str:
    """A text of the domain with its quantities in the set of ``asked``; None = as the domain holds them."""
    if NO_BREAK not in text:
        return text
    if asked is not None:
        text = _QUANTITY[asked].sub(lambda found: _shown(found, asked), text)
    text = text.replace(NO_BREAK, " ")
    return _NAMED.sub(_named_once, text) if any(name in text for name in _BEFORE_SIZE) else text


def all_in_units(texts: Iterable[str], asked: Unit | None) -> list[str]:
    """Several texts, each as :func:`in_units`."""
    return [in_units(text, asked) for text in texts]


def _shown(found: re.Match[str], asked: Unit) -> str:
    first, word, second, unit = found[1], found[2], found[3], found[4]
    numbers = [first] if second is None else [first, second]
    converted = [_number(number, unit, asked) for number in numbers]
    return f"{f' {word} '.join(number for number, _ in converted)} {converted[0][1]}"


def _named_once(found: re.Match[str]) -> str:
    """A tool without the size after it where its name is that size."""
    same = abs(Decimal(found["number"]) - Decimal(found["size"])) < _SAME
    return found["name"] if same else found[0]


def _number(number: str, unit: str, asked: Unit) -> tuple[str, str]:
    """A number with its unit in the set asked for."""
    if unit in ("in", "mm"):
        return _length(number, asked), asked
    pair = _PHYSICAL[unit][asked]
    three_digits = Decimal(f"{float(Decimal(number) * pair.times):.3g}")
    return plain(half_even(three_digits, _MOST_PLACES)), pair.other


def _length(number: str, asked: Unit) -> str:
    places = len(number.partition(".")[2])
    if asked == "mm":
        return plain(half_even(Decimal(number) * MM_PER_INCH, min(max(places - 1, 2), 3)))
    return plain(half_even(Decimal(number) / MM_PER_INCH, min(max(places + 2, 3), 5)))
