"""The columns of a batch as the command line of the client knows them."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping

from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.requests import ALLOWANCE, DRILL, HOLE_SPEC, TAP, THREAD
from borewright.contract.requests.csv_columns import COLUMNS, OUTPUT, TEXT_OF, fields_with_columns

#: Requests that the command line makes, by the names that it calls them.
_REQUESTS: Mapping[str, ObjectSchema] = {
    "hole_spec": HOLE_SPEC,
    "thread": THREAD,
    "drill": DRILL,
    "allowance": ALLOWANCE,
    "tap": TAP,
}


def columns_csv() -> str:
    """A row a column: name, ``read`` or ``written``, kind, words, field that its text stands for, requests, meaning."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(("name", "use", "kind", "words", "text_of", "requests", "meaning"))
    fields = {request: dict(fields_with_columns(type(schema))) for request, schema in _REQUESTS.items()}
    for name, column in COLUMNS.items():
        requests = ";".join(request for request, known in fields.items() if name in known)
        words = ";".join(column.words)
        rows.writerow((name, "read", column.kind, words, TEXT_OF.get(name, ""), requests, column.meaning))
    for name, meaning in OUTPUT.items():
        rows.writerow((name, "written", "", "", "", "", meaning))
    return text.getvalue()
