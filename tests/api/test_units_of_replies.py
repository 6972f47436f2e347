"""The same request answered in both unit systems, each number by the dimension that its published schema states.

The factors are made from the definitions: 1 in = 25.4 mm, 1 ft = 12 in, 1 lbf = 4.4482216152605 N, 1 hp = 550 ft lbf/s.
"""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
SCHEMAS = TESTS.parent / "schemas"
VARIED = json.loads((TESTS / "contract" / "varied_requests.json").read_text("utf-8"))

#: Metric reply = factor x inch reply, and the relative error that rounding both to four significant digits may make.
_EXACT, _FOUR_DIGITS = 2e-5, 1.1e-3
CONVERSIONS = {
    "length": (25.4, _EXACT),
    "area": (25.4**2, _EXACT),
    "feed": (25.4, _FOUR_DIGITS),
    "cutting_speed": (0.3048, _FOUR_DIGITS),  # ft/min to m/min
    "force": (4.4482216152605, _FOUR_DIGITS),
    "torque": (4.4482216152605 * 0.0254, _FOUR_DIGITS),  # lbf in to N m
    "stress": (4.4482216152605 / 25.4**2, _FOUR_DIGITS),  # lbf/in2 to N/mm2
    "power": (550 * 0.3048 * 4.4482216152605 / 1000, _FOUR_DIGITS),  # hp to kW
}
ALIKE = {"angle", "chance", "count", "hardness", "number", "percent", "ratio", "spindle_speed", "time"}
#: Seven decimals of an inch, five of a millimetre: half a unit of the last one of either.
_LAST_PLACES_MM = 0.00000005 * 25.4 + 0.000005
#: Holes that went wrong and a part, lengths with their units.
HOUSING = {
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": "0.75 in", "thickness": "1.25 in"},
    "material": "6061-T6",
}
PLATED = {**HOUSING, "material": {"name": "4140", "hardness": "28 HRC"}, "finish": "ASTM B633 Fe/Zn 8"}
REWORK = (
    ("stripped", HOUSING, {"condition": "stripped", "edge_distance": "0.5 in"}),
    ("drilled oversize", HOUSING, {"condition": "drilled_oversize", "measured": {"hole_diameter": "0.332 in"}}),
    ("wrong thread", HOUSING, {"condition": "wrong_thread", "wrong_thread": "5/16-18 UNC"}),
    ("tapped oversize", PLATED,
     {"condition": "tapped_oversize", "stage": "before_finish", "measured": {"pitch_diameter": "0.3415 in"}}),
)  # fmt: skip
PART = {
    "holes": [
        {**HOUSING, "id": "A", "quantity": 4},
        {"id": "B", "thread": "M8", "hole": {"type": "blind", "full_thread_depth": "16 mm"}, "material": "6061-T6"},
    ]
}
#: Evidence is told in its own units, names of units and of the answer differ, a request is told as it was asked.
OTHERWISE = {"units", "spec_id", "sources", "derivation", "request"}


class Walk:
    """Pairs of numbers of two replies, with what the schema says that they measure."""

    def __init__(self, name):
        self.schema = json.loads((SCHEMAS / f"{name}.schema.json").read_text("utf-8"))

    def pairs(self, inch, metric, schema=None, place=""):
        schema = self._followed(schema if schema is not None else self.schema, inch)
        if isinstance(inch, dict):
            assert inch.keys() == metric.keys(), place
            inner = schema.get("properties", {})
            for name in inch.keys() - OTHERWISE:
                yield from self.pairs(inch[name], metric[name], inner.get(name, {}), f"{place}/{name}")
        elif isinstance(inch, list):
            assert len(inch) == len(metric), place
            for one, other in zip(inch, metric, strict=True):
                yield from self.pairs(one, other, schema.get("items", {}), f"{place}/-")
        elif isinstance(inch, (int, float)) and not isinstance(inch, bool):
            yield place, schema.get("x-dimension"), inch, metric
        elif isinstance(inch, str):
            assert without_quantities(inch) == without_quantities(metric), place
        else:
            assert inch == metric, place

    def _followed(self, schema, value):
        """The schema itself behind a reference, or behind a choice between it and null or an object."""
        while "$ref" in schema or "anyOf" in schema:
            if "anyOf" in schema:
                stated = {name: schema[name] for name in ("x-dimension",) if name in schema}
                kinds = [one for one in schema["anyOf"] if one.get("type") != "null"]
                fitting = [one for one in kinds if ("$ref" in one) is isinstance(value, dict)] or kinds
                schema = stated | (fitting[0] if fitting else {})
            else:
                schema = self.schema["$defs"][schema["$ref"].rpartition("/")[2]]
        return schema


#: A quantity in a text: it is shown in the units of the reply; what stands around it is the same in both.
QUANTITY = re.compile(r"-?\d+(?:\.\d+)?(?: (?:to|and|or|\+/-) -?\d+(?:\.\d+)?)? (?:[a-zA-Z]+[*/][a-z]+|[a-zA-Z]+)\b")
UNITS = (
    *("in", "mm", "um", "in/rev", "mm/rev", "ft/min", "m/min", "lbf*in", "N*m"),
    *("lbf", "N", "hp", "kW", "psi", "ksi", "MPa"),
)


def without_quantities(text):
    """A drill named by its size has the size after it in the other units only."""
    plain = QUANTITY.sub(lambda found: "#" if found[0].rpartition(" ")[2] in UNITS else found[0], text)
    return plain.replace("# (#)", "#").replace("# drill (#)", "# drill")


def converts(dimension, inch, metric, place=""):
    """Whether the metric number is the inch number, by what it measures; of a free object a length or alike."""
    if dimension in ALIKE:
        return inch == metric
    if dimension is None:
        return inch == metric or converts("length", inch, metric, place)
    factor, relative = CONVERSIONS[dimension]
    if "/cutting_data/" in place:
        relative = _FOUR_DIGITS  # A peck is computed, like feed and torque.
    last_places = _LAST_PLACES_MM * (abs(inch) * 50.8 if dimension == "area" else 1)
    if place == "/tools/-/diameter":
        last_places = 0.00005 * 25.4  # Sizes of drills are printed with four decimals of an inch.
    return math.isclose(inch * factor, metric, rel_tol=relative, abs_tol=last_places)


def asked():
    """Name, path, schema and body without unit system of everyday and awkward holes, lengths with their units."""
    for name, hole in list(VARIED["holes"].items())[::3]:
        yield name, "/v1/hole-specs", "hole-spec-reply", hole
    for thread in ("3/8-16 UNC-2B", "M8"):
        yield thread, "/v1/threads/resolve", "thread-reply", {"thread": thread}
        yield thread, "/v1/drills/recommend", "drill-reply", {"thread": thread}
        yield thread, "/v1/taps/recommend", "tap-reply", {"thread": thread}
        yield thread, "/v1/allowances", "allowance-reply", {"thread": thread, "finish": "ASTM B633 Fe/Zn 8"}
    for name, plan in list(VARIED["plans"].items())[::5]:
        body = VARIED["holes"][plan["hole"]] | {"as_planned": plan["as_planned"]}
        yield name, "/v1/hole-specs/audit", "audit-reply", body
    for name, hole, found in REWORK:
        yield name, "/v1/rework", "rework-reply", {**hole, "found": found}
    yield "a part", "/v1/part-plans", "part-plan-reply", PART
    for marking in VARIED["markings"]:
        yield marking, "/v1/taps/decode", "tap-decode-reply", {"marking": marking}


def test_every_number_is_converted_by_its_dimension(client):
    seen = set()
    walks = {name: Walk(name) for _, _, name, _ in asked()}
    for name, path, schema, body in asked():
        inch, metric = (client.post(path, json={**body, "unit_system": one}) for one in ("inch", "metric"))
        if inch.status_code != 200:
            continue
        wrong = []
        for place, dimension, one, other in walks[schema].pairs(inch.json, metric.json):
            seen.add(dimension)
            if not converts(dimension, one, other, place):
                wrong.append((place, dimension, one, other))
        assert not wrong, (name, path, wrong)
    assert seen >= (CONVERSIONS.keys() | ALIKE) - {"number"}


@pytest.mark.parametrize("dimension", sorted(CONVERSIONS))
def test_a_factor_of_a_tenth_of_a_percent_is_noticed(dimension):
    factor, _ = CONVERSIONS[dimension]
    assert converts(dimension, 4.0, 4.0 * factor)
    assert not converts(dimension, 4.0, 4.0 * factor * 1.0025)
    assert not converts(dimension, 4.0, 4.0)
