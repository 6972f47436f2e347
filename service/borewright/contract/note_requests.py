"""From a hole of a note to the request that specifies it, with what the note and the defaults leave missing."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from borewright.core.model import Unit
from borewright.core.notes import NoteHole

from .unit_view import Json, number

_SYSTEMS: Mapping[Unit, str] = {"in": "inch", "mm": "metric"}
_FRACTION = re.compile(r"(?:[0-9]{1,2}[- ])?[0-9]{1,2}/[0-9]{1,2}")
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
        **_stated(hole),
    }
    body = {
        **defaults,
        "thread": hole.thread,
        "hole": {**(given if isinstance(given, dict) else {}), **_present(said)},
        **_present({"finish": _finish(hole), "dimensions_apply": hole.dimensions_apply}),
        "unit_system": _SYSTEMS[hole.unit],
    }
    return body if hole.thread is not None else {name: value for name, value in body.items() if name != "thread"}


def _stated(hole: NoteHole) -> dict[str, Any]:
    """What the note fixes of drill, countersink and counterbore, as the hole of a request takes it."""
    written = hole.as_written
    depth = {"MIN": "least_drill_depth", "MAX": "", "": "drill_depth"}[hole.drill_depth_bound]
    sink, bore = written.countersink, written.counterbore
    turned = {"angle": _number(sink.angle_deg), "diameter": _number(sink.diameter)} if sink is not None else {}
    both = {"sides": "both"} if sink is not None and written.sides == "both" else {}
    sizes = {"diameter": _number(bore.diameter), "depth": _number(bore.depth)} if bore is not None else {}
    return {
        "drill": None if written.reamed else _drill(hole),
        **({depth: _number(written.drill_depth)} if depth and hole.kind == "blind" else {}),
        "countersink": {**_present(turned), **both} or None,
        "counterbore": None if bore is None else _present(sizes),
    }


def missing(request: Mapping[str, Any]) -> list[str]:
    """Pointers of what the request needs and does not have: with any of these it is not ready to post.

    What the defaults brought may be of any type: it is judged when the request is posted.
    """
    hole = request["hole"]
    needed = [] if "thread" in request else ["/thread"]
    bore, kind = hole.get("counterbore"), hole.get("type")
    if isinstance(bore, dict) and "diameter" not in bore:
        needed.append("/hole/counterbore/diameter")
    if "type" not in hole:
        return [*needed, "/hole/type"]
    depth = _NEEDED.get(kind) if isinstance(kind, str) else None
    return needed if depth is None or hole.get(depth) is not None else [*needed, f"/hole/{depth}"]


def as_planned(hole: NoteHole) -> Json | None:
    """What the note fixes of the drilled hole, as ``as_planned`` of an audit takes it; None where it fixes nothing."""
    found = _present({"drill": _drill(hole), "drill_depth": _number(hole.as_written.drill_depth)})
    return found or None


def _drill(hole: NoteHole) -> str | None:
    """The drill that the note states, by its label or with the unit of the hole."""
    written = hole.as_written
    label = written.drill_label or ""
    if written.drill is None or label[:1] == "#" or label.isalpha() or _FRACTION.fullmatch(label):
        return label or None
    return f"{format(written.drill, 'f')} {hole.unit}"


def _finish(hole: NoteHole) -> str | Json | None:
    return {"specification": hole.finish, "masked": True} if hole.finish and hole.masked else hole.finish


def _number(value: Decimal | None) -> int | float | None:
    return None if value is None else number(value)


def _present(fields: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}
