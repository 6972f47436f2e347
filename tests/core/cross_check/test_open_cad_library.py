"""Cross-check with an open CAD parts library (bd_warehouse, Apache licence): its data files, read as they lie.

The library carries sizes of drills, pipe threads, pipes and fasteners that were gathered independently of our tables.
Only its data are read; its CAD kernel is neither installed nor imported.
"""

from __future__ import annotations

import csv
from decimal import Decimal
from importlib.metadata import files
from pathlib import Path

import pytest
from borewright.core import callout, drilling, standards
from every import every

FILES = {Path(str(entry)).name: entry.locate() for entry in files("bd_warehouse") or ()}


def rows(name: str) -> list[dict[str, str]]:
    with Path(str(FILES[name])).open(encoding="utf-8", newline="") as lines:
        return [{key.strip(): value.strip() for key, value in row.items()} for row in csv.DictReader(lines)]


@pytest.mark.parametrize("row", rows("iso_228_1.csv"), ids=lambda row: f"G {row['size']}")
def test_parallel_pipe_threads(row):
    """ISO 228-1: every size, every diameter and tolerance."""
    found = standards.resolve(callout.read(f"G {row['size'].replace('-', ' ')}"))
    assert found.threads_per_inch == Decimal(row["tpi"])
    basic = found.basic
    assert str(basic.major_diameter) == row["major_diameter"]
    assert str(basic.pitch_diameter) == row["pitch_diameter"]
    assert str(basic.minor_diameter) == row["minor_diameter"]
    assert found.internal.pitch_diameter.width == Decimal(row["pitch_tolerance"])
    assert found.internal.minor_diameter.width == Decimal(row["internal_minor_tolerance"])


#: Drills of four decimals that the library cuts to three.
CUT = {"#5", "#10", "#18", "#25", "#28", "#69"}


@every("row", rows("drill_sizes.csv"), ids=lambda row: row["Size"])
def test_number_and_letter_drills(row):
    theirs, ours = Decimal(row["Diameter"]), drilling.find_drill(row["Size"]).diameter_in
    assert abs(ours - theirs) <= (Decimal("0.0005") if row["Size"] in CUT else 0)


def fastener_sizes() -> list[str]:
    """Every thread size written in the library's fastener tables: M8-1.25, 1/4-20, #10-32."""
    found: set[str] = set()
    for kind in ("hex_head", "hex_nut", "socket_head_cap", "imperial_set_screw"):
        found |= {row["Size"] for row in rows(f"{kind}_parameters.csv")}
    return sorted(found)


#: Sizes of the library that are no standard coarse or fine thread: an old M3, #4-36 of former standards, 1-14 (UNS).
NOT_STANDARD = {"M3-0.45", "#4-36", "1-14"}


@every("size", [size for size in fastener_sizes() if size not in NOT_STANDARD])
def test_fastener_threads_are_standard_sizes(size):
    """A size that fasteners are made in is a coarse or fine standard thread here too."""
    found = standards.resolve(callout.read(size))
    assert found.system in {"unified", "iso_metric"}
    assert found.series in {"UNC", "UNF", "UNEF", "coarse", "fine"}
    if found.system == "iso_metric":
        diameter, pitch = size.removeprefix("M").split("-")
        assert (found.nominal_diameter, found.pitch) == (Decimal(diameter), Decimal(pitch))


def test_taper_pipe_threads_go_on_real_pipe():
    """ASME B1.20.1: nominal diameter of NPT is the outside diameter of the pipe (ASME B36.10)."""
    outside = {row["nps"]: Decimal(row["od"]) for row in rows("pipe.csv") if row["material"] == "steel"}
    checked = 0
    for entry in standards.catalogue():
        if entry.system == "npt" and entry.size in outside:
            assert entry.nominal_diameter == outside[entry.size], entry.designation
            checked += 1
    assert checked >= 8
