"""The plan of a part as a sheet for people."""

from __future__ import annotations

from collections.abc import Iterator

from .hints import hint
from .sheet import WIDTH, Paint, Row, Sheet, verdict_brush
from .words import Reply, number, percent, plain


def plan(reply: Reply, paint: Paint | None = None) -> str:
    """The plan as a sheet: what is to be decided, the tools in their order, what was changed, what is laid out."""
    sheet = Sheet(paint, WIDTH)
    brush = verdict_brush(sheet.paint, reply["verdict"])
    sheet.title(f"Part {reply['part']}: {brush(reply['verdict'])}")
    sheet.rows([("tools ", _saved(reply)), ("time", _time(reply["time"]))])
    sheet.rows([("decide", "; ".join(_waiting(reply)) or "nothing")], brush)
    _to_decide(sheet, reply)
    sheet.table("Tools in their order", ("rev/min", "s", "holes", "pieces"), list(_steps(reply)))
    if reply["away_from_spindle"]:
        sheet.heading("Away from the spindle")
        sheet.rows(_away(reply))
    if reply["changes"]:
        sheet.heading("Holes with other tools than by themselves")
        sheet.rows(_changes(reply))
    sheet.heading("Lay out")
    for name in ("gauges", "fluids", "other"):
        sheet.rows((f"{plain(name):<6}" if place == 0 else " " * 6, line)
                   for place, line in enumerate(reply["kit"][name]))  # fmt: skip
    if reply["cautions"]:
        sheet.heading("Cautions")
        sheet.rows(_cautions(reply), sheet.paint.warn)
    return str(sheet)


def _saved(reply: Reply) -> str:
    saved, proof = reply["saved"], reply["proof"]
    known = "no choice has fewer" if proof["optimal"] else f"proved: not fewer than {proof['bound']}"
    kinds = "1 kind" if len(reply["holes"]) == 1 else f"{len(reply['holes'])} kinds"
    return f"{saved['to']} for {kinds} of holes, {saved['from']} each by itself; {known}"


def _waiting(reply: Reply) -> Iterator[str]:
    """What is to be decided in a few words, a hole each."""
    yield from (f"{one['hole']} {plain(one['code'])}" for one in reply["review"])
    yield from (f"{one['hole']} refused" for one in reply["refused"])


def _to_decide(sheet: Sheet, reply: Reply) -> None:
    texts = [(one["hole"], one["text"]) for one in reply["review"]]
    faults = [(one["hole"], fault["detail"] + hint(fault)) for one in reply["refused"] for fault in one["errors"]]
    if texts or faults:
        sheet.heading("To decide")
        sheet.rows(texts, verdict_brush(sheet.paint, reply["verdict"]))
        sheet.rows(faults, sheet.paint.bad)


def _steps(reply: Reply) -> Iterator[list[str]]:
    for step in reply["sequence"]:
        holes = ", ".join(step["holes"])
        shown = holes if len(holes) <= _WIDEST_HOLES else f"{len(step['holes'])} kinds"
        yield [step["tool"], number(step["spindle_speed"]), number(step["time"]), shown, number(step["count"])]


def _away(reply: Reply) -> Iterator[Row]:
    for one in reply["away_from_spindle"]:
        holes = ", ".join(one["holes"])
        shown = holes if len(holes) <= _WIDEST_HOLES else f"{len(one['holes'])} kinds"
        yield f"after {one['after_stage']}", f"{one['text']} ({shown})"


#: Names of holes in a table, before they are counted instead.
_WIDEST_HOLES = 24


def _changes(reply: Reply) -> Iterator[Row]:
    for change in reply["changes"]:
        cost = change["cost"]
        yield change["hole"], f"{', '.join(change['from'])} -> {', '.join(change['to'])}: {change['why']}"
        yield (
            "",
            f"percent of thread {_signed(cost['percent_thread'])}, accepted {_signed_chance(cost['acceptance'])},"
            f" torque {_signed(cost['torque'])} {reply['units']['torque']}",
        )


def _cautions(reply: Reply) -> Iterator[Row]:
    """Each caution with the holes that it is for."""
    for caution in reply["cautions"]:
        holes = [hole["id"] for hole in reply["holes"] if caution in hole["cautions"]]
        yield "all" if len(holes) == len(reply["holes"]) else ", ".join(holes), caution["text"]


def _signed(value: float | None) -> str:
    return number(value) if value is None or value <= 0 else f"+{number(value)}"


def _signed_chance(value: float | None) -> str:
    return percent(value) if value is None or value <= 0 else f"+{percent(value)}"


def _time(time: Reply) -> str:
    parts = [
        f"{number(time['cutting'])} s cutting",
        f"{time['loadings']} tool changes {number(time['tool_changes'])} s",
        f"positioning {number(time['positioning'])} s",
    ]
    steps = "1 step" if time["untimed"] == 1 else f"{time['untimed']} steps"
    untimed = f"; without {steps} whose time is not held" if time["untimed"] else ""
    lot = f"; the lot {number(time['per_lot'])} s" if time["per_lot"] != time["total"] else ""
    return f"{number(time['total'])} s a part ({', '.join(parts)}){lot}{untimed}"
