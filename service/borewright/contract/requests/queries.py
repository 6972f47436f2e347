"""Queries, field by field: the words of a query are read as JSON would write them, and checked as a body is."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from borewright.contract.faults import invalid, step
from borewright.contract.fields import ranges
from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.fields.request_units import UNIT_OF_SYSTEM, RequestUnits
from borewright.contract.fields.strict import Boolean, CalloutText, Choice, Number, QuantityField, Text, Whole
from borewright.core.model import Length, Unit

from . import parts
from .lengths import length

_NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,18})?")
_WORDS: Mapping[str, bool] = {"true": True, "false": False}


class ExplainQuery(ObjectSchema):
    """Query of every POST."""

    needs_a_field = False

    explain = parts.explain()


class DetailQuery(ExplainQuery):
    """Query of what answers with hole specifications."""

    detail = parts.detail()


class NoQuery(ObjectSchema):
    """Query of what has none: a POST whose body says everything, a document of one form."""

    needs_a_field = False


def _only_review() -> Choice:
    return Choice(
        "`review` shows only the items that a person must look at: every other verdict than the best, and problems.",
        ("review",),
        data_key="only",
    )


class BatchQuery(DetailQuery):
    """Query of the batches."""

    only_review = _only_review()
    unit_system = parts.unit_system()


class ReworkBatchQuery(DetailQuery):
    """Query of the batch of holes that went wrong."""

    unit_system = parts.unit_system()


class OnlyReviewQuery(NoQuery):
    """Query of the batches whose answers have one form."""

    only_review = _only_review()


class HoleSpecQuery(DetailQuery):
    """Query of POST /v1/hole-specs."""

    view = Choice(
        "`section` answers with the section drawing, as `Accept: image/svg+xml` does, also where PDF is asked for.",
        ("section",),
    )
    paper = Choice(
        "Paper of the machine sheet in PDF. Default: letter where the reply is in inches, else a4.", ("a4", "letter")
    )


class ThreadQuery(ObjectSchema):
    """Query of GET /v1/threads."""

    thread = CalloutText("Callout text as drawings print it, e.g. M8.", required=True)
    unit_system = parts.unit_system()
    length_of_engagement = length("Length of engagement. Needed where it is not the standard's normal one.")
    edition = parts.edition()
    explain = parts.explain()


@dataclass(frozen=True, slots=True)
class CatalogFilter:
    """Which standard sizes are wanted. A diameter without unit is in the unit of each size."""

    unit: Unit | None
    system: str | None = None
    series: str | None = None
    min_diameter: Length | None = None
    max_diameter: Length | None = None
    page: int = 1
    page_size: int = 100


class ThreadCatalogQuery(ObjectSchema):
    """Query of GET /v1/threads/catalog."""

    makes = CatalogFilter

    needs_a_field = False

    system = Text("Only sizes of this thread system.", longest=40, examples=("iso_metric",))
    series = Text("Only sizes of this series, any case.", longest=20, examples=("UNC",))
    min_diameter = length("Smallest nominal diameter. Without `unit_system` each size is judged in its own unit.")
    max_diameter = length("Largest nominal diameter. Without `unit_system` each size is judged in its own unit.")
    page = Whole("Page to show, a count from 1. Default: 1.", ranges.PAGE)
    page_size = Whole("Sizes a page, a count. Default: 100.", ranges.PAGE_SIZE)
    unit_system = parts.unit_system()


@dataclass(frozen=True, slots=True)
class RowsWanted:
    """Which rows of a catalogue are wanted: those that hold a text, a page of them or all (``page`` None)."""

    contains: str | None = None
    page: int | None = None
    page_size: int | None = None


class CatalogueQuery(ObjectSchema):
    """Query of GET /v1/catalog/<name>; without a page it shows all rows."""

    makes = RowsWanted

    needs_a_field = False

    contains = Text("Only rows with this text in a name, a word or a figure, any case.", longest=80, examples=("6061",))
    page = Whole("Page to show, a count from 1. Default: 1 where `page_size` is given.", ranges.PAGE)
    page_size = Whole("Rows a page, a count. Default: 100 where `page` is given.", ranges.PAGE_SIZE)


_CATALOG = ThreadCatalogQuery()
_ROWS = CatalogueQuery()
_NONE = NoQuery()


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
    given = _CATALOG.read(query_object(pairs, ThreadCatalogQuery))
    system = given.pop("unit_system", None)
    unit = None if system is None else UNIT_OF_SYSTEM[system]
    wanted: CatalogFilter = _CATALOG.convert(given, RequestUnits(unit, None), unit=unit)
    return wanted


def rows_wanted(pairs: Iterable[tuple[str, str]]) -> RowsWanted:
    """Query of GET /v1/catalog/<name>. Raises RequestInvalid."""
    wanted: RowsWanted = _ROWS.convert(_ROWS.read(query_object(pairs, CatalogueQuery)), RequestUnits(None, None))
    return wanted


def no_query(pairs: Iterable[tuple[str, str]]) -> None:
    """Raises RequestInvalid for any parameter: the address is answered in one form."""
    _NONE.read(query_object(pairs, NoQuery))
