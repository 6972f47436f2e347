"""A hole specification in less detail: parts of the full reply, each where it stands there and with the same value.

`figures` leaves out texts, tools that were not taken, and figures that stand in the reply already; `routing` is the
card and the operations. What a person is warned of is told in both: by code, and in full.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any, cast

from borewright.core.plan.operation import Operation
from borewright.core.plan.specification import Specification

from .figures_only import kept_fields
from .hole_spec import HoleSpecReply
from .note_items import CautionItem
from .operations import OperationItem, operation_texts
from .reply import Ending, Part, Reply, WrittenReply, WrittenRows
from .reply_fields import free, section
from .schema import ReplyField, SectionSchema, placed, value_of
from .section_notes import SectionNotes, cautions

_NOT_IN_FIGURES = frozenset(
    {
        *Reply._declared_fields,  # the ending has its own
        *(f"finish.{name}" for name in ("thread", "finished", "before_finish", "remedies")),
        *(f"drill.{name}" for name in ("thread", "rule", "minor_diameter_limits", "alternatives", "rejected")),
        "drill.recommended.reasons",
        *(f"tap.{name}" for name in ("thread", "limits_to_make", "alternatives", "rejected")),
        *(
            f"tap.recommended.{name}"
            for name in ("reasons", "fit.limits", "second_tap.reasons", "second_tap.fit.limits")
        ),
        "reach.advice",
        "gauging.acceptance",
        "acceptance.model",
        "comparison.reasons",
    }
)
#: What names a tool, the first one that it has.
_NAME = ("label", "marking", "kind")
#: Operations whose parameters are figures of `depths`, `cutting_data`, `limits` or `finish`.
_TOLD_IN_SECTIONS = ("drill", "tap", "inspect", "finish")


def _named_tool(operation: Operation) -> dict[str, object]:
    tool = operation.line.tool
    named = next(name for name in _NAME if tool.get(name))
    return {named: tool[named]}


def _own_parameters(operation: Operation) -> object:
    return None if operation.line.operation in _TOLD_IN_SECTIONS else operation.line.parameters or None


def _declared(schema: type[SectionSchema], *names: str) -> dict[str, ReplyField]:
    return {name: cast("ReplyField", schema._declared_fields[name]) for name in names}


def _schema(
    base: type[SectionSchema],
    name: str,
    about: str,
    fields: Mapping[str, ReplyField],
    in_full: type[SectionSchema] | None = None,
) -> Any:
    return type(name, (base,), {"__doc__": about, "in_full": in_full, **fields})


OperationInShort = _schema(
    SectionSchema,
    "OperationInShort",
    "One line of a routing, its tool in a word.",
    {
        **_declared(OperationItem, "sequence", "operation"),
        "tool": free("Of the tool its label, marking or kind.", source=_named_tool),
        **_declared(OperationItem, "time", "text"),
    },
    in_full=OperationItem,
)
OperationInFigures = _schema(
    OperationInShort,
    "OperationInFigures",
    "One line of a routing, its tool in a word, with the figures that stand in no section.",
    {
        "parameters": free(
            "What it does, lengths in `units.length`; absent where sections say it: of drill, tap, gauges, finish.",
            source=_own_parameters,
            present=False,
        )
    },
    in_full=OperationItem,
)
CautionCode = _schema(
    SectionSchema,
    "CautionCode",
    "Something that can cost money or hurt people.",
    _declared(CautionItem, "code"),
    in_full=CautionItem,
)


def _operations(schema: type[SectionSchema]) -> dict[str, ReplyField]:
    texts = partial(operation_texts, schema)
    return {"operations": WrittenRows("The operations in shop order.", section("One of them.", schema), texts)}


FiguresEnding = _schema(
    Ending,
    "FiguresEnding",
    "What replies in figures carry.",
    {
        **_declared(Reply, "units"),
        "cautions": WrittenRows(
            "What can cost money or hurt people, by code; `detail` full and routing have the texts.",
            section("One of them.", CautionCode),
            partial(cautions, CautionCode),
            source="notes",
        ),
        **_declared(Reply, "tables_version", "rules_version", "derivation"),
    },
)
HoleSpecFigures = _schema(
    FiguresEnding,
    "HoleSpecFigures",
    "Reply of POST /v1/hole-specs with `detail` figures: the fields of the full reply that hold figures. A field"
    " inside a section that has no value is left out.",
    {one.name: field for one, field in kept_fields(HoleSpecReply, _NOT_IN_FIGURES)} | _operations(OperationInFigures),
    in_full=HoleSpecReply,
)
RoutingEnding = _schema(
    Ending,
    "RoutingEnding",
    "What routings carry.",
    _declared(Reply, "cautions", "tables_version", "rules_version"),
)
HoleSpecRouting = _schema(
    RoutingEnding,
    "HoleSpecRouting",
    "Reply of POST /v1/hole-specs with `detail` routing: what a routing and a card at the machine need.",
    _declared(HoleSpecReply, "id", "spec_id", "verdict", "review", "headline") | _operations(OperationInShort),
    in_full=HoleSpecReply,
)

#: A hole specification in each detail.
BY_DETAIL: Mapping[str, type[Ending]] = {
    "full": HoleSpecReply,
    "figures": HoleSpecFigures,
    "routing": HoleSpecRouting,
}
DETAILS = tuple(BY_DETAIL.values())
_NOTED = [one for one in placed(HoleSpecReply) if isinstance(one.field, Part) and one.field.noted]


def notes_not_shown(schema: type[Ending], spec: Specification) -> list[SectionNotes]:
    """The notes of the sections of a specification that a reply by this schema does not show."""
    found = ((one.name, value_of(one.source)(spec)) for one in _NOTED if one.name not in schema._declared_fields)
    return [SectionNotes(record.notes, f"{name}.") for name, record in found if record is not None]


def hole_spec(description: str, *, present: bool = True) -> WrittenReply:
    """A hole specification in the detail that was asked for."""
    return WrittenReply(f"{description} `detail` says which of the schemas.", *DETAILS, present=present)
