"""Large holes: pilots ahead of the drill, and the thrust that they spare the spindle."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from borewright.core.cutting.records import CuttingData
from borewright.core.model import Caution, Depths, Thread, Unit
from borewright.core.practice import figure, sizes
from borewright.core.quantity_text import force, length, named, torque
from borewright.core.rounding import half_even, plain

from .operation import Line

_STEP = sizes("pilot_step")
_PILOT_OVER, _SECOND_PILOT_OVER = sizes("pilot_over"), sizes("second_pilot_over")
_PILOT_SHARE, _SECOND_PILOT_SHARE = figure("pilot_share"), figure("second_pilot_share")


def pilots(drill_diameter: Decimal, unit: Unit) -> tuple[Decimal, ...]:
    """Diameters in ``unit`` of the pilots ahead of ``drill_diameter``, smallest first; none for a drill that cuts from
    solid.

    Source: thresholds of way_of_making (common practice).
    """
    if drill_diameter <= _PILOT_OVER[unit]:
        return ()
    shares = (_PILOT_SHARE, _SECOND_PILOT_SHARE) if drill_diameter > _SECOND_PILOT_OVER[unit] else (_PILOT_SHARE,)
    return tuple(half_even(drill_diameter * share / _STEP[unit], 0) * _STEP[unit] for share in shares)


def lines(thread: Thread, drill_diameter: Decimal, depths: Depths) -> Iterator[Line]:
    """The routing lines of the pilots ahead of ``drill_diameter``, for ``thread`` and its ``depths`` in its unit; no
    speed is worked out for them.

    Source: as :func:`pilots`.
    """
    for diameter in pilots(drill_diameter, thread.unit):
        label, deep = _label(diameter, thread.unit), length(depths.drill_depth, thread.unit)
        yield Line(
            "pilot_drill",
            {"kind": "twist drill", "label": label, "diameter": diameter},
            {"depth": depths.drill_depth},
            f"Pilot drill {named(label, diameter, thread.unit)}, {deep} deep; speed not held",
        )


def cautions(thread: Thread, drill_diameter: Decimal, cutting: CuttingData | None) -> tuple[Caution, ...]:
    """What ``drill_diameter``, in the unit of ``thread``, would ask of the machine from solid, by its ``cutting`` data.

    Source: Machinery's Handbook 31st ed. p. 1152 for the forces, where a constant is held.
    """
    steps = pilots(drill_diameter, thread.unit)
    if not steps:
        return ()
    cut = None if cutting is None else cutting.drill
    figures = "its thrust is not held"
    if cut is not None and cut.thrust_n is not None and cut.torque_n_m is not None:
        figures = f"from solid it pushes with {force(cut.thrust_n)} and turns with {torque(cut.torque_n_m)}"
    first = ", then ".join(named(_label(one, thread.unit), one, thread.unit) for one in steps)
    text = (
        f"A drill of {length(drill_diameter, thread.unit)} is large: {figures}. Open out in steps, {first}, then to"
        " size; check thrust, torque and clamping, or bore the hole to size."
    )
    return (Caution("drill_thrust", text),)


def _label(diameter: Decimal, unit: Unit) -> str:
    if unit == "mm":
        return f"{plain(diameter)} mm"
    whole, rest = divmod(Fraction(diameter), 1)
    return f"{whole}-{rest}" if whole and rest else str(rest or whole)
