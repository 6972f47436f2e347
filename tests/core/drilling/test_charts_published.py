"""The published tap drill charts, row by row: ISO 2306:1972 and FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest
from borewright.core import callout, threads
from borewright.core.drilling import DrillRequest, percent_of_thread, recommend
from borewright.core.model import Thread

PUBLISHED = Path(__file__).parents[2] / "published"
METRIC = list(csv.DictReader((PUBLISHED / "metric_tap_drill.csv").read_text(encoding="utf-8").splitlines()))
UNIFIED = list(csv.DictReader((PUBLISHED / "unified_tap_drill.csv").read_text(encoding="utf-8").splitlines()))


def unified_groups() -> dict[tuple[str, str], list[dict[str, str]]]:
    groups: dict[tuple[str, str], list[dict[str, str]]] = {}
    for row in UNIFIED:
        groups.setdefault((row["thread"], row["class"]), []).append(row)
    return groups


GROUPS = unified_groups()


def unified(name: str, thread_class: str) -> Thread:
    size, series = name.rsplit(" ", 1)
    return threads.resolve(callout.read(f"{size} {series}-{thread_class}"))


def test_the_charts_are_whole():
    assert len(METRIC) == 171
    assert sum(len(rows) for rows in GROUPS.values()) == 181


@pytest.mark.parametrize("row", METRIC, ids=lambda row: f"M{row['D']}x{row['P']}")
def test_iso_2306_drill_is_recommended(row):
    thread = threads.resolve(callout.read(f"M{row['D']}x{row['P']}-{row['D1_class']}"))
    choice = recommend(thread, DrillRequest())
    assert choice.recommended.diameter == Decimal(row["drill_iso2306"])
    assert choice.rule == "published_chart"
    assert choice.recommended.operation == "drill"
    assert choice.recommended.within_minor_diameter_limits is True
    assert (thread.internal.minor_diameter.min, thread.internal.minor_diameter.max) == (
        Decimal(row["D1_min"]),
        Decimal(row["D1_max"]),
    )


@pytest.mark.parametrize("row", METRIC, ids=lambda row: f"M{row['D']}x{row['P']}")
def test_iso_2306_percent(row):
    """Column pct_of_0_6495P_US_convention: 100 % = 1.299038 P, one decimal."""
    thread = threads.resolve(callout.read(f"M{row['D']}x{row['P']}-{row['D1_class']}"))
    percent = percent_of_thread(thread, Decimal(row["drill_iso2306"]))
    assert f"{percent:.1f}" == row["pct_of_0_6495P_US_convention"]


@pytest.mark.parametrize(("name", "thread_class"), list(GROUPS))
def test_unified_chart_drill(name, thread_class):
    """Nearest to major less pitch of the drills listed that hold the limits; a drill not in the part read is nearer."""
    thread = unified(name, thread_class[-2:])
    limits = thread.internal.minor_diameter
    target = thread.basic.major_diameter - 1 / (thread.threads_per_inch or Decimal(1))
    drills = [Decimal(row["drill_in"]) for row in GROUPS[name, thread_class]]
    holding = [drill for drill in drills if limits.min <= drill <= limits.max]
    choice = recommend(thread, DrillRequest())
    if choice.rule == "published_chart":
        nearest = min(abs(drill - target) for drill in holding) if holding else None
        assert nearest is None or abs(choice.recommended.diameter - target) <= nearest
        assert limits.min <= choice.recommended.diameter <= limits.max
    elif choice.recommended.operation == "drill":
        assert all(abs(choice.recommended.diameter - target) <= abs(drill - target) for drill in holding)
    else:
        assert not holding


@pytest.mark.parametrize(
    ("text", "label", "percent"),
    [
        ("1/2-13 UNC-2B", "27/64", "78.16"),
        ("1/4-20 UNC-2B", "#7", "75.44"),
        ("#10-32 UNF-2B", "#21", "76.36"),
        ("M8", "6.8 mm", "73.90"),
        ("M12", "10.2 mm", "79.18"),
    ],
)
def test_everyday_threads(text, label, percent):
    """Common practice: 1/2-13 takes 27/64 (about 78 %), 1/4-20 #7 (75 %), #10-32 #21 (76 %), M8 6.8, M12 10.2."""
    choice = recommend(threads.resolve(callout.read(text)), DrillRequest())
    assert choice.recommended.drill.label == label
    assert str(choice.recommended.percent_thread) == percent
    assert choice.rule == "published_chart"
    assert "1.299038 P" in choice.percent_basis


@pytest.mark.parametrize(
    ("text", "label"), [("3/4-10 UNC-2B", "21/32"), ("5/8-11 UNC-2B", "17/32"), ("1-8 UNC-2B", "7/8")]
)
def test_rule_where_the_chart_is_not_held(text, label):
    """Common practice: the everyday drills of these threads are also the nearest to major less pitch."""
    choice = recommend(threads.resolve(callout.read(text)), DrillRequest())
    assert choice.recommended.drill.label == label
    assert choice.rule == "rule"
    assert any("no published tap drill chart" in reason for reason in choice.recommended.reasons)
