"""The derivation of a reply as a sheet shows it: each figure, its formula with what goes in, its source."""

from __future__ import annotations

from itertools import groupby

from .sheet import Sheet
from .words import Reply, plain

#: Inputs of a step that are shown; an integral has many more.
_MOST_INPUTS = 12
_DIGITS = 8


def derivation(sheet: Sheet, reply: Reply) -> None:
    """The steps, by the part of the reply that they lead to."""
    for part, steps in groupby(reply.get("derivation") or (), key=lambda step: step["quantity"].partition(".")[0]):
        sheet.heading(f"How {plain(part)} is worked out")
        for step in steps:
            name = step["quantity"].partition(".")[2] or part
            sheet.rows([("", f"{plain(name)} = {_number(step['value'])} {step['unit']}".rstrip())])
            sheet.rows([("  ", _formula(step)), ("  ", step["source"] or "")], sheet.paint.faint)


def _formula(step: Reply) -> str:
    shown = [f"{name} {_number(value)}" for name, value in step["inputs"].items()]
    more = [f"{len(shown) - _MOST_INPUTS} more with --json"] if len(shown) > _MOST_INPUTS else []
    inputs = ", ".join([*shown[:_MOST_INPUTS], *more])
    formula = "from the table" if step["formula"] == "table" else step["formula"]
    return f"{formula}; {inputs}" if inputs else formula


def _number(value: object) -> str:
    return f"{value:.{_DIGITS}g}" if isinstance(value, float) else str(value)
