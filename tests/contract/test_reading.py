"""Requests as the domain gets them: units of bare numbers, defaults, ranges."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract import reading
from borewright.contract.faults import RequestInvalid
from borewright.contract.spec_id import spec_id
from borewright.core import callout
from borewright.core.errors import BorewrightError
from borewright.core.model import Length, LengthRange, PercentTarget

HOLE = {"type": "blind", "full_thread_depth": 0.75}


def spec(**fields):
    return reading.hole_spec_request({"thread": "1/2-13 UNC-2B", "hole": HOLE, **fields})


def refused(read, body):
    with pytest.raises(BorewrightError) as caught:
        read(body)
    return caught.value.faults[0]


def test_bare_number_is_in_the_unit_of_the_thread():
    assert spec().request.hole.full_thread_depth == Length(Decimal("0.75"), "in")
    metric = reading.hole_spec_request({"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}})
    assert metric.request.hole.full_thread_depth == Length(Decimal(16), "mm")


def test_bare_number_follows_unit_system():
    asked = spec(unit_system="metric", hole={"type": "blind", "full_thread_depth": 25.4})
    assert asked.unit == "mm"
    assert asked.request.hole.full_thread_depth == Length(Decimal(1), "in")


def test_text_carries_its_own_unit():
    asked = spec(unit_system="metric", hole={"type": "blind", "full_thread_depth": "3/4 in"})
    assert asked.request.hole.full_thread_depth == Length(Decimal("0.75"), "in")


def test_json_float_keeps_its_digits():
    asked = reading.allowance_request(
        {"thread": "1/4-28 UNF-2B", "finish": {"thickness": {"min": 0.0002, "max": 0.0003}}}
    )
    assert asked.request.finish.thickness == LengthRange(
        Length(Decimal("0.0002"), "in"), Length(Decimal("0.0003"), "in")
    )


def test_one_thickness_is_a_minimum_or_nominal():
    """The domain adds the maximum: 1.5 times (ASME B1.1-2003 7.5.2)."""
    asked = reading.allowance_request({"thread": "M8", "finish": {"thickness": "8 um"}})
    assert asked.request.finish.thickness == LengthRange(Length(Decimal("0.008"), "mm"), None)


@pytest.mark.parametrize(
    ("given", "unit_system", "mpa"),
    [("655 MPa", "inch", 655.0), (655, "metric", 655.0), (95000, "inch", 655.0019), ("95 ksi", None, 655.0019)],
)
def test_tensile_strength(given, unit_system, mpa):
    asked = spec(material={"tensile_strength": given}, **({"unit_system": unit_system} if unit_system else {}))
    assert asked.request.material.tensile_strength_mpa == pytest.approx(mpa, abs=1e-3)


def test_thread_fields_keep_the_unit_of_the_standard():
    asked = reading.thread_request({"thread": {"system": "iso_metric", "size": 10, "pitch": 1, "class": "6H"}})
    assert asked.request.thread == callout.read("M10x1-6H")


def test_thread_fields_follow_unit_system():
    asked = reading.thread_request(
        {"thread": {"system": "iso_metric", "size": "M10", "pitch": "1 mm"}, "unit_system": "inch"}
    )
    assert (asked.request.thread.pitch, asked.request.thread.unit) == (1, "mm")


def test_null_is_the_same_as_absent():
    empty = dict.fromkeys(
        ["material", "finish", "method", "percent_thread", "stock", "mating_screw", "strict", "explain"]
    )
    assert spec(**empty) == spec()


def test_percent_as_number_text_or_object():
    body = {"thread": "M8", "percent_thread": 70}
    assert reading.drill_request(body).request.percent_thread == PercentTarget(target=Decimal(70))
    body["percent_thread"] = "70 %"
    assert reading.drill_request(body).request.percent_thread == PercentTarget(target=Decimal(70))
    body["percent_thread"] = {"min": 60, "max": 75}
    assert reading.drill_request(body).request.percent_thread == PercentTarget(None, Decimal(60), Decimal(75))


@pytest.mark.parametrize(
    ("read", "body", "pointer"),
    [
        (
            reading.allowance_request,
            {"thread": "M8", "finish": {"thickness": {"min": "0.001 in", "max": "10 um"}}},
            "/finish/thickness",
        ),
        (
            reading.allowance_request,
            {"thread": "M8", "finish": {"heat_treat_growth": {"min": 0.02, "max": -0.01}}},
            "/finish/heat_treat_growth",
        ),
        (reading.drill_request, {"thread": "M8", "percent_thread": {"min": 80, "max": 60}}, "/percent_thread"),
        (reading.drill_request, {"thread": "M8", "percent_thread": {"target": 80, "max": 60}}, "/percent_thread"),
    ],
)
def test_inconsistent_range(read, body, pointer):
    fault = refused(read, body)
    assert (fault.code, fault.pointer) == ("range_inconsistent", pointer)


@pytest.mark.parametrize("depth", ["101 in", 150, "2.6 m"])
def test_longest_length(depth):
    fault = refused(
        reading.hole_spec_request, {"thread": "1/2-13 UNC-2B", "hole": {**HOLE, "full_thread_depth": depth}}
    )
    assert (fault.code, fault.pointer) == ("value_out_of_range", "/hole/full_thread_depth")


def test_every_fault_of_a_body_is_told():
    with pytest.raises(RequestInvalid) as caught:
        reading.hole_spec_request(
            {"thred": 1, "thread": 5, "hole": {"type": "blnd", "thickness": "-1 in"}, "stock": {"drills": ["a", 3]}}
        )
    assert [(fault.pointer, fault.code) for fault in caught.value.faults] == [
        ("/thread", "field_type_wrong"),
        ("/hole/type", "field_value_unknown"),
        ("/hole/thickness", "value_out_of_range"),
        ("/stock/drills/1", "field_type_wrong"),
        ("/thred", "field_unknown"),
    ]
    assert caught.value.faults[1].did_you_mean == ("blind",)
    assert caught.value.faults[4].did_you_mean == ("thread",)


def test_many_unknown_fields_are_counted():
    missing, *unknown = refused_all({f"x{number}": 1 for number in range(500)})
    assert (missing.pointer, len(unknown)) == ("/thread", 5 + 1)
    assert unknown[-1].detail == "495 more unknown fields."


def refused_all(body):
    with pytest.raises(RequestInvalid) as caught:
        reading.thread_request(body)
    return caught.value.faults


def name_of(**fields):
    return spec_id(spec(**fields).request, "in")


def test_spec_id_does_not_depend_on_spelling():
    same = [
        {},
        {"id": "KRP-1"},
        {"explain": True},
        {"thread": "1/2 - 13 unc - 2b"},
        {"hole": {"full_thread_depth": "3/4 in", "type": "blind"}},
        {"hole": {"type": "blind", "full_thread_depth": "19.05 mm"}},
        {"hole": {"type": "blind", "full_thread_depth": 0.750, "point_angle": 118}},
        {"method": "cut", "objective": None},
    ]
    assert len({name_of(**fields) for fields in same}) == 1


def test_spec_id_depends_on_what_matters():
    different = [
        {},
        {"thread": "1/2-13 UNC-3B"},
        {"thread": "1/2-13 UNC-2B-LH"},
        {"hole": {"type": "blind", "full_thread_depth": 0.76}},
        {"hole": {"type": "through", "thickness": 0.75}},
        {"finish": "ASTM B633 Fe/Zn 8"},
        {"material": "4140"},
        {"stock": {"drills": ["27/64"]}},
        {"strict": True},
    ]
    names = [name_of(**fields) for fields in different]
    assert len(set(names)) == len(names)
    assert spec_id(spec().request, "mm") not in names


def test_spec_id_depends_on_the_rules_and_the_tables_that_they_read(monkeypatch):
    before = name_of()
    monkeypatch.setattr("borewright.tables.version", lambda: "a table that nothing reads")
    assert name_of() == before
    monkeypatch.setattr("borewright.core.plan.rules_version.version", lambda: "another")
    assert name_of() != before
