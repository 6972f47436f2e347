"""From a hole of a note to the request that specifies it, with what the note and the defaults leave missing."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from borewright.core.model import Unit
from borewright.core.notes import NoteHole

from .unit_view import Json, number

_SYSTEMS: Mapping[Unit, str] = {"in": "inch", "mm": "metric"}
#: Depth that each kind of hole needs.
_NEEDED = {"blind": "full_thread_depth", "through": "thickness"}


def hole_request(hole: NoteHole, defaults: Mapping[str, Any]) -> dict[str, Any]:
    """The body of POST /v1/hole-specs for a hole; what the note says stands before ``defaults``."""
    given = defaults.get("hole")
    said = {
        "type": hole.kind,
        "full_thread_depth": _number(hole.full_thread_depth),
        "thickness": _number(hole.as_written.thickness),
        "drill_depth_limit": _number(hole.drill_depth_limit),
    }
    body = {
        **defaults,
        "thread": hole.thread,
        "hole": {**(given if isinstance(given, dict) else {}), **_present(said)},
        **_present({"finish": _finish(hole), "dimensions_apply": hole.dimensions_apply}),
        "unit_system": _SYSTEMS[hole.unit],
    }
    return body if hole.thread is not None else {name: value for name, value in body.items() if name != "thread"}


def missing(request: Mapping[str, Any]) -> list[str]:
    """Pointers of what the request needs and does not have: with any of these it is not ready to post."""
    hole = request["hole"]
    needed = [] if "thread" in request else ["/thread"]
    if "type" not in hole:
        return [*needed, "/hole/type"]
    depth = _NEEDED.get(hole["type"])
    return needed if depth is None or hole.get(depth) is not None else [*needed, f"/hole/{depth}"]


def as_planned(hole: NoteHole) -> Json | None:
    """What the note fixes of the drilled hole, as ``as_planned`` of an audit takes it; None where it fixes nothing."""
    written = hole.as_written
    label = written.drill_label or ""
    sized = None if written.drill is None else f"{number(written.drill)} {hole.unit}"
    drill = label if label[:1] == "#" or label.isalpha() else sized
    found = _present({"drill": drill, "drill_depth": _number(written.drill_depth)})
    return found or None


def _finish(hole: NoteHole) -> str | Json | None:
    return {"specification": hole.finish, "masked": True} if hole.finish and hole.masked else hole.finish


def _number(value: Decimal | None) -> int | float | None:
    return None if value is None else number(value)


def _present(fields: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}
