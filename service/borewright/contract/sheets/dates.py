"""Dates that a spreadsheet made of a callout, a drill or a depth, and what was probably typed.

Spreadsheets take ``1/2-13`` for the second of January 2013, ``10-24`` for the 24th of October, ``6-32`` for June 1932,
``5/16`` for the 16th of May of the year, and with a decimal comma ``6.8`` for the 6th of August. What was typed cannot
be known any more: such a cell is refused, and what it probably was is named.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import NamedTuple

from borewright.core import callout
from borewright.core.caches import cached
from borewright.core.errors import BorewrightError

_MONTHS = (
    ("jan", "januar", "january", "jän", "gen", "ene", "janv"),
    ("feb", "februar", "february", "févr", "fev"),
    ("mar", "mär", "mrz", "märz", "march", "mars"),
    ("apr", "april", "avr", "abr"),
    ("may", "mai", "mag", "mayo"),
    ("jun", "juni", "june", "giu", "juin"),
    ("jul", "juli", "july", "lug", "juil"),
    ("aug", "august", "ago", "août"),
    ("sep", "sept", "september", "set"),
    ("oct", "okt", "october", "oktober", "ott"),
    ("nov", "november"),
    ("dec", "dez", "december", "dezember", "dic", "déc"),
)
_MONTH = {name: number for number, names in enumerate(_MONTHS, 1) for name in names}
_TIME = r"(?:[ T]00:00(?::00(?:\.0+)?)?)?"
_AS_NUMBERS = (
    re.compile(rf"(?P<first>\d{{1,2}})([/.])(?P<second>\d{{1,2}})\2(?P<year>\d{{4}}|\d{{2}}){_TIME}", re.ASCII),
    re.compile(rf"(?P<first>\d{{1,2}})-(?P<second>\d{{1,2}})-(?P<year>\d{{4}}){_TIME}", re.ASCII),
    re.compile(r"(?P<first>\d{1,2})\.(?P<second>\d{1,2})(?P<year>)\.", re.ASCII),
)
_ISO = re.compile(rf"(?P<year>\d{{4}})-(?P<month>\d{{2}})-(?P<day>\d{{2}}){_TIME}", re.ASCII)
_DAY_FIRST = re.compile(r"(?P<day>\d{1,2})[-./ ]{1,2}(?P<month>[^\W\d_]{3,9})\.?(?:[-./ ,]{1,2}(?P<year>\d{4}|\d{2}))?")
_MONTH_FIRST = re.compile(r"(?P<month>[^\W\d_]{3,9})\.?[-./ ]{1,2}(?P<day>\d{1,2})(?:[-/ ,]{1,2}(?P<year>\d{4}))?")
#: Days since the end of 1899, dates of 1927 to 2119: no callout and no drill is a number of that size.
_SERIAL = re.compile(r"[1-7]\d{4}(?:\.0)?", re.ASCII)
_EPOCH = date(1899, 12, 30)
_DENOMINATORS = (2, 4, 8, 16, 32, 64)
#: Series that a callout may leave out.
_USUAL = ("UNC", "UNF", "UNEF")
_LONGEST = 40
_MOST = 5


class Day(NamedTuple):
    """A day: ``day`` None = only the month is said; ``year`` by its last two digits, None where none is said."""

    month: int
    day: int | None
    year: int | None


def days(cell: str, *, serial: bool) -> tuple[Day, ...]:
    """What days a cell may be; none where it is no date.

    Args: ``serial`` = a number of days is a date as well.
    """
    if not cell[:1].isalnum() or len(cell) > _LONGEST:
        return ()
    return tuple(day for day in _days(cell, serial) if _is_day(day))


def _days(cell: str, serial: bool) -> Iterator[Day]:
    if (match := next(filter(None, (form.fullmatch(cell) for form in _AS_NUMBERS)), None)) is not None:
        first, second, year = int(match["first"]), int(match["second"]), _year(match["year"])
        yield from dict.fromkeys((Day(first, second, year), Day(second, first, year)))
    elif (match := _ISO.fullmatch(cell)) is not None:
        yield Day(int(match["month"]), int(match["day"]), _year(match["year"]))
    elif (match := _DAY_FIRST.fullmatch(cell) or _MONTH_FIRST.fullmatch(cell)) is not None:
        month, number, year = _MONTH.get(match["month"].casefold(), 0), int(match["day"]), _year(match["year"])
        yield Day(month, number, year)
        if year is None:
            yield Day(month, None, number)
    elif serial and _SERIAL.fullmatch(cell):
        found = _EPOCH + timedelta(days=int(cell.removesuffix(".0")))
        yield Day(found.month, found.day, found.year % 100)


def _year(digits: str | None) -> int | None:
    return int(digits) % 100 if digits else None


def _is_day(day: Day) -> bool:
    return 1 <= day.month <= 12 and (day.day is None or 1 <= day.day <= 31)


@cached(64)
def threads_meant(found: tuple[Day, ...]) -> tuple[str, ...]:
    """The callouts that a spreadsheet may have taken for one of these days, likely ones first, a few."""
    usual: list[str] = []
    sizes: list[str] = []
    others: list[str] = []
    for text in dict.fromkeys(
        text for kind in (_with_year, _without_year, _of_month) for day in found for text in kind(day)
    ):
        try:
            thread = callout.read(text)
            name = f"{thread.size}-{thread.threads_per_inch} {thread.series}"
            (usual if thread.series in _USUAL else others).append(name)
        except BorewrightError as error:
            sizes += [meant for meant in error.faults[0].did_you_mean if meant.startswith((f"{text}-", f"{text} "))]
    sizes.sort(key=lambda name: not name.endswith(_USUAL))
    return tuple(dict.fromkeys(usual or [*sizes, *others]))[:_MOST]


def _with_year(day: Day) -> Iterator[str]:
    if day.year is not None and _is_fraction(day.month, day.day):
        yield f"{day.month}/{day.day}-{day.year}"


def _without_year(day: Day) -> Iterator[str]:
    if day.day is not None:
        yield f"{day.month}-{day.day}"
    if _is_fraction(day.month, day.day):
        yield f"{day.month}/{day.day}"


def _of_month(day: Day) -> Iterator[str]:
    if day.year is not None and day.day in (None, 1):
        yield f"{day.month}-{day.year}"


def sizes_meant(found: tuple[Day, ...]) -> tuple[str, ...]:
    """The fractions and decimals that a spreadsheet may have taken for one of these days, likely ones first, a few."""
    return tuple(dict.fromkeys(text for kind in (_fractions, _decimals) for day in found for text in kind(day)))[:_MOST]


def _fractions(day: Day) -> Iterator[str]:
    for over, under in ((day.month, day.day), (day.month, day.year if day.day in (None, 1) else None)):
        if _is_fraction(over, under):
            yield f"{over}/{under}"
    if _is_fraction(day.day, day.year):
        yield f"{day.month}-{day.day}/{day.year}"


def _is_fraction(over: int | None, under: int | None) -> bool:
    return over is not None and under in _DENOMINATORS and over < under and over % 2 == 1


def _decimals(day: Day) -> Iterator[str]:
    if day.day is not None:
        yield f"{day.day}.{day.month}"
