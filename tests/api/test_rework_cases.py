"""Twenty-four holes of Kestrel Ridge Pumps that went wrong, and what a shop with experience proposes first.

The first way, and why: reasoned beside each, from the trade and the arithmetic, not from what the service said.
"""

from __future__ import annotations

from typing import Any, NamedTuple

GRADE_5, GRADE_88 = {"grade": "SAE J429 grade 5"}, {"grade": "8.8"}
STEEL = {"name": "4140", "hardness": "28 HRC"}
ZINC, HARD = "ASTM B633 Fe/Zn 8", "MIL-A-8625 Type III"


class Case(NamedTuple):
    """A hole, what was found, the first way (name and disposition), why."""

    name: str
    hole: dict[str, Any]
    found: dict[str, Any]
    first: tuple[str, str]
    why: str


def blind(thread: str, depth: float, material: Any = None, **fields: Any) -> dict[str, Any]:
    hole = {"type": "blind", "full_thread_depth": depth}
    if "thickness" in fields:
        hole["thickness"] = fields.pop("thickness")
    return {"thread": thread, "hole": hole, **({"material": material} if material else {}), **fields}


def through(thread: str, thickness: float, material: Any = None, **fields: Any) -> dict[str, Any]:
    hole = {"type": "through", "thickness": thickness}
    return {"thread": thread, "hole": hole, **({"material": material} if material else {}), **fields}


CASES = (
    Case("housing flange drilled with a Q drill", blind("3/8-16 UNC-2B", 0.75, "6061-T6", mating_screw=GRADE_5),
         {"condition": "drilled_oversize", "measured": {"hole_diameter": 0.332}}, ("use_with_less_thread", "use_as_is"),
         "53 % of thread 2 D deep still breaks the screw, and nothing more is cut: ask for leave before opening it up"),
    Case("manifold drilled 7.4 for M8", blind("M8-6H", 20, "6061-T6", mating_screw=GRADE_88),
         {"condition": "drilled_oversize", "measured": {"hole_diameter": 7.4}}, ("form_the_thread", "repair"),
         "37 % if cut, 71 % if formed, and 6061 forms well: M8 is formed from 7.4 everywhere"),
    Case("the same where the drawing lets threads be formed", blind("M8-6H", 20, "6061-T6"),
         {"condition": "drilled_oversize", "measured": {"hole_diameter": 7.4}, "drawing_allows": ["formed_thread"]},
         ("form_the_thread", "rework"), "then the part meets its drawing"),
    Case("hole inside its limits after all", blind("M6-6H", 12, "6061-T6"),
         {"condition": "drilled_oversize", "measured": {"hole_diameter": 5.1}}, ("tap_as_planned", "rework"),
         "5.1 is under 5.153: large, and good"),
    Case("grey iron drilled 7.4 for M8", blind("M8-6H", 20, "grey iron"),
         {"condition": "drilled_oversize", "measured": {"hole_diameter": 7.4}}, ("insert_in_the_same_place", "repair"),
         "iron does not form and 37 % is too little: an insert keeps the screw"),
    Case("bracket NOT GO enters by 0.0015", through("1/2-13 UNC-2B", 0.75, STEEL, mating_screw=GRADE_5),
         {"condition": "tapped_oversize", "measured": {"pitch_diameter": 0.4580}}, ("looser_class", "use_as_is"),
         "a 1B thread, 98 % of the shear area: no metal to be put back, the design changes the class or not"),
    Case("a 3B hole that is a good 2B hole", blind("3/8-16 UNC-3B", 0.75, STEEL, mating_screw=GRADE_5),
         {"condition": "tapped_oversize", "measured": {"pitch_diameter": 0.3390}}, ("looser_class", "use_as_is"),
         "0.3390 is under the 0.3401 of 2B"),
    Case("NOT GO enters before the zinc", blind("3/8-16 UNC-2B", 0.75, STEEL,
         finish={"thickness": {"min": 0.0002, "max": 0.0004}, "growth_fraction": 1}),
         {"condition": "tapped_oversize", "stage": "before_finish", "measured": {"pitch_diameter": 0.3415}},
         ("thicker_coat", "rework"), "0.00035 of zinc closes 0.0014, and the class goes to 0.0004"),
    Case("GO refused, worn tap", through("1/4-20 UNC-2B", 0.5, "grey iron"),
         {"condition": "go_does_not_enter", "measured": {"pitch_diameter": 0.2170}},
         ("clean_and_gauge_again", "rework"), "chips first, always; a new tap of the same limit next"),
    Case("GO refused after zinc", through("1/4-20 UNC-2B", 0.5, STEEL, finish=ZINC),
         {"condition": "go_does_not_enter", "stage": "after_finish", "measured": {"pitch_diameter": 0.2168}},
         ("clean_and_gauge_again", "rework"), "nodules; then strip, tap larger, plate: a chased thread is bare"),
    Case("GO refused after hard anodize", blind("M6-6H", 12, "6061-T6", finish=HARD),
         {"condition": "go_does_not_enter", "stage": "after_finish", "measured": {"pitch_diameter": 5.31}},
         ("clean_and_gauge_again", "rework"), "the coat leaves no room in 6H: the mask leaked, so strip and mask next"),
    Case("GO refused after galvanizing", through("5/8-11 UNC-2B", 0.75, "A36", finish="hot-dip galvanized ASTM F2329"),
         {"condition": "go_does_not_enter", "stage": "after_finish"}, ("clean_and_gauge_again", "rework"),
         "zinc sits in it: the oversize tap is run after the bath anyhow"),
    Case("thread 14 of 20 deep, drilled deep enough", blind("M10-6H", 20, "grey iron"),
         {"condition": "too_shallow", "measured": {"full_thread_depth": 14, "drill_depth": 24.5}},
         ("tap_deeper", "rework"), "24.5 - (2 + 1) 1.5 = 20: a bottoming tap reaches it"),
    Case("thread .3 of .5 deep, drilled too shallow", blind("1/4-20 UNC-2B", 0.5, "6061-T6", thickness=0.875),
         {"condition": "too_shallow", "measured": {"full_thread_depth": 0.3, "drill_depth": 0.6}},
         ("drill_and_tap_deeper", "rework"), "0.6 - (2 + 1) 0.05 = 0.45: the drill first"),
    Case("3/8-24 tapped for 3/8-16", blind("3/8-16 UNC-2B", 0.75, "6061-T6"),
         {"condition": "wrong_thread", "wrong_thread": "3/8-24 UNF-2B"}, ("insert_in_the_same_place", "repair"),
         "0.3804 is past 0.375, nothing stands of a 3/8-16; the insert's hole, 0.3885, takes it all away"),
    Case("10-32 tapped for 1/4-20", blind("1/4-20 UNC-2B", 0.5, "6061-T6"),
         {"condition": "wrong_thread", "wrong_thread": "#10-32 UNF"}, ("drill_and_tap_as_drawn", "rework"),
         "0.1941 lies inside the hole of 1/4-20, 0.196 at least: drill and tap, nothing happened"),
    Case("M10 tapped for 3/8-16", blind("3/8-16 UNC-2B", 0.75, "6061-T6"),
         {"condition": "wrong_thread", "wrong_thread": "M10x1.5"}, ("next_larger_thread", "repair"),
         "M10 reaches 0.3984, the insert's hole is 0.3885: not even the insert cleans, 1/2-13 does"),
    Case("M8 stripped in a cast cover", blind("M8-6H", 16, "A356", thickness=25, mating_screw=GRADE_88),
         {"condition": "stripped", "edge_distance": 10}, ("insert_in_the_same_place", "repair"),
         "the usual repair of a stripped aluminium thread, stronger than it was"),
    Case("5/16-18 stripped near an edge", blind("5/16-18 UNC-2B", 0.625, "6061-T6", finish=HARD),
         {"condition": "stripped", "stage": "after_finish", "edge_distance": 0.25, "least_wall": 0.1},
         ("plug_and_remake", "repair"), "nothing larger leaves the wall that must stay: engineering, or scrap"),
    Case("M3 tap broken below the face in aluminium", blind("M3-6H", 6, "6061-T6"),
         {"condition": "broken_tap", "broken_tap": {"material": "high_speed_steel", "stands_proud": False}},
         ("spark_erosion", "rework"), "too small for fingers, nothing to grip: burn it out, before any acid"),
    Case("1/2-13 tap broken above the face", blind("1/2-13 UNC-2B", 1, STEEL),
         {"condition": "broken_tap", "broken_tap": {"stands_proud": True}}, ("back_out", "rework"),
         "what can be gripped is turned out"),
    Case("carbide tap broken below the face", through("M6-6H", 12, "304"),
         {"condition": "broken_tap", "broken_tap": {"material": "carbide", "stands_proud": False}},
         ("spark_erosion", "rework"), "carbide can be neither milled nor dissolved"),
    Case("crossed thread in a through flange", through("1/2-13 UNC-2B", 1, "A36", mating_screw=GRADE_5),
         {"condition": "cross_threaded", "measured": {"full_thread_depth": 0.8}},
         ("chase_from_the_sound_end", "rework"), "0.8 of sound thread holds the screw: a tap from the far side"),
    Case("lifting lug stripped", blind("3/4-10 UNC-2B", 1.5, STEEL),
         {"condition": "stripped", "criticality": "lifting"}, ("refer_to_engineering", "repair"),
         "nobody repairs lifting gear on his own"),
    Case("torn port of a pipe thread", through("1/4-18 NPT", 0.75, "6061-T6"), {"condition": "stripped"},
         ("refer_to_engineering", "repair"), "it holds pressure, whatever the request says"),
)  # fmt: skip


def test_the_first_way_is_that_of_an_experienced_shop(client):
    assert len(CASES) >= 20
    for case in CASES:
        answer = client.post("/v1/rework", json={**case.hole, "found": case.found})
        assert answer.status_code == 200, (case.name, answer.get_json())
        first = answer.get_json()["ways"][0]
        assert (first["way"], first["disposition"]) == case.first, (case.name, case.why)
        assert first["needs_authority"] or first["disposition"] == "rework"


def test_what_comes_second_where_cleaning_comes_first(client):
    """A thread that GO refuses is cleaned first everywhere; the work that follows is what differs."""
    second = {
        "GO refused, worn tap": "tap_again_same_limit",
        "GO refused after zinc": "strip_tap_and_coat_again",
        "GO refused after hard anodize": "strip_mask_and_coat_again",
        "GO refused after galvanizing": "tap_again_oversize",
    }
    for case in CASES:
        if case.name in second:
            reply = client.post("/v1/rework", json={**case.hole, "found": case.found}).get_json()
            assert reply["ways"][1]["way"] == second[case.name], case.why
