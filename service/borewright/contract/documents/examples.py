"""Example requests of the documents: holes of Kestrel Ridge Pumps, an invented maker of pump housings."""

from __future__ import annotations

from typing import Any

THREAD: dict[str, dict[str, Any]] = {
    "text": {"thread": "1/2-13 UNC-2B"},
    "object": {"thread": {"system": "iso_metric", "size": "M10", "pitch": 1, "class": "6H", "hand": "left"}},
    "in_other_units": {"thread": "M8", "unit_system": "inch", "length_of_engagement": "12 mm"},
}

DRILL: dict[str, dict[str, Any]] = {
    "chart": {"thread": "1/4-20 UNC-2B"},
    "percent_in_crib": {
        "thread": "M12",
        "percent_thread": {"target": 70, "min": 60, "max": 75},
        "material": "304",
        "stock": {"drills": ["10.2 mm", "10.3 mm", "13/32"]},
    },
}

ALLOWANCE: dict[str, dict[str, Any]] = {
    "thickness": {"thread": "1/4-28 UNF-2B", "finish": {"thickness": {"min": 0.0002, "max": 0.0003}}},
    "specification": {"thread": "3/8-16 UNC-2B", "finish": "ASTM B633 Fe/Zn 8"},
}

TAP: dict[str, dict[str, Any]] = {
    "blind": {
        "thread": "3/8-16 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.75},
        "material": {"name": "4140", "hardness": "28 HRC"},
    },
    "plated_in_crib": {"thread": "1/4-28 UNF-2B", "finish": "ASTM B633 Fe/Zn 8", "stock": {"taps": ["H5", "H6"]}},
}

DECODE: dict[str, dict[str, Any]] = {
    "inch": {"marking": "1/2-13 NC HSS G H3"},
    "metric": {"marking": "M8x1.25 HSS G D5"},
}

NOTE: dict[str, dict[str, Any]] = {
    "stacked": {
        "note": "4X Ø.201 ↧.75\n1/4-20 UNC-2B ↧.50\n⌵ Ø.28 X 90°",
        "general_notes": ["FINISH: ZINC PLATE PER ASTM B633 FE/ZN 8"],
        "defaults": {"material": "6061-T6"},
    },
    "iso_short_form": {"note": "4x M8 - 16 tief, Kernloch Ø6,8 - 20 tief"},
    "left_open": {"note": "1/4 TAP THRU, 4 PL", "unit_system": "inch"},
}

HOLE_SPEC: dict[str, dict[str, Any]] = {
    "plated_blind": {
        "id": "KRP-4105-D1",
        "thread": "3/8-16 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.75},
        "material": {"name": "4140", "hardness": "28 HRC"},
        "finish": "ASTM B633 Fe/Zn 8",
    },
    "metric_through": {
        "id": "KRP-6008-F4",
        "thread": "M20",
        "hole": {"type": "through", "thickness": 25},
        "material": "1045",
    },
    "limited_depth": {
        "id": "KRP-2210-B2",
        "thread": "M8",
        "hole": {"type": "blind", "full_thread_depth": "16 mm", "drill_depth_limit": "7/8 in"},
        "material": "6061-T6",
        "unit_system": "metric",
        "explain": True,
    },
}

AUDIT: dict[str, dict[str, Any]] = {
    "wrong_pitch": {
        "id": "KRP-4105-D1",
        "thread": "3/8-16 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.75},
        "material": {"name": "4140", "hardness": "28 HRC"},
        "as_planned": {
            "drill": "5/16",
            "tap": {"marking": "3/8-24 NF HSS G H3", "style": "spiral_point"},
            "drill_depth": 1.0,
            "spindle_speed": 2400,
        },
    },
    "galvanized": {
        "id": "KRP-6008-F4",
        "thread": "M20",
        "hole": {"type": "through", "thickness": 25},
        "finish": "ISO 10684",
        "as_planned": {
            "drill": "17.9 mm",
            "tap": "M20x2.5 6AZ HSS G",
            "operations_order": ["drill", "galvanize", "tap"],
        },
    },
}

AUDIT_BATCH: dict[str, dict[str, Any]] = {
    "routing": {"defaults": {"material": "1045"}, "items": [AUDIT["galvanized"], AUDIT["wrong_pitch"]]},
}
