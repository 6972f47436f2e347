"""What a drill is asked for, in the thread's own unit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.model import Diameters, Material, PercentTarget, Range
from borewright.core.requests import Method, Objective


@dataclass(frozen=True, slots=True)
class DrillRequest:
    """How the drill of a thread is to be chosen.

    ``minor_diameter`` are the limits to be made (before finish), None = the thread's own; ``stock`` the labels in the
    crib; ``strong_enough`` tells of a hole diameter whether the thread it leaves is strong enough (least torque);
    ``coat`` is what a coat will do to the diameters afterwards, None = bare.
    """

    method: Method = "cut"
    percent: PercentTarget | None = None
    objective: Objective = "chart"
    series: tuple[str, ...] | None = None
    engagement: Decimal | None = None
    minor_diameter: Range | None = None
    stock: tuple[str, ...] | None = None
    material: Material | None = None
    strong_enough: Callable[[Decimal], bool] | None = None
    coat: Diameters | None = None
