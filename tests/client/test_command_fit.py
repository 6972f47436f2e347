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
    assert "not for .xlsx" in said("batch", listed, "--shop-figures", kept, "-o", tmp_path / "s.xlsx", code=2)
    assert "no figures" in said("spec", *hole, "--blind", "0.6", "--shop-figures", _written(tmp_path, "{}"), code=2)
    assert "not JSON" in said("spec", *hole, "--blind", "0.6", "--shop-figures", _written(tmp_path, "x"), code=2)


def _written(folder, text):
    path = folder / "wrong.json"
    path.write_text(text, encoding="utf-8")
    return path
