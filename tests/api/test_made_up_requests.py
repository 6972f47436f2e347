"""Requests made up from everything the tables hold, spoilt a little: answered by the schema or refused, no failure."""

from __future__ import annotations

import jsonschema
import orjson
import pytest
from borewright.api import create_app
from borewright.contract.documents import published
from borewright.core import finishing, standards
from borewright.core.materials import part_material
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

CLIENT = create_app().test_client()
SCHEMAS = {name: jsonschema.Draft202012Validator(orjson.loads(text)) for name, text in published.schemas_json().items()}

DESIGNATIONS = [entry.designation for entry in standards.catalogue()]
FINISHES = [f"{entry.specification} {entry.finish_class}" for entry in finishing.catalogue()] + ["hot-dip galvanized"]
MATERIALS = [material.name for material in part_material.catalogue()] + ["4140 at 28 HRC", "cheese"]


@st.composite
def spoilt(draw, words):
    """A word of a list, in every fifth case with a character changed."""
    word = draw(st.sampled_from(words))
    if draw(st.integers(0, 4)):
        return word
    place = draw(st.integers(0, len(word)))
    return word[:place] + draw(st.sampled_from(["", "0", "-", " ", "x", "H", "½", "\x00", "é"])) + word[place + 1 :]


LENGTHS = st.sampled_from([0.01, 0.1, 0.25, 0.5, 1, 2, 8, 16, 40, 100, "3/8 in", "12 mm", "1-1/4 in"])
COATS = st.sampled_from([0, 0.0002, 0.0003, 0.01, "8 um", "0.3 mil", "0.002 in"])
RANGES = st.fixed_dictionaries({}, optional={"min": COATS, "max": COATS})
HOLES = st.fixed_dictionaries(
    {"type": st.sampled_from(["blind", "through"]), "thickness": LENGTHS},
    optional={
        "full_thread_depth": LENGTHS,
        "drill_depth_limit": LENGTHS,
        "access_depth": LENGTHS,
        "point_angle": st.sampled_from([60, 90, 135, 180]),
    },
)
FINISH = spoilt(FINISHES) | st.fixed_dictionaries(
    {},
    optional={
        "specification": spoilt(FINISHES),
        "thickness": COATS | RANGES,
        "growth_fraction": st.sampled_from([0, 0.5, 1, "50 %"]),
        "heat_treat_growth": RANGES,
        "masked": st.booleans(),
        "reading": st.sampled_from(["asme", "iso"]),
    },
)
MATERIAL = spoilt(MATERIALS) | st.fixed_dictionaries(
    {},
    optional={
        "name": spoilt(MATERIALS),
        "group": st.sampled_from("PMKNSHX"),
        "hardness": st.sampled_from(["28 HRC", "300 HB", "60 HRC", "1200 HB", "hard"]),
        "tensile_strength": st.sampled_from([655, "95 ksi", 1]),
    },
)
STOCK = st.fixed_dictionaries(
    {},
    optional={
        "drills": st.lists(st.sampled_from(["27/64", "#7", "6.8 mm", ".5687 in", "nothing"]), max_size=3),
        "taps": st.lists(st.sampled_from(["H3", "D5", "M8x1.25 HSS G 6H", "nothing"]), max_size=3),
    },
)
COMMON = {"unit_system": st.sampled_from(["inch", "metric"]), "explain": st.booleans()}
CHOICES = {"method": st.sampled_from(["cut", "form"]), "material": MATERIAL, "finish": FINISH, "stock": STOCK}
DRILL = {
    "percent_thread": st.sampled_from([50, 75, 100, {"min": 60, "max": 75}]),
    "objective": st.sampled_from(["chart", "least_torque"]),
    "length_of_engagement": LENGTHS,
}
THREAD = {"thread": spoilt(DESIGNATIONS)}
MARKINGS = st.sampled_from(["1/2-13 NC HSS G H3", "M8x1.25 HSS G D5", "Rc 1/2", "M8 6H FORMING", "nothing", "x" * 200])
PLANNED_TAPS = MARKINGS | st.fixed_dictionaries(
    {"marking": MARKINGS},
    optional={
        "limit": st.sampled_from(["H3", "D5", "ISO 2", "nothing"]),
        "style": st.sampled_from(["spiral_point", "forming", "twisted"]),
        "chamfer": st.sampled_from(["taper", "plug", "semi_bottoming", "bottoming", "taper_pipe"]),
    },
)
PLANS = st.fixed_dictionaries(
    {"drill": st.sampled_from(["27/64", "#7", "6.8 mm", "2", "nothing", ""]), "tap": PLANNED_TAPS},
    optional={
        "second_tap": PLANNED_TAPS,
        "drill_depth": LENGTHS,
        "spindle_speed": st.sampled_from([0, 1, 1200.5, 199999]),
        "tap_spindle_speed": st.sampled_from([0.001, 300]),
        "operations_order": st.lists(st.sampled_from(["drill", "tap", "plate", "mask", "ream"]), max_size=5),
    },
)
ENDPOINTS = {
    "/v1/threads/resolve": ("thread", THREAD, {"length_of_engagement": LENGTHS}),
    "/v1/drills/recommend": ("drill", THREAD, {**CHOICES, **DRILL}),
    "/v1/allowances": ("allowance", {**THREAD, "finish": FINISH}, {"material": MATERIAL}),
    "/v1/taps/recommend": ("tap", THREAD, {**CHOICES, "hole": HOLES}),
    "/v1/hole-specs": ("hole-spec", {**THREAD, "hole": HOLES}, {**CHOICES, **DRILL}),
    "/v1/hole-specs/audit": ("audit", {**THREAD, "hole": HOLES, "as_planned": PLANS}, {**CHOICES, **DRILL}),
}


@pytest.mark.parametrize("path", sorted(ENDPOINTS))
@given(data=st.data())
@settings(max_examples=80, suppress_health_check=[HealthCheck.too_slow])
def test_answered_or_refused(path, data):
    name, needed, optional = ENDPOINTS[path]
    body = data.draw(st.fixed_dictionaries(needed, optional={**optional, **COMMON}))
    answer = CLIENT.post(path, json=body)
    assert answer.status_code in (200, 422), answer.json
    SCHEMAS["problem" if answer.status_code == 422 else f"{name}-reply"].validate(answer.json)
