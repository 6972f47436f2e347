"""What stands on the first screen of a hole, of every kind: all that is asked for first within twelve lines."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from borewright_client import Client
from borewright_client.cli.text_card import card

ROOT = Path(__file__).parents[2]
VARIED = ROOT / "tests" / "contract" / "varied_requests.json"
PARTS = ROOT / "service" / "demo" / "kestrel_ridge_pumps.json"
FIELDS = ("id", "thread", "hole", "material", "finish", "mating_screw")
COLUMNS, LINES, SOON = 80, 40, 12


@pytest.fixture(scope="module")
def replies(service_url) -> list[dict]:
    """Specifications of the part list and of the varied holes: pipe, insert, plated, hard, infeasible ..."""
    listed = [{"material": part["material"], **hole} for part in json.loads(PARTS.read_text())["parts"]
              for hole in part["holes"]]  # fmt: skip
    demo = [{name: hole[name] for name in FIELDS if name in hole} for hole in listed]
    holes = [*json.loads(VARIED.read_text())["holes"].values(), *demo]
    with Client(service_url) as client:
        found = [result["spec"] for result in client.batch(holes) if result["status"] == "ok"]
    assert {reply["verdict"] for reply in found} == {"ready", "review", "infeasible"}
    assert len(found) > 80
    return found


def flowing(text: str) -> str:
    return re.sub(r"\s+", " ", text)


def test_all_stands_on_one_screen(replies):
    for reply in replies:
        lines = card(reply).splitlines()
        assert len(lines) < LINES
        assert max(map(len, lines)) <= COLUMNS


def test_drill_tap_depth_speed_gauge_and_decision_are_found_soon(replies):
    for reply in replies:
        first = flowing(" ".join(card(reply).splitlines()[:SOON]))
        for text in reply["headline"].values():
            assert flowing(text) in first
        decide = [one["code"].replace("_", " ") for one in reply["review"]] or ["nothing"]
        assert f"decide {'; '.join(decide)}" in first
        assert f": {reply['verdict']} " in first


def test_every_operation_limit_and_decision_is_on_it(replies):
    for reply in replies:
        shown = card(reply)
        numbers = [
            int(found) for found in re.findall(r"^ +(\d+)0  \S", shown.partition("\nOperations")[2], re.MULTILINE)
        ]
        assert numbers == [line["sequence"] // 10 for line in reply["operations"]]
        gauged = reply["limits"][reply["limits"]["gauge_now"]]["pitch_diameter"]
        assert str(gauged["min"]).rstrip("0") in shown
        for decision in reply["review"]:
            assert decision["text"].split()[0] in shown.partition("\nTo decide")[2]


def test_the_limits_stand_beside_their_gauges(borewright):
    """3/8-16 UNC-2B under four times 0.00045 in of zinc: ASME B1.1 for the finished thread; 0.3344 + 0.0018 to tap.

    Gauge tolerances of class X, pitch diameter 0.0003 in for 16 threads per inch (ASME B1.2-1983, Table 6).
    """
    shown = borewright(
        "spec", "3/8-16 UNC-2B", "--blind", "0.75", "--material", "4140", "--finish", "ASTM B633 Fe/Zn 8"
    )
    rows = {line[:16].strip(): line[16:].split() for line in shown.splitlines()}
    assert rows["pitch finished"] == ["0.3344", "0.3401", "0.3344–0.3347", "0.3398–0.3401"]
    assert rows["pitch to tap"] == ["0.3362", "0.3401", "0.3362–0.3365", "0.3398–0.3401"]


def test_full_shows_the_rest(borewright):
    hole = ("spec", "1/2-13 UNC-2B", "--blind", "0.75", "--material", "6061-T6")
    first, full = borewright(*hole), borewright(*hole, "--full")
    assert "Torque of the tap" not in first
    assert "Torque of the tap" in full
    assert len(full.splitlines()) > 2 * LINES


def test_the_derivation_is_read_on_paper(borewright):
    """Pitch diameter of 1/2-13: 0.5 - 0.64951905/13 = 0.45 in (ASME B1.1)."""
    shown = borewright("thread", "1/2-13 UNC-2B", "--explain")
    assert "\n  pitch diameter = 0.45 in\n      half_up(D - half_up(0.64951905 * P, 6), 4); D 0.5, P 0.0769230" in shown
    integral = borewright("spec", "M8", "--blind", "16", "--finish", "ASTM B633 Fe/Zn 5", "--explain")
    assert max(len(line) for line in integral.splitlines()) <= COLUMNS
    assert "more with --json" in integral
