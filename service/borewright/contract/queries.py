"""Query strings as request objects: the same schemas, the words of a query read as JSON would write them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.fields.strict import Boolean, Number, QuantityField
from borewright.contract.fields.units import Quantity
from borewright.core.model import Length, Unit

from . import request_schemas as schemas
from .faults import invalid, step

_NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,18})?")
_WORDS: Mapping[str, bool] = {"true": True, "false": False}
_CATALOG = schemas.ThreadCatalogQuery()


@dataclass(frozen=True, slots=True)
class CatalogFilter:
    """Which standard sizes are wanted. A diameter without unit is in the unit of each size."""

    system: str | None
    series: str | None
    min_diameter: Length | None
    max_diameter: Length | None
    page: int
    page_size: int
    unit: Unit | None


def query_object(pairs: Iterable[tuple[str, str]], schema: type[ObjectSchema]) -> dict[str, Any]:
    """The parameters of a query as the JSON object that ``schema`` reads.

    Raises: RequestInvalid ``parameter_repeated`` when a name stands twice.
    """
    fields = {field.data_key or name: field for name, field in schema._declared_fields.items()}
    found: dict[str, Any] = {}
    for name, text in pairs:
        if name in found:
            raise invalid("parameter_repeated", "A query parameter is given once.", pointer=step(name[:80]))
        found[name] = _json_value(text, fields.get(name))
    return found


def _json_value(text: str, field: object) -> object:
    if isinstance(field, Boolean):
        return _WORDS.get(text, text)
    if isinstance(field, (Number, QuantityField)) and _NUMBER.fullmatch(text):
        return float(text) if "." in text else int(text)
    return text


def catalog_filter(pairs: Iterable[tuple[str, str]]) -> CatalogFilter:
    """Query of GET /v1/threads/catalog. Raises RequestInvalid."""
    given = _CATALOG.read(query_object(pairs, schemas.ThreadCatalogQuery))
    unit: Unit | None = {"inch": "in", "metric": "mm", None: None}[given.get("unit_system")]
    return CatalogFilter(
        system=given.get("system"),
        series=given.get("series"),
        min_diameter=_diameter(given.get("min_diameter"), unit),
        max_diameter=_diameter(given.get("max_diameter"), unit),
        page=given.get("page") or 1,
        page_size=given.get("page_size") or 100,
        unit=unit,
    )


def _diameter(quantity: Quantity | None, unit: Unit | None) -> Length | None:
    return None if quantity is None else Length(quantity.value, quantity.unit or unit)  # type: ignore[arg-type]
