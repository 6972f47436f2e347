"""Rows of a sheet as requests, and the cell in which each fault of a request stood."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from borewright.contract.faults import RequestInvalid
from borewright.contract.requests.csv_columns import COLUMNS, OUTPUT, TEXT_OF, Column
from borewright.core.errors import Fault

from . import headings
from .cells import CellRefused, date_fault, flag, value
from .headings import Heading

Json = dict[str, Any]
#: Columns of a part: how many of a hole it has.
PART_COLUMNS: Mapping[str, Column] = {
    **COLUMNS,
    "count": Column("figure", "how many of this hole the part has", ()),
}
#: Fields that a text stands for where further columns say more of the object, in measurements too.
_TEXT_OF: Mapping[str, str] = {**TEXT_OF, "gauge_uncertainty": "repeatability"}


class Place(NamedTuple):
    """Where in a sheet a fault stands: the heading of its column and the text of its cell."""

    column: str
    cell: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet whose head was read. ``decimal_comma``: a comma in a figure is never one of thousands."""

    head: tuple[Heading, ...]
    columns: Mapping[str, Column]
    decimal_comma: bool

    def request(self, cells: Sequence[str]) -> Json:
        """The request of a row; ``cells`` without those beyond the head.

        Raises: RequestInvalid with every cell that stands for no value.
        """
        request: Json = {}
        faults: list[Fault] = []
        for heading, cell in zip(self.head, cells, strict=False):
            if heading.column and (text := cell.strip() or _blank(heading)):
                try:
                    _put(request, heading.column, self._value(heading, text))
                except CellRefused as error:
                    fault = error.fault
                    faults.append(Fault(fault.code, fault.detail, _pointer(heading.column), (), fault.did_you_mean))
        if faults:
            raise RequestInvalid(faults)
        return request

    def _value(self, heading: Heading, text: str) -> object:
        column = self.columns[heading.column]
        fault = date_fault(heading.column, column.kind, text)
        if fault is not None:
            raise CellRefused(fault)
        if heading.stands_for:
            return _hole_type(heading.stands_for, text)
        return value(column, text, unit=heading.unit, decimal_comma=self.decimal_comma)

    def name(self, cells: Sequence[str]) -> str | None:
        """The id of a row."""
        return next(
            (cell.strip() or None for one, cell in zip(self.head, cells, strict=False) if one.column == "id"), None
        )

    def place(self, cells: Sequence[str], pointer: str) -> Place | None:
        """The cell that a pointer into the request of a row leads to."""
        dotted = ".".join(part for part in pointer.split("/")[1:] if not part.isdigit())
        for name in (dotted, dotted.rpartition(".")[0]):
            for heading, cell in zip(self.head, (*cells, *[""] * len(self.head)), strict=False):
                if name and heading.column == name:
                    return Place(heading.text, cell.strip())
        return None

    def told(self) -> list[dict[str, str | None]]:
        """How the headings were read that are not simply names of columns; ``read_as`` None = not read."""
        return [
            {"heading": one.text, "read_as": one.column or None, **({"unit": one.unit} if one.unit else {})}
            for one in self.head
            if one.is_told and one.text not in OUTPUT
        ]


def sheet(head: Sequence[str], columns: Mapping[str, Column] = COLUMNS, *, decimal_comma: bool = False) -> Sheet:
    """The sheet under a head. Raises: HeadRefused.

    Args: ``columns`` that are read; in a sheet of holes those of an answer, and of a part, are passed over.
    """
    of_holes = columns.keys() <= PART_COLUMNS.keys()
    passed_over = (*OUTPUT, *(name for name in PART_COLUMNS if name not in columns)) if of_holes else ()
    return Sheet(headings.read(head, columns, passed_over), columns, decimal_comma)


def _hole_type(word: str, text: str) -> str:
    said = flag(text)
    if isinstance(said, bool):
        return word if said else "blind"
    return word if text.casefold() in ("thru", word) else text


def _blank(heading: Heading) -> str:
    """A blank in a column of yes and no is a no."""
    return "no" if heading.stands_for else ""


def _pointer(column: str) -> str:
    return "/" + column.replace(".", "/")


def _put(request: Json, name: str, found: object) -> None:
    """Set a value; a text that names what dotted columns say more of becomes a field of that object."""
    *path, last = name.split(".")
    for depth, part in enumerate(path, 1):
        inner = request.setdefault(part, {})
        if not isinstance(inner, dict):
            inner = request[part] = {_TEXT_OF[".".join(path[:depth])]: inner}
        request = inner
    if isinstance(request.get(last), dict):
        request[last][_TEXT_OF[name]] = found
    else:
        request[last] = found
