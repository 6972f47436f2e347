"""The columns of a list of holes that went wrong: those of a hole, and what was found at it; those of the answer."""

from __future__ import annotations

from collections.abc import Mapping

from .csv_columns import COLUMNS, Column, column_of, fields_with_columns
from .rework import FoundObject

#: Fields of what was found that have no inner columns, each with the reason.
_WITHOUT: Mapping[str, str] = {
    "found.wrong_thread": "a callout says it",
    "found.measured.thread": "a callout says it",
}
#: Columns that are read.
REWORK_COLUMNS: Mapping[str, Column] = {
    **COLUMNS,
    **{name: column_of(field) for name, field in fields_with_columns(FoundObject, "found.", _WITHOUT)},
}
#: Columns of an answer: what is proposed first, the other ways by name, and why others are none.
REWORK_OUTPUT: Mapping[str, str] = {
    "index": "place of the item, a count from 0",
    "row": "row of the sheet that was sent, as a spreadsheet counts it",
    "same_id_as_row": "row before this one that has the same id",
    "id": "as it was sent",
    "status": "ok or error",
    "thread": "callout in the standard's own words",
    "condition": "what is wrong",
    "stage": "found before or after the finish was put on",
    "first.disposition": "what is proposed: use_as_is, rework, repair or scrap",
    "first.way": "the way that is proposed",
    "first.thread": "the thread that the hole has afterwards",
    "first.text": "the way in words",
    "first.needs_authority": "whether somebody must give leave before the work starts",
    "first.authority": "who decides",
    "first.conforms": "whether the hole meets its drawing afterwards",
    "first.operations.text": "lines of the routing",
    "first.cautions.text": "what can cost money or hurt people",
    "other.way": "the other ways, best first",
    "other.disposition": "what each of them is proposed as",
    "ruled_out.way": "ways that are none here",
    "ruled_out.why": "why they are none",
    "units.length": "unit of every length in this row",
    "tables_version": "fingerprint of the tables",
    "rules_version": "fingerprint of the rules",
    "problem.code": "code of the problem",
    "problem.detail": "what is wrong",
    "problem.errors.pointer": "fields that are refused",
}
