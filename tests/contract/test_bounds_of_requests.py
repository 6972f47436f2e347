"""What a request may hold and must hold: the longest texts and lists, and the fields that are needed."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator
from typing import Any

import pytest
from borewright.contract.documents import published
from borewright.contract.faults import RequestInvalid
from borewright.contract.requests.part_plan import PartPlanQuery
from borewright.contract.requests.queries import CatalogueQuery, ThreadCatalogQuery
from every import every

SCHEMAS = {name: json.loads(text) for name, text in published.schemas_json().items() if name.endswith("-request")}
#: Names of the fields that a text of so many characters fits into. Where a quantity may be written as a text it is a
#: figure with its unit, 40; labels and sizes are as long; what a shop calls its own things 80; what a drawing prints,
#: and a caller's name of a hole, 200.
LONGEST = {
    20: "class group series",
    40: "access_depth after before calibration clearance_diameter coat date depth diameter drill drill_depth"
    " drill_depth_limit drill_diameter drill_oversize edge_distance expected_torque full_thread_depth gauge_uncertainty"
    " growth_fraction hole_diameter id lead least_drill_depth least_wall length_of_engagement limit major_diameter max"
    " max_power max_torque mean measured min percent_thread pitch pitch_diameter repeatability resolution size"
    " size_from size_to standard_deviation system tap tap_pitch_diameter tensile_strength thickness torque wall"
    " drills[]",
    60: "hardness",
    80: "batch drill_style fluid grade machine name plater tap_id tap_style",
    120: "material name taps[]",
    200: "class finish id marking part second_tap specification tap thread wrong_thread",
    400: "general_notes[]",
    4000: "note",
}
#: Fewest and most items of a list.
ITEMS = {
    "after": (1, 1000), "before": (1, 1000), "measured": (1, 1000), "torque": (1, 1000), "measurements": (1, 10000),
    "coat": (0, 200), "drill_oversize": (0, 200), "tap_life": (0, 200), "tap_oversize": (0, 200),
    "tapping_torque": (0, 200), "scale_factors": (16, 16), "drawing_allows": (0, 3), "drill_series": (1, 4),
    "drills": (0, 2000), "taps": (0, 1000), "general_notes": (0, 20), "holes": (1, 5000), "operations_order": (0, 40),
}  # fmt: skip
#: Fields without which an object says nothing.
NEEDED = {
    "thread-request": "thread", "drill-request": "thread", "tap-request": "thread", "tap-decode-request": "marking",
    "allowance-request": "thread finish", "note-request": "note", "hole-spec-request": "thread hole",
    "HoleSpecRequestBody": "thread hole", "PartHoleBody": "thread hole", "audit-request": "thread hole as_planned",
    "rework-request": "thread hole found", "compare-request": "before", "part-plan-request": "holes",
    "shop-figures-request": "measurements", "batch-request": "items", "audit-batch-request": "items",
    "compare-batch-request": "items", "rework-batch-request": "items", "ThreadObject": "system size",
    "HoleObject": "type", "CounterboreObject": "diameter", "DrillOversizeObject": "mean",
    "AsPlannedObject": "drill tap", "FoundObject": "condition", "MeasurementBody": "kind",
    "ShopFiguresObject": "unit_system", "OversizeFigure": "drill_diameter mean spread count",
    "CutFigure": "mean spread count", "CoatFigure": "mean spread count", "TorqueFigure": "median low high count",
    "TapLifeFigure": "rate rate_high broken count",
}  # fmt: skip


def objects(schema: dict[str, Any], name: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """The published schemas of objects by name."""
    yield name, schema
    yield from schema.get("$defs", {}).items()


OBJECTS = [one for name, schema in SCHEMAS.items() for one in objects(schema, name)]


def forms(field: dict[str, Any]) -> list[dict[str, Any]]:
    """A field, and each of the forms that it may have."""
    return [field, *field.get("anyOf", ()), *field.get("oneOf", ())]


FIELDS = [
    (name, form)
    for _, schema in OBJECTS
    for name, field in schema.get("properties", {}).items()
    for form in forms(field)
]


def test_how_long_a_text_may_be():
    found = defaultdict(set)
    for name, form in FIELDS:
        for called, text in ((name, form), (f"{name}[]", form.get("items", {}))):
            if "maxLength" in text:
                found[text["maxLength"]].add(called)
    assert found == {longest: set(names.split()) for longest, names in LONGEST.items()}


def test_how_many_items_a_list_may_have():
    found = {(name, form.get("minItems", 0), form["maxItems"]) for name, form in FIELDS if "maxItems" in form}
    assert found == {(name, *bounds) for name, bounds in ITEMS.items()}


def test_what_a_request_must_say():
    found = {(name, frozenset(schema["required"])) for name, schema in OBJECTS if schema.get("required")}
    assert found == {(name, frozenset(fields.split())) for name, fields in NEEDED.items()}


@every(
    ("query", "parameter", "longest"),
    [
        (ThreadCatalogQuery, "system", 40), (ThreadCatalogQuery, "series", 20), (CatalogueQuery, "contains", 80),
        (PartPlanQuery, "part", 200), (PartPlanQuery, "material", 200), (PartPlanQuery, "drills", 4000),
        (PartPlanQuery, "taps", 4000),
    ],
)  # fmt: skip
def test_how_long_a_text_of_a_query_may_be(query, parameter, longest):
    assert query().read({parameter: "x" * longest})
    with pytest.raises(RequestInvalid) as refused:
        query().read({parameter: "x" * (longest + 1)})
    assert [(one.code, one.pointer) for one in refused.value.faults] == [("text_length_wrong", f"/{parameter}")]
