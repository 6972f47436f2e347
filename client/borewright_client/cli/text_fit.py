"""The shop's own figures, as a sheet for people."""

from __future__ import annotations

from collections.abc import Iterator

from .sheet import WIDTH, Paint, Row, Sheet
from .words import Reply, number, percent

_NAMES = {
    "drill_oversize": "Oversize of drilled holes",
    "tap_oversize": "Oversize of tapped threads",
    "coat": "Thickness of the coat on a surface",
    "tapping_torque": "Tapping torque",
    "tap_life": "Taps that broke",
    "go_no_go": "Counts of GO and NOT GO",
}
_UNITS = {"share": " of the tolerance", "times": " times the model's", "rate": " a hole"}


def fit(reply: Reply, paint: Paint | None = None) -> str:
    """Each figure with the published one, the data and what comes of both; then what would change."""
    sheet = Sheet(paint, WIDTH)
    pieces = sum(row["count"] for row in reply["fit"])
    told = f"intervals hold by {percent(reply['confidence'])}; shop_figures {reply['shop_figures']['id']}"
    sheet.title(f"Shop figures from {pieces} pieces", told)
    for row in reply["fit"]:
        sheet.heading(f"{_NAMES[row['figure']]}: {row['group']}")
        sheet.rows(_rows(row))
        sheet.rows(("note", one["text"]) for one in row["remarks"])
    changes = [(f"{one['hole']}: {one['what']}", one["before"], one["after"]) for one in reply["changes"]]
    sheet.table(f"{len(changes)} changes in {reply['compared']} typical holes", ("tables", "shop"), changes)
    return str(sheet)


def _rows(row: Reply) -> Iterator[Row]:
    unit = _UNITS.get(row["unit"], f" {row['unit']}")
    if row["counted"]:
        yield from _counted(row["counted"], row["figure"] == "tap_life")
    else:
        prior, data, now, ends = row["prior"], row["data"], row["posterior"], row["interval"]
        alike = (
            ""
            if data["effective"] == data["count"]
            else f", worth {number(round(data['effective'], 1))} independent ones"
        )
        yield "published", f"{_short(prior['mean'])}{unit}"
        yield "measured", f"{_short(data['mean'])}{unit} in {data['count']} pieces{alike}"
        yield (
            "now",
            f"{_short(now['mean'])}{unit} ({_ends(ends['mean'])}), data weigh {percent(round(now['weight'], 2))}",
        )
        yield "standard deviation", f"{_short(now['standard_deviation'])} ({_ends(ends['standard_deviation'])})"
        yield "next piece", _ends(ends["next"])
        if row["outliers"]:
            yield "outside", ", ".join(_short(one["value"]) for one in row["outliers"])
    if row["next_text"]:
        yield "more", row["next_text"]


def _counted(counted: Reply, taps: bool) -> Iterator[Row]:
    yield "counted", f"{counted['bad']} {'broke in' if taps else 'refused of'} {counted['checked']}"
    yield "at most", f"{_short(100 * counted['exact_upper'])} % (exact)"
    if counted["chance_of_a_break"] is not None:
        yield "next 100 holes", f"a tap breaks with a chance of {percent(counted['chance_of_a_break'])}"


def _short(value: float) -> str:
    return number(float(f"{value:.3g}"))


def _ends(ends: Reply) -> str:
    return f"{_short(ends['low'])} to {_short(ends['high'])}"
