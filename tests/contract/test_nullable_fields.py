"""A field of a reply may be null, or left out, exactly where the value that it shows may be None.

What a value may be is said by the types of the records, which the type checker holds against the code.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import types
from collections.abc import Iterator
from functools import cache
from typing import Any, NamedTuple, Union, get_args, get_origin, get_type_hints

from borewright.contract import sections as all_sections
from borewright.contract.compare.comparison import Comparison
from borewright.contract.sections.audit import AuditReply, AuditWithSpecification
from borewright.contract.sections.compare import CompareReply
from borewright.contract.sections.drill import DrillReply
from borewright.contract.sections.finish import AllowanceReply
from borewright.contract.sections.hole_spec import HoleSpecReply
from borewright.contract.sections.notes import NoteReply, ReadNote
from borewright.contract.sections.part_plan import PartPlanReply, PartPlanShown
from borewright.contract.sections.rework import ReworkReply, ReworkShown
from borewright.contract.sections.schema import FieldRows, NestedSection, ReplyField, SectionSchema, placed, the_record
from borewright.contract.sections.tap import TapDecodeReply, TapReply
from borewright.contract.sections.thread import ThreadReply
from borewright.core.model import Thread
from borewright.core.plan.specification import AllowanceResult, DrillResult, Specification, TapResult
from borewright.core.tapping import TapMarking

REPLIES: tuple[tuple[type[SectionSchema], type], ...] = (
    (HoleSpecReply, Specification),
    (ThreadReply, Thread),
    (DrillReply, DrillResult),
    (TapReply, TapResult),
    (AllowanceReply, AllowanceResult),
    (TapDecodeReply, TapMarking),
    (AuditReply, AuditWithSpecification),
    (CompareReply, Comparison),
    (NoteReply, ReadNote),
    (PartPlanReply, PartPlanShown),
    (ReworkReply, ReworkShown),
)
#: Fields that differ, by the reason.
OTHERWISE = {
    "speeds, feeds and times of a tool whose data are held: without them the object itself is null": {
        *(("DrillCutItem", name) for name in ("cutting_speed", "cutting_speed_range", "spindle_speed", "feed", "time")),
        ("DrillCutItem", "peck"),
        ("TapCutItem", "feed"),
    },
    "of the limit that fits: where none does the object itself is null": {
        *(("FittedLimit", name) for name in ("label", "pitch_diameter", "status")),
    },
    "an empty list is left out": {("ProblemFault", "allowed"), ("ProblemFault", "did_you_mean")},
}


class Shown(NamedTuple):
    """A field, and whether the value that it shows may be None."""

    section: str
    name: str
    field: ReplyField
    may_be_none: bool


@cache
def members(record: type) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for one in reversed(record.__mro__[:-1]):
        found |= {} if one is tuple else get_type_hints(one)
    return found


def without_none(kind: Any) -> tuple[Any, bool]:
    """A type without None, and whether that was in it."""
    if get_origin(kind) not in (Union, types.UnionType):
        return kind, False
    rest = [one for one in get_args(kind) if one is not type(None)]
    return rest[0] if len(rest) == 1 else None, len(rest) < len(get_args(kind))


def type_at(record: Any, source: Any) -> tuple[Any, bool]:
    """The type of what a source takes from a record, and whether it may be None; no type where none is written."""
    if source is the_record:
        return record, False
    if not isinstance(source, str):
        return without_none(get_type_hints(source).get("return"))
    may_be_none = False
    for name in source.split("."):
        if not isinstance(record, type):
            return None, False
        found = members(record).get(name)
        if found is None and isinstance(made := inspect.getattr_static(record, name, None), property):
            found = get_type_hints(made.fget)["return"]
        record, or_none = without_none(found)
        may_be_none |= or_none
    return record, may_be_none


def fields(schema: type[SectionSchema], record: Any, seen: set[Any]) -> Iterator[Shown]:
    """Every field whose value has a written type, those of objects and rows in it too."""
    if (schema, record) in seen:
        return
    seen.add((schema, record))
    for one in placed(schema):
        if one.source == schema.further:
            continue
        kind, may_be_none = type_at(record, one.source)
        if kind is None:
            continue
        yield Shown(schema.__name__, one.name, one.field, may_be_none)
        if isinstance(one.field, NestedSection):
            yield from fields(one.field.schema_class, kind, seen)
        elif isinstance(one.field, FieldRows) and isinstance(one.field.row, NestedSection) and get_args(kind):
            yield from fields(one.field.row.schema_class, get_args(kind)[0], seen)


def test_a_field_may_be_null_where_its_value_may_be_none():
    seen: set[Any] = set()
    found = [one for schema, record in REPLIES for one in fields(schema, record, seen)]
    wrong = {
        (one.section, one.name)
        for one in found
        if one.may_be_none is not (one.field.allow_none or not one.field.required)
    }
    assert len(found) > 400
    assert wrong == set().union(*OTHERWISE.values())


#: Of values that no type says: fields that may be null (?) or are left out, of the section that declares them.
NOT_ALWAYS = {
    # a reply tells its steps where they are asked for, a list its pages where one is
    "Reply": "derivation", "CatalogueReply": "page page_size pages total", "ThreadCatalogReply": "units",
    "CatalogItem": "series? threads_per_inch?", "StepItem": "value?", "Problem": "remedy",
    # an item has an answer or a problem, and of a sheet its row
    "AuditResult": "id? audit problem", "BatchResult": "row same_id_as_row id? spec problem",
    "CompareResult": "id? comparison problem", "ReworkResult": "row same_id_as_row id? rework problem",
    "RowRead": "same_id_as_row id? request problem", "BatchReply": "columns", "ReworkBatchReply": "columns",
    "HeadingRead": "read_as? unit", "CellFault": "column cell",
    # what was added has no value before, what was removed none after
    "DifferenceItem": "before? after?",
    "NoteHoleItem": "as_planned?", "ProofSection": "loss? loss_bound?", "LoadingItem": "spindle_speed? feed?",
    # a count has no mean and spread, a mean no count
    "FittedItem": "prior? data? posterior? interval? counted? without_outliers? next?",
    "CountedItem": "inside? chance_of_a_break?",
    # a kept figure says what it holds for, as far as it was said of the measurements
    "KeptGrouped": "weight date material_group machine", "KeptOversize": "drill_style", "KeptCut": "tapping tap_style",
    "KeptCoat": "specification class plater", "KeptTorque": "fluid tap_style",
    # a thread has what its system has
    "ThreadSection": "pipe insert tolerance other_edition engagement external_reference external_root truncation"
    " multi_start mates",
}  # fmt: skip


def declared(schema: type[SectionSchema]) -> Iterator[tuple[str, ReplyField]]:
    """The fields that a section declares itself."""
    inherited = {name for base in schema.__bases__ for name in getattr(base, "_declared_fields", {})}
    for name, field in schema._declared_fields.items():
        if name not in inherited:
            assert isinstance(field, ReplyField)
            yield field.data_key or name, field


def sections() -> Iterator[type[SectionSchema]]:
    """Every section that a module of the sections declares, once."""
    for module in pkgutil.iter_modules(all_sections.__path__):
        names = vars(importlib.import_module(f"{all_sections.__name__}.{module.name}"))
        for one in names.values():
            if isinstance(one, type) and issubclass(one, SectionSchema) and one.__module__.endswith(f".{module.name}"):
                yield one


def test_other_fields_are_left_out_or_null_where_there_is_nothing_to_say():
    seen: set[Any] = set()
    typed = {(one.section, one.name) for schema, record in REPLIES for one in fields(schema, record, seen)}
    found: dict[str, set[str]] = {}
    for schema in sections():
        if schema.__name__ != "ReworkProof":  # each of its figures is there where the way has it
            rest = {name: field for name, field in declared(schema) if (schema.__name__, name) not in typed}
            said = {f"{name}?" if field.required else name for name, field in rest.items() if not_always(field)}
            found |= {schema.__name__: said} if said else {}
    assert found == {name: set(text.split()) for name, text in NOT_ALWAYS.items()}


def not_always(field: ReplyField) -> bool:
    return field.allow_none or not field.required
