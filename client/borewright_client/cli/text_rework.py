"""The ways to go on with a hole that went wrong, as a sheet for people."""

from __future__ import annotations

from collections.abc import Iterator

from .hints import hint
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
    """Every way with who decides, its figures and operations; then what is none. Of a file a few lines a hole."""
    if "results" in reply:
        return _of_many(reply, paint)
    sheet = Sheet(paint, WIDTH)
    ways = reply["ways"]
    name = " ".join(filter(None, (reply.get("id"), reply["thread"])))
    sheet.title(f"{name}: {plain(reply['condition'])}", f"{len(ways)} way{'' if len(ways) == 1 else 's'}, best first")
    for place, one in enumerate(ways, 1):
        _way(sheet, place, one, reply["units"]["length"])
    reasons(sheet, "No way here", (f"{plain(one['way'])}: {one['why']}" for one in reply["ruled_out"]))
    reasons(sheet, "Assumptions", reply["assumptions"])
    return str(sheet)


def _of_many(reply: Reply, paint: Paint | None) -> str:
    """What is proposed first for each hole, what else there is, and what is wrong with a row."""
    sheet = Sheet(paint, WIDTH)
    counts = reply["summary"]
    sheet.title(f"{counts['items']} holes that went wrong", f"{counts['failed']} with a problem; proposed, never given")
    for one in reply["results"]:
        sheet.heading(_whose(one))
        sheet.rows(_proposed(one["rework"]) if "rework" in one else _wrong(one["problem"]))
    return str(sheet)


def _whose(one: Reply) -> str:
    row = f"row {one['row']}" if "row" in one else f"item {one['index'] + 1}"
    found = one.get("rework", {})
    return ", ".join(filter(None, (row, one["id"], found.get("thread"), plain(found.get("condition", "")))))


def _proposed(found: Reply) -> Iterator[Row]:
    first, *others = found["ways"]
    thread = f", {first['thread']}" if first.get("thread") else ""
    yield _DISPOSITIONS[first["disposition"]], f"{plain(first['way'])}{thread}: {first['text']}"
    leave = "needs leave of " if first["needs_authority"] else ""
    yield "who decides", f"{leave}{first['authority']}"
    if others:
        yield "or", "; ".join(_in_short(one) for one in others)


def _in_short(one: Reply) -> str:
    thread = f" {one['thread']}" if one.get("thread") else ""
    return f"{plain(one['way'])}{thread} ({_DISPOSITIONS[one['disposition']]})"


def _wrong(problem: Reply) -> Iterator[Row]:
    for error in problem["errors"] or [{"pointer": "", "detail": problem["detail"]}]:
        yield error.get("column") or error["pointer"] or "/", f"{error['detail']}{hint(error)}"


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
