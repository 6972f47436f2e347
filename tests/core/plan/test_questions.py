"""A question to a step whose answer is kept holds what the step looks at, and nothing else."""

from dataclasses import fields
from decimal import Decimal
from itertools import product

import pytest
from borewright.core import callout, standards, tapping
from borewright.core.drilling import DrillRequest, recommend
from borewright.core.drilling.drill_case import DrillQuestion
from borewright.core.drilling.hole_limits import engagement_step
from borewright.core.drilling.recommend import shortlist
from borewright.core.drilling.standard_drills import OwnOversize
from borewright.core.errors import BorewrightError
from borewright.core.materials import part_material
from borewright.core.model import Diameters, MaterialInput, PercentTarget, Range
from borewright.core.tapping import ChamferRoom, TapRequest, tap_build
from borewright.core.tapping.tap_candidates import LimitRequest
from borewright.core.tapping.tap_choice import _with_limit as with_limit
from hypothesis import given, settings
from hypothesis import strategies as st

NAMES = ("1/2-13 UNC-2B", "#10-32 UNF-3B", "1.00 UNM", "M8-6H", "1/4-18 NPT", "1/2-10 ACME-2G")
THREADS = {name: standards.resolve(callout.read(name)) for name in NAMES}
STEEL, ALUMINIUM = (part_material.find(MaterialInput(name)) for name in ("4140", "6061-T6"))
NO_COAT = Diameters(*3 * (Range(Decimal(0), Decimal(0)),))


def recording(kind):
    """A question of the same kind that notes which of its fields are read, and the set of those."""
    read = set()

    class Recording(kind):
        __slots__ = ()
        __hash__, __eq__ = object.__hash__, object.__eq__

        def __getattribute__(self, name):
            read.add(name)
            return super().__getattribute__(name)

    return Recording, read


def asked(step, kind, known, *more):
    """The fields of a kind of question that a step reads over all combinations of what is known."""
    question, read = recording(kind)
    for name, values in product(NAMES, product(*known.values())):
        try:
            step.__wrapped__(THREADS[name], question(**dict(zip(known, values, strict=True))), *more)
        except BorewrightError:
            continue
    return read & set(kind.__annotations__)


def test_every_field_of_a_question_on_drills_is_read():
    known = {
        "method": ("cut", "form"),
        "percent": (None, PercentTarget(Decimal(70))),
        "objective": ("chart", "acceptance", "least_torque"),
        "stock": (None, ("27/64", "6.8 mm")),
    }
    assert asked(shortlist, DrillQuestion, known, None) == {field.name for field in fields(DrillQuestion)}


def test_every_field_of_a_question_on_tap_limits_is_read():
    known = dict.fromkeys(LimitRequest._fields, (None,)) | {
        "method": ("cut", "form"),
        "stock": (None, ("H3", "D5")),
        "chamfer_room": (None, ChamferRoom(Decimal(1))),
        "tapping": ("rigid", "hand"),
    }
    build = tap_build.plan(THREADS["M8-6H"], TapRequest(hole_kind="blind"))
    assert asked(with_limit, LimitRequest, known, build) == set(LimitRequest._fields)


def test_the_ranking_of_drills_is_not_told_engagement_or_material():
    assert {"engagement", "material"} == {field.name for field in fields(DrillRequest)} - {
        field.name for field in fields(DrillQuestion)
    }
    request = DrillRequest(
        "form", PercentTarget(Decimal(70)), "acceptance", ("metric",), Range(None, None), ("Z",), None, NO_COAT,
        OwnOversize(Decimal(1)), Decimal(12), STEEL,
    )  # fmt: skip
    assert request.question == DrillQuestion(
        **{field.name: getattr(request, field.name) for field in fields(DrillQuestion)}
    )


@pytest.mark.parametrize(
    ("diameters", "expected"),
    [
        ("0.33", ("shortest", True, False)),
        ("0.331", ("short", True, False)),
        ("0.5", ("short", False, False)),
        ("0.67", ("short", False, False)),
        ("0.671", ("normal", False, False)),
        ("1.5", ("normal", False, False)),
        ("1.501", ("long", False, True)),
        ("3", ("long", False, True)),
        ("3.001", (None, False, True)),
    ],
)
def test_engagement_counts_by_its_step(diameters, expected):
    """FED-STD-H28/2B 30.1: to 0.33 D, to 0.67 D, to 1.5 D, to 3 D; shops drill otherwise below 0.5 D, over 1.5 D."""
    thread = THREADS["1/2-13 UNC-2B"]
    step = engagement_step(thread, Decimal(diameters) * Decimal("0.5"))
    assert (step.range and step.range.name, step.is_short, step.is_long) == expected


def test_lengths_of_one_step_share_one_choice():
    thread = THREADS["M8-6H"]
    one, other = (recommend(thread, DrillRequest(engagement=Decimal(mm), material=STEEL)) for mm in (7, 9))
    assert one is other
    assert recommend(thread, DrillRequest(engagement=Decimal(13), material=STEEL)) is not one


@settings(max_examples=60)
@given(st.sampled_from(NAMES), st.decimals("0", "20", places=2), st.sampled_from((None, STEEL, ALUMINIUM)))
def test_the_tap_is_that_of_the_own_room(name, threads_of_room, material):
    """Room for more than every chamfer is told apart by no rule."""
    thread = THREADS[name]
    room = threads_of_room * thread.pitch
    shared = TapRequest(hole_kind="blind", material=material, chamfer_room=tapping.chamfer_room(thread, room))
    own = shared._replace(chamfer_room=ChamferRoom(room))
    one, other = (tapping.recommend(thread, request) for request in (shared, own))
    assert {field.name: getattr(one, field.name) for field in fields(one)} == {
        field.name: getattr(other, field.name) for field in fields(other)
    }
