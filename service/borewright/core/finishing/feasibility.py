"""Whether the limits before a finish can be made, and what would make them possible."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.caches import OF_THREADS, cached, read_once
from borewright.core.model import Diameters, Range, Thread
from borewright.core.quantity_text import length, marked
from borewright.core.rounding import downward
from borewright.core.standards.systems import traits
from borewright.core.tapping import fit
from borewright.core.tapping import limits as tap_limits
from borewright.tables import load

from . import flank_geometry, other_class, overtap
from .coat import Coat, of_product
from .flank_geometry import Reading
from .products import Product, products

_ZERO = Decimal(0)
_SHOWN_PLACES = {"in": 5, "mm": 4}
_LAST_DIGIT = {"in": Decimal("0.0001"), "mm": Decimal("0.001")}
_MASK = "mask or plug the thread, or tap after the finish (the thread is then bare)"


@cached(OF_THREADS)
def tap_room(thread: Thread) -> Decimal:
    """Pitch-diameter room a tap needs: its own tolerance and the oversize it is expected to cut.

    Args:
        thread: whose unit the room has.

    Source: tap tolerance of ASME B94.9 or ISO 2857; the cut oversize is an assumption (0.15 of the tolerance).
    """
    tolerance = tap_limits.plus_tolerance(thread) or _ZERO
    oversize = fit.expected_oversize(thread)
    return tolerance + (oversize.amount if oversize is not None else _ZERO)


def width(limit: Range) -> Decimal | None:
    """Tolerance of ``limit``, in its unit, None where one is open; negative where the minimum is above the maximum."""
    return None if limit.min is None or limit.max is None else limit.max - limit.min


def is_feasible(thread: Thread, before: Diameters) -> bool:
    """Whether a tap and a drill can make the limits ``before`` the finish of ``thread``.

    Source: room = pitch-diameter tolerance left, against the tap's tolerance and cut oversize.
    """
    pitch, minor = width(before.pitch_diameter), width(before.minor_diameter)
    return (pitch is None or pitch > tap_room(thread)) and (minor is None or minor > _ZERO)


def remedies(thread: Thread, coat: Coat, reading: Reading) -> tuple[str, ...]:
    """What would make the finish possible, computed from the tables, the least change of the drawing first.

    Args: ``thread`` to be coated; ``coat`` in its unit; ``reading`` of which limits the coat moves.
    """
    found = [_thinner(thread, coat, reading), _thickest(thread, coat, reading), *_looser(thread, coat, reading)]
    found += [_position_g(thread), _overtap(thread, coat), _MASK]
    return tuple(line for line in found if line is not None)


def _fits(thread: Thread, build_up: Range, heat: Range, reading: Reading) -> Decimal | None:
    """Pitch tolerance left with a build-up, None where it cannot be made."""
    limits = flank_geometry.limits(thread, build_up=build_up, heat=heat, reading=reading)
    if not is_feasible(thread, limits.before):
        return None
    return width(limits.before.pitch_diameter)


def _thinner(thread: Thread, coat: Coat, reading: Reading) -> str | None:
    """The thickest other class of the same specification that fits."""
    if coat.product is None:
        return None
    for row in _thinner_rows(coat.product):
        left = _fits(thread, of_product(row, thread.unit), coat.heat, reading)
        if left is not None:
            return f"{row.label} fits: it leaves {length(left, thread.unit)} of pitch diameter tolerance"
    return None


@cached(256)
def _thinner_rows(row: Product) -> tuple[Product, ...]:
    own = of_product(row, "mm").max or _ZERO
    rows = [one for one in products()[row.specification.name] if one.states_thickness]
    thinner = [one for one in rows if own == 0 or (of_product(one, "mm").max or _ZERO) < own]
    return tuple(sorted(thinner, key=lambda one: -(of_product(one, "mm").max or _ZERO)))


def _thickest(thread: Thread, coat: Coat, reading: Reading) -> str | None:
    """The greatest thickness that leaves room for the tap, with nothing counted at the thin end."""
    factor = flank_geometry.flank_factor(thread.thread_angle)
    tolerance = width(thread.internal.pitch_diameter)
    if factor is None or tolerance is None or not coat.growth.max:
        return None
    room = tolerance - tap_room(thread) - ((coat.heat.max or _ZERO) - (coat.heat.min or _ZERO))
    if reading == "iso" and traits(thread).coated == "iso_965":
        room += (thread.internal.pitch_diameter.min or _ZERO) - thread.basic.pitch_diameter
    # a last digit is left for the rounding of the two limits
    spare, places = room - _LAST_DIGIT[thread.unit], _SHOWN_PLACES[thread.unit]
    most = downward(spare / (factor * coat.growth.max), places)
    return f"a coat of at most {length(most, thread.unit, places)} anywhere in the thread fits" if most > 0 else None


def _looser(thread: Thread, coat: Coat, reading: Reading) -> list[str]:
    """The first class of each tolerance position that fits, in order of room."""
    lines: list[str] = []
    for other in other_class.looser(thread):
        if _fits(other, coat.build_up, coat.heat, reading) is not None:
            lines.append(f"class {other.thread_class} fits: {other.designation}")
            if not (other.thread_class or "").endswith("G"):
                break
    return lines


def _position_g(thread: Thread) -> str | None:
    """Room of position G by the coating table, for metric threads of position H."""
    if traits(thread).coated != "iso_965" or not (thread.thread_class or "").endswith("H"):
        return None
    nominal = position_g_nominal_um(thread.pitch)
    if nominal is None:
        return None
    text = f"position G takes a nominal coat of {nominal} um without any change of limits (ISO 4042:1999 Table 2)"
    return marked(text)


def _overtap(thread: Thread, coat: Coat) -> str | None:
    """The inch overtap table for thick mechanical zinc (from memory)."""
    if coat.product is None or coat.product.specification.family != "mechanical_zinc":
        return None
    if traits(thread).overtap != "astm_a563":
        return None
    amount = overtap.inch_amount(thread)
    if amount is None:
        return None
    over = length(amount, thread.unit)
    return f"tap oversize by {over} as ASTM A563 does for zinc of 40 um and more (from memory for ASTM B695)"


def position_g_nominal_um(pitch_mm: Decimal) -> int | None:
    """Largest nominal coating in an internal thread of position G, in micrometres.

    Args:
        pitch_mm: pitch in millimetres.

    Returns:
        None for a pitch the table does not hold.

    Source: ISO 4042:1999 Table 2; from 2.5 mm by the same rule.
    """
    return _position_g_table().get(pitch_mm)


@read_once
def _position_g_table() -> dict[Decimal, int]:
    return {Decimal(row["pitch_mm"]): int(row["max_nominal_um"]) for row in load("iso4042_position_g").rows}
