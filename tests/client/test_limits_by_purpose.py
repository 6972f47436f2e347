"""What the tap must make and what the finished part has, on every surface, for a hole tapped after galvanizing.

3/8-16 after hot-dip galvanizing is tapped 0.017 in oversize (ASTM A563, table of overtapping allowances): the pitch
diameter 0.3344 to 0.3401 in of ASME B1.1 becomes 0.3514 to 0.3571 in, for the tap and for the finished part.
"""

from __future__ import annotations

import csv
import io
import json

import pytest
import requests

GALVANIZED = {
    "id": "KRP-5520-G1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "through", "thickness": 0.75},
    "material": "A36",
    "finish": "ASTM A153",
}
OVERSIZE = {"min": 0.3514, "max": 0.3571}
BASIC = {"min": 0.3344, "max": 0.3401}


def ask(service_url, **headers):
    return requests.post(f"{service_url}/v1/hole-specs", json=GALVANIZED, headers=headers, timeout=30)


def test_the_reply(service_url):
    limits = ask(service_url).json()["limits"]
    assert limits["to_tap"]["pitch_diameter"] == limits["finished"]["pitch_diameter"] == OVERSIZE
    assert limits["gauge_now"] == "finished"
    plated = requests.post(
        f"{service_url}/v1/hole-specs", json={**GALVANIZED, "finish": "ASTM B633 Fe/Zn 8"}, timeout=30
    )
    limits = plated.json()["limits"]
    assert limits["finished"]["pitch_diameter"] == BASIC
    assert limits["to_tap"]["pitch_diameter"]["min"] > BASIC["min"]
    assert limits["gauge_now"] == "to_tap"


def test_the_sheet_of_a_terminal(borewright, tmp_path):
    args = ("3/8-16 UNC-2B", "--through", "0.75", "--material", "A36", "--finish", "ASTM A153")
    lines = borewright("spec", *args).splitlines()
    pitch = [line.split() for line in lines if line.strip().startswith("pitch diameter")]
    assert [line[:4] for line in pitch] == [["pitch", "diameter", "0.3514", "0.3571"]]
    assert not any("0.3344" in line for line in lines)


@pytest.mark.parametrize("media_type", ["image/svg+xml", "application/xml"])
def test_drawing_and_xml(service_url, media_type):
    shown = ask(service_url, Accept=media_type).text
    assert "0.3514 to 0.3571" in shown
    assert "0.3344" not in shown


def test_csv(service_url):
    answer = requests.post(
        f"{service_url}/v1/hole-specs/batch",
        data=json.dumps(GALVANIZED) + "\n",
        headers={"Content-Type": "application/x-ndjson", "Accept": "text/csv"},
        timeout=30,
    )
    (row,) = csv.DictReader(io.StringIO(answer.text))
    assert row["limits.gauge_now"] == "finished"
    for purpose in ("to_tap", "finished"):
        window = {side: float(row[f"limits.{purpose}.pitch_diameter.{side}"]) for side in ("min", "max")}
        assert window == OVERSIZE
