"""`borewright plan`: a file of the holes of a part in, one plan with the fewest tools out."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from lxml import etree

B2MML = Path(__file__).parent.parent / "published" / "b2mml" / "B2MML-OperationsDefinition.xsd"
HOLES = """id,thread,hole.type,hole.full_thread_depth,hole.thickness,count
C1,1/4-20 UNC-2B,blind,0.5,,8
C2,1/4-20 UNC-3B,blind,0.375,,4
P1,1/4-18 NPT,through,,0.75,1
"""


@pytest.fixture
def part(tmp_path):
    path = tmp_path / "KRP-5120.csv"
    path.write_text(HOLES)
    return path


def test_the_sheet_says_what_is_saved_and_in_which_order(borewright, part):
    text = borewright("plan", part, "--material", "6061-T6", "--lot-size", "40")
    assert text.startswith("Part KRP-5120: ready\n")
    assert "each by itself; no choice has fewer" in text
    assert text.index("spot drill") < text.index("twist drill") < text.index("countersink") < text.index("NC HSS G")
    assert "C1, C2" in text
    assert "the lot" in text


def test_as_json_and_as_csv_it_is_the_same_plan(borewright, part):
    plan = json.loads(borewright("plan", part, "--material", "6061-T6", "--json"))
    assert [spec["id"] for spec in plan["holes"]] == ["C1", "C2", "P1"]
    rows = list(csv.DictReader(io.StringIO(borewright("plan", part, "--material", "6061-T6", "--csv"))))
    assert [row["tool"] for row in rows if row["step"]] == [step["tool"] for step in plan["sequence"]]
    assert [row["text"] for row in rows if not row["step"]] == [one["text"] for one in plan["away_from_spindle"]] != []
    assert rows[0]["holes"] == "C1 | C2 | P1"
    assert rows[0]["count"] == "13"


def test_cautions_are_told_with_their_holes(borewright, part):
    said = borewright("plan", part, "--material", "6061-T6")
    cautions = " ".join(said[said.index("Cautions") :].split())
    assert "P1 NPT leaves a spiral leak path" in cautions


def test_tools_come_from_the_crib_however_the_plan_is_written(borewright, part, tmp_path):
    crib = ("--stock-drills", "13/64; 7/16; #7", "--stock-taps", "1/4-20 NC HSS G H3; 1/4-18 NPT")
    plan = json.loads(borewright("plan", part, "--material", "6061-T6", *crib, "--json"))
    drills = {tool["tool"]: tool["in_stock"] for tool in plan["tools"] if tool["kind"] == "drill"}
    assert set(drills.values()) == {True}
    borewright("plan", part, "--material", "6061-T6", *crib, "-o", tmp_path / "plan.csv")
    rows = list(csv.DictReader(io.StringIO((tmp_path / "plan.csv").read_text())))
    assert {row["tool"] for row in rows if row["operation"] == "drill"} == set(drills)


def test_a_column_that_no_hole_has_is_named(borewright, part):
    part.write_text(HOLES.replace("count", "cuont"))
    assert "'cuont'" in borewright("plan", part, code=2)


def test_what_the_service_refuses_is_told_by_option(borewright, part):
    assert "/least_acceptance" in borewright("plan", part, "--least-acceptance", "2", code=1)


def test_a_workbook_in_and_out(borewright, part, tmp_path):
    """Other headings, decimal commas, a plan that is written as a workbook, whose first sheet names the tools."""
    text = HOLES.replace(",", ";").replace("0.", "0,").replace("count", "Qty").replace("thread;", "Callout;")
    part.write_text(text)
    said = borewright("plan", part, "--material", "6061-T6", "-o", tmp_path / "plan.xlsx")
    assert said.startswith("Part KRP-5120: ready\n")
    assert (tmp_path / "plan.xlsx").read_bytes()[:2] == b"PK"
    borewright("plan", part, "--material", "6061-T6", "-o", tmp_path / "plan.csv")
    rows = list(csv.DictReader(io.StringIO((tmp_path / "plan.csv").read_text())))
    assert (rows[0]["holes"], rows[0]["count"]) == ("C1 | C2 | P1", "13")


def test_the_plan_as_b2mml(borewright, part, tmp_path):
    borewright("plan", part, "--material", "6061-T6", "-o", tmp_path / "plan.xml")
    document = etree.parse(tmp_path / "plan.xml")
    etree.XMLSchema(etree.parse(B2MML)).assertValid(document)
    assert document.getroot().findtext("{*}ID") == "KRP-5120"


def test_it_says_which_file_it_has_written(ran, part, tmp_path):
    done = ran("plan", part, "--material", "6061-T6", "-o", tmp_path / "plan.csv")
    assert done.err == f"{tmp_path / 'plan.csv'} written\n"
    assert "written" not in done.out


def test_a_step_without_time_is_one_step(borewright, part):
    part.write_text("id,thread,hole.type,hole.thickness,hole.counterbore.diameter\nF1,M8,through,12,22\n")
    assert "; without 1 step whose time is not held" in " ".join(borewright("plan", part, "--material", "1045").split())
