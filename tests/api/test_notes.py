"""POST /v1/notes/read: valid replies, requests that can be posted, refusals; notes as items of a batch."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import jsonschema
import pytest
from borewright.contract.documents import published
from borewright.core.notes import CODES

TESTS = Path(__file__).parents[1]
FILES = TESTS / "published" / "hole_notes.csv", TESTS / "derived" / "hole_notes_by_rule.csv"
#: Printed notes of every kind of thread, depth and unit, whose requests are posted.
POSTED = ("E001", "E002", "E029", "E030", "E033", "E060", "E062", "E063", "E066", "E067")
SCHEMA = jsonschema.Draft202012Validator(json.loads(published.schemas_json()["note-reply"]))


def read(client, note, **fields):
    response = client.post("/v1/notes/read", json={"note": note, **fields})
    assert response.status_code == 200, response.json
    return response.json


def test_every_note_is_answered_by_the_schema_and_what_is_ready_can_be_posted(client):
    rows = [row for file in FILES for row in csv.DictReader(file.read_text("utf-8").splitlines(keepends=True))]
    for row in rows:
        general = json.loads(row["general_notes"] or "[]")
        fields = {"general_notes": general, "defaults": {"hole": {"thickness": "60 mm"}}}
        unit = {"unit_system": row["unit_system"]} if row["unit_system"] else {}
        reply = read(client, row["note"], **fields, **unit)
        SCHEMA.validate(reply)
        assert {one["code"] for one in reply["questions"]} <= set(CODES)
        for hole in reply["holes"]:
            assert hole["ready"] is (hole["missing"] == [])
            if row["id"] in POSTED:
                assert hole["ready"]
                assert client.post("/v1/hole-specs", json=hole["request"]).status_code == 200


def test_defaults_fill_what_the_note_leaves_open_and_nothing_else(client):
    defaults = {"material": "6061-T6", "hole": {"thickness": "20 mm", "full_thread_depth": 3}}
    reply = read(client, "4X M6 THRU\n2X M8 ↧16\nM10", defaults=defaults)
    through, blind, bare = (hole["request"] for hole in reply["holes"])
    assert through["hole"] == {"type": "through", "thickness": "20 mm", "full_thread_depth": 3}
    assert (blind["hole"]["full_thread_depth"], blind["material"]) == (16, "6061-T6")
    assert [hole["count"] for hole in reply["holes"]] == [4, 2, 1]
    assert bare["unit_system"] == "metric"
    assert any("read as through" in text for text in reply["holes"][2]["assumptions"])


def test_what_a_request_still_needs_is_named(client):
    reply = read(client, "M6 THRU\n\nM8 BLIND\n\nM10 FINE ↧20")
    assert [hole["missing"] for hole in reply["holes"]] == [
        ["/hole/thickness"],
        ["/hole/full_thread_depth"],
        ["/thread"],
    ]
    assert [(one["code"], one["hole"]) for one in reply["questions"]] == [("depth_of_what", 1), ("thread_ambiguous", 2)]
    assert reply["questions"][1]["options"] == ["M10x1.5", "M10x1.25", "M10x1", "M10x0.75"]


def test_spans_point_into_the_note_as_sent(client):
    note = "4X %%c6.8 THRU\\PM8X1.25-6H, SEE NOTE 3"
    reply = read(client, note)
    pieces = {span["as"]: note[span["start"] : span["end"]] for span in reply["holes"][0]["read_from"]}
    assert (pieces["drill"], pieces["thread"], pieces["count"]) == ("%%c6.8", "M8X1.25-6H", "4X")
    assert reply["unread"] == [{"start": 28, "end": 38, "text": "SEE NOTE 3"}]


def test_what_is_kept_in_the_words_of_the_note_says_what_it_is_about(client):
    (hole,) = read(client, "M8 ↧16 MASK THREADS")["holes"]
    assert hole["as_written"]["words"] == [{"about": "finish", "text": "MASK THREADS"}]


def test_a_repair_is_told_with_its_place(client):
    reply = read(client, "4X 1/4-20 UNC-28 THRLI", unit_system="inch")
    assert reply["assumptions"][:2] == [
        "'UNC-28' is read as 'UNC-2B' (characters 10 to 16).",
        "'THRLI' is read as 'THRU' (characters 17 to 22).",
    ]


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({}, "field_missing", "/note"),
        ({"note": " \n"}, "text_length_wrong", "/note"),
        ({"note": "M6 " * 1334}, "text_length_wrong", "/note"),
        ({"note": "M6\n" * 60}, "note_too_many_holes", "/note"),
        ({"note": "M6", "general_notes": "ALL 6H"}, "field_type_wrong", "/general_notes"),
        ({"note": "M6", "defaults": {"materail": "4140"}}, "field_unknown", "/defaults/materail"),
        ({"note": "M6", "defaults": {"unit_system": "cubits"}}, "field_value_unknown", "/defaults/unit_system"),
        ({"note": "M6", "defaults": {"unit_system": {"a": 1}}}, "field_value_unknown", "/defaults/unit_system"),
        ({"note": "M6", "defaults": {"percent_thread": 10**400}}, "value_out_of_range", "/defaults"),
        ({"note": "M6", "defaults": {"unit_system": [1]}}, "field_value_unknown", "/defaults/unit_system"),
        ({"note": "M6", "defaults": {"material": "x" * 40_000}}, "text_length_wrong", "/defaults"),
    ],
)
def test_bad_requests_are_refused(client, body, code, pointer):
    response = client.post("/v1/notes/read", json=body)
    assert (response.status_code, response.json["code"]) == (422, code)
    assert response.json["errors"][0]["pointer"] == pointer


def test_a_batch_takes_notes(client):
    items = [
        {"id": "A", "note": "4X M6 ↧12 SEE NOTE 3"},
        {"id": "B", "note": "M6 ↧12 TYP"},
        {"id": "C", "note": "M6 ↧12; M8 ↧16"},
        {"id": "D", "note": "M6 THRU", "thread": "M6"},
        {"id": "E", "note": "M6 THRU", "hole": {"thickness": 10}},
        {"id": "F", "thread": "M6", "hole": {"type": "blind", "full_thread_depth": 12}},
    ]
    body = {"defaults": {"material": "6061-T6"}, "items": items}
    found = client.post("/v1/hole-specs/batch", json=body).json["results"]
    assert [one["status"] for one in found] == ["ok", "error", "error", "error", "ok", "ok"]
    assert [one["problem"]["code"] for one in found[1:4]] == ["note_open", "note_several_holes", "field_unknown"]
    assert found[1]["problem"]["errors"][1]["code"] == "count_ambiguous"
    said = " ".join(found[0]["spec"]["assumptions"])
    assert "4 such holes" in said
    assert "'SEE NOTE 3' of the note was not understood" in said
    assert found[0]["spec"]["operations"] == found[5]["spec"]["operations"]


@pytest.mark.parametrize("path", ["/v1/hole-specs", "/v1/allowances"])
def test_the_drawings_word_reaches_the_reply(client, path):
    body = {"thread": "10-32 UNF-2B", "finish": "ASTM B633 Fe/Zn 8", "dimensions_apply": "before_finish"}
    hole = {"hole": {"type": "blind", "full_thread_depth": 0.38}} if path == "/v1/hole-specs" else {}
    reply = client.post(path, json={**body, **hole}).json
    finish = reply["finish"] if hole else reply
    assert finish["dimensions_apply"] == "before_finish"
    if hole:
        texts = [line["text"] for line in reply["operations"]]
        assert not any("finished thread" in text for text in texts)
        assert "oversize" not in reply["headline"]["gauge"]


def test_an_item_is_its_one_hole_and_tells_of_several_such(client):
    """One hole is nothing to tell; of two and more the count is told."""
    counts = {"M6 ↧12": None, "1X M6 ↧12": None, "2X M6 ↧12": "2 such holes", "12X M6 ↧12": "12 such holes"}
    items = [{"note": note, "material": "6061-T6"} for note in counts]
    results = client.post("/v1/hole-specs/batch", json={"items": items}).json["results"]
    for one, told in zip(results, counts.values(), strict=True):
        found = [text for text in one["spec"]["assumptions"] if "such holes" in text]
        assert len(found) == (told is not None)
        assert all(told in text for text in found)
