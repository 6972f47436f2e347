"""The head of a sheet: which column each heading means, in any case and spelling, and what is told of it."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from borewright.contract.faults import shown, step
from borewright.contract.fields import units
from borewright.core.caches import read_once
from borewright.core.errors import Fault, nearest

UNKNOWN, UNREADABLE = "csv_column_unknown", "csv_unreadable"
#: Headings that are not known and told one by one.
_MOST_TOLD = 5
_LONGEST = 80
_UNIT = re.compile(r"(.*?)(?:[(\[]\s*([^()\[\]]{1,10})\s*[)\]]|,\s*([^,\s]{1,10})|\s(mm|in))\s*", re.DOTALL)
_INCH = {"inch": "in", "inches": "in", "in.": "in", "''": "in", "″": "in", "zoll": "in"}
#: Headings of what is for people: such a column is not read.
_REMARKS = frozenset(
    ("bemerkung", "comment", "comments", "description", "drawing", "part", "part number", "remark", "remarks", "rev",
     "revision")
)  # fmt: skip
_WORDS = re.compile(r"[^\W_]+")
_SIGNS = {"%": " percent ", "#": " number ", "№": " number "}


class Heading(NamedTuple):
    """A heading: its ``text``, the ``column`` that it is read as, blank where it is not read.

    ``unit`` of its bare numbers, blank where they have that of the request; ``stands_for`` is the word that a yes
    means.
    """

    text: str
    column: str
    unit: str = ""
    stands_for: str = ""

    @property
    def is_told(self) -> bool:
        """Whether it is not simply the name of its column."""
        return bool(self.text) and self.text != self.column


class HeadRefused(Exception):
    """The head cannot be used. ``faults`` say why."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        super().__init__(faults[0].detail)
        self.faults = tuple(faults)


def read(cells: Sequence[str], columns: Iterable[str], passed_over: Iterable[str]) -> tuple[Heading, ...]:
    """The headings of a sheet.

    Args: ``columns`` that are read; ``passed_over`` are names of columns that are known and not read.

    Raises: HeadRefused for headings that mean no column, two columns, or the same as another.
    """
    meanings, known = _meanings(frozenset(columns)), frozenset(passed_over)
    found: list[Heading] = []
    faults: list[Fault] = []
    for cell in cells:
        heading = _heading(cell.strip(), meanings, known)
        if isinstance(heading, Heading):
            found.append(heading)
        elif len(faults) < _MOST_TOLD:
            faults.append(heading)
    faults += _doubled(found)
    if faults:
        raise HeadRefused(faults)
    return tuple(found)


def recognised(cells: Sequence[str], columns: Iterable[str]) -> int:
    """How many cells name a column."""
    meanings = _meanings(frozenset(columns))
    return sum(len(meanings.get(cell.strip()) or meanings.get(_plain(cell), ())) == 1 for cell in cells)


def _heading(text: str, meanings: Mapping[str, tuple[str, ...]], known: frozenset[str]) -> Heading | Fault:
    if len(text) > _LONGEST:
        return _unknown(text, (), {})
    unit = ""
    meant = meanings.get(text) or meanings.get(_plain(text), ())
    if not meant and (match := _UNIT.fullmatch(text)) is not None:
        unit = _unit(match[2] or match[3] or match[4])
        meant = meanings.get(_plain(match[1]), ()) if unit else ()
    if len(meant) == 1:
        column, _, word = meant[0].partition("=")
        return Heading(text, column, "" if unit == "%" else unit, word)
    if (
        not text
        or text in known
        or _plain(text) in _REMARKS
        or (not meant and _plain(text) in {_plain(one) for one in known})
    ):
        return Heading(text, "")
    return _unknown(text, meant, meanings)


def _unknown(text: str, meant: Sequence[str], meanings: Mapping[str, tuple[str, ...]]) -> Fault:
    name = shown(text[:_LONGEST])
    if meant:
        return Fault(UNKNOWN, f"{name} can mean {' or '.join(meant)}.", step(text), (), tuple(meant))
    near = tuple(dict.fromkeys(meant for word in nearest(text[:_LONGEST], meanings) for meant in meanings[word]))
    said = f"{name} is no column that is read here: rename it, or take it out."
    return Fault(UNKNOWN, said, step(text[:_LONGEST]), (), tuple(one.partition("=")[0] for one in near))


def _doubled(found: Sequence[Heading]) -> list[Fault]:
    first: dict[str, Heading] = {}
    for heading in found:
        name = heading.column or heading.text
        if name and (other := first.setdefault(name, heading)) is not heading:
            said = f"The headings {shown(other.text)} and {shown(heading.text)} mean the same column, {name}."
            return [Fault(UNREADABLE, said, step(heading.text))]
    return []


def _unit(text: str) -> str:
    word = text.strip().rstrip(".").casefold()
    word = _INCH.get(word, word)
    return next((one.name for one in units.UNITS if one.name.casefold() == word), "%" if word == "%" else "")


def _plain(heading: str) -> str:
    text = heading[:_LONGEST].casefold()
    for sign, word in _SIGNS.items():
        text = text.replace(sign, word)
    return " ".join(_WORDS.findall(text))


@read_once
def _meanings(columns: frozenset[str]) -> Mapping[str, tuple[str, ...]]:
    """What a heading means: by the names themselves, by other words for them, by their last parts."""
    last_parts: dict[str, tuple[str, ...]] = {}
    for column in sorted(columns):
        last = _plain(column.rpartition(".")[2])
        last_parts[last] = (*last_parts.get(last, ()), column)
    words: dict[str, tuple[str, ...]] = {}
    for heading, column in _words():
        if column.partition("=")[0] in columns:
            words[heading] = (*words.get(heading, ()), column)
    names = {spelled: (column,) for column in columns for spelled in (_plain(column), column)}
    return {**last_parts, **words, **names}


@read_once
def _words() -> tuple[tuple[str, str], ...]:
    with Path(__file__).with_name("heading_words.csv").open(encoding="utf-8", newline="") as lines:
        return tuple((row["heading"], row["column"]) for row in csv.DictReader(lines))
