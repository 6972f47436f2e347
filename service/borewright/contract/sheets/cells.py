"""One cell of a sheet: the JSON value that it stands for, or why it stands for none."""

from __future__ import annotations

import re
from collections.abc import Sequence

import orjson

from borewright.contract.faults import shown
from borewright.contract.requests.csv_columns import Column
from borewright.core.errors import Fault

from . import dates

#: Of more callouts than these none is probable.
_FEW = 3
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]{1,18})?")
_BARE_DECIMAL = re.compile(r"\.[0-9]{1,18}")
_FRACTION = re.compile(r"(?:[0-9]{1,3}[- ])?[0-9]{1,3}/(?:2|4|8|16|32|64)")
_DECIMAL_COMMA = re.compile(r"(-?[0-9]{0,15}),([0-9]{1,18})((?: ?[^\d\s.,].{0,20})?)")
_THOUSANDS = re.compile(r"-?[1-9][0-9]{0,2},[0-9]{3}")
_TRUE = frozenset({"true", "yes", "y", "x", "1", "wahr", "ja", "vrai", "oui", "✓", "✔"})
_FALSE = frozenset({"false", "no", "n", "0", "falsch", "nein", "faux", "non", "-"})
_OTHER_WORDS = {"thru": "through", "in": "inch", "inches": "inch", "mm": "metric", "din_76": "din_76_1"}
_LIST_ENDS = re.compile(r"[;|]")


class CellRefused(Exception):
    """A cell stands for no value. ``fault`` says why, its pointer is for whoever knows the column."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.detail)
        self.fault = fault


def value(column: Column, cell: str, *, unit: str = "", decimal_comma: bool = False) -> object:
    """What a cell that is not blank stands for.

    Args: ``unit`` of a bare number, blank where the request has its own; ``decimal_comma`` = a comma is never one of
        thousands.

    Raises: CellRefused.
    """
    if column.kind == "figure":
        return _figure(cell, unit, decimal_comma)
    if column.kind == "figures":
        found = [_figure(part.strip(), unit, decimal_comma) for part in cell.split(";") if part.strip()]
        return found[0] if len(found) == 1 else found
    if column.kind == "flag":
        return flag(cell)
    if column.kind == "list":
        return [_word(column.words, part.strip()) for part in _LIST_ENDS.split(cell) if part.strip()]
    return _word(column.words, cell)


def flag(cell: str) -> bool | str:
    """Yes or no; any other text as it is."""
    word = cell.casefold()
    return word in _TRUE if word in _TRUE or word in _FALSE else cell


def _word(words: Sequence[str], cell: str) -> str:
    """A word of a list in any case and spelling, as the list spells it."""
    if not words or cell in words:
        return cell
    plain = re.sub(r"[\s_-]+", "_", cell.casefold())
    plain = _OTHER_WORDS.get(plain, plain)
    return plain if plain in words else cell


def _figure(cell: str, unit: str, decimal_comma: bool) -> object:
    text = _with_point(cell, decimal_comma)
    if _BARE_DECIMAL.fullmatch(text):
        text = f"0{text}"
    elif _FRACTION.fullmatch(text):
        return f"{text} {unit or 'in'}"  # a fraction is an inch
    if not _NUMBER.fullmatch(text):
        return text
    return f"{text} {unit}" if unit else orjson.loads(text)


def _with_point(cell: str, decimal_comma: bool) -> str:
    found = _DECIMAL_COMMA.fullmatch(cell)
    if found is None:
        return cell
    if not decimal_comma and _THOUSANDS.fullmatch(cell):
        either = (cell.replace(",", "."), cell.replace(",", ""))
        said = f"{shown(cell)} can be {' or '.join(either)}: write it with a point, or without the comma."
        raise CellRefused(Fault("quantity_unreadable", said, did_you_mean=either))
    return f"{found[1] or 0}.{found[2]}{found[3]}"


def date_fault(name: str, kind: str, cell: str) -> Fault | None:
    """Why a cell of a callout, a size, a drill or the drills of a crib is none: a spreadsheet made a date of it."""
    if name == "thread":
        found = dates.days(cell, serial=True)
        meant = dates.threads_meant(found) if found else ()
    elif name in ("stock.drills", "drill"):
        found = next(filter(None, (dates.days(part.strip(), serial=True) for part in _LIST_ENDS.split(cell))), ())
        meant = dates.sizes_meant(found)
    elif kind in ("figure", "figures"):
        found = dates.days(cell, serial=False)
        meant = dates.sizes_meant(found)
    else:
        return None
    return _date(cell, meant) if found else None


def _date(cell: str, meant: tuple[str, ...]) -> Fault:
    named = " or ".join(part for part in (", ".join(meant[:-1]), *meant[-1:]) if part)
    typed = f", {'probably' if len(meant) <= _FEW else 'which can be'} {named}" if meant else ""
    return Fault(
        "cell_is_a_date",
        f"{shown(cell)} is a date: a spreadsheet made it of what was typed{typed}."
        " Make the column one of text and type it again.",
        did_you_mean=meant,
    )
