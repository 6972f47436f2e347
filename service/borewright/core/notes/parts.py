"""The parts of one hole of a note, and which depth belongs to which part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from .grammar import Element
from .tokens import Token

_DRILLS = frozenset({"drill", "fitted", "tap_drill_d"})
_PARTS = frozenset({"thread", "size_and_tap", "counterbore"}) | _DRILLS


@dataclass(slots=True)
class Depth:
    """A depth as written; ``size`` None where its number was not read. ``limit``: MIN or MAX."""

    size: Token | None
    limit: Literal["", "MIN", "MAX"] = ""
    choices: tuple[Token, ...] = ()
    element: Element | None = None


@dataclass(slots=True)
class Part:
    """A drilled hole, thread or counterbore, and how deep it goes."""

    element: Element
    depth: Depth | None = None
    through: bool = False

    @property
    def is_open(self) -> bool:
        """Whether nothing was said yet of how deep it goes."""
        return self.depth is None and not self.through


@dataclass(slots=True)
class HoleParts:
    """One hole taken apart. ``others``: every element by what it reads; ``loose``: depths that no part can have."""

    thread: Part | None = None
    drills: list[Part] = field(default_factory=list)
    counterbore: Part | None = None
    thread_depth: Depth | None = None
    drill_depth: Depth | None = None
    through: bool = False
    loose: list[Depth] = field(default_factory=list)
    others: dict[str, list[Element]] = field(default_factory=dict)
    order: list[Part] = field(default_factory=list)

    def has(self, *reads: str) -> bool:
        """Whether anything of the hole reads so."""
        return any(name in self.others for name in reads)


def take_apart(elements: Sequence[Element]) -> HoleParts:
    """The parts of a hole out of its ``elements``: a depth is of the nearest part before it without one; words win over
    place.

    Source: rules Y1, K7, P1 of the reference notes.
    """
    parts = HoleParts()
    waiting: list[Depth] = []
    for element in elements:
        parts.others.setdefault(element.reads, []).append(element)
        if element.reads in _PARTS:
            part = _add(parts, element)
            if waiting and part.is_open and element.reads != "counterbore":
                part.depth = waiting.pop()
        elif element.reads in ("depth", "range_depth", "depth_without_number"):
            _place(parts, _depth(element), waiting)
        elif element.reads == "thread_depth":
            _keep(parts, "thread_depth", _depth(element))
        elif element.reads in ("drill_depth", "hole_depth"):
            _keep(parts, "drill_depth", _depth(element))
        elif element.reads == "thru":
            _go_through(parts)
    parts.loose += waiting
    _settle(parts)
    return parts


def _add(parts: HoleParts, element: Element) -> Part:
    part = Part(element)
    if element.reads == "counterbore":
        parts.counterbore = part
    elif element.reads in _DRILLS:
        parts.drills.append(part)
    elif parts.thread is None:
        parts.thread = part
    parts.order.append(part)
    return part


def _depth(element: Element) -> Depth:
    words = {word for token in element.tokens if "limit" in token.kinds for word in [token.text.upper().strip(".")]}
    limit: Literal["", "MIN", "MAX"] = (
        "MAX" if words & {"MAX", "MAXI", "MAXIMUM", "HOECHSTENS", "HOCHSTENS"} else "MIN" if words else ""
    )
    if element.reads == "range_depth":
        return Depth(None, limit, (element.named["n"], element.named["m"]), element)
    return Depth(element.named.get("s"), limit, (), element)


def _place(parts: HoleParts, depth: Depth, waiting: list[Depth]) -> None:
    nearest = next((part for part in reversed(parts.order) if part.is_open), None)
    if nearest is not None:
        nearest.depth = depth
    elif not parts.order:
        waiting.append(depth)
    elif parts.thread is not None and parts.thread.depth is None:
        parts.thread.depth = depth
    else:
        parts.loose.append(depth)


def _keep(parts: HoleParts, name: str, depth: Depth) -> None:
    if getattr(parts, name) is None:
        setattr(parts, name, depth)
    else:
        parts.loose.append(depth)


def _go_through(parts: HoleParts) -> None:
    holes = [part for part in parts.order if part is not parts.counterbore]
    nearest = next((part for part in reversed(holes) if part.is_open), None)
    if nearest is not None:
        nearest.through = True
    parts.through = True


def _settle(parts: HoleParts) -> None:
    """Put depths that stand at a part where words have not put one."""
    if parts.thread is not None and parts.thread.depth is not None:
        _keep(parts, "thread_depth", parts.thread.depth)
    for drill in parts.drills:
        if drill.depth is not None:
            _keep(parts, "drill_depth", drill.depth)
