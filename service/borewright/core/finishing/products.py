"""The finish tables as objects: one product a specification and class, and the catalogue of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby
from typing import Literal, cast

from borewright.core.caches import read_once
from borewright.core.model import MM_PER_INCH, Range, Status, Unit
from borewright.core.rounding import half_even
from borewright.tables import load

from .designators import phrase

MaxRule = Literal["stated", "one_and_a_half", "drawing", "gauge", "must_be_given", "no_build_up"]
Phrase = tuple[str, ...]

#: Decimals kept when a thickness is converted: a hundredth of a microinch, a nanometre.
CONVERTED_PLACES: Mapping[Unit, int] = {"in": 8, "mm": 6}
_UM = Decimal("0.001")


@dataclass(frozen=True, slots=True)
class FinishSpecification:
    """A finish document or process: how it is written, and what it says that does not touch thickness."""

    name: str
    keys: tuple[Phrase, ...]
    family: str
    neutral: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Product:
    """One row of the finish table.

    ``alternatives`` are the ways its class is written, each a set of phrases that all must stand in the text;
    ``thickness_um`` and ``thickness_in`` are filled where the document prints that unit; ``in_holes`` tells whether
    the minimum holds inside a threaded hole.
    """

    specification: FinishSpecification
    finish_class: str | None
    alternatives: tuple[tuple[Phrase, ...], ...]
    neutral: tuple[str, ...]
    process: str
    substrate: str
    thickness_um: Range
    thickness_in: Range
    growth: Range
    growth_status: Status
    max_rule: MaxRule
    in_holes: bool
    after_finish: bool
    over_in: Decimal | None
    up_to_in: Decimal | None
    document: str
    edition: str
    locator: str
    status: Status
    note: str

    @property
    def label(self) -> str:
        """Specification and class as one text, which reads back to this product."""
        name = self.specification.name
        return f"{name} {self.finish_class}" if self.finish_class else name

    @property
    def states_thickness(self) -> bool:
        """Whether the row holds a figure, or needs none."""
        return self.max_rule != "must_be_given"

    def thickness(self, unit: Unit) -> Range:
        """Printed thickness in ``unit``, converted only where the document does not print that unit."""
        printed = self.thickness_in if unit == "in" else _times(self.thickness_um, _UM)
        if printed.min is not None or printed.max is not None:
            return printed
        other, factor = (self.thickness_um, _UM / MM_PER_INCH) if unit == "in" else (self.thickness_in, MM_PER_INCH)
        return Range(_converted(other.min, factor, unit), _converted(other.max, factor, unit))

    def least(self, unit: Unit) -> tuple[Decimal, ...]:
        """The minimum in ``unit`` as each unit of the document prints it (8 um and 0.0003 in), where it prints no
        maximum.
        """
        um, inches = self.thickness_um, self.thickness_in
        to_mm = Decimal(1) if unit == "mm" else 1 / MM_PER_INCH
        printed = ((um, _UM), (inches, MM_PER_INCH))
        return tuple(one.min * to * to_mm for one, to in printed if one.min is not None and one.max is None)


@dataclass(frozen=True, slots=True)
class FinishEntry:
    """One row of ``GET /v1/catalog/finishes``. Thickness is given in the unit or units the document prints."""

    specification: str
    finish_class: str | None
    family: str
    process: str
    substrate: str
    thickness_um: Range
    thickness_in: Range
    growth_fraction: Range
    max_rule: MaxRule
    minimum_holds_in_holes: bool
    applied: Literal["before_finish", "after_finish"]
    document: str
    edition: str
    locator: str
    status: Status
    note: str


@read_once
def specifications() -> Mapping[str, FinishSpecification]:
    """Every finish specification by name, in the order of the table."""
    return {
        row["specification"]: FinishSpecification(
            row["specification"],
            tuple(phrase(key) for key in _split_cell(row["keys"])),
            row["family"],
            tuple(_split_cell(row["neutral"])),
        )
        for row in load("finish_specifications").rows
    }


@read_once
def products() -> Mapping[str, tuple[Product, ...]]:
    """Rows of the finish table by name of specification."""
    rows = (_product(row) for row in load("finishes").rows)
    return {name: tuple(group) for name, group in groupby(rows, key=lambda one: one.specification.name)}


def family_of(specification: str | None) -> str:
    """Family of a specification by its name, blank where there is none.

    Source: finish_specifications.csv.
    """
    known = specifications().get(specification or "")
    return "" if known is None else known.family


@read_once
def catalogue() -> tuple[FinishEntry, ...]:
    """All finishes that can be asked for by specification and class."""
    return tuple(
        FinishEntry(
            specification=one.specification.name,
            finish_class=one.finish_class,
            family=one.specification.family,
            process=one.process,
            substrate=one.substrate,
            thickness_um=one.thickness_um,
            thickness_in=one.thickness_in,
            growth_fraction=one.growth,
            max_rule=one.max_rule,
            minimum_holds_in_holes=one.in_holes,
            applied="after_finish" if one.after_finish else "before_finish",
            document=one.document,
            edition=one.edition,
            locator=one.locator,
            status=one.status,
            note=one.note,
        )
        for rows in products().values()
        for one in rows
    )


def _product(row: Mapping[str, str]) -> Product:
    return Product(
        specification=specifications()[row["specification"]],
        finish_class=row["finish_class"] or None,
        alternatives=tuple(tuple(phrase(part) for part in way.split("&")) for way in _split_cell(row["class_keys"])),
        neutral=tuple(_split_cell(row["neutral"])),
        process=row["process"],
        substrate=row["substrate"],
        thickness_um=Range(_number(row["t_min_um"]), _number(row["t_max_um"])),
        thickness_in=Range(_number(row["t_min_in"]), _number(row["t_max_in"])),
        growth=Range(Decimal(row["growth_min"]), Decimal(row["growth_max"])),
        growth_status=cast(Status, row["growth_status"]),
        max_rule=cast(MaxRule, row["max_rule"]),
        in_holes=row["min_in_holes"] == "guaranteed",
        after_finish=row["applied"] == "after_finish",
        over_in=_number(row["over_in"]),
        up_to_in=_number(row["up_to_in"]),
        document=row["document"],
        edition=row["edition"],
        locator=row["locator"],
        status=cast(Status, row["status"]),
        note=row["note"],
    )


def _split_cell(cell: str) -> list[str]:
    return cell.split("|") if cell else []


def _number(cell: str) -> Decimal | None:
    return Decimal(cell) if cell else None


def _times(printed: Range, factor: Decimal) -> Range:
    return Range(
        None if printed.min is None else printed.min * factor, None if printed.max is None else printed.max * factor
    )


def _converted(value: Decimal | None, factor: Decimal, unit: Unit) -> Decimal | None:
    return None if value is None else half_even(value * factor, CONVERTED_PLACES[unit])
