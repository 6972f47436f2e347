"""`borewright batch` for the planner who lives in spreadsheets: rows in, rows out, faults by row and column."""

from __future__ import annotations

import csv
import json
import re
import select
import socket
import subprocess
from pathlib import Path

import pytest
import requests
from borewright_client.cli.columns import WRITTEN
from borewright_client.cli.holes import column_of

ROOT = Path(__file__).parent.parent.parent
ALL_SPECIFIED = re.compile(r"25 holes: 25 specified \(\d+ ready, \d+ review, \d+ infeasible\), 0 with a problem$")
DEMO = ROOT / "service" / "demo" / "holes.csv"


@pytest.fixture
def sheet(tmp_path):
    def write(*rows: str, name: str = "holes.csv", encoding: str = "utf-8") -> Path:
        path = tmp_path / name
        path.write_text("\n".join(rows) + "\n", encoding=encoding)
        return path

    return write


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(text.splitlines()))


def test_the_demo_sheet_as_csv_and_as_lines(borewright, tmp_path):
    borewright("batch", DEMO, "-o", tmp_path / "specs.csv")
    borewright("batch", DEMO, "-o", tmp_path / "specs.ndjson")
    rows = rows_of((tmp_path / "specs.csv").read_text())
    lines = [json.loads(line) for line in (tmp_path / "specs.ndjson").read_text().splitlines()]
    assert len(rows) == len(lines) == 25
    assert [row["id"] for row in rows] == [line["id"] for line in lines]
    assert {row["status"] for row in rows} == {"ok"}
    assert [row["row"] for row in rows] == [str(number) for number in range(2, 27)]
    assert [float(row["depths.drill_depth"]) for row in rows] == [
        line["spec"]["depths"]["drill_depth"] for line in lines
    ]


def test_rows_are_read_as_the_service_reads_them(borewright, service_url, tmp_path):
    headers = {"Content-Type": "text/csv", "Accept": "text/csv"}
    answer = requests.post(f"{service_url}/v1/hole-specs/batch", DEMO.read_bytes(), headers=headers, timeout=60)
    names = ("id", "status", "spec_id", "operations.text", "cautions.code", "thread.internal.pitch_diameter.min")
    served, printed = rows_of(answer.text), rows_of(borewright("batch", DEMO))
    assert [[row[name] for name in names] for row in printed] == [[row[name] for name in names] for row in served]


HEAD = "id,thread,hole.type,hole.full_thread_depth,hole.thickness,material"


def test_faults_by_row_and_column(borewright, sheet):
    path = sheet(
        HEAD,
        "KRP-1,M8,through,,12,6061-T6",
        "",
        "KRP-2,1/4-2O UNC,blind,0.5,,4140",
        '"KRP\n3",M8,blnd,12,,4140',
        "KRP-4,M8,blind,-4,,",
        ",M8,through,,12,6061-T6",
        "KRP-6,M8,blind,,,",
        "KRP-4,M8,blind,16,,",
    )
    told = borewright("batch", path, "-o", path.with_name("specs.csv"), code=1).splitlines()
    assert told[0].startswith(f"{path} row 4, KRP-2, column thread, '1/4-2O UNC': ")
    assert "Probably 1/4-20 UNC" in told[0]
    assert "row 5, KRP\n3, column hole.type, 'blnd': " in "\n".join(told)
    assert "Probably blind is meant. Allowed: blind, through." in "\n".join(told)
    assert any("row 6, KRP-4, column hole.full_thread_depth, -4" in line for line in told)
    assert any(f"{path} row 8, KRP-6, column hole.full_thread_depth: " in line for line in told)
    assert "row 9, KRP-4: the same id as row 6" in "\n".join(told)
    assert re.fullmatch(r"7 holes: 3 specified \(\d ready, \d review, \d infeasible\), 4 with a problem", told[-1])
    rows = rows_of(path.with_name("specs.csv").read_text())
    assert [(row["row"], row["status"]) for row in rows][:2] == [("2", "ok"), ("4", "error")]
    assert rows[1]["problem.errors.pointer"] == "/thread"


def test_a_date_made_of_a_callout_is_told_once_under_our_own_columns_too(borewright, sheet):
    for cell, meant in (("13-Jan", "1-13 UNS"), ("1/2/2013", "1/2-13 UNC")):
        path = sheet(HEAD, f"KRP-1,{cell},blind,1,,")
        told, _ = borewright("batch", path, "-o", path.with_name("specs.csv"), code=1).splitlines()
        assert f"{cell!r} is a date" in told
        assert told.count(meant) == 1


def test_the_holes_to_look_at_and_why(borewright, ran, sheet):
    """M5 of 6H has 0.125 mm of tolerance (ISO 965-1), which 0.061 mm of hard anodize on each flank use up."""
    path = sheet("id,thread,hole.type,hole.full_thread_depth,material,finish", "KRP-1,M8,blind,16,6061-T6,",
                 "KRP-2,M5,blind,10,6061-T6,MIL-A-8625 Type III")  # fmt: skip
    done = ran("batch", path, "-o", path.with_name("specs.csv"))
    look, counts = done.err.splitlines()
    assert look.startswith(f"{path} row 3, KRP-2: infeasible: finish not feasible. No tap can make limits ")
    assert counts == "2 holes: 2 specified (1 ready, 0 review, 1 infeasible), 0 with a problem"
    fed = borewright("batch", "-", fed=path.read_text())
    assert [row["verdict"] for row in rows_of(fed)] == ["ready", "infeasible"]


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        (("id,thread,id", "a,M8,b"), "row 1, column 3, 'id': this column is there twice"),
        (("id,material", "a,4140"), "row 1: no column 'thread'"),
        (("id,thread", "a,M8", "b,M8,,x"), "row 3: 4 cells, but the head names 2 columns"),
        (("id,thread", "a,M8", 'b,"M8'), "row 3: this row cannot be read as CSV"),
    ],
)  # fmt: skip
def test_a_sheet_that_cannot_be_used_is_told_before_anything_is_asked(borewright, sheet, rows, told):
    path = sheet(*rows)
    said = borewright("batch", path, "-o", path.with_name("specs.csv"), code=2, url="http://127.0.0.1:9")
    assert said.startswith(f"{path} row ")
    assert told in said
    assert not path.with_name("specs.csv").exists()


def test_a_head_that_the_service_does_not_know_is_told(borewright, sheet):
    path = sheet("id,thread,hole.thicknes", "a,M8,12")
    said = borewright("batch", path, "-o", path.with_name("specs.csv"), code=2)
    assert said.startswith(f"{path} row 1: 'hole.thicknes' is no column that is read here")
    assert "Probably hole.thickness" in said
    assert not path.with_name("specs.csv").exists()


def test_sheets_as_spreadsheets_save_them(borewright, ran, sheet, tmp_path):
    """Semicolons, decimal commas and other headings; then as a workbook, there and back."""
    path = sheet("Nr;Callout;Thru;Depth (mm);Wall", "A;M8;;12,5;", "B;13-Jan;x;;10", "C;M8;x;;12,5")
    told = borewright("batch", path, "-o", tmp_path / "specs.xlsx", code=1).splitlines()
    assert told[0].startswith(f"{path} row 3, B, column Callout, '13-Jan': '13-Jan' is a date: ")
    assert told[-1].startswith("3 holes: 2 specified (")
    rows = rows_of(ran("batch", tmp_path / "specs.xlsx").out)
    assert [(row["row"], row["id"]) for row in rows] == [("2", "A"), ("3", "B"), ("4", "C")]
    assert [row["status"] for row in rows] == ["ok", "error", "ok"]
    assert [row["depths.full_thread_depth"] for row in rows] == ["12.5", "", "12.5"]


@pytest.mark.parametrize(("line", "told"), [("{", "this is not JSON"), ("[1]", "a hole is a JSON object")])
def test_a_line_that_cannot_be_used(borewright, sheet, line, told):
    path = sheet('{"thread": "M8"}', line, name="holes.ndjson")
    assert f"{path} line 2: {told}" in borewright("batch", path, code=2)


def test_another_encoding_is_told(borewright, sheet):
    assert "is not UTF-8" in borewright("batch", sheet("id,thread", "Gehäuse,M8", encoding="latin-1"), code=2)


def test_a_file_that_is_not_there(borewright, tmp_path):
    assert "No such file" in borewright("batch", tmp_path / "none.csv", code=2)


def test_a_sheet_as_spreadsheets_save_it(borewright, sheet):
    path = sheet("id,thread,hole.type,hole.thickness,,", "a,M8,through,12,,", ",,,,,", encoding="utf-8-sig")
    row = rows_of(borewright("batch", path))[0]
    assert (row["id"], row["drill.recommended.label"]) == ("a", "6.8 mm")


def test_lines_are_counted_in_lines(ran, sheet):
    hole = {"id": "a", "thread": "M8", "hole": {"type": "through", "thickness": 12}}
    path = sheet(json.dumps(hole), "", json.dumps({**hole, "thread": "=M8"}), name="holes.ndjson")
    done = ran("batch", path)
    assert done.code == 1
    assert f"{path} line 3, a, column thread, '=M8': " in done.err
    assert len(done.out.splitlines()) == 2
    assert len(rows_of(ran("batch", path, "--csv").out)) == 2


def test_many_faults_are_told_in_part(ran, sheet):
    done = ran("batch", sheet(HEAD, *(f"KRP-{number},M8,blind,,," for number in range(60))))
    assert done.err.count("column hole.full_thread_depth") == 50
    assert "... 60 holes in all" in done.err


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "＝", "＠"])
def test_nothing_in_a_cell_is_a_formula(borewright, sheet, start):
    row = rows_of(borewright("batch", sheet(HEAD, f'"{start}HYPERLINK(1)",M8,through,,12,'))[:])[0]
    assert row["id"] == f"'{start}HYPERLINK(1)"
    assert borewright("spec", "M8", "--through", "12", f"--id={start}1+1", "--csv").splitlines()[1][:2] == f"'{start}"


@pytest.mark.parametrize("text", ["\t=1", "\r=1", "\n=1"])
def test_white_space_hides_no_formula(text, tmp_path):
    from borewright_client.cli.flat import Writer

    with (tmp_path / "cells.csv").open("w+", newline="") as target:
        Writer(target, ["id"]).write({"id": text})
        target.seek(0)
        assert [row[0] for row in csv.reader(target)][1] == "'" + text


@pytest.mark.parametrize(
    ("pointer", "column"),
    [
        ("/thread", "thread"),
        ("/hole/full_thread_depth", "hole.full_thread_depth"),
        ("/material/name", "material"),
        ("/finish/specification", "finish"),
        ("/material/hardness", "material.hardness"),
        ("/stock/drills/0", "stock.drills"),
        ("", ""),
    ],
)
def test_pointers_lead_to_columns(pointer, column):
    assert column_of(pointer) == column


@pytest.mark.parametrize(
    ("command", "arguments"),
    [
        ("spec", ("M8", "--through", "12")),
        ("thread", ("M8",)),
        ("drill", ("M8",)),
        ("allowance", ("M8", "ASTM B633 Fe/Zn 8")),
        ("tap", ("M8",)),
        ("decode", ("--decode", "M8 HSS D5")),
        ("audit", ("M8", "--through", "12", "--drill", "6.7 mm", "--tap", "M8x1.25 HSS G D5")),
    ],
)
def test_every_column_that_is_promised_is_there_and_documented(borewright, command, arguments):
    name = "tap" if command == "decode" else command
    rows = rows_of(borewright(name, *arguments, "--csv"))
    assert rows
    assert tuple(rows[0]) == WRITTEN[command]
    readme = (ROOT / "client" / "README.md").read_text()
    assert all(f"`{column.split('.')[0]}" in readme for column in WRITTEN[command])


def test_choices_of_drills(borewright):
    rows = rows_of(borewright("drill", "1/2-13 UNC-2B", "--csv"))
    assert [row["label"] for row in rows if row["choice"] == "recommended"] == ["27/64 in"]
    assert {row["choice"] for row in rows} == {"recommended", "alternative", "rejected"}
    assert all(row["reason"] for row in rows if row["choice"] == "rejected")


def test_a_catalogue_as_csv(borewright):
    rows = rows_of(borewright("catalog", "drills", "--csv"))
    assert {row["diameter_in"] for row in rows if row["label"] == "27/64 in"} == {"0.421875"}


def test_progress_on_a_terminal(on_terminal, command, tmp_path):
    done = on_terminal(command, "batch", DEMO, "-o", tmp_path / "specs.csv")
    assert done.code == 0
    assert "25/25" in done.out
    assert "100%" in done.out
    assert ALL_SPECIFIED.search(done.out.rstrip())


def test_no_progress_in_a_pipe(ran, tmp_path):
    done = ran("batch", DEMO, "-o", tmp_path / "specs.csv")
    *look, counts = done.err.splitlines()
    assert [line.split(", ")[1].split(":")[0] for line in look] == ["KRP-2210-B3", "KRP-2210-B5", "KRP-4105-D3"]
    assert ALL_SPECIFIED.fullmatch(counts)


def test_only_the_holes_to_look_at(ran, tmp_path):
    """A coat of 25 um closes a 1/4-20 UNC-2B thread, a bare one can be made; a wrong size is never left out."""
    path = tmp_path / "holes.ndjson"
    plate = {"id": "KRP-7001-A", "thread": "1/4-20 UNC-2B", "hole": {"type": "through", "thickness": 0.375}}
    thick = {**plate, "id": "KRP-7001-B", "finish": "ASTM B633 Fe/Zn 25"}
    wrong = {**plate, "id": "KRP-7001-C", "thread": "1/4-2O"}
    path.write_text("".join(json.dumps(item) + "\n" for item in ({**plate, "material": "6061-T6"}, thick, wrong)))
    ran("batch", path, "--only", "review", "-o", tmp_path / "specs.ndjson")
    left = [json.loads(line)["id"] for line in (tmp_path / "specs.ndjson").read_text().splitlines()]
    assert left == ["KRP-7001-B", "KRP-7001-C"]


def test_a_list_through_a_pipe(service_url, command):
    line = json.dumps({"thread": "M8", "hole": {"type": "through", "thickness": 12}})
    asked = [command, "batch", "/dev/stdin", "--url", service_url]
    done = subprocess.run(asked, input=line, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["status"] == "ok"


def test_a_run_can_be_interrupted(on_terminal, command, sheet, tmp_path):
    path = sheet(HEAD, "KRP-1,M8,through,,12,")
    with socket.create_server(("127.0.0.1", 0)) as silent:
        url = f"http://127.0.0.1:{silent.getsockname()[1]}"
        asked = (command, "batch", path, "-o", tmp_path / "specs.csv", "--url", url)
        done = on_terminal(*asked, typed=[(lambda: bool(select.select([silent], [], [], 0)[0]), "\x03")])
    assert done.code == 130
    assert "interrupted" in done.out
    assert "Traceback" not in done.out


def test_detail_of_lines_is_asked_for_and_csv_stays_whole(borewright, sheet):
    path = sheet(HEAD + ",detail", "KRP-1,M8,through,,12,6061-T6,routing", "KRP-2,M10,through,,12,6061-T6,")
    first, second = (
        json.loads(line) for line in borewright("batch", path, "--json", "--detail", "figures").splitlines()
    )
    assert "depths" not in first["spec"]
    assert "depths" in second["spec"]
    assert "sources" not in second["spec"]
    rows = rows_of(borewright("batch", path, "--detail", "routing"))
    assert all(row["depths.drill_depth"] and row["tap.recommended.marking"] for row in rows)
