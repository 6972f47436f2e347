"""Replies of the short commands as sheets for people; that of a whole specification stands in ``text_spec``."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from . import text_card, text_compare, text_fit, text_note, text_part, text_rework, text_spec
from .sheet import Paint, Row, Sheet
from .text_parts import (
    finish_name,
    limits_of,
    limits_table,
    listed_drills,
    listed_taps,
    pipe_rows,
    reasons,
    remarks,
    standard_line,
    tap_rows,
    thread_limits,
)
from .words import Reply, number, plain, window, with_unit, words

_WIDEST_CELL = 44
_COLOUR = {"reject": Paint.bad, "review": Paint.warn, "accept": Paint.good, "error": Paint.bad, "warning": Paint.warn}


def thread(reply: Reply, paint: Paint | None = None) -> str:
    """Limits of size."""
    sheet = Sheet(paint)
    sheet.title(reply["designation"], standard_line(reply), f"lengths in {reply['units']['length']}")
    limits_table(sheet, "Limits of size", thread_limits(reply))
    sheet.heading("Thread")
    sheet.rows(_thread_rows(reply))
    pipe_rows(sheet, reply)
    remarks(sheet, reply)
    return str(sheet)


def _thread_rows(reply: Reply) -> Iterator[Row]:
    yield "nominal diameter", number(reply["nominal_diameter"])
    yield "pitch", number(reply["pitch"])
    if reply.get("threads_per_inch"):
        yield "threads per inch", number(reply["threads_per_inch"])
    if reply["starts"] > 1:
        yield "starts", f"{reply['starts']}, lead {number(reply['lead'])}"
    yield "hand", reply["hand"]
    if reply.get("tensile_stress_area"):
        yield "tensile stress area", f"{number(reply['tensile_stress_area'])} {reply['units']['length']}2"


def drill(reply: Reply, paint: Paint | None = None) -> str:
    """Drill, alternatives, rejected drills."""
    unit = reply["units"]["length"]
    sheet = Sheet(paint)
    sheet.title(f"Drill for {reply['thread']}", f"lengths in {unit}; percent of {reply['percent_basis']}")
    listed_drills(sheet, reply)
    reasons(sheet, "Why", reply["recommended"]["reasons"])
    sheet.heading("To hold")
    hold = [("minor diameter", window(reply["minor_diameter_limits"], unit))]
    if reply.get("hole_limits"):
        hold.append(("hole", window(reply["hole_limits"], unit)))
    if reply.get("ream_diameter"):
        hold.append(("ream to", with_unit(reply["ream_diameter"], unit)))
    sheet.rows(hold)
    reasons(sheet, "Not taken", (f"{other['label']}: {other['reason']}" for other in reply["rejected"]))
    remarks(sheet, reply)
    return str(sheet)


def allowance(reply: Reply, paint: Paint | None = None) -> str:
    """Limits before and after a finish."""
    unit = reply["units"]["length"]
    sheet = Sheet(paint)
    sheet.title(f"{reply['thread']} under {finish_name(reply['finish'])}", f"lengths in {unit}")
    rows = [*limits_of("finished", reply["finished"]), *limits_of("before finish", reply["before_finish"])]
    limits_table(sheet, "Limits of size", rows)
    sheet.heading("Finish")
    sheet.rows(_allowance_rows(reply, unit))
    remarks(sheet, reply)
    return str(sheet)


def _allowance_rows(reply: Reply, unit: str) -> Iterator[Row]:
    finish = reply["finish"]
    yield "process", plain(finish.get("process"))
    yield "thickness a surface", window(finish["thickness"], unit)
    yield "build-up in the hole", window(finish["build_up"], unit)
    yield "can be made", "yes" if reply["feasible"] else "no"
    for remedy in reply.get("remedies", []):
        yield "would help", remedy
    if reply.get("tap"):
        yield "tap limit", f"{reply['tap']['label']}, pitch diameter {window(reply['tap']['pitch_diameter'], unit)}"
        if reply["tap"].get("order_text"):
            yield "order", reply["tap"]["order_text"]


def tap(reply: Reply, paint: Paint | None = None) -> str:
    """Tap recommendation, or a decoded marking."""
    return _decoded(reply, paint) if "holds" in reply else _recommended(reply, paint)


def _recommended(reply: Reply, paint: Paint | None) -> str:
    unit = reply["units"]["length"]
    sheet = Sheet(paint)
    sheet.title(f"Tap for {reply['thread']}", f"lengths in {unit}")
    sheet.heading("Tap")
    sheet.rows(tap_rows(reply["recommended"], unit))
    if reply.get("limits_to_make"):
        sheet.rows([("to make", window(reply["limits_to_make"]["pitch_diameter"], unit))])
    reasons(sheet, "Why", reply["recommended"]["reasons"])
    reasons(sheet, "To decide", (one["text"] for one in reply.get("review", ())))
    listed_taps(sheet, reply)
    reasons(sheet, "Not taken", (f"{other['label']}: {other['reason']}" for other in reply["rejected"]))
    remarks(sheet, reply)
    return str(sheet)


def _decoded(reply: Reply, paint: Paint | None) -> str:
    unit = reply["units"]["length"]
    sheet = Sheet(paint)
    sheet.title(reply["marking"], f"read as a tap for {reply['thread']['designation']}; lengths in {unit}")
    sheet.heading("Tap")
    names = ("style", "substrate", "ground", "hand", "surface")
    rows = [(name, plain(number(reply[name]))) for name in names if reply.get(name) is not None]
    if reply.get("chamfer"):
        rows.append(("chamfer", words(reply["chamfer"]["name"])))
    if reply.get("limit"):
        rows.append(("limit", f"{reply['limit']['label']}, pitch diameter {window(reply['limit']['pitch_diameter'])}"))
    if reply["unread"]:
        rows.append(("not read", " ".join(reply["unread"])))
    sheet.rows(rows)
    sheet.table("Holds", ("margin",), ([f"class {held['class']}", number(held["margin"])] for held in reply["holds"]))
    remarks(sheet, reply)
    return str(sheet)


def audit(reply: Reply, paint: Paint | None = None) -> str:
    """The verdict on a plan with its findings."""
    sheet = Sheet(paint)
    name = " ".join(filter(None, (reply.get("id"), reply["spec"]["thread"]["designation"])))
    sheet.title(f"{name}: {_coloured(sheet, reply['verdict'])}")
    for finding in reply["findings"]:
        sheet.heading(f"{_coloured(sheet, finding['severity'])}: {plain(finding['code'])}")
        expected = "" if finding["code"] == "cautioned" else finding["expected"]  # else it is the code of the caution
        told = [("found", finding["text"]), ("planned", finding["planned"]), ("expected", expected)]
        sheet.rows((name, text) for name, text in told if text)
    remarks(sheet, reply)
    return str(sheet)


def _coloured(sheet: Sheet, word: str) -> str:
    colour = _COLOUR.get(word)
    return colour(sheet.paint, word) if colour else word


def catalog(reply: Reply, paint: Paint | None = None) -> str:
    """A row a line where its cells are short, else a paragraph a row; without lists."""
    items = [
        {name: number(value) for name, value in row.items() if not isinstance(value, (dict, list))}
        for row in reply["items"]
    ]
    heads = list(dict.fromkeys(name for row in items for name in row))
    titles, rows = [plain(name) for name in heads], [[row.get(name, "-") for name in heads] for row in items]
    sheet = Sheet(paint)
    if not items:
        sheet.title("nothing is listed")
    elif all(len(cell) <= _WIDEST_CELL for row in rows for cell in row) and sheet.holds(titles, rows):
        sheet.columns(titles, rows)
    else:
        for row in items:
            first, *others = row.items()
            sheet.title(first[1])
            sheet.rows((plain(name), text) for name, text in others)
    return str(sheet)


TEXT: dict[str, Callable[[Reply, Paint | None], str]] = {
    "spec": text_card.card,
    "audit": audit,
    "thread": thread,
    "drill": drill,
    "allowance": allowance,
    "tap": tap,
    "plan": text_part.plan,
    "note": text_note.note,
    "rework": text_rework.rework,
    "compare": text_compare.compare,
    "fit": text_fit.fit,
    "catalog": catalog,
}
#: With ``--full``.
FULL = {**TEXT, "spec": text_spec.spec}
