"""Depths that fall between the same two steps share one choice: the shared one is what the own depth would give."""

from dataclasses import fields, replace
from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.drilling import DrillRequest, engagement, recommend
from borewright.core.drilling.recommend import _recommend as drill_for
from borewright.core.materials import part_material
from borewright.core.model import MaterialInput
from borewright.core.tapping import TapRequest, practice
from borewright.core.tapping.choice import _recommend as tap_for
from hypothesis import given, settings
from hypothesis import strategies as st

NAMES = ("1/2-13 UNC-2B", "#10-32 UNF-3B", "1.00 UNM", "M8-6H", "1/4-18 NPT", "1/2-10 ACME-2G")
THREADS = {name: standards.resolve(callout.read(name)) for name in NAMES}
MATERIALS = (None, part_material.find(MaterialInput("4140")), part_material.find(MaterialInput("6061-T6")))
DIAMETERS = st.one_of(
    st.sampled_from([Decimal(text) for text in ("0.33", "0.5", "0.67", "1.5", "2", "2.04", "3", "3.04", "3.06")]),
    st.decimals("0.01", "8", places=3),
)


def _all_of(choice):
    """A choice is compared by identity, here by what it holds."""
    return {field.name: getattr(choice, field.name) for field in fields(choice)}


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(NAMES), DIAMETERS, st.sampled_from(MATERIALS))
def test_the_drill_is_that_of_the_own_engagement(name, diameters, material):
    thread = THREADS[name]
    asked = DrillRequest(engagement=diameters * thread.nominal_diameter, material=material)
    assert _all_of(recommend(thread, asked)) == _all_of(drill_for.__wrapped__(thread, asked))


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(NAMES), st.decimals("0", "20", places=2), st.sampled_from(MATERIALS))
def test_the_tap_is_that_of_the_own_room(name, threads_of_room, material):
    thread = THREADS[name]
    asked = TapRequest(
        hole_kind="blind",
        chamfer_room=threads_of_room * thread.pitch,
        material=material,
    )
    shared = practice.like(thread, asked)
    assert _all_of(tap_for.__wrapped__(thread, shared)) == _all_of(tap_for.__wrapped__(thread, asked))


@pytest.mark.parametrize("name", NAMES)
def test_depths_between_two_steps_are_one_request(name):
    thread = THREADS[name]
    one, other = (Decimal(text) * thread.nominal_diameter for text in ("0.9", "1.1"))
    assert engagement.like(thread, one) == engagement.like(thread, other)
    roomy = TapRequest(chamfer_room=20 * thread.pitch)
    assert practice.like(thread, roomy) == practice.like(thread, replace(roomy, chamfer_room=30 * thread.pitch))
