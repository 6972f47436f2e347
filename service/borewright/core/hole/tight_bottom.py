"""A tight blind hole: the clearance that a bottoming tap can do with, and what helps where no tap fits.

Room below the full thread is shared between the chamfer of the last tap and the clearance under it. Where it is short a
bottoming tap of 1 to 1.5 threads stopped half a pitch above the bottom makes the thread (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

from borewright.core.errors import HoleError
from borewright.core.model import Hole, TapChamfer, Thread
from borewright.core.model.decision import Decision
from borewright.core.practice import figure, longest_chamfer
from borewright.core.quantity_text import length
from borewright.core.rounding import downward, plain, upward

#: Longest chamfers in threads: of a bottoming tap, of the shortest there is, of a bottoming forming tap.
BOTTOMING, SHORT_BOTTOMING = longest_chamfer("bottoming"), longest_chamfer("F")
FORMING_BOTTOMING = longest_chamfer("forming_bottoming")
#: Clearance of rigid tapping, and the least that a careful stop leaves, in pitches.
RIGID, LEAST = figure("clearance_rigid_pitches"), figure("least_clearance_pitches")
#: Flatter points of drills, the last of them a flat bottom.
_FLATTER_DEG = figure("flatter_point_deg"), Decimal(180)
_PLACES = {"in": 3, "mm": 2}


@dataclass(frozen=True, slots=True)
class Ends:
    """How deep the drill may go at full diameter, by point angle in degrees: as asked for, and flatter."""

    deepest: Decimal
    flatter: tuple[tuple[Decimal, Decimal], ...]


class Room(NamedTuple):
    """How deep a blind hole may go. ``chamfer`` is what is left for tap chamfer below the full thread, None = free.

    ``clearance`` is what is left under that chamfer where the hole is tight, None = as planned; ``ends`` how deep the
    drill may go.
    """

    full_thread_depth: Decimal
    chamfer: Decimal | None
    limit_pointer: str
    clearance: Decimal | None = None
    ends: Ends | None = None


def clearance(thread: Thread, below: Decimal, *, planned: Decimal, wall: bool) -> Decimal:
    """Clearance under the last tap for ``below``, the room under the full thread, all in the thread's unit.

    ``planned`` is what the holder wants; ``wall`` keeps what is left over for the wall under the drill's tip.
    Source: common practice.
    """
    pitch = thread.pitch
    if below >= BOTTOMING * pitch + planned:
        return planned
    if below >= (BOTTOMING + RIGID) * pitch:
        return RIGID * pitch if wall else below - BOTTOMING * pitch
    if below >= (SHORT_BOTTOMING + RIGID) * pitch:
        return RIGID * pitch
    if below >= (SHORT_BOTTOMING + LEAST) * pitch:
        return LEAST * pitch if wall else below - SHORT_BOTTOMING * pitch
    return planned


def left_under(thread: Thread, space: Room, chamfer_length: Decimal, *, planned: Decimal) -> Decimal:
    """Clearance under ``chamfer_length``: what the tight ``space`` leaves, but as ``planned`` for one that does not fit
    above that.

    Source: common practice. Lengths in the thread's unit.
    """
    if space.clearance is None or space.chamfer is None:
        return planned
    fits = chamfer_length <= max(space.chamfer, BOTTOMING * thread.pitch)
    return space.clearance if fits else planned


def flatter_points(asked_deg: Decimal) -> tuple[Decimal, ...]:
    """Usual point angles flatter than ``asked_deg``, in degrees (common practice)."""
    return tuple(angle for angle in _FLATTER_DEG if angle > asked_deg)


def remedies(thread: Thread, full: Decimal, ends: Ends, *, least: Decimal, cut_would_do: bool = False) -> Iterator[str]:
    """What makes the hole possible, with its figures. ``least`` room under the full thread, in the thread's unit.

    Args: ``full`` thread asked for; ``ends`` how deep the drill may go; ``cut_would_do`` where only a forming tap lacks
        room.
    Source: geometry; common practice for the room.
    """
    most = shallower(thread, ends.deepest, least=least)
    if most is not None:
        yield f"take at most {_say(most, thread)} of full thread"
    for angle, deepest in ends.flatter:
        if deepest >= full + least:
            yield f"drill with a point_angle of {plain(angle)} degrees"
    if cut_would_do:
        yield 'cut the thread (method "cut") with a short bottoming tap'


def shallower(thread: Thread, deepest: Decimal, *, least: Decimal) -> Decimal | None:
    """Full thread that a hole of ``deepest`` full diameter holds above ``least`` room, in the thread's unit, None where
    it is less than a pitch.
    """
    most = downward(deepest - least, _PLACES[thread.unit])
    return most if most >= thread.pitch else None


def question(
    thread: Thread, full: Decimal, ends: Ends, *, chamfer: TapChamfer, left: Decimal, planned: Decimal, pointer: str
) -> Decision | None:
    """Whether to make a hole that leaves room for a bottoming tap only, None where there is room.

    Args: ``left`` is the clearance under the tap, ``planned`` what the holder wants, in the thread's unit; ``full``
        thread; ``ends`` how deep the drill may go; ``chamfer`` of the tap; ``pointer`` to the field that limits it.
    """
    if left >= planned and chamfer.threads_max > SHORT_BOTTOMING:
        return None
    others = list(remedies(thread, full, ends, least=BOTTOMING * thread.pitch + planned))
    deeper = upward(full + BOTTOMING * thread.pitch + planned, _PLACES[thread.unit])
    others.append(f"allow {_say(deeper, thread)} of full drill diameter")
    text = (
        "The hole leaves room for a bottoming tap only. Choose: tap with a plug tap first, then with a bottoming tap of"
        f" {plain(chamfer.threads_min)} to {plain(chamfer.threads_max)} threads of chamfer that stops"
        f" {_say(left, thread)} above the bottom (rigid or by hand, all chips out before it); {'; '.join(others)}; or"
        " mill the thread."
    )
    return Decision("bottoming_only", text, pointer)


def thin_wall(thread: Thread, hole: Hole, wall: Decimal, points: tuple[tuple[Decimal, Decimal], ...]) -> Decision:
    """What to do about a ``wall`` under the drill's tip of less than a pitch of ``thread``, in its unit.

    Args: ``hole`` as asked for; ``points`` flatter angles in degrees with the wall that each leaves.
    """
    flatter = "".join(
        f" a point_angle of {plain(angle)} degrees, which leaves {_say(left, thread)};" for angle, left in points
    )
    text = (
        f"Only {_say(wall, thread)} of wall stay under the tip of the {plain(hole.point_angle_deg)} degree drill: it"
        f" may break through. Choose: hold the depth that closely;{flatter} less full thread; or a through hole."
    )
    return Decision("thin_wall", text, "/hole/thickness")


def too_deep(thread: Thread, depth: Decimal, ends: Ends, *, least: Decimal) -> HoleError:
    """The error of a full thread of ``depth`` deeper than its hole allows by ``ends``, and what would help.

    Args: ``least`` room that any tap needs under it, in the thread's unit.
    """
    ways = "; ".join(remedies(thread, depth, ends, least=least))
    most = shallower(thread, ends.deepest, least=least)
    return HoleError(
        "thread_deeper_than_hole",
        f"{_say(depth, thread)} of full thread do not fit in {_say(ends.deepest, thread)} of full drill diameter"
        f"{f': {ways}' if ways else ''}",
        pointer="/hole/full_thread_depth",
        allowed=() if most is None else (f"at most {_say(most, thread)}",),
    )


def too_shallow(
    thread: Thread,
    space: Room,
    chamfer: TapChamfer | None,
    *,
    below: Decimal,
    point: Decimal,
    relief: str,
) -> HoleError:
    """The error that says what the hole needs for its full thread, what it allows, and what would help.

    Args: ``space`` of the hole; ``chamfer`` of the tap; depth ``below`` the thread and the drill's ``point``, in the
        thread's unit; ``relief`` that would help, in words.
    """
    full, ends = space.full_thread_depth, space.ends or Ends(space.full_thread_depth, ())
    shortest = (SHORT_BOTTOMING + LEAST) * thread.pitch
    cuts = chamfer is not None and chamfer.name == "bottoming" and chamfer.threads_max <= BOTTOMING
    least = min(below, shortest) if cuts else below
    ways = list(remedies(thread, full, ends, least=least, cut_would_do=ends.deepest - full >= shortest))
    tap = "" if chamfer is None else f" with a {chamfer.name.replace('_', '-')} tap"
    if cuts:
        tap += " of 1.5 threads of chamfer and half a pitch under it"
    needed = upward(full + least, _PLACES[thread.unit])
    deep = upward(full + least + (point if space.limit_pointer == "/hole/thickness" else 0), _PLACES[thread.unit])
    return HoleError(
        "drill_depth_limit_too_shallow",
        f"{_say(full, thread)} of full thread need {_say(needed, thread)} of full drill diameter{tap};"
        f" {_say(ends.deepest, thread)} are allowed. Do one of these: {'; '.join([*ways, 'mill the thread', relief])}",
        pointer=space.limit_pointer,
        allowed=(f"at least {_say(deep, thread)}",),
    )


def _say(value: Decimal, thread: Thread) -> str:
    return length(value, thread.unit, _PLACES[thread.unit])
