"""POST /v1/rework: what is answered, that a way's request posts, and what is refused."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import openpyxl
import pytest
from jsonschema import Draft202012Validator

SCHEMA = Path(__file__).parents[2] / "schemas" / "rework-reply.schema.json"
REPLY = Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
HOUSING = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.75, "thickness": 1.25},
    "material": "6061-T6",
}
ZINC = {**HOUSING, "material": {"name": "4140", "hardness": "28 HRC"}, "finish": "ASTM B633 Fe/Zn 8"}


def ask(client, hole, **found):
    answer = client.post("/v1/rework", json={**hole, "found": found})
    assert answer.status_code == 200, answer.get_json()
    REPLY.validate(answer.get_json())
    return answer.get_json()


def refused(client, hole, **found):
    answer = client.post("/v1/rework", json={**hole, "found": found})
    assert answer.status_code == 422, answer.get_json()
    return {(error["pointer"], error["code"]) for error in answer.get_json()["errors"]}


def ways(reply):
    return [(one["way"], one["disposition"]) for one in reply["ways"]]


def test_the_request_of_a_way_posts_and_is_the_same_hole(client):
    """Drawing, gauges and full specification of a way come from the request that it carries."""
    reply = ask(client, HOUSING, condition="stripped", edge_distance=0.5)
    made = [one for one in reply["ways"] if "request" in one]
    assert len(made) >= 3
    for one in made:
        posted = client.post("/v1/hole-specs", json=one["request"])
        assert posted.status_code == 200, posted.get_json()
        assert posted.json["spec_id"] == one["specification"]["spec_id"]
        assert posted.json["thread"]["designation"] == one["thread"] != HOUSING["thread"]
        drilled = [line["tool"]["label"] for line in one["operations"] if line["operation"] == "drill"]
        assert drilled == [line["tool"]["label"] for line in posted.json["operations"] if line["operation"] == "drill"]
    drawing = client.post("/v1/hole-specs", json=made[0]["request"], headers={"Accept": "image/svg+xml"})
    assert drawing.status_code == 200


def test_units_of_the_reply(client):
    """The same rework in millimetres: every length of a proof is 25.4 times that in inches."""
    inch = ask(client, HOUSING, condition="stripped", edge_distance="0.5 in")
    metric_hole = {**HOUSING, "hole": {"type": "blind", "full_thread_depth": "0.75 in", "thickness": "1.25 in"}}
    metric = ask(client, {**metric_hole, "unit_system": "metric"}, condition="stripped", edge_distance="0.5 in")
    assert metric["units"]["length"] == "mm"
    for one, other in zip(inch["ways"], metric["ways"], strict=True):
        assert one["way"] == other["way"]
        for name in ("envelope", "radial_clean_up", "wall_after", "drill_depth_plug_tap"):
            if name in one["proof"]:
                assert other["proof"][name] == pytest.approx(25.4 * one["proof"][name], abs=1e-4), name
        assert not any(" in deep" in line["text"] for line in other["operations"])


def test_every_figure_of_a_proof_can_be_redone(client):
    answer = client.post("/v1/rework", json={**ZINC, "explain": True, "found": {
        "condition": "tapped_oversize", "stage": "before_finish", "measured": {"pitch_diameter": 0.3408},
        "edge_distance": 0.5}})  # fmt: skip
    reply = answer.get_json()
    steps = [step for step in reply["derivation"] if step["quantity"].startswith("ways.")]
    assert len(steps) > 20
    for step in steps:
        place, _, name = step["quantity"].removeprefix("ways.").partition(".proof.")
        inputs = {"half_even": lambda value, _: value, "half_up": lambda value, _: value, "max": max, "min": min}
        redone = eval(step["formula"], {"__builtins__": {}, **inputs}, step["inputs"])
        assert redone == pytest.approx(step["value"], abs=6e-5), step
        if name != "envelope":  # told twice: of the tap, and with what it cut oversize
            assert reply["ways"][int(place)]["proof"][name] == pytest.approx(step["value"], rel=1e-3, abs=1e-9), step


def test_critical_hardware_gets_rework_only_and_never_without_authority(client):
    """Whatever the condition, and of a pipe thread unasked: it holds pressure."""
    found = {
        "stripped": {}, "broken_tap": {}, "cross_threaded": {}, "tapped_oversize": {},
        "wrong_thread": {"wrong_thread": "3/8-24 UNF"}, "drilled_oversize": {"measured": {"hole_diameter": 0.332}},
    }  # fmt: skip
    for condition, given in found.items():
        for criticality in ("flight", "pressure", "lifting", "safety"):
            reply = ask(
                client, {**HOUSING, "material": "6061-T6"}, condition=condition, criticality=criticality, **given
            )
            assert {one["disposition"] for one in reply["ways"][:-1]} <= {"rework"}
            assert reply["ways"][-1]["way"] == "refer_to_engineering"
            assert all(one["needs_authority"] for one in reply["ways"])
            assert not {"alum", "nitric_acid", "anneal_and_drill"} & {one["way"] for one in reply["ways"]}
    pipe = ask(client, {"thread": "1/4-18 NPT", "hole": {"type": "through", "thickness": 0.75}}, condition="stripped")
    assert ways(pipe) == [("refer_to_engineering", "repair")]


def test_not_go_entering_is_never_cured_by_a_tap(client):
    for found in (
        {"condition": "tapped_oversize", "measured": {"pitch_diameter": 0.3418}},
        {"condition": "go_does_not_enter", "measured": {"pitch_diameter": 0.3418, "not_go_enters": True}},
        {"condition": "tapped_oversize"},
    ):
        reply = ask(client, HOUSING, **found)
        assert not any(one["way"].startswith("tap_again") for one in reply["ways"])
        assert any(one["way"] == "tap_again" for one in reply["ruled_out"])


def test_an_insert_that_the_drawing_lists_is_rework(client):
    plain = dict(ways(ask(client, HOUSING, condition="stripped")))
    listed = dict(ways(ask(client, HOUSING, condition="stripped", drawing_allows=["insert"])))
    assert plain["insert_in_the_same_place"] == "repair"
    assert listed["insert_in_the_same_place"] == "rework"


def test_the_wall_that_must_stay_rules_out(client):
    """3/8-16 STI leaves 0.300 - 0.4602 / 2 = 0.0699 in of wall."""
    reply = ask(client, HOUSING, condition="stripped", edge_distance=0.300, least_wall=0.08)
    assert not any(one["way"] == "insert_in_the_same_place" for one in reply["ways"])
    why = next(one["why"] for one in reply["ruled_out"] if one["way"] == "insert_in_the_same_place")
    assert "0.0699 in" in why
    reply = ask(client, HOUSING, condition="stripped", edge_distance=0.300)
    first = reply["ways"][0]
    assert first["proof"]["wall_after"] == pytest.approx(0.0699)
    assert [one["code"] for one in first["cautions"]] == ["thin_wall_beside"]


MEASURED = "/found/measured"
REFUSED = {
    "GO would enter": (HOUSING, {"condition": "go_does_not_enter", "measured": {"pitch_diameter": 0.3410}},
                       (f"{MEASURED}/pitch_diameter", "rework_contradiction")),
    "too tight to be oversize": (HOUSING, {"condition": "tapped_oversize", "measured": {"pitch_diameter": 0.3340}},
                                 (f"{MEASURED}/pitch_diameter", "rework_contradiction")),
    "NOT GO stays out": (HOUSING, {"condition": "tapped_oversize", "measured": {"not_go_enters": False}},
                         (f"{MEASURED}/not_go_enters", "rework_contradiction")),
    "hole too small": (HOUSING, {"condition": "drilled_oversize", "measured": {"hole_diameter": 0.300}},
                       (f"{MEASURED}/hole_diameter", "rework_contradiction")),
    "hole not measured": (HOUSING, {"condition": "drilled_oversize"},
                          (f"{MEASURED}/hole_diameter", "measurement_missing")),
    "another thread by size": (HOUSING, {"condition": "tapped_oversize", "measured": {"pitch_diameter": 0.4500}},
                               (f"{MEASURED}/pitch_diameter", "measured_other_thread")),
    "another thread by name": (HOUSING, {"condition": "stripped", "measured": {"thread": "M10"}},
                               (f"{MEASURED}/thread", "measured_other_thread")),
    "millimetres for inches": (HOUSING, {"condition": "drilled_oversize", "measured": {"hole_diameter": 8.43}},
                               (f"{MEASURED}/hole_diameter", "measured_other_thread")),
    "deep enough": (HOUSING, {"condition": "too_shallow", "measured": {"full_thread_depth": 0.75}},
                    (f"{MEASURED}/full_thread_depth", "rework_contradiction")),
    "the right thread": (HOUSING, {"condition": "wrong_thread", "wrong_thread": "3/8-16 UNC-3B"},
                         ("/found/wrong_thread", "rework_contradiction")),
    "no wrong thread": (HOUSING, {"condition": "wrong_thread"}, ("/found/wrong_thread", "measurement_missing")),
    "wrong thread of another condition": (HOUSING, {"condition": "stripped", "wrong_thread": "M10"},
                                          ("/found/wrong_thread", "rework_contradiction")),
    "unreadable wrong thread": (HOUSING, {"condition": "wrong_thread", "wrong_thread": "3/8"},
                                ("/found/wrong_thread", "callout_ambiguous")),
    "wrong thread that no standard has": (HOUSING, {"condition": "wrong_thread", "wrong_thread": "M10x1.5-3H"},
                                          ("/found/wrong_thread", "thread_class_unknown")),
    "stage open": (ZINC, {"condition": "stripped"}, ("/found/stage", "measurement_missing")),
    "after no finish": (HOUSING, {"condition": "stripped", "stage": "after_finish"},
                        ("/found/stage", "rework_contradiction")),
    "coat before the finish": (ZINC, {"condition": "go_does_not_enter", "stage": "before_finish",
                                      "measured": {"coat": "10 um"}}, (f"{MEASURED}/coat", "rework_contradiction")),
    "coat of no finish": (HOUSING, {"condition": "go_does_not_enter", "measured": {"coat": "10 um"}},
                          (f"{MEASURED}/coat", "rework_contradiction")),
    "minor over pitch": (HOUSING, {"condition": "tapped_oversize",
                                   "measured": {"pitch_diameter": 0.3410, "hole_diameter": 0.3420}},
                         (f"{MEASURED}/hole_diameter", "rework_contradiction")),
    "pitch over major": (HOUSING, {"condition": "tapped_oversize",
                                   "measured": {"pitch_diameter": 0.3500, "major_diameter": 0.3490}},
                         (f"{MEASURED}/major_diameter", "rework_contradiction")),
    "major that is the minor": (HOUSING, {"condition": "stripped", "measured": {"major_diameter": 0.3200}},
                                (f"{MEASURED}/major_diameter", "rework_contradiction")),
    "broken tap of another condition": (HOUSING, {"condition": "stripped", "broken_tap": {"material": "carbide"}},
                                        ("/found/broken_tap", "rework_contradiction")),
    "edge inside the thread": (HOUSING, {"condition": "stripped", "edge_distance": 0.1875},
                               ("/found/edge_distance", "rework_contradiction")),
    "unknown condition": (HOUSING, {"condition": "broken"}, ("/found/condition", "field_value_unknown")),
    "unknown field": (HOUSING, {"condition": "stripped", "measured": {"depth": 1}},
                      (f"{MEASURED}/depth", "field_unknown")),
    "negative": (HOUSING, {"condition": "stripped", "edge_distance": -1},
                 ("/found/edge_distance", "value_out_of_range")),
}  # fmt: skip


def test_what_contradicts_itself_is_refused(client):
    for name, (hole, found, expected) in REFUSED.items():
        assert expected in refused(client, hole, **found), name
    assert ("/found", "field_missing") in refused_body(client, HOUSING)


def refused_body(client, body):
    answer = client.post("/v1/rework", json=body)
    assert answer.status_code == 422
    return {(error["pointer"], error["code"]) for error in answer.get_json()["errors"]}


def test_an_insert_goes_only_as_deep_as_it_needs_where_the_floor_is_near(client):
    """0.72 in of thread in 0.95 in of wall: the wider hole breaks out, that of an insert of 1.5 D need not be so deep.

    1.5 x 0.375 + 1 / 16 = 0.625 in of full thread.
    """
    hole = {**HOUSING, "hole": {"type": "blind", "full_thread_depth": 0.72, "thickness": 0.95}}
    first = ask(client, hole, condition="stripped")["ways"][0]
    assert first["way"] == "insert_in_the_same_place"
    assert first["proof"]["insert_length"] == pytest.approx(0.5625)
    assert first["request"]["hole"]["full_thread_depth"] == "0.6250 in"


def test_a_part_too_hard_to_cut_gets_no_thread_promised(client):
    hard = {**HOUSING, "material": {"name": "4140", "hardness": "58 HRC"}}
    reply = ask(client, hard, condition="stripped")
    assert all(one["operations"] for one in reply["ways"] if "request" in one)


#: Three holes of a shift: stripped, refused by GO after zinc, and one that names no condition that is known.
SHIFT = """Hole,Callout,Type,Depth (in),Wall,Material,Finish,What is wrong,When found,Edge,Remarks
KRP-1,3/8-16 UNC-2B,blind,0.75,1.25,6061-T6,,stripped,,0.5,pump housing
KRP-2,1/4-20 UNC-2B,blind,1/2 in,,4140,ASTM B633 Fe/Zn 8,go_does_not_enter,after_finish,,valve block
KRP-3,M8,blind,16 mm,,6061-T6,,striped,,,
"""
CSV, NDJSON = "text/csv", "application/x-ndjson"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


def _batch(client, data, media, accept="application/json"):
    answer = client.post("/v1/rework/batch", data=data, content_type=media, headers={"Accept": accept})
    assert answer.status_code == 200, answer.get_json()
    return answer


def _judged(reply):
    return [(way["text"], way["disposition"], way["proof"]) for way in reply["ways"]]


def test_a_sheet_of_holes_is_answered_as_the_holes_are(client):
    """Sheet, workbook, lines and JSON: the same answers as one by one; a bad row has its problem and its cell."""
    one = ask(client, HOUSING, condition="stripped", edge_distance=0.5)
    other = ask(
        client,
        {"thread": "1/4-20 UNC-2B", "hole": {"type": "blind", "full_thread_depth": "1/2 in"}, "material": "4140",
         "finish": "ASTM B633 Fe/Zn 8"},
        condition="go_does_not_enter",
        stage="after_finish",
    )  # fmt: skip
    book, content = openpyxl.Workbook(), io.BytesIO()
    for row in csv.reader(io.StringIO(SHIFT)):
        book.active.append(row)
    book.save(content)
    for data, media in ((SHIFT, CSV), (content.getvalue(), XLSX)):
        reply = _batch(client, data, media).get_json()
        assert reply["summary"] == {
            "items": 3, "ok": 2, "failed": 1, "verdicts": {"use_as_is": 0, "rework": 1, "repair": 1, "scrap": 0}
        }  # fmt: skip
        first, second, third = reply["results"]
        assert (first["row"], _judged(first["rework"])) == (2, _judged(one))
        assert _judged(second["rework"]) == _judged(other)
        (error,) = third["problem"]["errors"]
        assert (error["column"], error["cell"], error["did_you_mean"]) == ("What is wrong", "striped", ["stripped"])
    item = {**HOUSING, "found": {"condition": "stripped", "edge_distance": 0.5}}
    lines = _batch(client, json.dumps(item) + "\n", NDJSON, accept=NDJSON).data.splitlines()
    assert json.loads(lines[0])["rework"] == one
    held = {"items": [{"found": item["found"]}, 3], "defaults": HOUSING}
    answers = _batch(client, json.dumps(held), "application/json").get_json()["results"]
    assert answers[0]["rework"]["ways"] == one["ways"]
    assert answers[1]["problem"]["code"] == "body_not_object"


def test_a_sheet_of_ways(client):
    """A row a hole: what is proposed first, who decides, and the names of the other ways."""
    one = ask(client, HOUSING, condition="stripped", edge_distance=0.5)
    rows = list(csv.DictReader(io.StringIO(_batch(client, SHIFT, CSV, accept="*/*").get_data(as_text=True))))
    assert [row["status"] for row in rows] == ["ok", "ok", "error"]
    assert rows[0]["first.way"] == "insert_in_the_same_place"
    assert rows[0]["first.authority"] == one["ways"][0]["authority"]
    assert rows[0]["other.way"].split(" | ") == [way["way"] for way in one["ways"][1:]]
    assert rows[2]["problem.errors.pointer"] == "/found/condition"
