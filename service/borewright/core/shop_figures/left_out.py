"""What of a shop's figures a hole does not use, and why: none is left out in silence."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import Any, NamedTuple

from borewright.core.finishing.limits_before_finish import coat_to_come
from borewright.core.model import Allowance, Caution, Material, Notes, Thread
from borewright.core.quantity_text import length

from . import measured_finish, serving
from .figures import Grouped, MeasuredCoat, MeasuredCut, MeasuredOversize, ShopFigures, machines, same_machine

#: How many figures that are not used are named; the others are counted.
_NAMED = 3
_DRIVEN = {"rigid": "rigid", "floating": "in a floating holder", "hand": "by hand"}


class HoleServed(NamedTuple):
    """What of a hole decides which figures hold for it: the ``drill`` by its diameter in the unit of the ``thread``,
    how it is tapped, its finish; None and False = the request asks for none of it.
    """

    thread: Thread
    material: Material | None
    drill: Decimal | None = None
    stated_oversize: bool = False
    method: str | None = None
    tapping: str = "rigid"
    allowance: Allowance | None = None
    torque: bool = False


class Kind(NamedTuple):
    """A kind of figures: its words, the one that serves a hole, why a hole needs none, why one does not hold."""

    words: str
    used: Callable[[ShopFigures, HoleServed], Grouped | None]
    idle: Callable[[HoleServed], str | None]
    against: Callable[[Any, HoleServed], str | None]


def left_out(figures: ShopFigures | None, hole: HoleServed) -> Notes:
    """Which of the shop's ``figures`` the ``hole`` does not use, and why: an assumption for each kind, and a caution
    where the hole needs the kind and none of them holds.

    Source: none.
    """
    if figures is None:
        return Notes()
    found = [_of_kind(kind, getattr(figures, name), figures, hole) for name, kind in _KINDS.items()]
    return Notes(
        assumptions=tuple(one for one in found if isinstance(one, str)),
        cautions=tuple(one for one in found if isinstance(one, Caution)),
    )


def _of_kind(kind: Kind, listed: Sequence[Grouped], figures: ShopFigures, hole: HoleServed) -> str | Caution | None:
    """What is said of the figures of one kind, those ``listed``; None where all are used."""
    if not listed:
        return None
    idle = kind.idle(hole)
    if idle is not None:
        return f"the shop's figures of {kind.words} are not used: {idle}"
    used = kind.used(figures, hole)
    others = [one for one in listed if one is not used]
    several = len(machines(listed)) > 1
    told = _told([(one, _why(one, kind, hole, figures, several=several)) for one in others[:_NAMED]], len(others))
    if used is not None:
        return f"figures of the shop for {kind.words} that are not used: {told}" if others else None
    text = f"None of the shop's figures for {kind.words} holds for this hole, so none is used: {told}."
    return Caution("shop_figure_not_used", text)


def _told(named: Sequence[tuple[Grouped, str]], others: int) -> str:
    """Figures that are ``named``, each with its reason, and how many ``others`` there are in all."""
    told = "; ".join(f"{one.told()} ({why})" for one, why in named)
    return told if others == len(named) else f"{told}; {others - len(named)} more"


def _why(one: Grouped, kind: Kind, hole: HoleServed, figures: ShopFigures, *, several: bool) -> str:
    """Why a figure does not hold. Args: ``several`` machines have figures of its kind."""
    reasons = (_other_machine(one, figures, several=several), _other_material(one, hole), kind.against(one, hole))
    return next((reason for reason in reasons if reason is not None), "another of them fits better or comes first")


def _other_machine(one: Grouped, figures: ShopFigures, *, several: bool) -> str | None:
    if one.machine is None or same_machine(one.machine, figures.machine):
        return None
    if figures.machine is not None:
        return f"the hole is made on {figures.machine}"
    return "which of several machines makes the hole is not told: machine.name" if several else None


def _other_material(one: Grouped, hole: HoleServed) -> str | None:
    group = None if hole.material is None else hole.material.iso_group
    if one.material_group in (None, group):
        return None
    return "the material of the part is not told" if group is None else f"the part is of ISO 513 group {group}"


def _used_drill(figures: ShopFigures, hole: HoleServed) -> Grouped | None:
    found = serving.drills(figures, hole.material)
    assert hole.drill is not None
    served = None if found is None else found.serving(hole.drill, hole.thread.unit)
    return None if served is None else served[0]


def _idle_drill(hole: HoleServed) -> str | None:
    if hole.drill is None:
        return "no drill is chosen here"
    return "machine.drill_oversize goes before them" if hole.stated_oversize else None


def _other_size(one: MeasuredOversize, hole: HoleServed) -> str | None:
    assert hole.drill is not None
    unit = hole.thread.unit
    if serving.MeasuredDrills((one,)).serving(hole.drill, unit) is not None:
        return None
    return f"drills of {length(one.drill_diameter.to(unit), unit)}, here it is {length(hole.drill, unit)}"


def _other_cut(one: MeasuredCut, hole: HoleServed) -> str | None:
    if one.method != hole.method:
        return "forming taps" if one.method == "form" else "cutting taps"
    if one.tapping in (None, hole.tapping):
        return None
    return f"tapped {_DRIVEN[one.tapping]}, here {_DRIVEN[hole.tapping]}"


def _other_coat(one: MeasuredCoat, hole: HoleServed) -> str | None:
    assert hole.allowance is not None
    return measured_finish.against(one, hole.allowance.finish, hole.thread.unit)


_KINDS: Mapping[str, Kind] = {
    "drill_oversize": Kind("drilled holes", _used_drill, _idle_drill, _other_size),
    "tap_oversize": Kind(
        "tapped threads",
        lambda figures, hole: serving.cut(figures, hole.material, hole.method or "", hole.tapping),
        lambda hole: "no tap is chosen here" if hole.method is None else None,
        _other_cut,
    ),
    "coat": Kind(
        "coats",
        lambda figures, hole: serving.coat(figures, hole.allowance, hole.thread.unit),
        lambda hole: "no coat reaches the thread" if coat_to_come(hole.allowance) is None else None,
        _other_coat,
    ),
    "tapping_torque": Kind(
        "tapping torque",
        lambda figures, hole: serving.torque(figures, hole.material),
        lambda hole: None if hole.torque else "no tapping torque is told here",
        lambda one, hole: None,
    ),
    "tap_life": Kind(
        "taps that broke",
        lambda figures, hole: serving.tap_life(figures, hole.material, hole.thread),
        lambda hole: "no tap is chosen here" if hole.method is None else None,
        lambda one, hole: None if serving.is_of_size(one, hole.thread) else "threads of other sizes",
    ),
}
