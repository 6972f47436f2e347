"""`borewright compare`: what was kept beside what the service answers now."""

from __future__ import annotations

import csv
import json

HEAD = "id,thread,hole.type,hole.full_thread_depth,material\n"
HOLES = HEAD + "A,3/8-16 UNC-2B,blind,0.75,4140\nB,M8,blind,16,1045\n"


def test_what_was_kept_is_compared_with_now(borewright, tmp_path):
    holes, old, now = tmp_path / "holes.csv", tmp_path / "old.ndjson", tmp_path / "now.csv"
    holes.write_text(HOLES)
    now.write_text(HOLES.replace("0.75", "0.8"))
    borewright("batch", holes, "--with-requests", "-o", old)
    assert "2 kept specifications: 2 stay, 0 to update, 0 to look at" in borewright("compare", old)
    shown = borewright("compare", old, "--holes", now, code=4)
    assert "1 stay, 1 to update" in shown
    assert "A: update, another request" in shown
    assert "depths full thread depth: 0.75 -> 0.8" in " ".join(shown.split())
    rows = list(csv.DictReader(borewright("compare", old, "--holes", now, "--csv", code=4).splitlines()))
    assert {row["id"] for row in rows} == {"A"}
    (depth,) = [row for row in rows if row["pointer"] == "/depths/full_thread_depth"]
    assert (depth["before"], depth["after"], depth["matters"], depth["why"]) == ("0.75", "0.8", "true", "request")


def test_replies_without_requests_need_them(ran, borewright, tmp_path):
    holes, old = tmp_path / "holes.csv", tmp_path / "old.ndjson"
    holes.write_text(HOLES)
    borewright("batch", holes, "--detail", "routing", "-o", old)
    assert "name a file of the requests with --holes" in " ".join(ran("compare", old).out.split())
    lines = [{**json.loads(line)["spec"], "id": None} for line in old.read_text().splitlines()]
    old.write_text("\n".join(map(json.dumps, lines)))
    holes.write_text(HOLES.replace("\nA,", "\n,").replace("\nB,", "\n,"))
    assert "2 stay" in borewright("compare", old, "--holes", holes)  # by place, where nothing has an id
    assert "what was kept is .ndjson" in borewright("compare", holes, code=2)
