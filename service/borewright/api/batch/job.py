"""What a batch does with each of its items, and the forms in which it answers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from borewright.api.response_cache import Answer
from borewright.api.strict_json import OF_REQUEST, MostValues
from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.requests.csv_columns import COLUMNS, Column
from borewright.contract.requests.queries import BatchQuery
from borewright.contract.writers import b2mml, workbook

from .csv_form import SPECIFICATIONS, CsvForm

Json = dict[str, Any]
NDJSON, CSV, XML, XLSX = "application/x-ndjson", "text/csv", b2mml.MEDIA_TYPE, workbook.MEDIA_TYPE


@dataclass(frozen=True, slots=True)
class Job:
    """What is done with each item: ``answer`` turns the item's body into its reply, shown under ``key``.

    ``verdicts`` are those that a reply can have, the first one leaves nothing to look at. ``in_full`` makes the reply
    that other forms than JSON are written from, where it can differ. ``query`` is the schema of the batch's query,
    ``of_item`` bounds the values of an item; ``cost`` is the processor time that it may take, in that of a
    specification; ``kept`` is False where items are too large, and too seldom the same, for their answers to be kept.
    ``columns`` of a sheet are read, ``csv`` is how answers are written as one.
    """

    name: str
    key: str
    verdicts: tuple[str, ...]
    answer: Callable[[Json], Answer]
    in_full: Callable[[Json], Answer] | None = None
    query: ObjectSchema = field(default_factory=BatchQuery)
    of_item: MostValues = OF_REQUEST
    cost: int = 1
    kept: bool = True
    columns: Mapping[str, Column] = field(default_factory=lambda: COLUMNS)
    csv: CsvForm = SPECIFICATIONS
