"""The ways to go on with a hole that went wrong, as a sheet for people."""

from __future__ import annotations

from collections.abc import Iterator

from .sheet import WIDTH, Paint, Row, Sheet
from .text_parts import reasons
from .words import Reply, number, plain, window

_DISPOSITIONS = {"use_as_is": "use as is", "rework": "rework", "repair": "repair", "scrap": "scrap"}
#: Figures whose names say too little.
_LABELS = {
    "envelope": "the old thread reaches",
    "cleans_up": "cut away by the new thread",
    "radial_clean_up": "the drill may run off by",
    "short_by": "too small by",
    "over_by": "too large by",
    "safety_factor": "strip force over the screw's",
}
_CLEANS = {
    "full_any_hole": "yes, by any hole inside the limits",
    "full_upper_hole": "yes, by a hole as large as the old thread",
    "partial": "in part",
}
#: What the figures of a proof that are no lengths have in their names.
_NO_LENGTH = ("percent", "ratio", "factor", "threads", "chamfer")


def rework(reply: Reply, paint: Paint | None = None) -> str:
    """Every way with who decides, its figures and operations; then what is none."""
    sheet = Sheet(paint, WIDTH)
    ways = reply["ways"]
    name = " ".join(filter(None, (reply.get("id"), reply["thread"])))
    sheet.title(f"{name}: {plain(reply['condition'])}", f"{len(ways)} way{'' if len(ways) == 1 else 's'}, best first")
    for place, one in enumerate(ways, 1):
        _way(sheet, place, one, reply["units"]["length"])
    reasons(sheet, "No way here", (f"{plain(one['way'])}: {one['why']}" for one in reply["ruled_out"]))
    reasons(sheet, "Assumptions", reply["assumptions"])
    return str(sheet)


def _way(sheet: Sheet, place: int, one: Reply, unit: str) -> None:
    thread = f", {one['thread']}" if one.get("thread") else ""
    sheet.heading(f"{place}: {_DISPOSITIONS[one['disposition']]}, {plain(one['way'])}{thread}")
    leave = "needs leave of " if one["needs_authority"] else ""
    sheet.rows([("what", one["text"]), ("who decides", f"{leave}{one['authority']}")])
    sheet.rows(_figures(one["proof"], unit))
    sheet.rows(("caution", caution["text"]) for caution in one["cautions"])
    sheet.rows((str(line["sequence"]), line["text"]) for line in one["operations"])


def _figures(proof: Reply, unit: str) -> Iterator[Row]:
    for key, value in proof.items():
        name = _LABELS.get(key, key)
        if isinstance(value, dict):
            yield plain(name), window(value, unit)
        elif isinstance(value, list):
            yield plain(name), ", ".join(value)
        elif isinstance(value, (bool, str)) or any(word in key for word in _NO_LENGTH):
            yield plain(name), _CLEANS.get(str(value), plain(number(value)))
        else:
            yield plain(name), f"{number(value)} {unit}"
