"""A full reply redoes its own figures: every formula of its derivation, evaluated over its inputs, gives its value."""

from __future__ import annotations

import math
from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, ROUND_UP, Decimal
from statistics import NormalDist

import pytest

#: Doubles of a reply against the decimals and doubles it was made with.
RELATIVE, ABSOLUTE = 1e-9, 1e-12
ALLOY, SCREW = "4140", {"grade": "SAE J429 grade 8"}
#: Factors of the spread for eleven degrees of freedom, worked case S03.
SHARES = [1.65, 1.418, 1.309, 1.235, 1.177, 1.129, 1.087, 1.049, 1.014, 0.98, 0.947, 0.913, 0.878, 0.839, 0.793, 0.72]
HOLES = {
    "by the shop's own figures": {
        "thread": "7/16-14 UNC-3B",
        "hole": {"type": "blind", "full_thread_depth": 0.6},
        "material": "4140",
        "finish": "ASTM B633 Fe/Zn 5",
        "shop_figures": {
            "unit_system": "inch",
            "drill_oversize": [
                {"count": 10, "drill_diameter": 0.368, "mean": 0.0016, "spread": 0.0006, "scale_factors": SHARES}
            ],
            "tap_oversize": [{"count": 10, "mean": 0.12, "spread": 0.08, "scale_factors": SHARES}],
            "tapping_torque": [{"count": 4, "median": 1.39, "low": 0.79, "high": 2.45}],
        },
    },
    "least torque, inch": {
        "thread": "1/2-13 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 1},
        "material": ALLOY,
        "mating_screw": SCREW,
        "objective": "least_torque",
    },
    "least torque, metric": {
        "thread": "M8x1.25-6H",
        "hole": {"type": "blind", "full_thread_depth": 16},
        "material": ALLOY,
        "mating_screw": {"grade": "ISO 898-1 8.8"},
        "objective": "least_torque",
    },
    "aluminium, other units": {
        "thread": "1/4-20 UNC-2B",
        "hole": {"type": "through", "thickness": "12 mm"},
        "material": "6061-T6",
        "mating_screw": {"grade": "SAE J429 grade 5"},
        "unit_system": "metric",
    },
    "formed": {
        "thread": "M10-6H",
        "hole": {"type": "blind", "full_thread_depth": 20},
        "material": "6061-T6",
        "method": "form",
    },
    "taper pipe": {"thread": "1/4-18 NPT", "hole": {"type": "through", "thickness": 0.75}},
    "parallel pipe": {"thread": "G 1/2", "hole": {"type": "blind", "full_thread_depth": 20}},
    "stainless": {
        "thread": "#10-32 UNF-3B",
        "hole": {"type": "blind", "full_thread_depth": 0.375},
        "material": "304",
        "machine": {"max_spindle_speed": 800, "tapping": "floating"},
    },
    "trapezoidal": {"thread": "Tr 20x4-7H", "hole": {"type": "through", "thickness": 30}},
    "deep in a bore": {
        "thread": "M6-6H",
        "hole": {
            "type": "blind",
            "full_thread_depth": 12,
            "run_out": "din_76_1",
            "access_depth": 40,
            "clearance_diameter": 12,
        },
    },
    "plated": {
        "thread": "3/8-16 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.75},
        "material": {"name": "4140", "hardness": "28 HRC"},
        "finish": "ASTM B633 Fe/Zn 8",
    },
    "plated after the limits hold": {
        "thread": "M8x1.25-6H",
        "hole": {"type": "blind", "full_thread_depth": 16},
        "finish": "ASTM B633 Fe/Zn 8",
        "dimensions_apply": "before_finish",
    },
    "galvanized": {
        "thread": "5/8-11 UNC-2B",
        "hole": {"type": "through", "thickness": 0.75},
        "finish": "hot-dip galvanized ASTM F2329",
    },
}


def rounded(mode: str):
    def to_places(value: float, places: float) -> float:
        shortest = Decimal(f"{value:.12g}")
        return float(shortest.quantize(Decimal(1).scaleb(-int(places)), mode))

    return to_places


NORMAL = NormalDist()
FUNCTIONS = {
    **{name: getattr(math, name) for name in ("sqrt", "sin", "cos", "tan", "exp", "pi")},
    "cbrt": lambda value: math.copysign(abs(value) ** (1 / 3), value),
    "min": min,
    "max": max,
    "rad": math.radians,
    "ln": math.log,
    "half_even": rounded(ROUND_HALF_EVEN),
    "half_up": rounded(ROUND_HALF_UP),
    "up": rounded(ROUND_UP),
    "down": rounded(ROUND_DOWN),
    "cdf": NORMAL.cdf,
    "pdf": NORMAL.pdf,
}


def redo(step: dict) -> float:
    return eval(step["formula"], {"__builtins__": {}, **FUNCTIONS}, dict(step["inputs"]))


def derivation(client, hole: dict) -> list[dict]:
    reply = client.post("/v1/hole-specs", json={**hole, "explain": True})
    assert reply.status_code == 200, reply.get_json()
    return reply.get_json()["derivation"]


@pytest.mark.parametrize("name", HOLES)
def test_each_formula_gives_its_value(client, name):
    redone = [step for step in derivation(client, HOLES[name]) if step["formula"] != "table"]
    assert len(redone) >= 10
    for step in redone:
        assert redo(step) == pytest.approx(step["value"], rel=RELATIVE, abs=ABSOLUTE), step


def test_each_section_is_derived(client):
    """A blind hole with everything asked for derives figures of each section that holds figures."""
    begun = {step["quantity"].partition(".")[0] for step in derivation(client, HOLES["least torque, inch"])}
    wanted = {"thread", "drill", "tap", "depths", "cutting_data", "strength", "gauging", "acceptance", "comparison"}
    assert wanted <= begun
