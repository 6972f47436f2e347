"""Parts that sheets share: limits of size, drills, taps, remarks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from .sheet import Row, Sheet, verdict_brush
from .text_explain import derivation
from .words import NOTHING, Reply, evenly, number, percent, plain, window, words


class LimitRow(NamedTuple):
    """A pair of limits with its name."""

    name: str
    limits: Mapping[str, float | None]


def first(sheet: Sheet, reply: Reply) -> None:
    """What a person must decide, and the hole on a card at the machine."""
    paint = verdict_brush(sheet.paint, reply["verdict"])
    sheet.heading("Verdict")
    sheet.rows([("", reply["verdict"])], paint)
    for place, decision in enumerate(reply["review"], 1):
        sheet.rows([(f"{place}.", decision["text"])], paint)
    sheet.heading("At the machine")
    sheet.rows(reply["headline"].items())


def standard_line(thread: Reply) -> str:
    """Document and edition of a thread."""
    standard = thread["standard"]
    return ", ".join(filter(None, (standard["document"], standard["edition"])))


def thread_limits(thread: Reply) -> Iterator[LimitRow]:
    """Limits of the hole, and of the screw that goes with it."""
    yield from limits_of("", thread["internal"])
    yield from screw_limits(thread)


def screw_limits(thread: Reply) -> Iterator[LimitRow]:
    """Limits of the screw that goes with a thread."""
    if thread.get("external"):
        yield from limits_of(f"screw {thread['mating_class'] or ''}".strip(), thread["external"])


def limits_of(condition: str, diameters: Reply) -> Iterator[LimitRow]:
    """The limits of three diameters, ``condition`` before their names."""
    for part in ("major", "pitch", "minor"):
        found = diameters.get(f"{part}_diameter")
        if found:
            yield LimitRow(f"{condition} {part} diameter".strip(), found)


def limits_table(sheet: Sheet, heading: str, rows: Iterable[LimitRow]) -> None:
    """A table of limits, all with the same number of decimals."""
    listed = list(rows)
    figures = evenly(row.limits.get(side) for row in listed for side in ("min", "max"))
    cells = [[row.name, *figures[2 * at : 2 * at + 2]] for at, row in enumerate(listed)]
    sheet.table(heading, ("min", "max"), [row for row in cells if row[1:] != [NOTHING, NOTHING]])


def pipe_rows(sheet: Sheet, thread: Reply) -> None:
    """What is told of a pipe thread beside its limits."""
    if not thread.get("pipe"):
        return
    sheet.heading("Pipe thread")
    told = {name: value for name, value in thread["pipe"].items() if value is not None}
    sheet.rows(
        (plain(name), window(value) if isinstance(value, dict) else plain(number(value)))
        for name, value in told.items()
    )


def finish_name(finish: Reply) -> str:
    """Specification and class of a finish."""
    named = " ".join(str(finish[part]) for part in ("specification", "class") if finish.get(part))
    return named or plain(finish.get("process") or "finish as stated")


def listed_drills(sheet: Sheet, reply: Reply) -> None:
    """The drill that is taken and those that would do."""
    drills = [reply["recommended"], *reply["alternatives"]]
    diameters = evenly(one["diameter"] for one in drills)
    holes = evenly(one["expected_hole_diameter"] for one in drills)
    rows = [
        [
            one["label"] if at else f"{one['label']}, {plain(one['operation'])}",
            diameters[at],
            holes[at],
            number(one["percent_thread"]),
            number(one["expected_percent_thread"]),
            percent(one["acceptance"]),
        ]
        for at, one in enumerate(drills)
    ]
    sheet.table("Drill", ("diameter", "mean hole", "% thread, drill", "% thread, hole", "holes in limits"), rows)


def tap_rows(best: Reply, unit: str) -> Iterator[Row]:
    """The tap that is taken, and the one that finishes what it leaves."""
    for name, tap in (("first", best), ("then", best.get("second_tap"))):
        if not tap:
            continue
        yield name if best.get("second_tap") else "use", tap["marking"]
        chamfer = tap["chamfer"]
        threads = " to ".join(number(chamfer["threads"][side]) for side in ("min", "max"))
        kind = "" if chamfer["name"] == "taper_pipe" else f"{words(chamfer['name'])} "
        yield "", f"{words(tap['style'])}, {kind}chamfer of {threads} threads"
        if tap.get("limit"):
            yield "", f"limit {tap['limit']['label']}, pitch diameter {window(tap['limit']['pitch_diameter'], unit)}"
        if tap.get("surface"):
            yield "", ", ".join(str(tap[part]) for part in ("substrate", "surface") if tap.get(part))
        if tap.get("order_text"):
            yield "order", tap["order_text"]
    if best.get("equivalents"):
        yield "or", ", ".join(f"limit {one['label']}" for one in best["equivalents"])


def listed_taps(sheet: Sheet, reply: Reply) -> None:
    """Other taps that would do."""
    rows = [
        [f"{one['marking']}, {words(one['style'])}{_made_to_order(one)}",
         window((one.get("limit") or {}).get("pitch_diameter")), percent(one["acceptance"])]
        for one in reply["alternatives"]
    ]  # fmt: skip
    sheet.table("Other taps", ("pitch diameter", "threads in limits"), rows)


def _made_to_order(tap: Reply) -> str:
    return ", made to order" if tap.get("availability") == "special" else ""


def reasons(sheet: Sheet, heading: str, texts: Iterable[str]) -> None:
    """Sentences under a heading."""
    listed = list(texts)
    if listed:
        sheet.heading(heading)
        sheet.rows((("", text) for text in listed), sheet.paint.faint)


def remarks(sheet: Sheet, reply: Reply) -> None:
    """What was assumed, and the cautions, which are part of the answer."""
    reasons(sheet, "Assumed", reply.get("assumptions", ()))
    cautions = [("", caution["text"]) for caution in reply.get("cautions", ())]
    if cautions:
        sheet.heading("Cautions")
        sheet.rows(cautions, sheet.paint.warn)
    if reply.get("notice"):
        sheet.rows([("", reply["notice"])], sheet.paint.faint)
    derivation(sheet, reply)
