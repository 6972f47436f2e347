"""The figures of a shop, as a request hands them on: what it measured instead of what the tables assume."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal, TypeVar

from borewright.core.model import FinishInput, Length, Unit

#: A standard deviation, or several that share the pieces equally where it is known from few of them.
Scatter = float | tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Grouped:
    """What every figure says of itself: from how many pieces, how much they weigh against the published figure, when
    they were measured, and what they hold for; None = for all.
    """

    count: int
    weight: float | None = None
    date: str | None = None
    material_group: str | None = None
    machine: str | None = None

    def told(self) -> str:
        """How the figure was come by, and of what, in words."""
        group = "" if self.material_group is None else f", ISO 513 group {self.material_group}"
        on = "" if self.machine is None else f", {self.machine}"
        weighed = "" if self.weight is None else f", weight of the data {100 * self.weight:.0f} %"
        when = "" if self.date is None else f", measured {self.date}"
        pieces = f"{self.count} piece" + ("" if self.count == 1 else "s")
        of = "".join(f", {detail}" for detail in self.details() if detail)
        return f"{pieces}{of}{group}{on}{weighed}{when}"

    def details(self) -> tuple[str | None, ...]:
        """What else the pieces have in common, in words; None = not told."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreading(Grouped):
    """A figure with the spread of the next piece: ``spread`` times each of the ``scale_factors``, which share the
    pieces equally; without them ``spread`` is a standard deviation.
    """

    spread: float
    standard_deviation: float | None = None
    scale_factors: tuple[float, ...] = ()

    def scatter(self, scale_factor: float = 1.0) -> Scatter:
        """The spread, multiplied by ``scale_factor``, as standard deviations."""
        if not self.scale_factors:
            return self.spread * scale_factor
        return tuple(self.spread * factor * scale_factor for factor in self.scale_factors)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredOversize(Spreading):
    """How much larger than its drill a hole is, measured on drills of ``drill_diameter``; lengths carry their unit."""

    drill_diameter: Length
    mean: Length
    unit: Unit
    drill_style: str | None = None

    def details(self) -> tuple[str | None, ...]:
        """The kind of drill."""
        return (self.drill_style,)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredCut(Spreading):
    """How much larger than the tap its thread is on pitch diameter, as a share of the tolerance of class 2B or 6H;
    negative behind a forming tap. ``taps_measured`` False: the mean is over the middle of the tap's band, whose width
    is in the spread.
    """

    mean: float
    method: Literal["cut", "form"] = "cut"
    tapping: str | None = None
    tap_style: str | None = None
    taps_measured: bool = True

    def details(self) -> tuple[str | None, ...]:
        """The kind of tap."""
        return (self.tap_style,)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredCoat(Spreading):
    """Thickness of a coat on one surface; lengths carry their unit."""

    finish: FinishInput
    mean: Length
    unit: Unit
    plater: str | None = None

    def details(self) -> tuple[str | None, ...]:
        """The finish and who put it on."""
        return (self.finish.specification, self.finish.finish_class, self.plater)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredTorque(Grouped):
    """What the tapping torque of the model is multiplied by: the ``median`` and where the next hole lies."""

    median: float
    low: float
    high: float
    fluid: str | None = None
    tap_style: str | None = None

    def details(self) -> tuple[str | None, ...]:
        """The cutting fluid and the kind of tap."""
        return (self.fluid, self.tap_style)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredTapLife(Grouped):
    """Taps that broke: a rate a hole of the threads in a band of sizes, and its upper end."""

    rate: float
    rate_high: float
    broken: int
    size_from: Length | None = None
    size_to: Length | None = None

    def details(self) -> tuple[str | None, ...]:
        """How many taps broke."""
        return (f"{self.broken} broken",)


Figure = TypeVar("Figure", bound=Grouped)


@dataclass(frozen=True, slots=True)
class ShopFigures:
    """All figures of a shop; ``machine`` names the one that the hole is made on, None = not said."""

    id: str | None = None
    machine: str | None = None
    drill_oversize: tuple[MeasuredOversize, ...] = ()
    tap_oversize: tuple[MeasuredCut, ...] = ()
    coat: tuple[MeasuredCoat, ...] = ()
    tapping_torque: tuple[MeasuredTorque, ...] = ()
    tap_life: tuple[MeasuredTapLife, ...] = ()

    def on(self, machine: str | None) -> ShopFigures:
        """These figures for a hole that is made on ``machine``, None = not said."""
        return self if machine is None else replace(self, machine=machine)

    def of(self, figures: Iterable[Figure], group: str | None) -> Iterator[Figure]:
        """Those of ``figures`` that hold for a part of that ISO 513 ``group``, of its own group first.

        A figure of a machine holds where that machine is named, or where no other machine has figures of this kind.
        """
        listed = [(one, None if one.machine is None else _key(one.machine)) for one in figures]
        named = {machine for _, machine in listed if machine is not None}
        known = {_key(self.machine)} if self.machine is not None else named if len(named) == 1 else set()
        fitting = [one for one, machine in listed if machine is None or machine in known]
        for wanted in dict.fromkeys((group, None)):
            for on in (True, False):
                yield from (one for one in fitting if one.material_group == wanted and (one.machine is not None) is on)


def machines(figures: Iterable[Grouped]) -> set[str]:
    """The machines that ``figures`` name, each once, however it is written."""
    return {_key(one.machine) for one in figures if one.machine is not None}


def same_machine(name: str, other: str | None) -> bool:
    """Whether ``name`` and ``other`` name one machine: VMC 2 is vmc-2."""
    return other is not None and _key(name) == _key(other)


def _key(name: str) -> str:
    return "".join(filter(str.isalnum, name.casefold())) or name
