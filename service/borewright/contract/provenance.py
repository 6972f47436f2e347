"""Where the figures come from: rows of the tables by status and document, and how many answers lean on each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import cast

from borewright import tables
from borewright.core.errors import BorewrightError
from borewright.core.plan.specify import specify

from . import replies
from .requests import HOLE_SPEC
from .unit_view import Json

#: Everyday holes over which it is counted what answers lean on: every thread with every part, blind and through.
THREADS = ("1/4-20 UNC-2B", "3/8-16 UNC-2B", "#10-32 UNF-2B", "1/4-20 STI", "M6", "M10x1", "1/4-18 NPT", "G 1/4")
PARTS = (
    ("1045", None),
    ("4140 28 HRC", "ASTM B633 Fe/Zn 8"),
    ("6061-T6", "MIL-A-8625 Type II"),
    ("grey iron class 30", None),
)
_UNNAMED = "no document named"
STATUSES = ("published", "second_hand", "computed", "common_practice", "from_memory")


@dataclass(slots=True)
class _Document:
    """What is held of a document under one status."""

    rows: int = 0
    tables: set[str] = field(default_factory=set)
    answers: int = 0
    fields: set[str] = field(default_factory=set)


_Known = dict[tuple[str, str], _Document]


def rows() -> list[object]:
    """Documents by status, those most leaned on first; a row says of how many answers it counts."""
    known: _Known = {}
    _of_tables(known)
    asked = _of_answers(known)
    order = sorted(known, key=lambda key: (STATUSES.index(key[0]), -known[key].answers, -known[key].rows, key[1]))
    return [_row(status, document, known[status, document], asked) for status, document in order]


def _row(status: str, document: str, held: _Document, asked: int) -> Json:
    return {
        "status": status,
        "document": document,
        "rows": held.rows,
        "tables": sorted(held.tables),
        "answers": held.answers,
        "of_answers": asked,
        "fields": sorted(held.fields),
    }


def _of_tables(known: _Known) -> None:
    for name in tables.names():
        table = tables.load(name)
        for row in table.rows:
            status = row.get("status") or table.head["status"]
            held = known.setdefault((status, _document(row, table.head["document"])), _Document())
            held.rows += 1
            held.tables.add(name)


def _document(row: Mapping[str, str], of_table: str) -> str:
    """The document of a row, else that of its table, whose head may only point at a column that is blank here."""
    named = row.get("source") or row.get("document")
    return named or (_UNNAMED if "see " in of_table else of_table)


def _of_answers(known: _Known) -> int:
    asked = 0
    for sources in _answers():
        asked += 1
        named = {(source["status"], source["document"]) for source in sources}
        for key in named:
            known.setdefault(key, _Document()).answers += 1
        for source in sources:
            known[source["status"], source["document"]].fields.add(source["for"])
    return asked


def _answers() -> Iterator[list[dict[str, str]]]:
    """The sources of each everyday hole; what cannot be made has no answer."""
    for number, thread in enumerate(THREADS):
        for part, (material, finish) in enumerate(PARTS):
            hole = {"type": "through", "thickness": "0.5 in"}
            if (number + part) % 2:
                hole = {"type": "blind", "full_thread_depth": "0.5 in"}
            body = {"thread": thread, "hole": hole, "material": material, **({"finish": finish} if finish else {})}
            asked = HOLE_SPEC.asked(body)
            try:
                yield cast("list[dict[str, str]]", replies.hole_spec_reply(specify(asked.request), asked)["sources"])
            except BorewrightError:
                continue
