"""The columns of a batch as the command line of the client knows them."""

from __future__ import annotations

import csv
import io

from borewright.contract.requests.csv_columns import COLUMNS, OUTPUT, TEXT_OF


def columns_csv() -> str:
    """A row a column: name, ``read`` or ``written``, kind, words by ``;``, field that its text stands for, meaning."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(("name", "use", "kind", "words", "text_of", "meaning"))
    for name, column in COLUMNS.items():
        rows.writerow((name, "read", column.kind, ";".join(column.words), TEXT_OF.get(name, ""), column.meaning))
    for name, meaning in OUTPUT.items():
        rows.writerow((name, "written", "", "", "", meaning))
    return text.getvalue()
