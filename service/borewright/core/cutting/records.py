"""Cutting data of one hole, and the notes that grow with them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, NamedTuple

from borewright.core.caches import cached
from borewright.core.model import Material, Notes, Source, Status, Step
from borewright.core.practice import figure
from borewright.core.record import Record
from borewright.core.requests import Machine, Method
from borewright.core.shop_figures.figures import MeasuredTorque, ShopFigures

from .torque import Band

USUAL_CHAMFER_THREADS = figure("usual_chamfer_threads")
_ANY_MACHINE = Machine()


class CuttingRequest(NamedTuple):
    """What is known of the hole when its cutting data are asked for. Lengths in the thread's unit.

    ``hole_diameter`` is the hole expected from the drill; ``drill_depth`` the travel to the drill's tip; ``coated`` a
    coat on the tap that allows more speed. ``tapped`` False: no tap makes the thread.
    """

    material: Material
    hole_kind: Literal["blind", "through"]
    drill_diameter: Decimal
    hole_diameter: Decimal
    drill_depth: Decimal
    full_thread_depth: Decimal
    tap_travel: Decimal
    method: Method = "cut"
    style: str = "straight_flute"
    chamfer_name: str = "plug"
    chamfer_threads: Decimal = USUAL_CHAMFER_THREADS
    coated: bool = False
    machine: Machine = _ANY_MACHINE
    tapped: bool = True
    shop_figures: ShopFigures | None = None


class ToolsRequest(NamedTuple):
    """What speeds, feeds and forces of a hole depend on: all of it but its depths, which count in steps only.

    ``drill_factors`` on speed and feed of the drill for its depth; ``deep`` thread beyond the depth at which a tap runs
    slower; ``packing`` the factor on its torque for chips that pack; ``chamfer_fill`` the share of the tap's chamfer
    that a short thread fills, 1 for others.
    """

    material: Material
    hole_kind: Literal["blind", "through"]
    drill_diameter: Decimal
    hole_diameter: Decimal
    drill_factors: tuple[float, float]
    deep: bool
    packing: float
    chamfer_fill: float
    method: Method
    style: str
    chamfer_name: str
    chamfer_threads: Decimal
    coated: bool
    machine: Machine
    tapped: bool = True
    measured_torque: MeasuredTorque | None = None


@dataclass(frozen=True, slots=True)
class Peck:
    """Peck advice: depths in mm, None where the hole is drilled in one go."""

    depth_over_diameter: float
    first_mm: float | None
    next_mm: float | None
    count: int


class DrillCut(NamedTuple):
    """Cutting data of the drill; forces are None where no constant is held."""

    cutting_speed_m_min: float
    speed_range_m_min: tuple[float, float]
    spindle_speed_rpm: int
    feed_mm_rev: float
    feed_range_mm_rev: tuple[float, float]
    thrust_n: float | None
    torque_n_m: float | None
    power_kw: float | None


class TapCut(NamedTuple):
    """Cutting data of the tap; speed and power are None for tapping by hand, torque where it is not modelled.

    ``speed_ceiling_m_min`` is the handbook's figure for coarse and fine pitch.
    """

    cutting_speed_m_min: float | None
    speed_range_m_min: tuple[float, float] | None
    speed_ceiling_m_min: tuple[float, float] | None
    spindle_speed_rpm: int | None
    feed_mm_rev: float
    torque: Band | None
    breaking_torque: Band | None
    break_margin: Band | None
    clutch_torque_n_m: float | None
    power_kw: float | None


@dataclass(frozen=True, slots=True)
class Fluid:
    """Cutting fluid by operation."""

    drilling: str
    tapping: str


@dataclass(frozen=True, slots=True, eq=False)
class ToolsData:
    """Cutting data of the tools, whatever the depth; a part is None where the tables hold nothing for the material."""

    drill: DrillCut | None
    tap: TapCut | None
    fluid: Fluid | None
    notes: Notes


@dataclass(frozen=True, slots=True, eq=False)
class CuttingData:
    """Cutting data of a hole: those of its tools, with pecks and times. The notes are those of all of it.

    ``peck`` and ``drill_time_s`` are None without cutting data of the drill, ``tap_time_s`` for tapping by hand and
    where no speed is held.
    """

    tools: ToolsData
    peck: Peck | None
    drill_time_s: float | None
    tap_time_s: float | None
    notes: Notes

    @property
    def drill(self) -> DrillCut | None:
        """Cutting data of the drill."""
        return self.tools.drill

    @property
    def tap(self) -> TapCut | None:
        """Cutting data of the tap, None where no tap makes the thread."""
        return self.tools.tap

    @property
    def fluid(self) -> Fluid | None:
        """Cutting fluid."""
        return self.tools.fluid


class CuttingNotes(Record):
    """Notes while the data are worked out. Field names are those inside ``cutting_data``."""

    __slots__ = ()

    def source(self, name: str, document: str, locator: str, status: Status) -> None:
        """Note that the figure ``name`` comes from ``locator`` in ``document``.

        No document means common practice or memory, as the ``status`` says.
        """
        self.sources.append(_source(name, document, locator, status))

    def work(self, quantity: str, formula: str, inputs: Mapping[str, object], value: float, unit: str) -> float:
        """Note that ``quantity`` is ``formula`` over ``inputs``, ``value`` in ``unit``, and return the value."""
        self.steps.append(Step(quantity, formula, inputs, value, unit, _CITES.get(quantity, "common practice")))
        return value


@cached(1024)
def _source(name: str, document: str, locator: str, status: Status) -> Source:
    shown = document or ("common practice" if status == "common_practice" else "none seen (from memory)")
    return Source(name, shown, "", locator, status)


_FORMULA = "Machinery's Handbook 31st ed. p. 1152"
_MODEL = "chip-section model (geometry; factor fitted to two measured series)"
_CITES = {
    "drill.thrust": _FORMULA,
    "drill.torque": _FORMULA,
    "drill.power": _FORMULA,
    "tap.power": _FORMULA,
    "drill.spindle_speed": "geometry: v = pi d n",
    "tap.spindle_speed": "geometry: v = pi d n",
    "drill.time": "geometry: travel over feed rate",
    "tap.time": "geometry: travel over feed rate, in and out",
    "tap.feed": "geometry: the lead",
    "tap.thread_depth": _MODEL,
    "tap.chip_thickness": _MODEL,
    "tap.chamfer_fill": _MODEL,
    "tap.packing": "common practice",
    "drill.table_speed": "interpolation by hardness",
    "tap.table_speed": "interpolation by hardness",
    "tap.total_factor": _MODEL,
    "tap.chip_section": _MODEL,
    "tap.chip_arm": _MODEL,
    "tap.specific_cutting_force": _MODEL,
    "tap.torque": _MODEL,
    "tap.torque.low": _MODEL,
    "tap.torque.high": _MODEL,
    "tap.breaking_torque": "torsion formula; core and stress assumed",
}
