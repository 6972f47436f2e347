"""The endpoint for holes that went wrong, as the OpenAPI document describes it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from borewright.contract.requests.rework import ReworkBody, rework_asked
from borewright.contract.rework_reply import rework_reply
from borewright.contract.sections.rework import ReworkReply
from borewright.core.rework import rework

from .endpoints import Endpoint

#: Holes of Kestrel Ridge Pumps: a pump housing whose thread was stripped, a valve block that GO refuses after plating.
REWORK: Mapping[str, dict[str, Any]] = {
    "stripped_in_a_pump_housing": {
        "id": "KRP-4105-D1",
        "thread": "3/8-16 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.75, "thickness": 1.25},
        "material": "6061-T6",
        "found": {"condition": "stripped", "edge_distance": 0.5},
    },
    "go_refused_after_zinc": {
        "id": "KRP-5120-C2",
        "thread": "1/4-20 UNC-2B",
        "hole": {"type": "through", "thickness": 0.5},
        "material": {"name": "4140", "hardness": "28 HRC"},
        "finish": "ASTM B633 Fe/Zn 8",
        "found": {
            "condition": "go_does_not_enter",
            "stage": "after_finish",
            "measured": {"pitch_diameter": 0.2168},
        },
    },
}


def _rework() -> Mapping[str, Any]:
    asked = rework_asked(REWORK["stripped_in_a_pump_housing"])
    return rework_reply(rework(asked.asked.request), asked)


REWORKED: tuple[Endpoint, ...] = (
    Endpoint(
        "post",
        "/v1/rework",
        "findRework",
        "rework",
        "Find every way to go on with a hole that went wrong",
        "A hole specification and what was found: drilled or tapped oversize, refused by GO, too shallow, the wrong"
        " thread, stripped, crossed, or with a broken tap in it. Every way comes with its arithmetic (does the new"
        " thread cut the old one away, what strength and what wall is left), its operations, the disposition that is"
        " proposed and who decides it; the ways that are none come with the reason. Nothing is accepted here: use as it"
        " is, repair and scrap always need their authority, and on flight, pressure, lifting and safety hardware only"
        " what brings the part back to its drawing is listed. Figures that contradict the condition are refused. The"
        " call only computes: nothing is stored.",
        ReworkReply,
        _rework,
        request=ReworkBody,
        request_examples=REWORK,
    ),
)
