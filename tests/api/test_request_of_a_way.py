"""The hole of a way as a request: what was drawn, without what holds for the drawn thread alone.

Of another thread than the drawn one neither edition, percent of thread, objective, limits of the tap, series of drills
nor stock are kept, and of the screw only its grade. What was cut once is cut again, never formed. What is cut after the
finish is bare. Numbers keep the unit in which they were sent.
"""

from __future__ import annotations

import pytest

STEEL = {"name": "4140", "hardness": "28 HRC"}
OF_THE_THREAD = {
    "edition": "2019",
    "percent_thread": 65,
    "objective": "least_torque",
    "drill_series": ["fractional"],
    "stock": {"drills": ["5/16"]},
}
ZINC = {"finish": "ASTM B633 Fe/Zn 8", "dimensions_apply": "after_finish"}
DEPTHS = {"type": "blind", "full_thread_depth": 0.75, "thickness": 1.25}
DRAWN = {"thread": "3/8-16 UNC-2B", "material": STEEL, "hole": DEPTHS}
GRADE = {"grade": "SAE J429 grade 5"}


def ways(client, body, **found):
    answer = client.post("/v1/rework", json={**body, "found": found})
    assert answer.status_code == 200, answer.json
    return [one for one in answer.json["ways"] if "request" in one]


@pytest.mark.parametrize("stage", ["before_finish", "after_finish"])
def test_another_thread_keeps_what_holds_for_it(client, stage):
    body = {
        **DRAWN, **ZINC, **OF_THE_THREAD, "hole": {**DEPTHS, "drill": "5/16"},
        "mating_screw": {"class": "2A", **GRADE},
    }  # fmt: skip
    found = ways(client, body, condition="stripped", stage=stage, edge_distance=0.5)
    assert {one["way"] for one in found} == {"insert_in_the_same_place", "next_larger_thread"}
    bore = [one["request"].pop("stock", None) for one in found]
    for one, stock in zip(found, bore, strict=True):
        assert one["request"] == {
            **DRAWN, **(ZINC if stage == "before_finish" else {}), "thread": one["thread"], "mating_screw": GRADE,
            "method": "cut", "unit_system": "inch",
        }  # fmt: skip
        drilled = [line["tool"]["label"] for line in one["operations"] if line["operation"] == "drill"]
        assert stock in (None, {"drills": drilled})  # the one drill that fits, never that of the drawn thread
    assert any("M12" in one["thread"] for one in found)  # also there 0.75 is in inches


def test_a_screw_without_a_grade_is_left_out(client):
    found = ways(client, {**DRAWN, "mating_screw": {"class": "2A"}}, condition="stripped", edge_distance=0.5)
    assert found
    assert not any("mating_screw" in one["request"] for one in found)


def test_the_same_thread_keeps_all_but_how_it_is_made(client):
    """M8 drilled 7.4 is formed: the drill that the drawing states for a cut thread is none for it."""
    body = {
        "thread": "M8-6H", "hole": {"type": "blind", "full_thread_depth": 20, "drill": "6.8 mm"}, "material": "6061-T6",
        "percent_thread": 65, "mating_screw": {"class": "6g", "grade": "ISO 898-1 8.8"},
    }  # fmt: skip
    first = ways(client, body, condition="drilled_oversize", measured={"hole_diameter": 7.4})[0]
    assert first["way"] == "form_the_thread"
    hole = {"type": "blind", "full_thread_depth": 20}
    assert first["request"] == {**body, "hole": hole, "method": "form", "unit_system": "metric"}


def test_a_tap_of_larger_limits_keeps_all_and_the_drill(client):
    """GO is refused: the same hole is tapped once more with the one tap that is named."""
    body = {**DRAWN, "method": "cut", "hole": {**DEPTHS, "drill": "5/16"}, "mating_screw": {"class": "2A", **GRADE},
            "stock": {"drills": ["5/16"]}}  # fmt: skip
    found = ways(client, body, condition="go_does_not_enter")
    again = next(one for one in found if one["request"].get("thread") == DRAWN["thread"])
    (tap,) = again["request"]["stock"]["taps"]
    assert again["request"] == {**body, "stock": {"drills": ["5/16"], "taps": [tap]}, "unit_system": "inch"}


def test_bare_numbers_keep_the_unit_that_was_asked_for(client):
    body = {"thread": "M8-6H", "hole": {"type": "blind", "full_thread_depth": 0.7}, "material": "6061-T6"}
    found = ways(client, {**body, "unit_system": "inch"}, condition="stripped")
    assert found
    assert {one["request"]["unit_system"] for one in found} == {"inch"}


def test_a_specification_is_told_in_short_unless_a_detail_is_asked_for(client):
    short = ways(client, DRAWN, condition="stripped", edge_distance=0.5)
    assert [set(one["specification"]) for one in short] == [{"spec_id", "verdict", "review", "headline"}] * len(short)
    for one in ways(client, {**DRAWN, "detail": "routing"}, condition="stripped", edge_distance=0.5):
        posted = client.post("/v1/hole-specs", json={**one["request"], "detail": "routing"}).json
        assert {"operations", "headline"} <= set(posted)
        assert one["specification"] == posted
