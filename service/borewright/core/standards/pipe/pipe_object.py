"""The ``pipe`` object of the American taper threads: the standard's lengths by name, and the hole to drill (inches).

==========================================  =======  ================================================================
field                                       symbol   meaning
==========================================  =======  ================================================================
gauge_plane_pitch_diameter                  E1       pitch diameter at the face of the hole
small_end_pitch_diameter                    E0       at the small end of the pipe
handtight_engagement                        L1       engagement by hand
effective_length                            L2       effective external thread
wrench_makeup                               L3       make-up of the internal thread by wrench
pitch_diameter_at_effective_length          E2
pitch_diameter_at_wrench_makeup             E3
vanish_length                               V        incomplete external thread
overall_external_length                     L4
full_form_external_length                   L5
pitch_diameter_at_full_form_length          E5
small_end_minor_diameter                    K0
full_thread_depth                           L1 + L3  full internal thread needed from the face
diameter_change_per_turn                    p / 16   change of any diameter over one turn
tap_projection                                       how far the tap stands through the L1 ring gauge
tap_travel                                           projection + L1: tip of the tap from the face, at size
straight_hole_diameter                               smallest and largest straight hole: full form to L1 + L3, to L1
straight_hole_full_crest_depth              z        16 (E1 - H + 2 f max - d) for the chart's straight drill
reamed_hole_drill_diameter                           chart drill for a hole that is then taper reamed 1:16
==========================================  =======  ================================================================
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.citation import Cite, cite
from borewright.core.model import Range
from borewright.core.practice import longest_chamfer
from borewright.core.rounding import downward, half_up, upward
from borewright.core.standards import family
from borewright.core.standards.evidence import Evidence

from .american_taper_tables import DrysealSize, PipeForm, TaperSize, projections

#: Longest chamfer of a taper pipe tap in threads.
TAP_CHAMFER_THREADS = longest_chamfer("taper_pipe")
_TURN = cite("npt").computed("taper 1:16; gauging tolerance of one turn")
_CREST = "16 (E1 - H + 2 f max - d): depth to which a straight hole of diameter d keeps the crest inside its limits"


@dataclass(frozen=True, slots=True)
class Face:
    """The internal thread at the face of the hole (inches): E1, L1, L3 and what the form allows there."""

    pitch_diameter: Decimal
    handtight: Decimal
    makeup: Decimal
    threads_per_inch: Decimal
    form: PipeForm

    @property
    def full_depth(self) -> Decimal:
        """Depth of full thread in inches, L1 + L3."""
        return self.handtight + self.makeup


def lengths(row: TaperSize, proof: Evidence) -> dict[str, object]:
    """The external thread's lengths and diameters of ``row`` in inches, recorded in ``proof``, as the standard
    tabulates them.
    """
    read = (
        ("small_end_pitch_diameter", row.e0_in, row.place),
        ("effective_length", row.l2_in, row.place),
        ("pitch_diameter_at_effective_length", row.e2_in, row.place),
        ("vanish_length", row.v_in, row.makeup),
        ("overall_external_length", row.l4_in, row.makeup),
        ("full_form_external_length", row.l5_in, row.makeup),
        ("pitch_diameter_at_full_form_length", row.e5_in, row.makeup),
        ("small_end_minor_diameter", row.k0_in, row.makeup),
    )
    found: dict[str, object] = {
        name: proof.read(f"pipe.{name}", value, unit="in", place=place) for name, value, place in read
    }
    found["effective_length_turns"] = float(half_up(row.l2_in * row.threads_per_inch, 2))
    return found


def dryseal_minor(own: DrysealSize, proof: Evidence) -> dict[str, object]:
    """Minor diameters in inches of a dryseal thread, its ``own`` row, at L1 and at L1 + L3, and by how much its drill
    cuts large.

    Args: ``proof`` that records them.
    """
    read = (
        ("minor_diameter_at_handtight_engagement", own.minor_at_l1_in),
        ("minor_diameter_at_full_thread_depth", own.minor_at_l1_l3_in),
        ("probable_drill_oversize", own.drill_oversize_in),
    )
    return {name: proof.read(f"pipe.{name}", value, unit="in", place=own.place) for name, value in read}


def engagement(face: Face, proof: Evidence, place: Cite) -> dict[str, object]:
    """Depth of full thread and the gauging tolerance of the hole at ``face``, in inches, recorded in ``proof`` at
    ``place``.
    """
    n = face.threads_per_inch
    depth = proof.work(
        "pipe.full_thread_depth",
        face.full_depth,
        formula="L1 + L3",
        inputs={"L1": face.handtight, "L3": face.makeup},
        unit="in",
        place=place.computed(),
    )
    axial = proof.work(
        "pipe.gauge_plane_tolerance",
        half_up(1 / n, 5),
        formula="half_up(1 / n, 5)",
        inputs={"n": n},
        unit="in",
        place=_TURN,
    )
    change = proof.work(
        "pipe.diameter_change_per_turn",
        half_up(Decimal("0.0625") / n, 5),
        formula="half_up(0.0625 / n, 5)",
        inputs={"n": n},
        unit="in",
        place=_TURN,
    )
    return {
        "full_thread_depth": depth,
        "handtight_engagement_turns": float(half_up(face.handtight * n, 2)),
        "gauge_plane_tolerance_turns": 1,
        "gauge_plane_tolerance": axial,
        "diameter_change_per_turn": change,
    }


def tap(face: Face, proof: Evidence, *, size: str) -> dict[str, object]:
    """How deep in inches the tap of ``size`` runs for a plug flush with the face; from the chamfer where its projection
    is not held.

    Args: ``proof`` that records it.
    """
    held = projections().get(size)
    if held is None:
        proof.assume(
            "no projection of a tap of this size is held: its travel is reckoned from L1 + L3 and a chamfer of 3.5"
            " threads; take it from the tap, and gauge the first hole step by step"
        )
        place = Cite("shop practice", "", "full thread and chamfer of the tap", "common_practice")
        n = face.threads_per_inch
        travel = half_up(face.full_depth + TAP_CHAMFER_THREADS / n, 4)
        inputs: dict[str, object] = {"L1": face.handtight, "L3": face.makeup, "chamfer": TAP_CHAMFER_THREADS, "n": n}
        formula = "half_up(L1 + L3 + chamfer / n, 4)"
        return {
            "tap_travel": proof.work("pipe.tap_travel", travel, formula=formula, inputs=inputs, unit="in", place=place)
        }
    projection = proof.read("pipe.tap_projection", held[0], unit="in", place=held[1])
    travel = proof.work(
        "pipe.tap_travel",
        projection + face.handtight,
        formula="projection + L1",
        inputs={"projection": projection, "L1": face.handtight},
        unit="in",
        place=held[1].computed("projection + L1"),
    )
    return {"tap_projection": projection, "tap_travel": travel}


def hole(face: Face, proof: Evidence, *, system: str, size: str) -> dict[str, object]:
    """The hole before tapping at ``face``, in inches: limits of a straight one, and the drills of the chart with what
    they give.

    Args: ``proof`` that records it; ``system`` and ``size`` for the chart.
    """
    found = family.chart(system)
    drills: dict[str, object] = {"straight_hole_diameter": _straight_limits(face, proof)}
    straight = found.get(("", size, "straight"))
    if straight is not None:
        diameter = _drill("straight", straight, drills)
        depth = _crest_depth(face, diameter, proof)
        drills["straight_hole_full_crest_depth"] = depth
        drills["straight_hole_gives_full_crest"] = depth >= face.handtight
    else:
        proof.assume("no published straight-hole drill is held for this size: hole by its limits")
    reamed = found.get(("", size, "reamed"))
    if reamed is not None:
        _drill("reamed", reamed, drills)
    return drills


def _drill(kind: str, row: Mapping[str, str], drills: dict[str, object]) -> Decimal:
    diameter = Decimal(row["drill_diameter_in"])
    drills[f"{kind}_hole_drill"] = row["drill_label"]
    drills[f"{kind}_hole_drill_diameter"] = diameter
    return diameter


def crest_depth(face: Face, hole_diameter: Decimal) -> Decimal:
    """Depth from the face to which a straight hole gives crests inside their limits: z = 16 (E1 - H + 2 f max - d).

    Args: ``hole_diameter`` in inches. Returns inches, below zero when not even the first crest is full.
    Source: geometry of the 1:16 cone and ANSI/ASME B1.20.1-1983 Table 1 (greatest truncation).
    """
    form = face.form
    return half_up(16 * (face.pitch_diameter - form.sharp_height_in + 2 * form.crest_max_in - hole_diameter), 3)


def _crest_depth(face: Face, diameter: Decimal, proof: Evidence) -> Decimal:
    return proof.work(
        "pipe.straight_hole_full_crest_depth",
        crest_depth(face, diameter),
        formula="half_up(16 * (E1 - H + 2 * f_max - d), 3)",
        inputs={
            "E1": face.pitch_diameter,
            "H": face.form.sharp_height_in,
            "f_max": face.form.crest_max_in,
            "d": diameter,
        },
        unit="in",
        place=face.form.place.computed(_CREST),
    )


def _straight_limits(face: Face, proof: Evidence) -> Range:
    """Largest: crests full to L1. Smallest: least truncation at the end of the full thread, L1 + L3."""
    form, place = face.form, face.form.place.computed("truncation of the taper thread's crest met by a straight hole")
    shared = {"E1": face.pitch_diameter, "H": form.sharp_height_in}
    largest = face.pitch_diameter - face.handtight / 16 - form.sharp_height_in + 2 * form.crest_max_in
    smallest = face.pitch_diameter - face.full_depth / 16 - form.sharp_height_in + 2 * form.crest_min_in
    return Range(
        proof.work(
            "pipe.straight_hole_diameter.min",
            upward(smallest, 4),
            formula="up(E1 - depth / 16 - H + 2 * f_min, 4)",
            inputs={**shared, "depth": face.full_depth, "f_min": form.crest_min_in},
            unit="in",
            place=place,
        ),
        proof.work(
            "pipe.straight_hole_diameter.max",
            downward(largest, 4),
            formula="down(E1 - L1 / 16 - H + 2 * f_max, 4)",
            inputs={**shared, "L1": face.handtight, "f_max": form.crest_max_in},
            unit="in",
            place=place,
        ),
    )
