"""The plan of a part as a sheet for people."""

from __future__ import annotations

from collections.abc import Iterator

from .sheet import Paint, Row, Sheet
from .words import Reply, number, percent, plain


def plan(reply: Reply, paint: Paint | None = None) -> str:
    """The plan as a sheet: what is to be decided, the tools in their order, what was changed, what is laid out."""
    sheet = Sheet(paint)
    sheet.title(f"Part {reply['part']}", _saved(reply))
    _to_decide(sheet, reply)
    sheet.table("Tools in their order", ("rev/min", "s", "holes", "pieces"), list(_steps(reply)))
    if reply["changes"]:
        sheet.heading("Holes with other tools than by themselves")
        sheet.rows(_changes(reply))
    sheet.heading("Time")
    sheet.rows(_time(reply["time"]))
    sheet.heading("Lay out")
    for name in ("gauges", "fluids", "other"):
        sheet.rows((plain(name) if place == 0 else "", line) for place, line in enumerate(reply["kit"][name]))
    return str(sheet)


def _saved(reply: Reply) -> str:
    saved, proof = reply["saved"], reply["proof"]
    known = "no choice has fewer" if proof["optimal"] else f"proved: not fewer than {proof['bound']}"
    return f"{saved['to']} tools for {len(reply['holes'])} kinds of holes, {saved['from']} each by itself; {known}"


def _to_decide(sheet: Sheet, reply: Reply) -> None:
    shown = {"ready": sheet.paint.good, "infeasible": sheet.paint.bad}.get(reply["verdict"], sheet.paint.warn)
    sheet.heading("Verdict")
    sheet.rows([("", reply["verdict"])], shown)
    sheet.rows(((one["hole"], one["text"]) for one in reply["review"]), shown)
    sheet.rows(((one["hole"], fault["detail"]) for one in reply["refused"] for fault in one["errors"]), sheet.paint.bad)


def _steps(reply: Reply) -> Iterator[list[str]]:
    for step in reply["sequence"]:
        holes = ", ".join(step["holes"])
        shown = holes if len(holes) <= _WIDEST_HOLES else f"{len(step['holes'])} kinds"
        yield [step["tool"], number(step["spindle_speed"]), number(step["time"]), shown, number(step["count"])]


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


def _signed(value: float | None) -> str:
    return number(value) if value is None or value <= 0 else f"+{number(value)}"


def _signed_chance(value: float | None) -> str:
    return percent(value) if value is None or value <= 0 else f"+{percent(value)}"


def _time(time: Reply) -> Iterator[Row]:
    yield (
        "cutting",
        f"{number(time['cutting'])} s"
        + (f", without {time['untimed']} steps whose time is not held" if time["untimed"] else ""),
    )
    yield "tool changes", f"{number(time['tool_changes'])} s, {time['loadings']} loadings"
    yield "positioning", f"{number(time['positioning'])} s"
    yield "one part", f"{number(time['total'])} s"
    yield "the lot", f"{number(time['per_lot'])} s"
