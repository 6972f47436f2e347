"""The standard drills, and the reader of a drill's label as people type it.

Inch drills come as fractions, numbers (``#7``) and letters, metric drills in millimetres. A size outside these sets
that is written out (``6.75 mm``, ``.5687 in``, a 64th that is not stocked everywhere) is a drill of series
``special``: a crib may hold it, no recommendation is made from it unless a published chart lists it.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from operator import itemgetter
from typing import cast

from borewright.core.caches import cached, read_once
from borewright.core.errors import DrillingError, nearest
from borewright.core.model import MM_PER_INCH, Drill, Status, Unit
from borewright.core.practice import figure
from borewright.core.rounding import half_even, plain
from borewright.tables import load

#: Series that may be asked for, in the order in which a tie between equal drills is settled.
SERIES: tuple[str, ...] = ("fractional", "number", "letter", "metric")
SPECIAL = "special"
#: Decimals to which a drill diameter is printed and judged.
PLACES: Mapping[Unit, int] = {"in": 4, "mm": 3}
_LONGEST_LABEL = 40
_SMALLEST_MM, _LARGEST_MM = figure("smallest_drill_mm"), figure("largest_drill_mm")
_LARGEST_BARE_IN = figure("largest_bare_drill_in")
_LEAST_BARE_MM = figure("least_bare_drill_mm")
_SLACK: Mapping[Unit, Decimal] = {"in": Decimal("0.0001"), "mm": Decimal("0.0005")}
_FRACTION_SIGNS = {"¼": " 1/4", "½": " 1/2", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8", "⁄": "/"}
_NOTE = re.compile(r"\([^()]*\)$")
_UNIT_WORD = re.compile(r"(?:mm|inches|inch|in\.?|\"|″|”|'')$")
_NUMBER = re.compile(r"(?:#|№|no\.?|nr\.?|number|wire)\s?(\d{1,3})$", re.ASCII)
_LETTER = re.compile(r"(?:letter\s?|ltr\.?\s?)?([a-z])$")
_FRACTION = re.compile(r"(?:(\d{1,2})[ -])?(\d{1,3})/(\d{1,3})$", re.ASCII)
_DECIMAL = re.compile(r"\d{0,3}\.?\d{0,6}", re.ASCII)


@read_once
def _standard() -> tuple[Drill, ...]:
    return tuple(
        Drill(
            row["label"],
            row["series"],
            Decimal(row["diameter_in"]),
            Decimal(row["diameter_mm"]),
            cast(Status, row["status"]),
        )
        for row in load("drills").rows
    )


@read_once
def _origins() -> Mapping[str, str]:
    return {row["label"]: row["source"] for row in load("drills").rows}


@read_once
def _by_label() -> Mapping[str, Drill]:
    return {drill.label: drill for drill in _standard()}


def all_drills() -> tuple[Drill, ...]:
    """Every standard drill: fractional, number, letter and metric sizes, smallest first.

    Source: ASME B94.11M and BS 328 / ISO 235 sizes; metric sizes above 25 mm from memory, they end at 100 mm.
    """
    return tuple(drill for drill in _standard() if drill.series != SPECIAL)


def origin(drill: Drill) -> str:
    """Set or document that lists a drill; empty for a size outside the tables."""
    return _origins().get(drill.label, "")


def printed(drill: Drill, unit: Unit) -> Decimal:
    """Diameter in ``unit`` as drill tables print it: 4 decimals of an inch, 3 of a millimetre, ties to even."""
    return half_even(drill.diameter(unit), PLACES[unit])


@cached(1024)
def find_drill(label: str, unit: Unit | None = None) -> Drill:
    """The drill that a label means.

    Args: ``label`` as people type it (``27/64``, ``#7``, ``F``, ``6.8 mm``, ``6,8``, ``.4219``, ``1-1/4``); ``unit``
        settles a bare number that fits both systems (``0.5``).
    Returns: a standard drill, or one of series ``special`` for a size that is written out but not standard.
    Raises: DrillingError ``drill_unknown``.
    Source: ASME B94.11M and BS 328 / ISO 235 sizes.
    """
    text = _plain_text(label)
    written, word = _split_unit(text)
    found = _numbered(text) or _fraction(written, word, label) or _decimal(written, word, unit, label)
    if found is None:
        raise _unknown(label)
    return found


def _plain_text(label: str) -> str:
    if len(label) > _LONGEST_LABEL:
        raise _unknown(label)
    text = label.casefold().replace(",", ".")
    for sign, spelled in _FRACTION_SIGNS.items():
        text = text.replace(sign, spelled)
    text = " ".join(_NOTE.sub("", text.strip()).split())
    return text.removeprefix("drill").removeprefix("ø").removesuffix("drill").removesuffix("dia").strip()


def _split_unit(text: str) -> tuple[str, str]:
    match = _UNIT_WORD.search(text)
    if match is None:
        return text, ""
    return text[: match.start()].strip(), "mm" if match.group() == "mm" else "in"


def _numbered(text: str) -> Drill | None:
    if (match := _NUMBER.fullmatch(text)) is not None:
        return _by_label().get(f"#{int(match.group(1))}")
    if (match := _LETTER.fullmatch(text)) is not None:
        return _by_label().get(match.group(1).upper())
    return None


def _fraction(written: str, word: str, label: str) -> Drill | None:
    match = _FRACTION.fullmatch(written)
    if match is None or word == "mm":
        return None
    whole, over, under = (int(part or 0) for part in match.groups())
    if under == 0 or 64 % under or over >= under:
        raise _unknown(label)
    value = whole + Decimal(over) / under
    return _standard_at(value, "in") or _special(_inch_label(value), value, "in", label)


def _inch_label(value: Decimal) -> str:
    over, under = (value % 1).as_integer_ratio()
    whole = int(value)
    fraction = f"{over}/{under}" if over else ""
    return "-".join(part for part in (str(whole) if whole else "", fraction) if part)


def _decimal(written: str, word: str, unit: Unit | None, label: str) -> Drill | None:
    match = _DECIMAL.fullmatch(written)
    if match is None or not written.strip("."):
        return None
    value = Decimal(written)
    if word:
        return _of_size(value, "mm" if word == "mm" else "in", label)
    number = _by_label().get(f"#{value}") if unit != "mm" else None
    inch = _standard_at(value, "in")
    metric = None if unit == "in" and value < _LEAST_BARE_MM else _standard_at(value, "mm")
    fitting = [drill for drill in (number, inch, metric) if drill is not None]
    if len(fitting) > 1 and (unit is None or number is not None):
        raise _ambiguous(label, fitting)
    found = number or (inch or metric if unit == "in" else metric or inch)
    if found is not None or unit is None:
        return found
    return _of_size(value, _unit_of_bare_size(value, unit), label)


def _unit_of_bare_size(value: Decimal, unit: Unit) -> Unit:
    """A bare size above 4 is not meant as inches."""
    return "mm" if unit == "in" and value > _LARGEST_BARE_IN else unit


def _of_size(value: Decimal, unit: Unit, label: str) -> Drill:
    return _standard_at(value, unit) or _special(f"{plain(value)} {unit}", value, unit, label)


@read_once
def _exact(unit: Unit) -> tuple[tuple[Decimal, Drill], ...]:
    """The drills made to a round size in that unit, by diameter."""
    return tuple((drill.diameter(unit), drill) for drill in _standard() if _is_metric(drill) == (unit == "mm"))


def _is_metric(drill: Drill) -> bool:
    return drill.label.endswith(" mm")


def _standard_at(value: Decimal, unit: Unit) -> Drill | None:
    """The drill made in that unit nearest to ``value``, if a printed (or cut off) figure of it can read so."""
    sizes, slack = _exact(unit), _SLACK[unit]
    first = bisect_left(sizes, value - slack, key=itemgetter(0))
    near = sizes[first : bisect_right(sizes, value + slack, key=itemgetter(0))]
    return min(near, key=lambda size: abs(size[0] - value))[1] if near else None


def _special(name: str, value: Decimal, unit: Unit, label: str) -> Drill:
    diameter_mm = value * MM_PER_INCH if unit == "in" else value
    if not _SMALLEST_MM <= diameter_mm <= _LARGEST_MM:
        raise _unknown(label)
    diameter_in = value if unit == "in" else half_even(value / MM_PER_INCH, 6)
    return Drill(name, SPECIAL, diameter_in, diameter_mm, "computed")


def _ambiguous(label: str, fitting: Sequence[Drill]) -> DrillingError:
    return DrillingError(
        "drill_unknown",
        f"drill {label!r} can be more than one size: write it with # or with its unit",
        did_you_mean=[f"{drill.label} in" if drill.series == "fractional" else drill.label for drill in fitting],
    )


def _unknown(label: str) -> DrillingError:
    shown = label[:_LONGEST_LABEL]
    return DrillingError(
        "drill_unknown",
        f"drill {shown!r} is not a fraction in 64ths, number #1 to #97, letter A to Z, or size in in or mm",
        did_you_mean=nearest(shown, _by_label()),
    )


def series_of(names: tuple[str, ...]) -> tuple[str, ...]:
    """The series that ``names`` name, in the table's order and each once.

    Raises: DrillingError ``drill_series_unknown`` (pointer ``/drill_series``) for a name that does not exist.
    """
    for place, name in enumerate(names):
        if name not in SERIES:
            raise DrillingError(
                "drill_series_unknown",
                f"there is no drill series {name[:_LONGEST_LABEL]!r}",
                pointer=f"/drill_series/{place}",
                allowed=SERIES,
                did_you_mean=nearest(name, SERIES),
            )
    if not names:
        raise DrillingError(
            "drill_series_unknown", "at least one drill series is needed", pointer="/drill_series", allowed=SERIES
        )
    return tuple(dict.fromkeys(sorted(names, key=SERIES.index)))


def in_series(series: tuple[str, ...]) -> Iterator[Drill]:
    """Standard drills of the series given, smallest first."""
    return (drill for drill in _standard() if drill.series in series)
