"""The columns of a batch as CSV: those that are read, one a field of a request, and those that are written."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator, Mapping
from typing import NamedTuple

from borewright.contract.fields.composites import Array, Object, ObjectSchema, OneOf, ShortForm
from borewright.contract.fields.request_units import BARE_UNITS
from borewright.contract.fields.strict import Choice, QuantityField, StrictField

from .bodies import HoleSpecRequestBody


class Column(NamedTuple):
    """A column: ``kind`` is text, figure (a number, or text with its unit), figures (one, or several between ``;``),
    flag (true, false) or list (``;``).

    ``words`` are those that a cell, or an item of its list, may hold; none where it may hold any.
    """

    kind: str
    meaning: str
    words: tuple[str, ...]


#: Objects whose fields have no columns, each with the reason.
WITHOUT_COLUMNS: Mapping[str, str] = {
    "thread": "a callout says it",
    "percent_thread": "a cell holds the target; bounds are for JSON",
    "finish.thickness": "a cell holds one value; limits are for JSON",
    "finish.heat_treat_growth": "a pair of limits: JSON only",
    "shop_figures": "lists of figures: JSON, or a default of the batch",
    "machine.drill_oversize": "a cell holds the mean; the spread is for JSON",
}
_KINDS = {"number": "figure", "string": "text", "boolean": "flag", "array": "list"}
_END_OF_SENTENCE = re.compile(r"(?<!e\.g)\.(?: |$)")


def fields_with_columns(
    schema: type[ObjectSchema], path: str = "", without: Container[str] = WITHOUT_COLUMNS
) -> Iterator[tuple[str, StrictField]]:
    """Dotted name of every field of a request that has a column; those in ``without`` have no inner ones."""
    for attribute, field in schema._declared_fields.items():
        assert isinstance(field, StrictField)
        name = f"{path}{field.data_key or attribute}"
        if not isinstance(field, Object):
            yield name, field
        whole = field.options.get("object") if isinstance(field, OneOf) else field
        if isinstance(whole, Object) and name not in without:
            alone = field.short if isinstance(field, ShortForm) else None
            inner = fields_with_columns(whole.schema_class, f"{name}.", without)
            yield from (one for one in inner if one[0] != f"{name}.{alone}")


def column_of(field: StrictField) -> Column:
    """The column of a field."""
    kind = next(kind for taken, kind in _KINDS.items() if taken in field.takes)
    if isinstance(field, OneOf):  # a cell holds what is no object
        field = next(option for taken, option in field.options.items() if taken != "object")
    item = field.item if isinstance(field, Array) else field
    words = item.words if isinstance(item, Choice) else ()
    return Column(kind, _meaning(field, words), words)


def _meaning(field: StrictField, words: tuple[str, ...]) -> str:
    """The first sentence of what a field says of itself, with the words that it may hold or the units of numbers."""
    said = _END_OF_SENTENCE.split(field.metadata["description"], 1)[0]
    if said[1].islower():
        said = said[0].lower() + said[1:]
    if not all(word in said for word in words):
        said += f" ({', '.join(words[:-1])} or {words[-1]})"
    if isinstance(field, QuantityField) and field.dimension in BARE_UNITS:
        said += f"; a bare number is in {' or '.join(BARE_UNITS[field.dimension])}"
    return said


_FOUND = dict(fields_with_columns(HoleSpecRequestBody))
#: Columns that are read, each the dotted name of a field of a request.
COLUMNS: Mapping[str, Column] = {name: column_of(field) for name, field in _FOUND.items()}
#: Name of the field that a text stands for, where further columns say more of its object.
TEXT_OF: Mapping[str, str] = {
    name: field.short for name, field in _FOUND.items() if isinstance(field, ShortForm) and name not in WITHOUT_COLUMNS
}

_CUTTING: dict[str, str] = {
    "units.cutting_speed": "unit of every cutting speed in this row",
    "units.feed": "unit of every feed in this row",
    "units.torque": "unit of every torque in this row",
    "units.power": "unit of every power in this row",
    "units.force": "unit of the thrust in this row",
    "cutting_data.drill.cutting_speed": "cutting speed of the drill",
    "cutting_data.drill.spindle_speed": "spindle speed of the drill in rev/min",
    "cutting_data.drill.feed": "feed of the drill",
    "cutting_data.drill.torque": "torque of the drill",
    "cutting_data.drill.power": "power of the drill",
    "cutting_data.drill.thrust": "thrust of the drill",
    "cutting_data.drill.time": "time of drilling in seconds",
    "cutting_data.tap.cutting_speed": "cutting speed of the tap",
    "cutting_data.tap.spindle_speed": "spindle speed of the tap in rev/min",
    "cutting_data.tap.feed": "feed of the tap",
    "cutting_data.tap.torque.value": "torque of the tap, in the middle of its band",
    "cutting_data.tap.torque.low": "low end of the band",
    "cutting_data.tap.torque.high": "high end of the band",
    "cutting_data.tap.breaking_torque.value": "torque that breaks the tap, in the middle of its band",
    "cutting_data.tap.clutch_torque": "torque at which a clutch is set to slip",
    "cutting_data.tap.power": "power of the tap",
    "cutting_data.tap.time": "time of tapping in seconds",
    "cutting_data.fluid.drilling": "fluid of the drill",
    "cutting_data.fluid.tapping": "fluid of the tap",
}
_GAUGES: dict[str, str] = {
    "gauging.thread_plug.tolerance": "tolerance of the thread plugs",
    **{
        f"gauging.{plug}.{side}{size}.{end}": "limit of a gauge"
        for plug, size in (("thread_plug", ".pitch_diameter"), ("plain_plug", ""))
        for side in ("go", "not_go")
        for end in ("min", "max")
    },
}
#: Columns that say where an item stood.
OF_PLACE = ("index", "row", "same_id_as_row")
#: Columns of an answer, each the dotted name of a field of the reply; lists are joined by `` | ``.
OUTPUT: dict[str, str] = {
    "index": "place of the item, a count from 0",
    "row": "row of the sheet that was sent, as a spreadsheet counts it",
    "same_id_as_row": "row before this one that has the same id",
    "id": "as it was sent",
    "status": "ok or error",
    "spec_id": "name of the specification",
    "verdict": "ready, review or infeasible",
    "review.code": "codes of what a person must decide",
    "review.text": "what a person must decide",
    "headline.drill": "drill, and how deep",
    "headline.tap": "tap, or what makes the thread instead",
    "headline.depth": "full thread and drilled depth",
    "headline.speed": "speeds and feed",
    "headline.gauge": "what is gauged after tapping",
    "limits.gauge_now": "to_tap or finished: the limits that are gauged after tapping",
    "limits.to_tap.pitch_diameter.min": "limit that the tap must make",
    "limits.to_tap.pitch_diameter.max": "limit that the tap must make",
    "limits.to_tap.minor_diameter.min": "limit that the tap must make",
    "limits.to_tap.minor_diameter.max": "limit that the tap must make",
    "limits.finished.pitch_diameter.min": "limit of the finished part",
    "limits.finished.pitch_diameter.max": "limit of the finished part",
    "limits.finished.minor_diameter.min": "limit of the finished part",
    "limits.finished.minor_diameter.max": "limit of the finished part",
    "units.length": "unit of every length in this row",
    "thread.designation": "callout in the standard's own words",
    "thread.internal.pitch_diameter.min": "limit of size",
    "thread.internal.pitch_diameter.max": "limit of size",
    "thread.internal.minor_diameter.min": "limit of size",
    "thread.internal.minor_diameter.max": "limit of size",
    "drill.recommended.label": "drill",
    "drill.recommended.diameter": "diameter of the drill",
    "drill.recommended.percent_thread": "percent of thread of the drill's own diameter",
    "drill.recommended.operation": "drill or ream",
    "drill.recommended.acceptance": "chance that the hole holds its limits",
    "tap.recommended.style": "style of the tap",
    "tap.recommended.chamfer.name": "chamfer of the tap",
    "tap.recommended.limit.label": "pitch-diameter limit of the tap",
    "tap.recommended.marking": "what is etched on the tap's shank",
    "tap.recommended.availability": "standard or special",
    "tap.recommended.acceptance": "chance that the thread holds its limits",
    "depths.drill_depth": "depth of full drill diameter",
    "depths.drill_tip_depth": "depth of the drill's tip",
    "depths.full_thread_depth": "depth of full thread",
    "depths.tap_travel": "travel of the tap's tip",
    "depths.countersink_diameter": "diameter of the countersink",
    "depths.counterbore_diameter": "diameter of the counterbore or spotface",
    "depths.counterbore_depth": "depth of the counterbore",
    **_CUTTING,
    **_GAUGES,
    "operations.text": "lines of the routing",
    "cautions.code": "codes of what can cost money or hurt people",
    "cautions.text": "what can cost money or hurt people",
    "tables_version": "fingerprint of the tables",
    "rules_version": "fingerprint of the rules",
    "problem.code": "code of the problem",
    "problem.detail": "what is wrong",
    "problem.errors.pointer": "fields that are refused",
}
