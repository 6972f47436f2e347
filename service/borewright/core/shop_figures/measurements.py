"""What a shop measured, as it comes: one record a kind of piece."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from borewright.core.model import FinishInput, Length, LengthRange, MaterialInput, ThreadCallout, Unit

Kind = Literal["drilled_hole", "tapped_thread", "coat", "tapping_torque", "go_no_go", "taps_used"]
Selection = Literal["all", "good_only"]


@dataclass(frozen=True, slots=True)
class Gauge:
    """Standard uncertainties of a gauge, one standard deviation each, and the step that it reads."""

    repeatability: Length | None = None
    calibration: Length | None = None
    resolution: Length | None = None


@dataclass(frozen=True, slots=True)
class Measurement:
    """A piece, or several alike, of one ``kind``; what does not apply to the kind is None."""

    kind: Kind
    measured: tuple[Length, ...] = ()
    before: tuple[Length, ...] = ()
    after: tuple[Length, ...] = ()
    diameter: Literal["pitch", "minor"] = "pitch"
    torque: tuple[float, ...] = ()
    expected_torque_n_m: float | None = None
    thread: ThreadCallout | None = None
    drill: str | None = None
    drill_diameter: Length | None = None
    drill_style: str | None = None
    setup: Literal["usual", "poor", "guided"] = "usual"
    tap: str | None = None
    tap_id: str | None = None
    tap_pitch_diameter: Length | None = None
    tap_style: str | None = None
    method: Literal["cut", "form"] = "cut"
    tapping: Literal["rigid", "floating", "hand"] | None = None
    finish: FinishInput | None = None
    plater: str | None = None
    fluid: str | None = None
    material: MaterialInput | None = None
    machine: str | None = None
    batch: str | None = None
    date: str | None = None
    selection: Selection | None = None
    gauge: Gauge | None = None
    checked: int | None = None
    go_refused: int = 0
    not_go_entered: int = 0
    limits: LengthRange | None = None
    holes: int | None = None
    broken: int = 0


@dataclass(frozen=True, slots=True)
class FitRequest:
    """Everything that was measured. ``unit`` of the reply, None = that of the first piece."""

    measurements: tuple[Measurement, ...]
    gauge: Gauge | None = None
    selection: Selection | None = None
    confidence: float = 0.95
    exclude_flagged: bool = False
    unit: Unit | None = None
