"""`borewright fit`: a list of what was measured, its figures, and the file that keeps them."""

from __future__ import annotations

import json
from pathlib import Path

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
