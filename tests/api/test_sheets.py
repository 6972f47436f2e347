"""Sheets of holes as spreadsheets save them: dialects, headings, cells, and dates that once were callouts."""

from __future__ import annotations

import csv
import io
import json

import pytest
from borewright.api import create_app

URL, CSV, NDJSON = "/v1/hole-specs/batch", "text/csv", "application/x-ndjson"
HOLES = [
    {"id": "KRP-1", "thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.75, "thickness": 1.75}},
    {"id": "KRP-2", "thread": "M8", "hole": {"type": "through", "thickness": 12.5}, "material": "6061-T6"},
    {
        "id": "KRP-3",
        "thread": "1/4-20 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.375},
        "material": {"name": "4140", "hardness": "28 HRC"},
        "finish": {"specification": "ASTM B633 Fe/Zn 8", "masked": True},
        "stock": {"drills": ["#7", "13/64"]},
    },
]
NAMES = ("id", "thread", "hole.type", "hole.full_thread_depth", "hole.thickness", "material", "material.hardness")
HEAD = [*NAMES, "finish", "finish.masked", "stock.drills"]
ROWS = [
    ["KRP-1", "1/2-13 UNC-2B", "blind", "0.75", "1.75", "", "", "", "", ""],
    ["KRP-2", "M8", "through", "", "12.5", "6061-T6", "", "", "", ""],
    ["KRP-3", "1/4-20 UNC-2B", "blind", "0.375", "", "4140", "28 HRC", "ASTM B633 Fe/Zn 8", "true", "#7;13/64"],
]


def sheet(delimiter: str, rows: list[list[str]], *, comma: bool = False) -> str:
    text = io.StringIO()
    commas = [
        [cell.replace(".", ",") if comma and place in (3, 4) else cell for place, cell in enumerate(row)]
        for row in rows
    ]
    csv.writer(text, delimiter=delimiter).writerows(commas)
    return text.getvalue()


#: As spreadsheets save them: with commas, for Europe, as "Unicode text", and told to another program.
DIALECTS = {
    "commas in UTF-8": sheet(",", [HEAD, *ROWS]).encode(),
    "commas with a mark": sheet(",", [HEAD, *ROWS]).encode("utf-8-sig"),
    "semicolons and decimal commas": sheet(";", [HEAD, *ROWS], comma=True).encode(),
    "tabs in UTF-16": sheet("\t", [HEAD, *ROWS]).encode("utf-16"),
    "tabs in UTF-16 without a mark": sheet("\t", [HEAD, *ROWS], comma=True).encode("utf-16-be"),
    "semicolons that are said": b"sep=;\r\n" + sheet(";", [HEAD, *ROWS], comma=True).encode(),
}


@pytest.fixture(scope="module")
def client():
    client = create_app().test_client()
    client.post(URL, json={"items": HOLES})
    return client


def answered(client, content, accept="application/json", **headers):
    data = content.encode() if isinstance(content, str) else content
    return client.post(URL, data=data, content_type=CSV, headers={"Accept": accept, **headers})


@pytest.mark.parametrize("name", DIALECTS)
def test_every_dialect_gives_the_specifications_of_the_requests(client, name):
    asked = [row["spec"] for row in client.post(URL, json={"items": HOLES}).json["results"]]
    for accept in ("application/json", NDJSON):
        answer = answered(client, DIALECTS[name], accept)
        found = answer.json["results"] if accept != NDJSON else [json.loads(line) for line in answer.data.splitlines()]
        first = 3 if name.endswith("said") else 2
        assert [row["row"] for row in found] == [first, first + 1, first + 2]
        assert [row.get("spec") for row in found] == asked


def test_utf_16_is_read_piece_by_piece(service_url):
    """Letters of two bytes that are cut in the middle, and a last one that is half missing."""
    import requests

    content = DIALECTS["tabs in UTF-16"]
    pieces = (content[place : place + 7] for place in range(0, len(content), 7))
    headers = {"Content-Type": f"{CSV}; charset=utf-16", "Accept": NDJSON}
    lines = requests.post(f"{service_url}{URL}", data=pieces, headers=headers, timeout=60).content.splitlines()
    assert [json.loads(line)["status"] for line in lines] == ["ok", "ok", "ok"]
    lines = requests.post(f"{service_url}{URL}", data=content[:-1], headers=headers, timeout=60).content.splitlines()
    assert json.loads(lines[-1])["problem"]["code"] == "upload_truncated"


def test_headings_in_any_spelling_are_read_and_told(client):
    content = "ID;Thread;thru;Depth (mm);WALL [in];Material;Remarks\n1;1/4-20 UNC-2B;;12,7;;4140;ok\n2;M8;X;;1/2;;\n"
    answer = answered(client, content)
    told = [
        ("ID", "id"), ("Thread", "thread"), ("thru", "hole.type"), ("Depth (mm)", "hole.full_thread_depth"),
        ("WALL [in]", "hole.thickness"), ("Material", "material"), ("Remarks", None),
    ]  # fmt: skip
    assert [(one["heading"], one["read_as"]) for one in answer.json["columns"]] == told
    assert [one.get("unit") for one in answer.json["columns"]][3:5] == ["mm", "in"]
    asked = [
        {"id": "1", "thread": "1/4-20 UNC-2B", "material": "4140", "hole": {"type": "blind", "full_thread_depth": 0.5}},
        {"id": "2", "thread": "M8", "hole": {"type": "through", "thickness": 12.7}},
    ]
    specs = [row["spec"] for row in answer.json["results"]]
    assert specs == [row["spec"] for row in client.post(URL, json={"items": asked}).json["results"]]
    header = answered(client, content, NDJSON).headers["Borewright-Columns"]
    assert header.startswith("ID=id, Thread=thread, thru=hole.type, Depth (mm)=hole.full_thread_depth, ")
    assert "Borewright-Columns" not in answered(client, DIALECTS["commas in UTF-8"], NDJSON).headers


@pytest.mark.parametrize(
    ("head", "code", "meant"),
    [
        ("thread,hole.thicknes", "csv_column_unknown", ["hole.thickness"]),
        ("thread,Drill Depth", "csv_column_unknown", ["hole.drill_depth_limit", "hole.full_thread_depth"]),
        ("thread,Class", "csv_column_unknown", ["mating_screw.class", "finish.class"]),
        ("thread,Depth,hole.full_thread_depth", "csv_unreadable", []),
        ("thread,thru,hole.type", "csv_unreadable", []),
    ],
)
def test_a_heading_that_can_mean_two_things_is_asked_about(client, head, code, meant):
    answer = answered(client, f"{head}\nM8,1,2\n")
    assert (answer.status_code, answer.json["code"]) == (400, code)
    assert answer.json["errors"][0].get("did_you_mean", []) == meant


#: What spreadsheets show where the text on the right was typed: month first where the second number can be a day,
#: day first in Europe, month and year where it can be none, days since 1899-12-30 in a cell that is no date any more.
DATES = [
    ("thread", "1/2/2013", "1/2-13 UNC"),
    ("thread", "41276", "1/2-13 UNC"),  # 2013-01-02: 113 years of 365 days, 28 leap days since 1904, 2 of January, 1
    ("thread", "2013-01-02 00:00:00", "1/2-13 UNC"),
    ("thread", "02.01.2013", "1/2-13 UNC"),
    ("thread", "44928", "1/2-13 UNC"),  # 2023-01-02: 1/2 typed in 2023
    ("thread", "05/16/2026", "5/16-18 UNC"),
    ("thread", "3/8/2016", "3/8-16 UNC"),
    ("thread", "24-Oct", "#10-24 UNC"),
    ("thread", "24. Okt", "#10-24 UNC"),
    ("thread", "Jun-32", "#6-32 UNC"),
    ("thread", "8-Jan", "1-8 UNC"),
    ("thread", "13-Jan", "1-13 UNS"),
    ("stock.drills", "#7;05/16/2026", "5/16"),
    ("stock.drills", "16-May", "5/16"),
    ("stock.drills", "06.08.2026", "6.8"),
    ("hole.full_thread_depth", "1/2/2026", "1/2"),
    ("hole.full_thread_depth", "Jul-32", "7/32"),
]  # fmt: skip


#: June, August and October in English, German, French, Italian and Spanish, as spreadsheets shorten them.
JUNE, AUGUST = ("Jun", "Juni", "June", "juin", "giu", "jun"), ("Aug", "août", "ago")
OCTOBER = ("Oct", "Okt", "oct", "ott")
MONTHS = [("thread", f"{month}-32", "#6-32 UNC") for month in JUNE]
MONTHS += [("thread", f"{month}-32", "#8-32 UNC") for month in AUGUST]
MONTHS += [("thread", f"24-{month}", "#10-24 UNC") for month in OCTOBER]


@pytest.mark.parametrize(("column", "cell", "typed"), [*DATES, *MONTHS])
def test_a_date_that_was_something_else_is_named_and_never_guessed(client, column, cell, typed):
    request = {"thread": "M8", "hole.type": "blind", "hole.full_thread_depth": "10"} | {column: cell}
    answer = answered(client, sheet(",", [list(request), list(request.values())]))
    (result,) = answer.json["results"]
    (fault,) = result["problem"]["errors"]
    assert (fault["code"], fault["pointer"]) == ("cell_is_a_date", "/" + column.replace(".", "/"))
    assert (fault["column"], fault["cell"]) == (column, cell)
    assert typed in fault["did_you_mean"]


@pytest.mark.parametrize("callout", ["1-8", "10-24", "#6-32 UNC", "1/2-13", "1 1/4-7", "M8X1,25", ".250-20", "1-12UNF"])
def test_a_callout_is_no_date(client, callout):
    (result,) = answered(client, f'thread,hole.type,hole.thickness\n"{callout}",through,1/2 in\n').json["results"]
    assert result["status"] == "ok"


@pytest.mark.parametrize(
    ("cell", "depth"),
    [("0,75", 0.75), (".75", 0.75), ("3/4", 0.75), ("1 1/8", 1.125), ("19,05 mm", 0.75), ("0,750", 0.75)],
)
def test_figures_as_people_write_them(client, cell, depth):
    rows = [["thread", "type", "depth"], ["1/2-13 UNC-2B", "Blind", cell]]
    (result,) = answered(client, sheet(",", rows)).json["results"]
    assert result["spec"]["depths"]["full_thread_depth"] == depth


def test_a_fraction_is_in_inches(client):
    (result,) = answered(client, "thread,type,wall\nM8,through,1/2\n").json["results"]
    (same,) = answered(client, "thread,type,wall\nM8,through,12.7\n").json["results"]
    assert result["spec"]["depths"] == same["spec"]["depths"]


def test_a_comma_that_may_part_thousands_is_asked_about(client):
    rows = [["thread", "type", "depth"], ["M8", "blind", "1,250"]]
    (result,) = answered(client, sheet(",", rows)).json["results"]
    assert result["problem"]["errors"][0]["did_you_mean"] == ["1.250", "1250"]
    (result,) = answered(client, sheet(";", [*rows[:1], ["M48", "blind", "12,500"]])).json["results"]
    assert result["spec"]["depths"]["full_thread_depth"] == 12.5


def test_faults_are_told_by_heading_and_cell(client):
    answer = answered(client, "Nr;Gewinde;Lochart;Tiefe\nA;1/4-2O UNC;blind;10\nB;M8;blnd;10\n")
    first, second = answer.json["results"]
    assert (first["id"], first["row"]) == ("A", 2)
    assert first["problem"]["errors"][0]["column"] == "Gewinde"
    fault = second["problem"]["errors"][0]
    assert (fault["column"], fault["cell"], fault["did_you_mean"]) == ("Lochart", "blnd", ["blind"])


def test_an_id_that_comes_again_is_told(client):
    rows = [HEAD, ROWS[0], ROWS[1], [*ROWS[0][:1], "M10", *ROWS[1][2:]]]
    found = answered(client, sheet(",", rows)).json["results"]
    assert [row.get("same_id_as_row") for row in found] == [None, None, 2]
    (*_, last) = csv.DictReader(io.StringIO(answered(client, sheet(",", rows), CSV).text, newline=""))
    assert (last["row"], last["same_id_as_row"]) == ("4", "2")


def test_what_is_written_can_be_read_by_a_spreadsheet(client):
    """A fraction alone is a date to it, so that the label of a drill has its unit; figures for the shop are there."""
    item = {"thread": "3/8-16 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.625}, "material": "1018"}
    spec = client.post("/v1/hole-specs", json=item).json
    answer = client.post(URL, data=json.dumps(item), content_type=NDJSON, headers={"Accept": CSV})
    (row,) = csv.DictReader(io.StringIO(answer.text, newline=""))
    assert spec["drill"]["recommended"]["label"] == "5/16"
    assert row["drill.recommended.label"] == "5/16 in"
    tap, gauge = spec["cutting_data"]["tap"], spec["gauging"]["thread_plug"]["go"]["pitch_diameter"]
    assert float(row["cutting_data.tap.clutch_torque"]) == tap["clutch_torque"]
    assert float(row["cutting_data.drill.feed"]) == spec["cutting_data"]["drill"]["feed"]
    assert float(row["gauging.thread_plug.go.pitch_diameter.max"]) == gauge["max"]
    assert float(row["tap.recommended.acceptance"]) == spec["tap"]["recommended"]["acceptance"]
    assert row["units.feed"] == "in/rev"
    again = {**item, "stock": {"drills": [row["drill.recommended.label"]]}}
    assert client.post("/v1/hole-specs", json=again).json["drill"]["recommended"]["diameter"] == 0.3125


def test_a_sheet_is_read_into_requests_that_can_be_sent(client):
    """What a sheet cannot say goes with its requests; rows that cannot be read have their problem in their place."""
    rows = "Hole,Callout,Thru,Wall (mm),Count\r\nA,M8,yes,12,4\r\nB,13-Jan,yes,12,1\r\nC,M6,yes,10,2\r\n"
    answer = client.post("/v1/hole-specs/requests", data=rows, content_type="text/csv")
    assert answer.status_code == 200, answer.json
    assert answer.json["summary"] == {"items": 3, "ok": 2, "failed": 1, "verdicts": {"read": 2}}
    first, bad, last = answer.json["results"]
    assert first["request"] == {
        "id": "A", "thread": "M8", "hole": {"type": "through", "thickness": "12 mm"}, "count": 4,
    }  # fmt: skip
    assert (last["row"], last["request"]["count"]) == (4, 2)
    assert (bad["row"], bad["id"], bad["problem"]["errors"][0]["code"]) == (3, "B", "cell_is_a_date")
    plan = client.post("/v1/part-plans", json={"holes": [first["request"], last["request"]]})
    assert plan.status_code == 200, plan.json
    lines = client.post(
        "/v1/hole-specs/requests", data=rows, content_type="text/csv", headers={"Accept": "application/x-ndjson"}
    )
    assert [json.loads(line) for line in lines.data.splitlines()][::2] == [first, last]
    refused = client.post("/v1/hole-specs/requests", json={"items": []})
    assert (refused.status_code, refused.json["errors"][0]["allowed"][0]) == (415, "text/csv")
