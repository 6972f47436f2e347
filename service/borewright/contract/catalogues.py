"""Catalogues: what the tables hold. A figure's unit is in its name, because lists mix inch and millimetre standards."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from decimal import Decimal
from math import ceil
from typing import Any

from borewright import tables
from borewright.contract.requests.queries import CatalogFilter, RowsWanted
from borewright.core import drilling, finishing, standards
from borewright.core.caches import read_once
from borewright.core.errors import BorewrightError, nearest
from borewright.core.materials import part_material
from borewright.core.model import CatalogueEntry, Material, Notes, Range
from borewright.core.tapping.catalogue import limits_catalogue

from . import provenance
from .fields import units
from .unit_view import REPLY_UNITS, Json, number, number_or_none, view

_ALL_ROWS = RowsWanted()
_PAGE_SIZE = 100


def thread_catalog(wanted: CatalogFilter) -> Json:
    """Reply of GET /v1/threads/catalog: one page of the standard sizes. Raises BorewrightError."""
    found = [entry for entry in _of_system(wanted.system) if _matches(entry, wanted)]
    body = _page(found, wanted.page, wanted.page_size)
    body["items"] = [_entry(entry, wanted) for entry in body["items"]]
    if wanted.unit is not None:
        body["units"] = REPLY_UNITS[wanted.unit]
    body["tables_version"] = tables.version()
    return body


def _page(found: Sequence[Any], page: int, page_size: int) -> dict[str, Any]:
    first = (page - 1) * page_size
    return {
        "items": found[first : first + page_size],
        "page": page,
        "page_size": page_size,
        "pages": ceil(len(found) / page_size),
        "total": len(found),
    }


def _of_system(system: str | None) -> Iterable[CatalogueEntry]:
    if system is None:
        return standards.catalogue()
    known = [row.system for row in standards.coverages()]
    if system not in known:
        raise BorewrightError(
            "thread_system_unknown",
            "No thread system of that name is held.",
            pointer="/system",
            allowed=known,
            did_you_mean=nearest(system, known),
        )
    return (entry for entry in standards.catalogue() if entry.system == system)


def _matches(entry: CatalogueEntry, wanted: CatalogFilter) -> bool:
    if wanted.series is not None and (entry.series or "").casefold() != wanted.series.casefold():
        return False
    if wanted.min_diameter is not None and entry.nominal_diameter < wanted.min_diameter.to(entry.unit):
        return False
    return wanted.max_diameter is None or entry.nominal_diameter <= wanted.max_diameter.to(entry.unit)


def _entry(entry: CatalogueEntry, wanted: CatalogFilter) -> Json:
    figures = view(entry.unit, wanted.unit)
    return {
        "designation": entry.designation,
        "system": entry.system,
        "series": entry.series,
        "size": entry.size,
        "unit": figures.asked,
        "nominal_diameter": figures.length(entry.nominal_diameter),
        "pitch": figures.length(entry.pitch),
        "threads_per_inch": number_or_none(entry.threads_per_inch),
        "classes": list(entry.classes),
    }


def catalogue(name: str, wanted: RowsWanted = _ALL_ROWS) -> Json:
    """Reply of GET /v1/catalog/<name>, whole or a page of it; the name is one of :data:`CATALOGUES`."""
    rows = [row for row in catalogue_rows(name) if wanted.contains is None or _holds(row, wanted.contains.casefold())]
    if wanted.page is None and wanted.page_size is None:
        body: dict[str, Any] = {"items": rows}
    else:
        body = _page(rows, wanted.page or 1, wanted.page_size or _PAGE_SIZE)
    body["tables_version"] = tables.version()
    return body


def _holds(row: object, text: str) -> bool:
    """Whether a value of ``row`` has ``text`` in it; names of its fields do not count."""
    if isinstance(row, Mapping):
        return any(_holds(part, text) for part in row.values())
    if isinstance(row, list):
        return any(_holds(part, text) for part in row)
    return row is not None and text in str(row).casefold()


@read_once
def catalogue_rows(name: str) -> list[object]:
    """The rows of a catalogue."""
    return CATALOGUES[name]()


def _materials() -> list[object]:
    return [_material(material) for material in part_material.catalogue()]


def _material(material: Material) -> Json:
    row = _plain(material)
    assert isinstance(row, dict)
    row["sources"] = [
        {"document": source.document, "edition": source.edition, "locator": source.locator, "status": source.status}
        for source in material.notes.sources
    ]
    return row


def _units() -> list[object]:
    return [
        {"unit": unit.name, "dimension": unit.dimension, "base_unit": unit.base, "factor": number(unit.factor)}
        for unit in units.UNITS
    ]


def _rows(entries: Iterable[object]) -> list[object]:
    return [_plain(entry) for entry in entries]


def _plain(value: object) -> object:
    """A row of the domain as JSON, its notes left out."""
    if isinstance(value, Decimal):
        return number(value)
    if isinstance(value, float):
        return number(float(f"{value:.6g}"))
    if isinstance(value, Range):
        return {"min": _plain(value.min), "max": _plain(value.max)}
    if is_dataclass(value):
        found = {field.name: getattr(value, field.name) for field in fields(value)}
        return {name: _plain(part) for name, part in found.items() if not isinstance(part, Notes)}
    if isinstance(value, Mapping):
        return {name: _plain(part) for name, part in value.items()}
    if isinstance(value, (tuple, list)):
        return [_plain(part) for part in value]
    return value


CATALOGUES = {
    "materials": _materials,
    "finishes": lambda: _rows(finishing.catalogue()),
    "drills": lambda: _rows(drilling.all_drills()),
    "tap-limits": lambda: _rows(limits_catalogue()),
    "thread-systems": lambda: _rows(standards.coverages()),
    "units": _units,
    "provenance": provenance.rows,
}
