"""Holes of a part as a sheet or as lines, its plan as tables."""

from __future__ import annotations

import csv
import io
import json

import openpyxl
import pytest
from borewright.api import create_app
from borewright.contract.writers.workbook import MEDIA_TYPE, Table, written

URL, CSV, NDJSON = "/v1/part-plans", "text/csv", "application/x-ndjson"
HEAD = ["Hole", "Callout", "Type", "Depth", "Wall", "Qty"]
ROWS = [
    ["C1", "1/4-20 UNC-2B", "blind", "0.5", "", "8"],
    ["C2", "1/4-20 UNC-3B", "blind", "0.375", "", "4"],
    ["P1", "1/4-18 NPT", "thru", "", "0.75", ""],
    ["X1", "13-Jan", "blind", "0.5", "", ""],
]
HOLES = [
    {"id": "C1", "thread": "1/4-20 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.5}, "count": 8},
    {"id": "C2", "thread": "1/4-20 UNC-3B", "hole": {"type": "blind", "full_thread_depth": 0.375}, "count": 4},
    {"id": "P1", "thread": "1/4-18 NPT", "hole": {"type": "through", "thickness": 0.75}},
]
SAID = {"part": "KRP-5120", "lot_size": 40, "unit_system": "inch"}
QUERY = "?part=KRP-5120&lot_size=40&unit_system=inch&material=6061-T6&tool_change_time=4.5"


@pytest.fixture(scope="module")
def client():
    return create_app().test_client()


@pytest.fixture(scope="module")
def plan(client):
    asked = {**SAID, "defaults": {"material": "6061-T6"}, "machine": {"tool_change_time": 4.5}, "holes": HOLES}
    return client.post(URL, json=asked).json


def uploads():
    text = io.StringIO()
    csv.writer(text, delimiter=";").writerows([HEAD, *ROWS])
    return {
        NDJSON: b"\n".join(json.dumps(hole).encode() for hole in HOLES),
        CSV: text.getvalue().replace("0.", "0,").encode("utf-16"),
        MEDIA_TYPE: written([Table("part", HEAD, ROWS)]),
    }


def sent(client, form, accept, query=QUERY):
    return client.post(f"{URL}{query}", data=uploads()[form], content_type=form, headers={"Accept": accept})


@pytest.mark.parametrize("form", [NDJSON, CSV, MEDIA_TYPE])
def test_every_form_gives_the_plan_of_the_request(client, plan, form):
    found = sent(client, form, "application/json").json
    told = ("tools", "sequence", "time", "holes", "saved", "kit", "part")
    assert {name: found[name] for name in told} == {name: plan[name] for name in told}
    refused = [(one["hole"], one["errors"][0]["code"]) for one in found["refused"]]
    assert refused == ([] if form == NDJSON else [("X1", "cell_is_a_date")])


def test_the_plan_as_tables(client, plan):
    rows = {
        name: list(csv.DictReader(io.StringIO(sent(client, CSV, CSV, f"{QUERY}&table={name}").text)))
        for name in ("operations", "tools")
    }
    loadings = [row for row in rows["operations"] if row["step"]]
    assert [row["tool"] for row in loadings] == [step["tool"] for step in plan["sequence"]]
    assert [row["holes"].split(" | ") for row in loadings] == [step["holes"] for step in plan["sequence"]]
    aside = [(row["operation"], row["text"]) for row in rows["operations"] if not row["step"]]
    assert aside == [(one["operation"], one["text"]) for one in plan["away_from_spindle"]] != []
    stages = [row["stage"] for row in rows["operations"]]
    assert stages == sorted(stages)
    assert [int(row["count"]) for row in rows["tools"]] == [tool["count"] for tool in plan["tools"]]
    book = openpyxl.load_workbook(io.BytesIO(sent(client, MEDIA_TYPE, MEDIA_TYPE).data))
    assert book.sheetnames == ["tools", "operations", "holes", "changes", "review"]
    assert len(list(book["operations"].iter_rows())) == 1 + len(rows["operations"])
    *_, last = book["review"].iter_rows(values_only=True)
    assert last[:2] == ("X1", "cell_is_a_date")


def test_what_is_said_of_a_part_is_checked_wherever_it_stands(client):
    answer = client.post(f"{URL}?lot_size=none", data=uploads()[NDJSON], content_type=NDJSON)
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/lot_size")
    answer = client.post(URL, data=b"thread\n", content_type=CSV)
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/holes")
    assert client.post(f"{URL}?lot_size=7", json={"holes": HOLES[:1]}).json["time"]["per_lot"] > 0
