"""The ``insert`` object of an STI hole: what is installed, and how deep the hole must be for each insert length.

``full_thread_depth`` is T, insert length plus one pitch. ``drill_depth_plug_tap`` and ``drill_depth_bottoming_tap`` are
the drill depth codes G of the metric standard: a callout such as ``M8 x 1.25 STI 23.5 deep`` states G, not T. With a
length on the callout these fields are there without suffix; for all lengths with ``_1d`` to ``_3d``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from borewright.core import quantity_text
from borewright.core.citation import Cite, cite
from borewright.core.errors import HoleError
from borewright.core.model import Range, Thread, ThreadCallout, Unit
from borewright.core.rounding import half_up, upward
from borewright.core.standards import family
from borewright.core.standards.evidence import Evidence

#: Insert lengths in nominal diameters, with the suffix of their fields.
LENGTHS: Mapping[Decimal, str] = MappingProxyType(
    {Decimal(1): "1d", Decimal("1.5"): "1_5d", Decimal(2): "2d", Decimal("2.5"): "2_5d", Decimal(3): "3d"}
)

_PLACES: Mapping[Unit, int] = {"in": 4, "mm": 2}
#: Taps for threads up to this diameter (mm) have a male centre, which takes half a diameter more of drill depth.
_MALE_CENTRE_MM = Decimal(8)
_T: Mapping[Unit, Cite] = {
    "in": Cite("NASM33537", "drawing example .3125-24, 2 D", "full thread depth = insert length + 1 P", "computed"),
    "mm": cite("insert_metric").at("full thread depth T = insert length + 1 P", "computed"),
}
DRILL_DEPTHS = cite("insert_metric").at(
    "drill depth G: bottoming tap length + 4 P; plug tap length + 6 P, + 0.5 D up to 8 mm", "computed"
)
_INSTALLED = cite("insert_metric").at("set-down and assembled length", "computed")
_COUNTERSINK: Mapping[Unit, Cite] = {
    "in": Cite("NASM33537", "", "countersink 120 degrees, 5 either way", "second_hand"),
    "mm": Cite("shop practice", "", "countersink as for inch inserts (NASM33537)", "common_practice"),
}


@dataclass(frozen=True, slots=True)
class InsertHole:
    """The hole as the depth rules see it; lengths in ``unit``, ``pitch`` not rounded."""

    nominal: str
    thread_class: str
    diameter: Decimal
    pitch: Decimal
    unit: Unit


def build(callout: ThreadCallout, hole: InsertHole, proof: Evidence) -> Mapping[str, object]:
    """The ``insert`` object of ``callout`` for ``hole``, lengths in its unit, recorded in ``proof``.

    Source: ASME B18.29.2M (depth rules); NASM33537 (full thread depth, inch); ASME B18.29.1-2010 1.4, 1.5.
    """
    chosen = family.stated_dimension(callout, "insert_length_diameters")
    found: dict[str, object] = {
        "nominal_thread": hole.nominal,
        "nominal_diameter": hole.diameter,
        "finished_class": hole.thread_class,
        "countersink_angle": Decimal(120),
        "countersink_angle_tolerance": 5,
    }
    proof.cite("insert.countersink_angle", _COUNTERSINK[hole.unit])
    if chosen is not None:
        found.update(_depths(hole, chosen, "", proof))
        found["insert_length_diameters"] = float(chosen)
        if hole.unit == "mm":
            found["drill_depth"] = found["drill_depth_plug_tap"]
            found["drill_depth_tap"] = "plug"
    for diameters, suffix in LENGTHS.items():
        found.update(_depths(hole, diameters, f"_{suffix}", proof))
    if hole.unit == "mm":
        found["set_down"] = _set_down(hole, proof)
    found.update(
        accepts="external threads of the nominal size, UNJ too"
        if hole.unit == "in"
        else "external threads of that size",
        gauges="STI GO, NOT GO (HI) and plain plugs",
        not_held=_NOT_HELD[hole.unit],
    )
    return MappingProxyType(found)


_NOT_HELD: Mapping[Unit, tuple[str, ...]] = {
    "in": (
        "greatest pitch diameter",
        "greatest minor diameter",
        "countersink diameter",
        "drill depth codes",
    ),
    "mm": ("countersink diameter",),
}


def inch_cautions(thread_class: str, proof: Evidence) -> None:
    """Say in ``proof`` what is missing of inch insert holes, and what ``thread_class`` means for
    screw-locking inserts.
    """
    proof.caution(
        "thread_data_missing",
        text="The greatest pitch and minor diameters of inch STI holes (NASM33537 Tables III and IV, ASME B18.29.1"
        " Table 1) are not held: the least sizes are certain, the greatest are left open. Do not take the full"
        " tolerance of the nominal thread; use the STI plug gauges.",
    )
    if thread_class == "2B":
        proof.caution(
            "screw_locking_insert_class",
            text="Screw-locking inserts give less locking torque in 2B holes; the torques specified belong to 3B"
            " holes.",
        )


def check_hole(thread: Thread, *, kind: str, depth: Decimal) -> None:
    """Refuse a hole that is too short for the insert on the callout; a callout without a length passes.

    Args: ``kind`` blind or through; ``depth`` full thread depth of a blind hole, thickness of a through one, in the
    thread's unit.
    Raises: HoleError ``thread_deeper_than_hole``.
    Source: ASME B18.29.2M: blind holes need T = length + 1 P, through holes at least the nominal length.
    """
    insert = thread.extra.get("insert", {})
    needed = insert.get("full_thread_depth" if kind == "blind" else "insert_length")
    if isinstance(needed, Decimal) and depth < needed:
        field = "full_thread_depth" if kind == "blind" else "thickness"
        raise HoleError(
            "thread_deeper_than_hole",
            f"an insert {quantity_text.length(needed, thread.unit)} deep does not fit in"
            f" {quantity_text.length(depth, thread.unit)}",
            pointer=f"/hole/{field}",
            allowed=(f"at least {quantity_text.length(needed, thread.unit)}",),
        )


def _depths(hole: InsertHole, diameters: Decimal, suffix: str, proof: Evidence) -> dict[str, object]:
    places = _PLACES[hole.unit]
    length, pitch = diameters * hole.diameter, hole.pitch
    sheet = proof.sheet(unit=hole.unit, place=_T[hole.unit], D=hole.diameter, P=pitch, k=diameters)

    def put(name: str, value: Decimal, *, formula: str, place: Cite) -> Decimal:
        return sheet.put(f"insert.{name}{suffix}", half_up(value, places), formula=formula, place=place)

    found: dict[str, object] = {
        f"insert_length{suffix}": put(
            "insert_length", length, formula=f"half_up(k * D, {places})", place=_T[hole.unit]
        ),
        f"full_thread_depth{suffix}": put(
            "full_thread_depth", length + pitch, formula=f"half_up(k * D + P, {places})", place=_T[hole.unit]
        ),
    }
    if hole.unit == "in":
        found[f"full_thread_depth_callout{suffix}"] = sheet.put(
            f"insert.full_thread_depth_callout{suffix}",
            upward(length + pitch, 2),
            formula="up(k * D + P, 2)",
            place=Cite(
                "ASME B18.29.1",
                "2010",
                "2.1.1 example 0.430 in: hundredths, rounded up (inferred from two examples)",
                "computed",
            ),
        )
        return found
    centre, text = (hole.diameter / 2, " + 0.5 * D") if hole.diameter <= _MALE_CENTRE_MM else (Decimal(0), "")
    found[f"drill_depth_plug_tap{suffix}"] = put(
        "drill_depth_plug_tap",
        length + 6 * pitch + centre,
        formula=f"half_up(k * D + 6 * P{text}, 2)",
        place=DRILL_DEPTHS,
    )
    found[f"drill_depth_bottoming_tap{suffix}"] = put(
        "drill_depth_bottoming_tap", length + 4 * pitch, formula="half_up(k * D + 4 * P, 2)", place=DRILL_DEPTHS
    )
    return found


def _set_down(hole: InsertHole, proof: Evidence) -> Range:
    """How far below the face the first coil lies."""
    sheet = proof.sheet(unit=hole.unit, place=_INSTALLED, P=hole.pitch)
    low, high = Decimal("0.75") * hole.pitch, Decimal("1.5") * hole.pitch
    return Range(
        sheet.put("insert.set_down.min", half_up(low, 2), formula="half_up(0.75 * P, 2)"),
        sheet.put("insert.set_down.max", half_up(high, 2), formula="half_up(1.5 * P, 2)"),
    )
