"""Workbooks (.xlsx) in and out: as planners send them, as a real spreadsheet saves them, and as attackers would."""

from __future__ import annotations

import csv
import io
import shutil
import subprocess
import time
import zipfile
from datetime import date, datetime
from pathlib import Path

import openpyxl
import pytest
from borewright.api import create_app
from borewright.api.settings import Settings
from borewright.contract.writers.workbook import MEDIA_TYPE, Table, written

URL = "/v1/hole-specs/batch"
DEMO = Path(__file__).parents[2] / "service" / "demo" / "holes.csv"
HEAD = ["id", "thread", "hole.type", "hole.full_thread_depth", "hole.thickness", "stock.drills"]
HOLES = [
    ["KRP-1", "1/2-13 UNC-2B", "blind", "3/4", "", "27/64"],
    ["=1+1", "M8", "through", "", "12 mm", "6.8 mm"],
]


@pytest.fixture(scope="module")
def client():
    client = create_app(Settings(max_cpu_ms=60_000)).test_client()
    client.post(URL, data=DEMO.read_bytes(), content_type="text/csv")
    return client


def sent(client, content: bytes, accept: str = "application/json", form: str = MEDIA_TYPE):
    return client.post(URL, data=content, content_type=form, headers={"Accept": accept})


def sheets_of(content: bytes) -> dict[str, list[tuple[object, ...]]]:
    book = openpyxl.load_workbook(io.BytesIO(content))
    return {sheet.title: list(sheet.iter_rows(values_only=True)) for sheet in book.worksheets}


def saved(*rows: list[object]) -> bytes:
    """A workbook with cells of their own kinds, as people fill them in."""
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    target = io.BytesIO()
    book.save(target)
    return target.getvalue()


def in_libre_office(name: str, content: bytes, folder: Path, *options: str) -> bytes:
    """The workbook that LibreOffice makes of a file that it opens."""
    office = shutil.which("soffice")
    if office is None:
        pytest.fail("LibreOffice is missing: apt-get install libreoffice-calc-nogui")
    (folder / name).write_bytes(content)
    command = [office, f"-env:UserInstallation=file://{folder / 'profile'}", "--headless", *options]
    command += ["--convert-to", "xlsx", "--outdir", str(folder / "out"), str(folder / name)]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    return (folder / "out" / name).with_suffix(".xlsx").read_bytes()


#: Comma, quote, UTF-8, from row 1, no formats of columns, any language, quoted is not text, special numbers recognised.
RECOGNISE = "--infilter=CSV:44,34,76,1,,0,false,true"


@pytest.mark.long
def test_25_holes_go_through_a_real_spreadsheet_and_come_back_unchanged(client, tmp_path):
    """As a workbook that is sent again, and as a CSV whose cells it may take for numbers and days."""
    demo = list(csv.reader(DEMO.read_text("utf-8").splitlines()))
    asked = client.post(URL, data=DEMO.read_bytes(), content_type="text/csv", headers={"Accept": "application/json"})
    specs = sent(client, written([Table("Kestrel Ridge", demo[0], demo[1:])]), MEDIA_TYPE).data
    again = in_libre_office("specs.xlsx", specs, tmp_path)
    assert sheets_of(again)["holes"] == sheets_of(specs)["holes"]
    rows = sent(client, again).json["results"]
    assert len(rows) == 25
    assert [row["spec"] for row in rows] == [row["spec"] for row in asked.json["results"]]

    answered = client.post(URL, data=DEMO.read_bytes(), content_type="text/csv").data
    (opened,) = sheets_of(in_libre_office("answer.csv", answered + b"5/16\r\n", tmp_path, RECOGNISE)).values()
    *opened, control = opened
    assert isinstance(control[0], datetime)  # what a bare fraction turns into
    kept = list(csv.reader(io.StringIO(answered.decode(), newline="")))
    assert len(opened) == 26
    for row, cells in zip(opened, kept, strict=True):
        assert [cell if isinstance(cell, str) else as_number(cell) for cell in row] == [
            as_number(cell) for cell in cells
        ]
    labels = [row[kept[0].index("drill.recommended.label")] for row in opened]
    assert "5/16 in" in labels


def as_number(cell: object) -> object:
    """A number as one, blank as None, any other text as it is; a day would stay one."""
    try:
        return float(cell) if isinstance(cell, (str, int, float)) else cell
    except ValueError:
        return cell or None


def test_the_sheets_of_an_answer(client):
    answer = sent(client, written([Table("any", HEAD, [*HOLES, ["KRP-3", "1/4-2O UNC", "blind", "1"]])]), MEDIA_TYPE)
    book = openpyxl.load_workbook(io.BytesIO(answer.data))
    assert book.sheetnames == ["holes", "review", "tools"]
    assert {sheet.freeze_panes for sheet in book.worksheets} == {"A2"}
    cells = [cell for sheet in book.worksheets for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {(cell.data_type, cell.number_format) for cell in cells} == {("s", "@")}
    head, first, second, third = sheets_of(answer.data)["holes"]
    assert list(head[: len(HEAD)]) == HEAD
    assert [first[:6], second[:6]] == [tuple(cell or None for cell in row) for row in HOLES]
    spec = dict(zip(head, first, strict=True))
    assert (spec["status"], spec["drill.recommended.label"]) == ("ok", "27/64 in")
    assert dict(zip(head, third, strict=True))["problem.code"] == "thread_class_unknown"
    review = sheets_of(answer.data)["review"]
    assert any(row[:2] == ("KRP-3", "problem") and row[4:] == ("thread", "1/4-2O UNC") for row in review)
    tools = {row[:2]: row[5:] for row in sheets_of(answer.data)["tools"]}
    assert tools["twist drill", "27/64 in"] == ("1", "KRP-1")
    assert tools["spot drill", None] == ("2", "KRP-1 | =1+1")


def test_the_review_names_doubled_ids_and_calls_no_long_list_probable(client):
    rows = (
        "id,thread,hole.type,hole.full_thread_depth\nKRP-1,1/4,blind,0.5\nKRP-2,M8,blind,16\nKRP-2,M8,blind,18\n"
        "KRP-3,1/2-13 NPT,blind,0.5\n"
    )
    answer = client.post(URL, data=rows, headers={"Content-Type": "text/csv", "Accept": MEDIA_TYPE})
    review = sheets_of(answer.data)["review"]
    assert [row[0] for row in review if row[2] == "same_id"] == ["KRP-2", "KRP-2"]
    (many,) = [row[3] for row in review if row[2] == "callout_ambiguous"]
    assert "It can be 1/4-20 UNC, 1/4-28 UNF," in many
    assert "Probably" not in many
    # the detail names 1/2-13 UNC itself, not the other thread that may be meant: 1/2 NPT has 14 (ASME B1.20.1)
    (either,) = [row[3] for row in review if row[2] == "thread_series_mismatch"]
    assert either.endswith("Probably 1/2-14 NPT or 1/2-13 UNC is meant.")
    assert sent(client, answer.data, MEDIA_TYPE).data == answer.data


def test_cells_of_every_kind(client):
    """Numbers, days and truths that a spreadsheet made of what was typed."""
    head = ["Hole", "Thread", "Thru", "Depth (mm)", "Wall", "Masked", "Remarks"]
    content = saved(
        [None], head, ["A", "1/4-20 UNC-2B", None, 12.7, None, True, "x"],
        ["B", date(2013, 1, 2), "x", None, 0.1 + 0.2], ["C", 41276, True, None, 10],
    )  # fmt: skip
    first, second, third = sent(client, content).json["results"]
    asked = {"id": "A", "thread": "1/4-20 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.5}}
    assert first["row"] == 3
    assert first["spec"] == client.post("/v1/hole-specs", json={**asked, "finish": {"masked": True}}).json
    for row in second, third:
        fault = row["problem"]["errors"][0]
        assert (fault["code"], fault["did_you_mean"]) == ("cell_is_a_date", ["1/2-13 UNC"])


@pytest.mark.parametrize("form", ["application/json", "application/x-ndjson", "text/csv"])
def test_any_form_becomes_a_workbook(client, form):
    ndjson = b'{"id":"a","thread":"M8","hole":{"type":"blind","full_thread_depth":12.5},"material":{"name":"4140"}}'
    content = {
        "application/json": b'{"items":[%b]}' % ndjson,
        "application/x-ndjson": ndjson,
        "text/csv": b"id;Thread;type;depth;material\na;M8;blind;12,5;4140\n",
    }[form]
    head, row = sheets_of(sent(client, content, MEDIA_TYPE, form).data)["holes"]
    assert row[:5] == ("a", "M8", "blind", "12,5" if form == "text/csv" else "12.5", "4140")
    assert dict(zip(head, row, strict=True))["thread.designation"] == "M8x1.25-6H"


def zipped(**parts: bytes) -> bytes:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(f"{name}.xml", content)
    return target.getvalue()


def changed(name: str, old: bytes, new: bytes) -> bytes:
    """A good workbook with something else in one of its parts."""
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(saved(HEAD, HOLES[0]))) as good, zipfile.ZipFile(target, "w", 8) as archive:
        for part in good.infolist():
            content = good.read(part)
            assert part.filename != name or old in content
            archive.writestr(part.filename, content.replace(old, new, 1) if part.filename == name else content)
    return target.getvalue()


SHEET = "xl/worksheets/sheet1.xml"
EBCDIC = b"<?xml version='1.0' encoding='cp037'?><worksheet"
ENTITIES = b'<!DOCTYPE w [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><worksheet'
HOSTILE = {
    "no ZIP": (b"PK not a workbook", "workbook_unreadable"),
    "half a workbook": (saved(HEAD, HOLES[0])[:-40], "workbook_unreadable"),
    "a ZIP of something else": (zipped(letter=b"<a/>"), "workbook_unreadable"),
    "XML that breaks off": (changed(SHEET, b"</sheetData>", b""), "workbook_unreadable"),
    "entities": (changed(SHEET, b"<worksheet", ENTITIES), "workbook_unreadable"),
    "another encoding": (changed(SHEET, b"<worksheet", EBCDIC), "workbook_unreadable"),
    "nothing in it": (saved([]), "csv_unreadable"),
    "a bomb": (zipped(a=b" " * 40_000_000), "too_much_work"),
    "marks": (zipped(a=b"<a/>" * 2_000_000), "too_much_work"),
    "a row at the end": (changed(SHEET, b'<row r="2"', b'<row r="1048576"'), "csv_unreadable"),
    "columns without end": (changed(SHEET, b'r="F2"', b'r="XFD2"'), ""),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_workbook_is_refused_before_it_costs_anything(client, name):
    content, code = HOSTILE[name]
    began = time.process_time()
    answer = sent(client, content)
    assert time.process_time() - began < 2
    assert answer.status_code < 500
    if name == "a row at the end":
        assert answer.json["summary"]["items"] == 0
    elif code:
        assert (answer.json.get("code") or answer.json["results"][-1]["problem"]["code"]) == code


def test_rows_of_a_workbook_are_bounded():
    client = create_app(Settings(max_batch_items=3)).test_client()
    content = written([Table("holes", HEAD, [HOLES[1]] * 5)])
    assert (answer := sent(client, content)).status_code == 413, answer.json
    assert sent(client, content, MEDIA_TYPE).status_code == 413
