"""The table of ISO 7-1 and the ``pipe`` object made of it (mm).

==================================  ================================================================================
field                               meaning
==================================  ================================================================================
gauge_plane_pitch_diameter          pitch diameter at the gauge plane, the face of an internal thread
handtight_engagement                basic gauge length of the external thread
wrench_makeup                       fitting allowance
effective_length                    useful external thread at the basic gauge length
full_thread_depth                   length of internal thread from the face that takes the longest gauge length
full_thread_depth_from_gauge_plane  the same, counted from the gauge plane (Rc)
full_thread_depth_with_relief       useful length where the thread ends in a relief or a through hole
gauge_plane_tolerance               how far the face of an internal thread may be off the gauge plane, either way
tap_travel                          Rc: tip of the tap from the face, at size
straight_hole_full_crest_depth      Rc in a straight hole: depth at which the cone's minor diameter equals the drill
reamed_hole_drill_diameter          Rc: drill for a hole that is then reamed 1:16 to D1 at the face
==================================  ================================================================================
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from borewright.core.caches import read_once
from borewright.core.citation import Cite, cite
from borewright.core.model import Range
from borewright.core.practice import longest_chamfer
from borewright.core.rounding import half_up
from borewright.core.standards import family
from borewright.core.standards.evidence import Evidence
from borewright.tables import load

#: Longest chamfer of a taper pipe tap of ISO 7-1 in threads.
TAP_CHAMFER_THREADS = longest_chamfer("taper_pipe_iso")
_DIAMETERS = {"major_diameter": "major_mm", "pitch_diameter": "pitch_diameter_mm", "minor_diameter": "minor_mm"}
_LENGTHS = (
    "gauge_length",
    "gauge_length_tolerance",
    "gauge_plane_tolerance",
    "fitting_allowance",
    "useful_thread_basic",
    "useful_thread_max_gauge",
    "useful_thread_min_gauge",
    "diameter_tolerance",
    "useful_from_gauge_plane",
    "useful_from_face",
    "useful_with_relief",
)
_TURNS = ("gauge_length_tolerance", "gauge_plane_tolerance", "fitting_allowance")
#: Field of the object, column of the table, whether it rests on the gauge length tolerance or fitting allowance.
_READ = (
    ("handtight_engagement", "gauge_length", False),
    ("handtight_engagement_tolerance", "gauge_length_tolerance", True),
    ("wrench_makeup", "fitting_allowance", True),
    ("gauge_plane_tolerance", "gauge_plane_tolerance", False),
    ("effective_length", "useful_thread_basic", False),
    ("effective_length_for_max_gauge", "useful_thread_max_gauge", True),
    ("effective_length_for_min_gauge", "useful_thread_min_gauge", True),
    ("full_thread_depth", "useful_from_face", False),
    ("full_thread_depth_from_gauge_plane", "useful_from_gauge_plane", False),
    ("full_thread_depth_with_relief", "useful_with_relief", False),
)


@dataclass(frozen=True, slots=True)
class Iso7Size:
    """A size of ISO 7-1 Table 1: diameters at the gauge plane and lengths in mm, axial tolerances also in turns."""

    size: str
    threads_per_inch: Decimal
    pitch: Decimal
    diameters: Mapping[str, Decimal]
    lengths: Mapping[str, Decimal]
    turns: Mapping[str, Decimal]
    place: Cite
    gauge_place: Cite


@read_once
def iso_7_rows() -> Mapping[str, Iso7Size]:
    """Sizes by label, smallest first."""
    table = load("iso_7")
    return MappingProxyType(
        {
            row["size"]: Iso7Size(
                size=row["size"],
                threads_per_inch=Decimal(row["threads_per_inch"]),
                pitch=Decimal(row["pitch_mm"]),
                diameters={name: Decimal(row[column]) for name, column in _DIAMETERS.items()},
                lengths={name: Decimal(row[f"{name}_mm"]) for name in _LENGTHS},
                turns={name: Decimal(row[f"{name}_turns"]) for name in _TURNS},
                place=cite(table.name),
                gauge_place=cite(table.name, status=row["status_gauge_tolerance"]),
            )
            for row in table.rows
        }
    )


def pipe_object(series: str, row: Iso7Size, proof: Evidence) -> dict[str, object]:
    """The ``pipe`` object of ``row`` as ``series`` Rc or Rp, in mm, recorded in ``proof``.

    Source: ISO 7-1:1994 Table 1 (reprint IS 554:1999); JIS B 0203:1999 Table 1 for useful internal lengths.
    """
    pipe: dict[str, object] = {"gauge_plane_pitch_diameter": row.diameters["pitch_diameter"]}
    for name, column, of_gauge in _READ:
        place = row.gauge_place if of_gauge else row.place
        pipe[name] = proof.read(f"pipe.{name}", row.lengths[column], unit="mm", place=place)
    sheet = proof.sheet(unit="mm", place=row.place.computed("taper 1:16"), P=row.pitch)
    pipe["gauge_plane_tolerance_turns"] = float(row.turns["gauge_plane_tolerance"])
    pipe["handtight_engagement_tolerance_turns"] = float(row.turns["gauge_length_tolerance"])
    pipe["diameter_change_per_turn"] = sheet.put(
        "pipe.diameter_change_per_turn", half_up(row.pitch / 16, 4), formula="half_up(P / 16, 4)"
    )
    pipe.update(_hole(series, row, proof))
    pipe.update(
        sealing="on_thread: sealant where the standard of the joint asks for it",
        tap_style="taper_pipe" if series == "Rc" else "straight_flute",
        gauge_form="taper_plug",
        gauge="ISO 7-2 taper thread plug with steps, the face between its steps",
    )
    return pipe


def _hole(series: str, row: Iso7Size, proof: Evidence) -> dict[str, object]:
    """The straight hole of the chart; for Rc also its full-crest depth and the hole for a 1:16 reamer."""
    found = family.chart("iso_7").get((series, row.size, "straight"))
    hole: dict[str, object] = {**_cone(row, proof), **_tap(row, proof)} if series == "Rc" else {}
    if found is None:
        proof.assume("no straight-hole drill is held for this size: hole by its limits")
        return hole
    diameter, minor = Decimal(found["drill_diameter_mm"]), row.diameters["minor_diameter"]
    hole.update(straight_hole_drill=found["drill_label"], straight_hole_drill_diameter=diameter)
    if series == "Rc":
        place = row.place.computed("depth to which a straight hole is no larger than the minor diameter of the cone")
        hole["straight_hole_full_crest_depth"] = proof.sheet(unit="mm", place=place, D1=minor, d=diameter).put(
            "pipe.straight_hole_full_crest_depth",
            half_up(16 * (minor - diameter), 2),
            formula="half_up(16 * (D1 - d), 2)",
        )
    return hole


def _tap(row: Iso7Size, proof: Evidence) -> dict[str, object]:
    """How deep the tap runs: its chamfer past the useful thread that takes the longest gauge length."""
    useful = row.lengths["useful_thread_max_gauge"]
    place = row.gauge_place.computed(
        "useful thread and chamfer of form C, as the taps of ISO 2284 are made (from memory)"
    )
    travel = half_up(useful + TAP_CHAMFER_THREADS * row.pitch, 3)
    sheet = proof.sheet(unit="mm", place=place, useful=useful, chamfer=TAP_CHAMFER_THREADS, P=row.pitch)
    return {"tap_travel": sheet.put("pipe.tap_travel", travel, formula="half_up(useful + chamfer * P, 3)")}


def _cone(row: Iso7Size, proof: Evidence) -> dict[str, object]:
    minor, depth = row.diameters["minor_diameter"], row.lengths["useful_from_face"]
    place = row.place.computed("minor diameter of the cone at the end of the useful thread")
    small = proof.sheet(unit="mm", place=place, D1=minor, depth=depth).put(
        "pipe.reamed_hole_drill_diameter", half_up(minor - depth / 16, 2), formula="half_up(D1 - depth / 16, 2)"
    )
    return {
        "straight_hole_diameter": Range(small, half_up(minor, 2)),
        "reamed_hole_drill_diameter": small,
        "reamed_hole_diameter_at_face": minor,
        "taper_reamer": "1:16",
    }
