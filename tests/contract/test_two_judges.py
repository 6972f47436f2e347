"""Two judges agree: the running schemas and the published JSON Schemas give the same verdict on the same body.

The published schema cannot see three things, which are left to the service and tested elsewhere: the range of a
quantity written as text, whether min is above max, and what a callout, finish or material means.
"""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest
from borewright.contract.documents import openapi, published
from borewright.contract.faults import RequestInvalid
from borewright.contract.fields.composites import ObjectSchema
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st
from marshmallow import ValidationError

THREAD = {"thread": "M8"}
HOLE = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}}
FINISH = {"thread": "M8", "finish": "ISO 4042"}
PLAN = {"drill": "6.8 mm", "tap": "M8x1.25 HSS G D5", "spindle_speed": 1200}

GOOD: list[tuple[str, Any]] = [
    ("thread-request", THREAD),
    ("thread-request", {"thread": "#10-24", "unit_system": "inch", "explain": True}),
    ("thread-request", {"thread": "M8", "unit_system": None, "length_of_engagement": None, "explain": None}),
    ("thread-request", {"thread": "M8", "length_of_engagement": "12 mm"}),
    ("thread-request", {"thread": {"system": "unified", "size": "1/2", "threads_per_inch": 13}}),
    ("thread-request", {"thread": {"system": "iso_metric", "size": 10, "pitch": 1.5, "class": "6H", "hand": "left"}}),
    ("thread-request", {"thread": {"system": "trapezoidal", "size": "40", "pitch": 7, "starts": 2, "lead": 14}}),
    ("thread-request", {"thread": {"system": "trapezoidal", "size": "40", "pitch": 7, "starts": 2.0}}),
    ("thread-request", {"thread": "x" * 200}),
    ("drill-request", {**THREAD, "percent_thread": 75}),
    ("drill-request", {**THREAD, "percent_thread": 62.5}),
    ("drill-request", {**THREAD, "percent_thread": "75 %"}),
    ("drill-request", {**THREAD, "percent_thread": {"target": 70, "min": 60, "max": 75}}),
    ("drill-request", {**THREAD, "drill_series": ["metric", "letter"], "stock": {"drills": []}}),
    ("drill-request", {**THREAD, "method": "form", "objective": "least_torque", "material": "6061-T6"}),
    ("allowance-request", FINISH),
    ("allowance-request", {**FINISH, "finish": {"thickness": "8 um"}}),
    ("allowance-request", {**FINISH, "finish": {"thickness": {"min": 0, "max": 0.0003}}}),
    ("allowance-request", {**FINISH, "finish": {"thickness": {"min": "0 um", "max": None}}}),
    ("allowance-request", {**FINISH, "finish": {"growth_fraction": 0.5, "masked": False, "reading": "iso"}}),
    ("allowance-request", {**FINISH, "finish": {"growth_fraction": "50 %", "specification": "MIL-A-8625"}}),
    ("allowance-request", {**FINISH, "finish": {"heat_treat_growth": {"min": "-0.5 mil", "max": 0}}}),
    ("tap-request", {**THREAD, "hole": {"type": "through"}}),
    ("tap-request", {**THREAD, "stock": {"taps": ["H3", "M8 D5"]}}),
    ("tap-decode-request", {"marking": "1/2-13 NC HSS G H3"}),
    ("note-request", {"note": "4X M6 ↧12", "unit_system": "metric", "general_notes": ["ALL THREADS 6H"]}),
    ("note-request", {"note": "M6", "general_notes": [], "defaults": {"material": "4140", "hole": {"thickness": 5}}}),
    ("hole-spec-request", {**HOLE, "finish": "ASTM B633 Fe/Zn 8", "dimensions_apply": "before_finish"}),
    ("hole-spec-request", HOLE),
    ("audit-request", {**HOLE, "as_planned": PLAN}),
    ("audit-request", {**HOLE, "as_planned": {**PLAN, "tap": {"limit": "D5", "style": "spiral_point"}}}),
    ("audit-request", {**HOLE, "as_planned": {**PLAN, "drill_depth": "22 mm", "second_tap": None}}),
    ("audit-request", {**HOLE, "as_planned": {**PLAN, "operations_order": ["drill", "tap", "plate"]}}),
    ("hole-spec-request", {**HOLE, "id": "KRP-4105-D1", "strict": True, "mating_screw": {"class": "6g"}}),
    ("hole-spec-request", {**HOLE, "material": {"name": "4140", "hardness": "28 HRC", "tensile_strength": "95 ksi"}}),
    ("hole-spec-request", {**HOLE, "material": {"tensile_strength": 655}, "mating_screw": {"grade": "8.8"}}),
    ("hole-spec-request", {"thread": "M8", "hole": {"type": "through", "thickness": '1-1/4"', "point_angle": 140}}),
    ("hole-spec-request", {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16, "access_depth": 80}}),
]

BAD: list[tuple[str, Any]] = [
    ("thread-request", {}),
    ("thread-request", {"thread": None}),
    ("thread-request", {"thread": ""}),
    ("thread-request", {"thread": "   "}),
    ("thread-request", {"thread": "x" * 201}),
    ("thread-request", {"thread": 8}),
    ("thread-request", {"thread": True}),
    ("thread-request", {"thread": ["M8"]}),
    ("thread-request", {"thread": {}}),
    ("thread-request", {"thread": {"system": "unified"}}),
    ("thread-request", {"thread": {"system": "unified", "size": "1/2", "tpi": 13}}),
    ("thread-request", {"thread": {"system": "unified", "size": "1/2", "threads_per_inch": "13"}}),
    ("thread-request", {"thread": {"system": "unified", "size": "1/2", "threads_per_inch": 0}}),
    ("thread-request", {"thread": {"system": "unified", "size": "1/2", "threads_per_inch": -13}}),
    ("thread-request", {"thread": {"system": "iso_metric", "size": 0, "pitch": 1}}),
    ("thread-request", {"thread": {"system": "iso_metric", "size": "8", "pitch": 1, "hand": "LH"}}),
    ("thread-request", {"thread": {"system": "trapezoidal", "size": "40", "pitch": 7, "starts": 1.5}}),
    ("thread-request", {"thread": {"system": "trapezoidal", "size": "40", "pitch": 7, "starts": 0}}),
    ("thread-request", {**THREAD, "unit_system": "imperial"}),
    ("thread-request", {**THREAD, "unit_system": "Inch"}),
    ("thread-request", {**THREAD, "explain": "yes"}),
    ("thread-request", {**THREAD, "explain": 1}),
    ("thread-request", {**THREAD, "length_of_engagement": 0}),
    ("thread-request", {**THREAD, "length_of_engagement": -1}),
    ("thread-request", {**THREAD, "length_of_engagement": 1e9}),
    ("thread-request", {**THREAD, "length_of_engagement": "12"}),
    ("thread-request", {**THREAD, "length_of_engagement": "0 mm"}),
    ("thread-request", {**THREAD, "length_of_engagement": "-1 mm"}),
    ("thread-request", {**THREAD, "length_of_engagement": "12 N*m"}),
    ("thread-request", {**THREAD, "length_of_engagement": "12 furlong"}),
    ("thread-request", {**THREAD, "length_of_engagement": "0,5 in"}),
    ("thread-request", {**THREAD, "length_of_engagement": "2 5 um"}),
    ("thread-request", {**THREAD, "length_of_engagement": "1e2 mm"}),
    ("thread-request", {**THREAD, "length_of_engagement": "9**9 mm"}),
    ("thread-request", {**THREAD, "length_of_engagement": True}),
    ("thread-request", {**THREAD, "length_of_engagement": [1]}),
    ("thread-request", {**THREAD, "length_of_engagement": {"value": 1}}),
    ("thread-request", {**THREAD, "": 1}),
    ("drill-request", {**THREAD, "percent_thread": 0}),
    ("drill-request", {**THREAD, "percent_thread": 101}),
    ("drill-request", {**THREAD, "percent_thread": {}}),
    ("drill-request", {**THREAD, "percent_thread": {"goal": 70}}),
    ("drill-request", {**THREAD, "percent_thread": "75"}),
    ("drill-request", {**THREAD, "drill_series": []}),
    ("drill-request", {**THREAD, "drill_series": ["metric", "metric"]}),
    ("drill-request", {**THREAD, "drill_series": ["wire"]}),
    ("drill-request", {**THREAD, "drill_series": "metric"}),
    ("drill-request", {**THREAD, "method": "roll"}),
    ("drill-request", {**THREAD, "stock": {}}),
    ("drill-request", {**THREAD, "stock": {"drills": [6.8]}}),
    ("drill-request", {**THREAD, "stock": {"drills": ["6.8"] * 2001}}),
    ("allowance-request", THREAD),
    ("allowance-request", {**FINISH, "finish": {}}),
    ("allowance-request", {**FINISH, "finish": {"thickness": 0}}),
    ("allowance-request", {**FINISH, "finish": {"thickness": 30}}),
    ("allowance-request", {**FINISH, "finish": {"thickness": {"low": 1}}}),
    ("allowance-request", {**FINISH, "finish": {"growth_fraction": 1.5}}),
    ("allowance-request", {**FINISH, "finish": {"growth_fraction": "0.5"}}),
    ("allowance-request", {**FINISH, "finish": {"masked": "true"}}),
    ("allowance-request", {**FINISH, "hole": {"type": "blind"}}),
    ("tap-request", {**THREAD, "hole": {}}),
    ("tap-request", {**THREAD, "hole": {"type": "slot"}}),
    ("tap-request", {**THREAD, "hole": "blind"}),
    ("tap-decode-request", {"marking": 5}),
    ("tap-decode-request", {"marking": "H3", "thread": "M8"}),
    ("note-request", {"note": ""}),
    ("note-request", {"note": ["M6"]}),
    ("note-request", {"note": "M6", "general_notes": ["x"] * 21}),
    ("note-request", {"note": "M6", "thread": "M6"}),
    ("hole-spec-request", {**HOLE, "dimensions_apply": "before"}),
    ("hole-spec-request", THREAD),
    ("hole-spec-request", {**HOLE, "hole": None}),
    ("audit-request", HOLE),
    ("audit-request", {**HOLE, "as_planned": {"drill": "6.8 mm"}}),
    ("audit-request", {**HOLE, "as_planned": {**PLAN, "tap": {}}}),
    ("audit-request", {**HOLE, "as_planned": {**PLAN, "tap": {"limit": 3}}}),
    ("audit-request", {**HOLE, "as_planned": {**PLAN, "spindle_speed": "1200"}}),
    ("audit-request", {**HOLE, "as_planned": {**PLAN, "operations_order": ["weld"]}}),
    ("hole-spec-request", {**HOLE, "id": 7}),
    ("hole-spec-request", {**HOLE, "hole": {"type": "blind", "depth": 16}}),
    ("hole-spec-request", {**HOLE, "hole": {"type": "blind", "point_angle": 200}}),
    ("hole-spec-request", {**HOLE, "hole": {"type": "blind", "point_angle": "118"}}),
    ("hole-spec-request", {**HOLE, "material": 4140}),
    ("hole-spec-request", {**HOLE, "material": {"hardness": 28}}),
    ("hole-spec-request", {**HOLE, "material": {"tensile_strength": "28 HRC"}}),
    ("hole-spec-request", {**HOLE, "mating_screw": {"Class": "2A"}}),
    ("hole-spec-request", {**HOLE, "strict": 0}),
]

RUNNING = {name: schema() for name, schema in openapi.PUBLISHED.items() if issubclass(schema, ObjectSchema)}
PUBLISHED = {name: jsonschema.Draft202012Validator(json.loads(published.schemas_json()[name])) for name in RUNNING}


def running_verdict(name: str, body: Any) -> bool:
    try:
        RUNNING[name].read(body)
    except RequestInvalid:
        return False
    return True


def case_name(case: object) -> str:
    return json.dumps(case)[:60] if isinstance(case, dict) else str(case)


@pytest.mark.parametrize(("name", "body"), GOOD, ids=case_name)
def test_both_accept(name, body):
    assert running_verdict(name, body)
    assert PUBLISHED[name].is_valid(body)


@every(("name", "body"), BAD, ids=case_name)
def test_both_refuse(name, body):
    assert not running_verdict(name, body)
    assert not PUBLISHED[name].is_valid(body)


@pytest.mark.parametrize(("name", "body"), GOOD, ids=case_name)
def test_reading_gives_what_marshmallow_loads(name, body):
    assert RUNNING[name].read(body) == RUNNING[name].load(body)


@every(("name", "body"), BAD, ids=case_name)
def test_marshmallow_refuses_too_what_has_fields(name, body):
    if any(part == {} for part in body.values()):
        return
    with pytest.raises(ValidationError):
        RUNNING[name].load(body)


VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-5, 3000)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.sampled_from(
        ["", " ", "M8", "inch", "blind", "5", "5 mm", "0 mm", "75 %", "95 ksi", "cut", "left", "iso", "metric"]
    )
    | st.text(st.characters(exclude_characters="\n"), max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(["type", "thickness", "min", "max", "system", "size", "name", "drills", "x"]), inner
        )
    ),
    max_leaves=6,
)


@pytest.mark.parametrize("name", sorted(RUNNING))
@given(data=st.data())
@settings(max_examples=60)
def test_judges_agree_on_made_up_bodies(name, data):
    fields = sorted(RUNNING[name].names())
    body = {"thread": "M8", **data.draw(st.dictionaries(st.sampled_from(fields), VALUES, max_size=4))}
    assert running_verdict(name, body) == PUBLISHED[name].is_valid(body)
