"""What was found at a hole that went wrong, as the request states it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, get_args

from borewright.core.model import Length, ThreadCallout
from borewright.core.requests import HoleSpecRequest

Condition = Literal[
    "drilled_oversize",
    "tapped_oversize",
    "go_does_not_enter",
    "too_shallow",
    "wrong_thread",
    "stripped",
    "broken_tap",
    "cross_threaded",
]
Stage = Literal["before_finish", "after_finish"]
Criticality = Literal["flight", "pressure", "lifting", "safety"]
TapMaterial = Literal["high_speed_steel", "carbon_steel", "carbide"]
#: What a drawing may allow besides the thread as it stands.
Allowed = Literal["insert", "formed_thread", "chased_coat"]

CONDITIONS: tuple[str, ...] = get_args(Condition)
STAGES: tuple[str, ...] = get_args(Stage)
CRITICALITIES: tuple[str, ...] = get_args(Criticality)
TAP_MATERIALS: tuple[str, ...] = get_args(TapMaterial)
ALLOWED: tuple[str, ...] = get_args(Allowed)


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured at the hole; None = not measured.

    ``full_thread_depth`` is what there is of sound thread, ``drill_depth`` the depth of full drill diameter, ``coat``
    the thickness on a surface, ``thread`` the thread that was measured where it was read off a gauge's label.
    """

    hole_diameter: Length | None = None
    pitch_diameter: Length | None = None
    major_diameter: Length | None = None
    full_thread_depth: Length | None = None
    drill_depth: Length | None = None
    coat: Length | None = None
    not_go_enters: bool | None = None
    thread: ThreadCallout | None = None


@dataclass(frozen=True, slots=True)
class BrokenTap:
    """The tap that sits in the hole; None = not known."""

    material: TapMaterial | None = None
    stands_proud: bool | None = None


@dataclass(frozen=True, slots=True)
class FaultFound:
    """The fault, its stage and what bears on it.

    ``edge_distance`` is from the hole's axis to the nearest edge, ``wall`` the material beside the hole as it is now,
    ``least_wall`` what must be left; ``tap_chamfer_threads`` that of the shortest tap at hand.
    """

    condition: Condition
    stage: Stage | None = None
    measured: Measured = Measured()
    wrong_thread: ThreadCallout | None = None
    edge_distance: Length | None = None
    wall: Length | None = None
    least_wall: Length | None = None
    tap_chamfer_threads: Decimal | None = None
    broken_tap: BrokenTap = BrokenTap()
    criticality: Criticality | None = None
    drawing_allows: tuple[Allowed, ...] = ()


@dataclass(frozen=True, slots=True)
class ReworkRequest:
    """The hole as the drawing asks for it, and what was found."""

    hole: HoleSpecRequest
    found: FaultFound
