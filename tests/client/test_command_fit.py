"""`borewright fit`: a list of what was measured, its figures, and the file that keeps them."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import openpyxl
from borewright_client import Client
from borewright_client.cli import main

MEASURED = Path(__file__).parents[2] / "service" / "demo" / "measurements.csv"


def test_a_list_is_fitted_and_kept(service_url, capsys, tmp_path):
    kept = tmp_path / "figures.json"
    assert main(["fit", str(MEASURED), "--keep", str(kept), "--url", service_url]) == 0
    said = capsys.readouterr().out
    assert "Shop figures from 50 pieces" in said
    assert "5/16-24 UNF-3B: verdict" in said
    shop = json.loads(kept.read_text(encoding="utf-8"))
    with Client(service_url) as client:
        hole = {"thread": "5/16-24 UNF-3B", "hole": {"type": "blind", "full_thread_depth": 0.6}, "material": "4140"}
        assert client.hole_spec(hole)["verdict"] == "review"
        assert client.hole_spec({**hole, "shop_figures": shop})["verdict"] == "ready"


def test_rows_as_csv_and_a_list_that_cannot_be(service_url, capsys, tmp_path):
    assert main(["fit", str(MEASURED), "--csv", "--url", service_url]) == 0
    head, *rows = capsys.readouterr().out.splitlines()
    assert head.startswith("figure,group,unit,count")
    assert len(rows) == 2
    wrong = tmp_path / "wrong.csv"
    wrong.write_text("kind,drill,measured\ndrilled_hole,5/16,7.95\n", encoding="utf-8")
    assert main(["fit", str(wrong), "--url", service_url]) == 1
    assert "is no hole of a drill" in capsys.readouterr().err


def test_kept_figures_go_with_later_commands(service_url, capsys, tmp_path):
    """5/16-24 UNF-3B in 4140 is put before a person by the tables, and ready by the shop's own figures."""
    kept, hole = tmp_path / "figures.json", ["5/16-24 UNF-3B", "--material", "4140"]
    book = openpyxl.Workbook()
    with MEASURED.open(encoding="utf-8", newline="") as rows:
        for row in csv.reader(rows):
            book.active.append(row)
    book.save(tmp_path / "measurements.xlsx")

    def said(*arguments, code=0):
        assert main([*map(str, arguments), "--url", service_url]) == code
        told = capsys.readouterr()
        return told.err if code else told.out

    def of_shop(*arguments):
        return json.loads(said(*arguments, "--json", "--shop-figures", kept))

    assert "Shop figures from 50 pieces" in said("fit", tmp_path / "measurements.xlsx", "--keep", kept)
    assert json.loads(said("spec", *hole, "--blind", "0.6", "--json"))["verdict"] == "review"
    spec = of_shop("spec", *hole, "--blind", "0.6")
    assert spec["verdict"] == "ready"
    drill, tap = spec["drill"]["recommended"], spec["tap"]["recommended"]
    assert of_shop("drill", *hole)["recommended"]["acceptance"] == drill["acceptance"]
    assert of_shop("tap", *hole)["recommended"]["acceptance"] == tap["acceptance"]
    assert "feasible" in of_shop("allowance", hole[0], "ASTM B633 Fe/Zn 5")
    planned = ("--drill", drill["label"], "--tap", tap["marking"])
    assert of_shop("audit", *hole, "--blind", "0.6", *planned)["verdict"] == "accept"
    listed = tmp_path / "holes.csv"
    listed.write_text("id,thread,hole.type,hole.full_thread_depth,material\nA,5/16-24 UNF-3B,blind,0.6,4140\n")
    assert of_shop("batch", listed)["spec"]["spec_id"] == spec["spec_id"]
    assert of_shop("plan", listed)["holes"][0]["verdict"] == "ready"
    said("plan", listed, "--shop-figures", kept, "-o", tmp_path / "plan.xlsx")
    assert openpyxl.load_workbook(tmp_path / "plan.xlsx").worksheets
    said("batch", listed, "--shop-figures", kept, "-o", tmp_path / "s.xlsx")
    assert openpyxl.load_workbook(tmp_path / "s.xlsx").active["A2"].value
    assert "no figures" in said("spec", *hole, "--blind", "0.6", "--shop-figures", _written(tmp_path, "{}"), code=2)
    assert "not JSON" in said("spec", *hole, "--blind", "0.6", "--shop-figures", _written(tmp_path, "x"), code=2)


def _written(folder, text):
    path = folder / "wrong.json"
    path.write_text(text, encoding="utf-8")
    return path


def test_sheets_of_any_kind_go_with_kept_figures(service_url, capsys, tmp_path):
    """A workbook, and CSV with other words for its columns: the service reads it, the figures go with what it stands
    for; a row that cannot be read is told where it stands.
    """
    kept, book = tmp_path / "figures.json", openpyxl.Workbook()
    for row in (
        ["Hole", "Callout", "Type", "Depth (in)", "Material"],
        ["A", "5/16-24 UNF-3B", "blind", 0.6, "4140"],
        ["B", "5/16-24 UNF-3B", "blind", "2026-05-16", "4140"],
        ["C", "7/16-14 UNC-3B", "blind", 0.6, "4140"],
    ):
        book.active.append(row)
    sheet, out = tmp_path / "holes.xlsx", tmp_path / "out.ndjson"
    book.save(sheet)
    assert main(["fit", str(MEASURED), "--keep", str(kept), "--url", service_url]) == 0
    asked = ["batch", str(sheet), "--shop-figures", str(kept), "--with-requests", "-o", str(out), "--url", service_url]
    assert main(asked) == 1
    assert "row 3, B, column Depth (in), '2026-05-16'" in capsys.readouterr().err
    results = [json.loads(line) for line in out.read_text(encoding="utf-8").splitlines()]
    assert [one["status"] for one in results] == ["ok", "error", "ok"]
    assert [one["spec"]["verdict"] for one in results[::2]] == ["ready", "ready"]
    assert [(one["index"], one["row"]) for one in results] == [(0, 2), (1, 3), (2, 4)]
    assert results[0]["request"]["thread"] == "5/16-24 UNF-3B"
    assert main(["plan", str(sheet), "--shop-figures", str(kept), "--url", service_url]) == 2
    assert "row 3, column Depth (in)" in capsys.readouterr().err


def test_a_file_of_holes_that_went_wrong(service_url, capsys, tmp_path):
    """What is proposed first for each, the problem of a row where it stands, and the sheet of it."""
    went, ways = tmp_path / "went.csv", tmp_path / "ways.csv"
    went.write_text(
        "Hole,Callout,Type,Depth,Material,What is wrong\nA,3/8-16 UNC-2B,blind,0.75,6061-T6,stripped\n"
        "B,M8,blind,16,6061-T6,striped\n",
        encoding="utf-8",
    )
    assert main(["rework", str(went), "-o", str(ways), "--url", service_url]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "row 2, A, 3/8-16 UNC-2B, stripped repair insert in the same place" in said
    assert "Probably stripped is meant" in said
    rows = list(csv.DictReader(ways.read_text(encoding="utf-8").splitlines()))
    assert [(row["id"], row["first.disposition"]) for row in rows] == [("A", "repair"), ("B", "")]
    assert main(["rework", str(went), "--found", "stripped", "--url", service_url]) == 2
    assert main(["rework", "M8", "--blind", "16", "--url", service_url]) == 2
    assert "--found is needed" in capsys.readouterr().err
