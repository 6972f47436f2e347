"""Requests as the domain gets them: units of bare numbers, defaults, ranges."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract.faults import RequestInvalid
from borewright.contract.fields.composites import Object
from borewright.contract.requests import ALLOWANCE, DRILL, HOLE_SPEC, THREAD
from borewright.contract.requests.audit import AUDIT
from borewright.contract.spec_id import spec_id
from borewright.core import callout
from borewright.core.audit import AsPlanned, PlannedTap
from borewright.core.errors import BorewrightError
from borewright.core.model import (
    Counterbore,
    FinishInput,
    Hole,
    Length,
    LengthRange,
    MaterialInput,
    PercentTarget,
    StatedCountersink,
)
from borewright.core.requests import DrillOversize, HoleSpecRequest, Machine, MatingScrew, Stock

HOLE = {"type": "blind", "full_thread_depth": 0.75}


def spec(**fields):
    return HOLE_SPEC.asked({"thread": "1/2-13 UNC-2B", "hole": HOLE, **fields})


def refused(read, body):
    with pytest.raises(BorewrightError) as caught:
        read(body)
    return caught.value.faults[0]


def test_bare_number_is_in_the_unit_of_the_thread():
    assert spec().request.hole.full_thread_depth == Length(Decimal("0.75"), "in")
    metric = HOLE_SPEC.asked({"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}})
    assert metric.request.hole.full_thread_depth == Length(Decimal(16), "mm")


def test_bare_number_follows_unit_system():
    asked = spec(unit_system="metric", hole={"type": "blind", "full_thread_depth": 25.4})
    assert asked.unit == "mm"
    assert asked.request.hole.full_thread_depth == Length(Decimal(1), "in")


def test_text_carries_its_own_unit():
    asked = spec(unit_system="metric", hole={"type": "blind", "full_thread_depth": "3/4 in"})
    assert asked.request.hole.full_thread_depth == Length(Decimal("0.75"), "in")


def test_json_float_keeps_its_digits():
    asked = ALLOWANCE.asked({"thread": "1/4-28 UNF-2B", "finish": {"thickness": {"min": 0.0002, "max": 0.0003}}})
    assert asked.request.finish.thickness == LengthRange(
        Length(Decimal("0.0002"), "in"), Length(Decimal("0.0003"), "in")
    )


def test_one_thickness_is_a_minimum_or_nominal():
    """The domain adds the maximum: 1.5 times (ASME B1.1-2003 7.5.2)."""
    asked = ALLOWANCE.asked({"thread": "M8", "finish": {"thickness": "8 um"}})
    assert asked.request.finish.thickness == LengthRange(Length(Decimal("0.008"), "mm"), None)


@pytest.mark.parametrize(
    ("given", "unit_system", "mpa"),
    [("655 MPa", "inch", 655.0), (655, "metric", 655.0), (95000, "inch", 655.0019), ("95 ksi", None, 655.0019)],
)
def test_tensile_strength(given, unit_system, mpa):
    asked = spec(material={"tensile_strength": given}, **({"unit_system": unit_system} if unit_system else {}))
    assert asked.request.material.tensile_strength_mpa == pytest.approx(mpa, abs=1e-3)


def test_thread_fields_keep_the_unit_of_the_standard():
    asked = THREAD.asked({"thread": {"system": "iso_metric", "size": 10, "pitch": 1, "class": "6H"}})
    assert asked.request.thread == callout.read("M10x1-6H")


def test_thread_fields_follow_unit_system():
    asked = THREAD.asked({"thread": {"system": "iso_metric", "size": "M10", "pitch": "1 mm"}, "unit_system": "inch"})
    assert (asked.request.thread.pitch, asked.request.thread.unit) == (1, "mm")


def test_null_is_the_same_as_absent():
    empty = dict.fromkeys(
        ["material", "finish", "method", "percent_thread", "stock", "mating_screw", "strict", "explain"]
    )
    assert spec(**empty) == spec()


def test_percent_as_number_text_or_object():
    body = {"thread": "M8", "percent_thread": 70}
    assert DRILL.asked(body).request.percent_thread == PercentTarget(target=Decimal(70))
    body["percent_thread"] = "70 %"
    assert DRILL.asked(body).request.percent_thread == PercentTarget(target=Decimal(70))
    body["percent_thread"] = {"min": 60, "max": 75}
    assert DRILL.asked(body).request.percent_thread == PercentTarget(None, Decimal(60), Decimal(75))


@pytest.mark.parametrize(
    ("read", "body", "pointer"),
    [
        (
            ALLOWANCE.asked,
            {"thread": "M8", "finish": {"thickness": {"min": "0.001 in", "max": "10 um"}}},
            "/finish/thickness",
        ),
        (
            ALLOWANCE.asked,
            {"thread": "M8", "finish": {"heat_treat_growth": {"min": 0.02, "max": -0.01}}},
            "/finish/heat_treat_growth",
        ),
        (DRILL.asked, {"thread": "M8", "percent_thread": {"min": 80, "max": 60}}, "/percent_thread"),
        (DRILL.asked, {"thread": "M8", "percent_thread": {"target": 80, "max": 60}}, "/percent_thread"),
    ],
)
def test_inconsistent_range(read, body, pointer):
    fault = refused(read, body)
    assert (fault.code, fault.pointer) == ("range_inconsistent", pointer)


@pytest.mark.parametrize(("depth", "written"), [("101 in", "'101 in'"), (150, "150 in"), ("2.6 m", "'2.6 m'")])
def test_longest_length(depth, written):
    """A bare number is told with the unit that it was read in."""
    fault = refused(HOLE_SPEC.asked, {"thread": "1/2-13 UNC-2B", "hole": {**HOLE, "full_thread_depth": depth}})
    assert (fault.code, fault.pointer) == ("value_out_of_range", "/hole/full_thread_depth")
    assert fault.detail.startswith(f"{written} is out of range: from 0.0001 to 100 in, ")


def test_every_fault_of_a_body_is_told():
    with pytest.raises(RequestInvalid) as caught:
        HOLE_SPEC.asked(
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
        THREAD.asked(body)
    return caught.value.faults


def name_of(**fields):
    return spec_id(spec(**fields).request, "in")


#: Every field of a hole and of its plan, in the longest form; no value is a default.
EVERY_FIELD = {
    "id": "KRP-1",
    "thread": {
        "system": "trapezoidal", "size": 40, "pitch": 7, "class": "7H", "hand": "left", "starts": 2, "lead": 14,
    },
    "hole": {
        "type": "blind", "full_thread_depth": 30, "thickness": "60 mm", "drill_depth_limit": 50, "point_angle": 135,
        "access_depth": "1 in", "clearance_diameter": "8 cm", "run_out": "din_76_1", "drill": "33 mm",
        "drill_depth": 45, "least_drill_depth": 40, "counterbore": {"diameter": "2 in", "depth": 6},
        "countersink": {"diameter": 42, "angle": 82, "sides": "both"},
    },
    "material": {"name": "4140", "group": "P", "hardness": "28 HRC", "tensile_strength": 900},
    "finish": {
        "specification": "ISO 4042", "class": "A2C", "thickness": {"min": "5 um", "max": 0.008},
        "growth_fraction": "50 %", "heat_treat_growth": {"min": -0.01, "max": "20 um"},
        "masked": True, "reading": "asme",
    },
    "dimensions_apply": "before_finish",
    "method": "form",
    "percent_thread": {"target": 70, "min": 60, "max": 75.5},
    "objective": "acceptance",
    "drill_series": ["metric"],
    "length_of_engagement": 28,
    "mating_screw": {"class": "7e", "grade": "8.8"},
    "stock": {"drills": ["33 mm"], "taps": ["Tr 40"]},
    "machine": {
        "max_spindle_speed": 3000, "max_torque": "5 N*m", "max_power": 7.5, "tapping": "floating", "name": "VMC 2",
        "drill_oversize": {"mean": 0.05, "standard_deviation": "10 um"},
    },
    "safety_factor": 1.5, "strict": True, "tap_limits": "metric_d", "edition": "1989",
    "unit_system": "metric", "explain": True, "detail": "routing",
    "as_planned": {
        "drill": "33 mm", "tap": {"marking": "Tr 40", "limit": "D5", "style": "spiral_flute", "chamfer": "plug"},
        "second_tap": "Tr 40 x 7", "drill_depth": "5 cm", "spindle_speed": 400, "tap_spindle_speed": 60.5,
        "operations_order": ["drill", "tap", "plate"],
    },
}  # fmt: skip


def mm(text):
    return Length(Decimal(text), "mm")


def test_every_field_reaches_the_domain():
    asked = AUDIT.asked(EVERY_FIELD)
    assert (asked.unit, asked.explain, asked.detail) == ("mm", True, "routing")
    assert asked.request.as_planned == AsPlanned(
        drill="33 mm",
        tap=PlannedTap("Tr 40", "D5", "spiral_flute", "plug"),
        second_tap=PlannedTap("Tr 40 x 7"),
        drill_depth=mm(50),
        spindle_speed_rpm=400.0,
        tap_spindle_speed_rpm=60.5,
        operations_order=("drill", "tap", "finish"),
    )
    assert asked.request.hole_spec == HoleSpecRequest(
        thread=callout.read("Tr 40x14(P7)LH-7H"),
        hole=Hole(
            "blind",
            mm(30),
            mm(60),
            mm(50),
            Decimal(135),
            mm("25.4"),
            mm(80),
            "din_76_1",
            "33 mm",
            mm(45),
            mm(40),
            Counterbore(mm("50.8"), mm(6)),
            StatedCountersink(mm(42), Decimal(82), "both"),
        ),
        id="KRP-1",
        material=MaterialInput("4140", "P", "28 HRC", 900.0),
        finish=FinishInput(
            specification="ISO 4042",
            finish_class="A2C",
            thickness=LengthRange(mm("0.005"), mm("0.008")),
            growth_fraction=Decimal("0.5"),
            heat_treat_growth=LengthRange(mm("-0.01"), mm("0.02")),
            masked=True,
            reading="asme",
            text_unit="mm",
            at_least=True,
            dimensions_apply="before_finish",
        ),
        method="form",
        percent_thread=PercentTarget(Decimal(70), Decimal(60), Decimal("75.5")),
        objective="acceptance",
        drill_series=("metric",),
        length_of_engagement=mm(28),
        mating_screw=MatingScrew("7e", "8.8"),
        stock=Stock(("33 mm",), ("Tr 40",)),
        machine=Machine(3000.0, 5.0, 7.5, "floating", DrillOversize(mm("0.05"), mm("0.01"))),
        safety_factor=1.5,
        strict=True,
        tap_limits="metric_d",
        edition="1989",
    )


def unset(schema, body, path=""):
    """Dotted names of the fields of a schema that a body leaves out."""
    for key, field in ((field.data_key or name, field) for name, field in schema.fields.items()):
        if key not in body:
            yield path + key
        elif isinstance(body[key], dict):
            inner = field if isinstance(field, Object) else field.options["object"]
            yield from unset(inner.schema_class(), body[key], f"{path}{key}.")


def test_the_body_above_has_every_field():
    """Two of the thread belong to inch threads; a shop's figures come from a reply and are read in its own tests."""
    assert set(unset(AUDIT, EVERY_FIELD)) == {"thread.threads_per_inch", "thread.series", "shop_figures"}


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
        {"safety_factor": 1.0},
    ]
    assert len({name_of(**fields) for fields in same}) == 1


def test_spec_id_depends_on_what_matters():
    different = [
        {},
        {"thread": "1/2-13 UNC-3B"},
        {"thread": "1/2-13 UNC-2B-LH"},
        {"hole": {"type": "blind", "full_thread_depth": 0.76}},
        {"hole": {"type": "through", "thickness": 0.75}},
        {"hole": {"type": "blind", "full_thread_depth": 0.75, "drill": "27/64"}},
        {"hole": {"type": "blind", "full_thread_depth": 0.75, "counterbore": {"diameter": 1}}},
        {"finish": "ASTM B633 Fe/Zn 8"},
        {"material": "4140"},
        {"stock": {"drills": ["27/64"]}},
        {"strict": True},
    ]
    names = [name_of(**fields) for fields in different]
    assert len(set(names)) == len(names)
    assert spec_id(spec().request, "mm") not in names


#: What changes how a specification is shown or called, and not what is specified.
SHOWN = {"id", "unit_system", "explain", "detail", "as_planned"}


def test_spec_id_depends_on_every_field_of_the_specification():
    """A body with all fields but one is another specification, for each of them."""
    whole = {name: value for name, value in EVERY_FIELD.items() if name not in {"as_planned", "thread"}}
    given = {"thread": "Tr 40x14(P7)LH-7H", **whole}
    left_out = {name: {key: value for key, value in given.items() if key != name} for name in given}
    hole = given["hole"]
    for name in set(hole) - {"type", "full_thread_depth"}:
        left_out[f"hole.{name}"] = given | {"hole": {key: value for key, value in hole.items() if key != name}}
    names = {
        name: spec_id(HOLE_SPEC.asked(body).request, "mm")
        for name, body in left_out.items()
        if name not in {"thread", "hole"}
    }
    own = spec_id(HOLE_SPEC.asked(given).request, "mm")
    assert {name for name, told in names.items() if told == own} == SHOWN - {"as_planned"}
    rest = [told for name, told in names.items() if name not in SHOWN]
    assert len(set(rest)) == len(rest)


@pytest.mark.parametrize(("length", "usable"), [(1, True), (200, True), (201, False)])
def test_an_id_has_at_most_two_hundred_characters(length, usable):
    if usable:
        assert spec(id="K" * length).request.id == "K" * length
        return
    fault = refused(HOLE_SPEC.asked, {"thread": "M8", "hole": HOLE, "id": "K" * length})
    assert (fault.code, fault.pointer) == ("text_length_wrong", "/id")


def test_spec_id_depends_on_the_rules_and_the_tables_that_they_read(monkeypatch):
    before = name_of()
    monkeypatch.setattr("borewright.tables.version", lambda: "a table that nothing reads")
    assert name_of() == before
    monkeypatch.setattr("borewright.core.plan.rules_version.version", lambda: "another")
    assert name_of() != before
