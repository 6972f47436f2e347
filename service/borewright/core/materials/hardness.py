"""Hardness as people write it, and its conversion to Brinell, Rockwell C and an approximate tensile strength.

The relations are those for non-austenitic steels (ASTM E140). Between two printed rows the figure is interpolated
linearly, which the derivation shows; past the ends of the table nothing is given.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, cast

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.errors import MaterialError
from borewright.core.model import Status, Step, weakest

Scale = Literal["HB", "HRC", "HRB", "HV"]

SCALES: tuple[Scale, ...] = ("HB", "HRC", "HRB", "HV")

_WORDS: dict[str, Scale] = {
    "hb": "HB", "hbw": "HB", "hbs": "HB", "bhn": "HB", "brinell": "HB",
    "hrc": "HRC", "rc": "HRC", "rockwellc": "HRC", "hrb": "HRB", "rb": "HRB", "rockwellb": "HRB",
    "hv": "HV", "vickers": "HV", "vhn": "HV", "dph": "HV",
}  # fmt: skip
_SCALE = r"(rockwell[ ]?[bc]|brinell|vickers|hbw|hbs|hrc|hrb|bhn|vhn|dph|hb|hv|rc|rb)"
_NUMBER = r"(\d{1,4}(?:[.,]\d{1,2})?)"
_SPAN = rf"{_NUMBER}(?: ?(?:-|–|to|\.\.) ?{_NUMBER})?"
_AFTER = re.compile(rf"(?<![\w.]){_SPAN} ?{_SCALE}(?![a-z0-9])")
_BEFORE = re.compile(rf"(?<![\w]){_SCALE} ?{_SPAN}(?![\w.]*\d)")
_LIMIT = 60


@dataclass(frozen=True, slots=True)
class HardnessReading:
    """A hardness as it was written: the middle of a range, with ``assumption`` saying so."""

    scale: Scale
    value: float
    assumption: str | None = None


@dataclass(frozen=True, slots=True)
class Hardness:
    """A hardness on the scales that can be told, with an approximate tensile strength of steel in MPa.

    ``exact`` is False where a table was interpolated; ``locator`` names the relation used, None for a Brinell figure
    that needed no conversion.
    """

    hb: float | None
    hrc: float | None
    tensile_mpa: float | None
    status: Status
    locator: str | None
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class _Row:
    """One printed row of a relation: figure by scale (``tensile`` in MPa)."""

    at: dict[str, float]
    status: Status


@dataclass(frozen=True, slots=True)
class _Relation:
    """One printed relation, softest row first."""

    locator: str
    rows: tuple[_Row, ...]

    def lowest(self, scale: str) -> float:
        """Where the relation starts on ``scale``."""
        return self.rows[0].at[scale]


def find_in(text: str) -> tuple[HardnessReading | None, str]:
    """The first hardness inside ``text``, and the text without it (``4140 at 28 HRC`` -> 28 HRC, ``4140 at``).

    Source: notation of the trade.
    """
    folded = " ".join(text.casefold().split())
    found = _AFTER.search(folded)
    if found is not None:
        low, high, word = found.groups()
    else:
        found = _BEFORE.search(folded)
        if found is None:
            return None, text
        word, low, high = found.groups()
    return _reading(low, high, word), f"{folded[: found.start()]} {folded[found.end() :]}"


def read(text: str) -> HardnessReading:
    """The hardness that ``text`` states, such as ``28 HRC``, ``HB 285`` or ``28-32 HRC``.

    Raises: MaterialError ``hardness_unreadable``.

    Source: notation of the trade.
    """
    found, rest = find_in(text) if len(text) <= _LIMIT else (None, text)
    if found is None or rest.strip() or found.value <= 0:
        raise MaterialError(
            "hardness_unreadable",
            "A hardness is a number and a scale, for example 28 HRC or 285 HB.",
            pointer="/material/hardness",
            allowed=SCALES,
        )
    return found


def convert(reading: HardnessReading) -> Hardness:
    """The hardness ``reading`` of non-austenitic steel in Brinell, Rockwell C and approximate tensile strength in MPa.

    Brinell figures outside the tables up to their end stay as they are, without a strength.

    Raises: MaterialError ``hardness_out_of_table``.

    Source: ASTM E140 relations for non-austenitic steels; a chart of British type for HV 176 to 238.
    """
    scale, value = reading.scale, reading.value
    rockwell_c, rockwell_b, british = _relations()
    if scale == "HRC":
        return _across(rockwell_c, scale, value)
    if scale == "HRB":
        return _across(rockwell_b, scale, value)
    if scale == "HV":
        return _across(british if value < rockwell_c.lowest("HV") else rockwell_c, scale, value)
    if value >= rockwell_c.lowest("HB"):
        return _across(rockwell_c, scale, value)
    if value >= rockwell_b.lowest("HB"):
        return _across(rockwell_b, scale, value)
    return Hardness(value, None, None, "computed", None, ())


def from_tensile(tensile_mpa: float) -> Hardness:
    """Hardness of non-austenitic steel by ``tensile_mpa``; past an end of the tables the end itself.

    Source: ASTM E140 relations for non-austenitic steels.
    """
    rockwell_c, rockwell_b, _ = _relations()
    relation = rockwell_c if tensile_mpa >= rockwell_c.lowest("tensile") else rockwell_b
    printed = [row.at["tensile"] for row in relation.rows if "tensile" in row.at]
    return _across(relation, "tensile", min(max(tensile_mpa, printed[0]), printed[-1]))


def _reading(low: str, high: str | None, word: str) -> HardnessReading:
    scale = _WORDS[word.replace(" ", "")]
    first = float(low.replace(",", "."))
    if high is None:
        return HardnessReading(scale, first)
    last = float(high.replace(",", "."))
    return HardnessReading(scale, (first + last) / 2, f"hardness range {low} to {high} {scale}: its middle is used")


def _across(relation: _Relation, scale: Scale | Literal["tensile"], value: float) -> Hardness:
    """Read every other scale of a relation at ``value`` on ``scale``."""
    low, high = _around(relation, scale, value)
    at: dict[str, float] = {scale: value}
    steps = []
    for wanted in ("HB", "HRC", "tensile"):
        if wanted != scale and wanted in low.at and wanted in high.at:
            step = _interpolate(low.at, high.at, scale, value, wanted, relation.locator)
            at[wanted] = float(str(step.value))
            steps.append(step)
    status = weakest((low.status, high.status))
    return Hardness(at.get("HB"), at.get("HRC"), at.get("tensile"), status, relation.locator, tuple(steps))


def _around(relation: _Relation, scale: str, value: float) -> tuple[_Row, _Row]:
    """The printed rows on both sides of ``value``; the same row twice where it is printed."""
    known = [row for row in relation.rows if scale in row.at]
    for low, high in pairwise(known):
        if value == low.at[scale]:
            return low, low
        if low.at[scale] < value < high.at[scale]:
            return low, high
    if known and value == known[-1].at[scale]:
        return known[-1], known[-1]
    raise MaterialError(
        "hardness_out_of_table",
        f"{value:g} {scale} is outside the conversion table for steel ({_span(scale)}); it is not extrapolated.",
        pointer="/material/hardness",
        allowed=tuple(_span(name) for name in SCALES),
    )


def _interpolate(
    low: dict[str, float], high: dict[str, float], scale: str, value: float, wanted: str, locator: str
) -> Step:
    """The figure on the ``wanted`` scale at ``value``, linear between two rows."""
    quantity = "material.tensile_strength" if wanted == "tensile" else f"material.hardness.{wanted.casefold()}"
    unit = "MPa" if wanted == "tensile" else wanted
    if low is high:
        return Step(quantity, "table", {scale: value}, low[wanted], unit, locator)
    inputs = {"x": value, "x1": low[scale], "x2": high[scale], "y1": low[wanted], "y2": high[wanted]}
    result = low[wanted] + (high[wanted] - low[wanted]) * (value - low[scale]) / (high[scale] - low[scale])
    return Step(quantity, "y1 + (y2 - y1) * (x - x1) / (x2 - x1)", inputs, result, unit, locator)


def _span(scale: str) -> str:
    values = [row.at[scale] for relation in _relations() for row in relation.rows if scale in row.at]
    return f"{min(values):g} to {max(values):g} {scale}"


@read_once
def _relations() -> tuple[_Relation, _Relation, _Relation]:
    """The Rockwell C, Rockwell B and British relations."""
    columns = {"hrc": "HRC", "hrb": "HRB", "hv": "HV", "hb": "HB", "tensile_mpa": "tensile"}
    found = []
    for name, key in (("e140_hrc", "HRC"), ("e140_hrb", "HRB"), ("british", "HV")):
        printed = [row for row in tables.load("hardness_conversion").rows if row["relation"] == name]
        rows = [
            _Row(
                {scale: float(row[column]) for column, scale in columns.items() if row[column]},
                cast(Status, row["status"]),
            )
            for row in printed
        ]
        rows.sort(key=lambda row: row.at[key])
        (source,) = {row["source"] for row in printed}
        found.append(_Relation(source, tuple(rows)))
    return found[0], found[1], found[2]
