"""What follows the tapping of an insert hole: the insert that fits, its tang, the thread that it makes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import NamedTuple

from borewright.core.hole import counterbore
from borewright.core.model import Hole, Notes, Range, Thread
from borewright.core.model.decision import Decision
from borewright.core.quantity_text import length, span
from borewright.core.rounding import plain
from borewright.core.standards.insert.insert_object import LENGTHS

from .operation import Line, Plan

_NONE: Mapping[str, object] = MappingProxyType({})


class Insert(NamedTuple):
    """An insert's nominal length, in diameters and in the thread's unit."""

    diameters: Decimal
    length: Decimal


def fitting(thread: Thread, hole: Hole, depth: Decimal) -> Insert | None:
    """The insert of the callout, else the longest that the hole holds; None where it holds none.

    Args: ``depth`` of full thread, in the thread's unit.
    Source: ASME B18.29.2M: a blind hole needs insert length + 1 P of full thread, a through one the nominal length.
    """
    insert = _insert(thread)
    named = insert.get("insert_length")
    fits = None
    for diameters, suffix in LENGTHS.items():
        nominal = insert.get(f"insert_length_{suffix}")
        needed = insert.get(f"full_thread_depth_{suffix}") if hole.kind == "blind" else nominal
        assert isinstance(nominal, Decimal)
        assert isinstance(needed, Decimal)
        if nominal == named or (named is None and needed <= depth):
            fits = Insert(diameters, nominal)
    return fits


def lines(plan: Plan) -> Iterator[Line]:
    """The lines that install the insert, break off its tang and gauge the thread that it makes; none where ``plan`` has
    another thread.

    Source: ASME B18.29.2M (set-down); common practice.
    """
    insert = _insert(plan.thread)
    if not insert:
        return
    name = str(insert["nominal_thread"])
    depth = plan.depths.full_thread_depth - counterbore.floor(plan.thread, plan.hole)
    chosen = fitting(plan.thread, plan.hole, depth)
    if chosen is not None:
        yield _install(plan.thread, name, chosen)
        yield Line(
            "break_off_tang",
            {"kind": "tang break-off tool"},
            {},
            "Break off the tang and take it out of the hole (an insert without tang has none)",
        )
    yield Line(
        "inspect",
        {"kind": "thread plug gauge", "condition": "insert installed"},
        {},
        f"Inspect the installed insert with the GO thread plug of {name}, not with the STI gauges",
    )


def _install(thread: Thread, name: str, chosen: Insert) -> Line:
    below = _insert(thread).get("set_down")
    where = f", first coil {span(below, thread.unit)} below the face" if isinstance(below, Range) else ""
    return Line(
        "install_insert",
        {"kind": "insert installing tool", "nominal_thread": name},
        {"insert_length": chosen.length, "insert_length_diameters": float(chosen.diameters), "set_down": below},
        f"Install insert {name}, {plain(chosen.diameters)} D ({length(chosen.length, thread.unit)}) long{where}",
    )


def notes(thread: Thread, hole: Hole, depth: Decimal) -> Notes:
    """The length of insert taken for ``thread`` in ``hole``, or that none fits. ``depth`` of full thread, in the
    thread's unit.

    Source: as :func:`fitting`.
    """
    insert = _insert(thread)
    if not insert or "insert_length" in insert:
        return Notes()
    chosen = fitting(thread, hole, depth)
    if chosen is not None:
        told = f"{plain(chosen.diameters)} D ({length(chosen.length, thread.unit)})"
        return Notes(assumptions=(f"the callout names no length of insert: {told} is the longest that the hole holds",))
    needed = insert["full_thread_depth_1d" if hole.kind == "blind" else "insert_length_1d"]
    assert isinstance(needed, Decimal)
    field = "full_thread_depth" if hole.kind == "blind" else "thickness"
    text = (
        f"The shortest insert, 1 D, needs {length(needed, thread.unit)}, the hole holds {length(depth, thread.unit)}."
        " Decide: a deeper thread, a smaller thread, or an insert that its maker cuts shorter."
    )
    return Notes(decisions=(Decision("no_insert_fits", text, f"/hole/{field}"),))


def _insert(thread: Thread) -> Mapping[str, object]:
    found: Mapping[str, object] = thread.extra.get("insert", _NONE)
    return found
