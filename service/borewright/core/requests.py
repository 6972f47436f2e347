"""What the edge hands to the domain: one frozen dataclass a kind of request.

A length that may be written in any unit is a :class:`~borewright.core.model.Length`; ``unit`` None there means
the unit of the thread's own standard, or of ``unit_system`` where the caller set one. A thread is a callout that
its reader has settled: it is read once, at the edge.
"""

from __future__ import annotations

from collections.abc import Sized
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from borewright.core.shop_figures.figures import ShopFigures

from .model import FinishInput, Hole, Length, MaterialInput, PercentTarget, ThreadCallout

Method = Literal["cut", "form"]
Objective = Literal["chart", "least_torque", "acceptance"]
TapLimits = Literal["inch_h", "metric_d", "iso_class"]
Edition = Literal["2019", "1989"]


@dataclass(frozen=True, slots=True)
class ThreadFields:
    """A thread given field by field instead of as callout text."""

    system: str
    size: str
    threads_per_inch: Decimal | None = None
    pitch: Length | None = None
    series: str | None = None
    thread_class: str | None = None
    hand: str | None = None
    starts: int | None = None
    lead: Length | None = None


#: More tools at hand than these make a key that is too large to be kept often.
_SHORT_LIST = 24


def is_long_list(stock: Sized | None) -> bool:
    """Whether ``stock``, tools at hand or those rejected, is a whole crib rather than a few.

    Source: our own.
    """
    return stock is not None and len(stock) > _SHORT_LIST


@dataclass(frozen=True, slots=True)
class Stock:
    """What is in the crib: drill labels (``27/64``, ``#7``, ``6.8 mm``) and tap limits or shank markings."""

    drills: tuple[str, ...] | None = None
    taps: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class TapBuild:
    """How a tap is built beside its limit: style, and chamfer by its name."""

    style: str
    chamfer: str


@dataclass(frozen=True, slots=True)
class Prescribed:
    """Tools fixed for a hole from outside, of those that serve it: a drill's label, a tap's limit and build."""

    drill: str | None = None
    tap_limit: str | None = None
    tap_build: TapBuild | None = None


@dataclass(frozen=True, slots=True)
class MatingScrew:
    """The screw that will be used: thread class and strength grade."""

    thread_class: str | None = None
    grade: str | None = None


@dataclass(frozen=True, slots=True)
class DrillOversize:
    """How much larger than its drill a hole of this shop is; no ``standard_deviation`` = that of the tables."""

    mean: Length
    standard_deviation: Length | None = None


@dataclass(frozen=True, slots=True)
class Machine:
    """What the machine can do; None = not stated. ``tapping`` is how the tap is driven.

    ``name`` chooses among the figures of a shop (:meth:`ShopFigures.on`); nothing else looks at it.
    """

    max_spindle_speed_rpm: float | None = None
    max_torque_n_m: float | None = None
    max_power_kw: float | None = None
    tapping: Literal["rigid", "floating", "hand"] | None = None
    drill_oversize: DrillOversize | None = None
    name: str | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class ResolveRequest:
    """A callout whose limits of size are wanted."""

    thread: ThreadCallout
    length_of_engagement: Length | None = None
    edition: Edition | None = None


@dataclass(frozen=True, slots=True)
class DrillRecommendation:
    """A thread whose drill is wanted."""

    thread: ThreadCallout
    method: Method = "cut"
    percent_thread: PercentTarget | None = None
    objective: Objective = "chart"
    drill_series: tuple[str, ...] | None = None
    length_of_engagement: Length | None = None
    material: MaterialInput | None = None
    finish: FinishInput | None = None
    stock: Stock = Stock()
    machine: Machine = Machine()
    edition: Edition | None = None
    shop_figures: ShopFigures | None = None


@dataclass(frozen=True, slots=True)
class AllowanceRequest:
    """A thread and the finish it will carry."""

    thread: ThreadCallout
    finish: FinishInput
    material: MaterialInput | None = None
    tap_limits: TapLimits | None = None
    edition: Edition | None = None
    shop_figures: ShopFigures | None = None


@dataclass(frozen=True, slots=True)
class TapRecommendation:
    """A thread, and what is known of the hole, whose tap is wanted."""

    thread: ThreadCallout
    hole: Hole | None = None
    material: MaterialInput | None = None
    method: Method = "cut"
    finish: FinishInput | None = None
    stock: Stock = Stock()
    tap_limits: TapLimits | None = None
    edition: Edition | None = None
    shop_figures: ShopFigures | None = None


@dataclass(frozen=True, slots=True)
class DecodeRequest:
    """The text etched on a tap's shank."""

    marking: str


@dataclass(frozen=True, slots=True)
class HoleSpecRequest:
    """A complete tapped hole. ``strict``: refuse, instead of answering with a caution, where data are missing."""

    thread: ThreadCallout
    hole: Hole
    id: str | None = None
    material: MaterialInput | None = None
    finish: FinishInput | None = None
    method: Method = "cut"
    percent_thread: PercentTarget | None = None
    objective: Objective = "chart"
    drill_series: tuple[str, ...] | None = None
    length_of_engagement: Length | None = None
    mating_screw: MatingScrew | None = None
    stock: Stock = Stock()
    machine: Machine = Machine()
    safety_factor: float = 1.0
    strict: bool = False
    tap_limits: TapLimits | None = None
    edition: Edition | None = None
    prescribed: Prescribed = Prescribed()
    shop_figures: ShopFigures | None = None
