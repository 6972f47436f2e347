"""What the request of a part plan and the document of a batch say: defaults, names, counts, and what is refused."""

from __future__ import annotations

import pytest
from borewright.contract.faults import RequestInvalid
from borewright.contract.requests.batch import read_batch
from borewright.contract.requests.part_plan import body_of_query, part_plan_asked
from every import every

M8 = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": "16 mm"}}
M6 = {"thread": "M6", "hole": {"type": "through", "thickness": "9 mm"}}


def test_a_part_of_which_only_the_holes_are_said():
    """One part, the fewest tools, every hole once, named by its place; times are those of a usual machine."""
    asked = part_plan_asked({"holes": [M8, M6, {**M6, "id": "A"}]})
    request = asked.request
    assert [(one.name, one.count, one.pointer) for one in request.holes] == [
        ("hole 1", 1, "/holes/0"),
        ("hole 2", 1, "/holes/1"),
        ("A", 1, "/holes/2"),
    ]
    assert (request.lot_size, request.objective, request.refused) == (1, "fewest_tools", ())
    assert request.times.usual == {"tool_changes", "positioning"}
    assert (asked.part, asked.unit, asked.detail) == (None, None, "full")


@every(
    ("machine", "times"),
    [
        ({"tool_change_time": 4.5}, (4.5, None, {"positioning"})),
        ({"positioning_time": 2}, (None, 2.0, {"tool_changes"})),
        ({"tool_change_time": 0, "positioning_time": 0}, (0.0, 0.0, set())),
    ],
)
def test_times_that_are_stated_stand_for_the_usual_ones(machine, times):
    found = part_plan_asked({"holes": [M8], "machine": machine}).request.times
    usual = part_plan_asked({"holes": [M8]}).request.times
    change, positioning, named = times
    assert found.tool_change_s == (usual.tool_change_s if change is None else change)
    assert found.positioning_s == (usual.positioning_s if positioning is None else positioning)
    assert found.usual == named


def test_what_is_said_of_the_part_holds_for_holes_that_do_not_say_it():
    shared = {"stock": {"drills": ["#7"]}, "unit_system": "inch", "machine": {"max_power": 3, "tool_change_time": 4}}
    defaults = {"material": "1018", "stock": {"drills": ["5/16"]}}
    depth = {"type": "blind", "full_thread_depth": 0.5}
    own = {"thread": "M8", "hole": depth, "material": "4140", "unit_system": "metric", "count": 3}
    found = part_plan_asked({**shared, "defaults": defaults, "holes": [{"thread": "M8", "hole": depth}, own]})
    first, second = (one.request for one in found.request.holes)
    assert [one.count for one in found.request.holes] == [1, 3]
    assert [str(one.material.name) for one in (first, second)] == ["1018", "4140"]
    assert [one.stock.drills for one in (first, second)] == [("5/16",)] * 2  # defaults go before what all share
    in_mm = [float(one.hole.full_thread_depth.to("mm")) for one in (first, second)]
    assert in_mm == [12.7, 0.5]  # 0.5 in, and 0.5 of the hole's own unit
    assert found.unit == "in"


def test_holes_that_cannot_be_planned_are_named_by_themselves():
    holes = [{**M8, "id": "A"}, {**M6, "id": "A"}, {"thread": "M8"}, {**M6, "count": 0}, M6]
    found = part_plan_asked({"holes": holes}).request
    assert [one.name for one in found.holes] == ["A", "hole 5"]
    assert [(one.name, one.faults[0].code, one.faults[0].pointer) for one in found.refused] == [
        ("A", "id_not_unique", "/holes/1/id"),
        ("hole 3", "field_missing", "/holes/2/hole"),
        ("hole 4", "value_out_of_range", "/holes/3/count"),
    ]


@every(
    ("query", "body"),
    [
        ({}, {}),
        ({"part": "KRP-5120", "lot_size": 3}, {"part": "KRP-5120", "lot_size": 3}),
        ({"material": "1018"}, {"defaults": {"material": "1018"}}),
        ({"tool_change_time": 4}, {"machine": {"tool_change_time": 4}}),
        (
            {"drills": "#7, 5/16,,", "taps": "H3; M8 D5;"},
            {"stock": {"drills": ["#7", "5/16"], "taps": ["H3", "M8 D5"]}},
        ),
        ({"table": "tools"}, {}),
    ],
)
def test_what_a_query_says_of_a_part(query, body):
    assert body_of_query(query) == body


MANY = {f"x{index}": 1 for index in range(100)}


@every(
    ("body", "read"),
    [
        ({"items": []}, ([], {})),
        ({"items": [1, "a"], "defaults": None}, ([1, "a"], {})),
        ({"items": [], "defaults": {"material": "1018"}}, ([], {"material": "1018"})),
        ({"items": [], "defaults": MANY}, ([], MANY)),
        ({"items": [], "defaults": {"hole": MANY}}, ([], {"hole": MANY})),
    ],
)
def test_a_batch_that_is_one_document(body, read):
    assert read_batch(body) == read


@every(
    ("body", "code", "pointer", "detail"),
    [
        ({}, "field_missing", "/items", "The field `items` is missing."),
        ({"items": None}, "field_missing", "/items", "The field `items` is missing."),
        ({"items": {}}, "field_type_wrong", "/items", "Expected a list of items."),
        ({"items": [], "defaults": []}, "field_type_wrong", "/defaults", "Expected an object of default fields."),
        ({"items": [], "item": []}, "field_unknown", "/item", "Unknown field 'item'."),
        ({"items": [], "defaults": {**MANY, "y": 1}}, "field_unknown", "/defaults",
         "101 default fields are more than an item has."),
        ({"items": [], "defaults": {"a": {"b": {**MANY, "y": 1}}}}, "field_unknown", "/defaults",
         "101 default fields are more than an item has."),
    ],
)  # fmt: skip
def test_a_batch_that_is_none(body, code, pointer, detail):
    with pytest.raises(RequestInvalid) as refused:
        read_batch(body)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer, fault.detail) == (code, pointer, detail)


@every(("more", "is_refused"), [({}, False), ({"y": 1}, True)])
def test_the_defaults_of_a_part_are_no_more_than_a_hole_has(more, is_refused):
    try:
        part_plan_asked({"holes": [{}], "defaults": {"hole": {**MANY, **more}}})
    except RequestInvalid as error:
        assert (is_refused, error.faults[0].pointer) == (True, "/defaults")
    else:
        assert not is_refused
