"""Requests and replies as flat rows: what stands under each dotted name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from borewright.contract.requests.csv_columns import COLUMNS, TEXT_OF

#: A spreadsheet takes a fraction for a date: it is an inch, as the label of a drill.
_FRACTION = re.compile(r"(?:[0-9]{1,2}-)?[0-9]{1,2}/[0-9]{1,2}")


def as_no_date(value: object) -> object:
    """A value that no spreadsheet takes for a date."""
    return f"{value} in" if isinstance(value, str) and _FRACTION.fullmatch(value) else value


def found(value: object, path: list[str]) -> object:
    """What a dotted name leads to, in each row of a list; None where it leads nowhere."""
    for name in path:
        if isinstance(value, (list, tuple)):
            value = [found(part, [name]) for part in value]
        elif isinstance(value, dict):
            value = value.get(name)
        else:
            return None
    return value


def request_cells(request: Mapping[str, Any]) -> dict[str, object]:
    """The cells of a request by column, as a sheet would have them; what has no column is left out."""
    cells: dict[str, object] = {}
    for name in COLUMNS:
        value = found(dict(request), name.split("."))
        if isinstance(value, dict) and name in TEXT_OF:
            value = value.get(TEXT_OF[name])
        if isinstance(value, list):
            value = ";".join(map(str, value))
        if value is not None and not isinstance(value, dict):
            cells[name] = value
    return cells
