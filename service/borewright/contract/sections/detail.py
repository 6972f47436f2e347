"""Schemas of hole specifications in less detail: what the full reply has, without what the detail leaves out."""

from __future__ import annotations

from .drill import DrillItem, DrillSection
from .gauging import GaugingSection
from .hole_spec import HoleSpecReply
from .note_items import CautionItem
from .operations import OperationItem
from .reply import Units, WrittenReply
from .reply_fields import rows, section
from .schema import ReplyField, SectionSchema
from .tap import RecommendedTap, TapItem, TapSection


def _less(
    schema: type[SectionSchema], name: str, about: str, *left_out: str, **instead: ReplyField
) -> type[SectionSchema]:
    """The schema ``name`` with the fields of ``schema`` but those ``left_out``; ``instead`` are those that differ."""
    fields = {field: kind for field, kind in schema._declared_fields.items() if field not in left_out}
    return type(name, (SectionSchema,), {"__doc__": about, **fields, **instead})


def _only(schema: type[SectionSchema], name: str, about: str, *kept: str, **instead: ReplyField) -> type[SectionSchema]:
    return _less(schema, name, about, *(schema._declared_fields.keys() - set(kept)), **instead)


_TapFigures = _less(TapItem, "TapFigures", "A tap that cuts, in figures.", "reasons")
_RecommendedTapFigures = _less(
    RecommendedTap,
    "RecommendedTapFigures",
    "The tap that cuts first, in figures.",
    "reasons",
    second_tap=section("Tap that finishes the thread, null where one tap does.", _TapFigures, nullable=True),
)
_TapSectionFigures = _less(
    TapSection,
    "TapSectionFigures",
    "The choice of a tap, in figures.",
    "alternatives",
    "rejected",
    recommended=section("The tap.", _RecommendedTapFigures),
)
_DrillSectionFigures = _less(
    DrillSection,
    "DrillSectionFigures",
    "The choice of a drill, in figures.",
    "alternatives",
    "rejected",
    recommended=section("The drill.", _less(DrillItem, "DrillFigures", "A drill, in figures.", "reasons")),
)

HoleSpecFigures = _less(
    HoleSpecReply,
    "HoleSpecFigures",
    "Reply of POST /v1/hole-specs with `detail` figures: the fields of the full reply that hold figures.",
    "sources",
    "assumptions",
    drill=section("The drill; null where nothing can be planned.", _DrillSectionFigures, nullable=True),
    tap=section("The tap; null where the thread is not tapped.", _TapSectionFigures, nullable=True),
    gauging=section(
        "Gauges that accept the thread.",
        _less(GaugingSection, "GaugingFigures", "Gauges of the finished thread, in figures.", "acceptance"),
    ),
    cautions=rows(
        "What can cost money or hurt people, by code; `detail` full and routing have the texts.",
        _only(CautionItem, "CautionCode", "Something that can cost money or hurt people.", "code"),
    ),
)
HoleSpecRouting = _only(
    HoleSpecReply,
    "HoleSpecRouting",
    "Reply of POST /v1/hole-specs with `detail` routing: what a routing and a card at the machine need.",
    "id",
    "spec_id",
    "verdict",
    "review",
    "headline",
    "units",
    "cautions",
    "tables_version",
    "rules_version",
    operations=rows(
        "The operations of the hole in shop order: of the tool its label, marking or kind, of the parameters spindle"
        " speed and feed.",
        OperationItem,
    ),
    units=section(
        "Units of the numbers in this reply.",
        _only(Units, "RoutingUnits", "Units of a routing. Spindle speeds: rev/min, times: s.", "length", "feed"),
    ),
)

#: A hole specification in each detail.
DETAILS = (HoleSpecReply, HoleSpecFigures, HoleSpecRouting)


def hole_spec(description: str, *, present: bool = True) -> WrittenReply:
    """A hole specification in the detail that was asked for."""
    return WrittenReply(f"{description} `detail` says which of the schemas.", *DETAILS, present=present)
