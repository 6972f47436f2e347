"""A tap broke in the hole: how it comes out, by its size and material and that of the part."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import cast

from borewright.core.caches import read_once
from borewright.core.citation import Cite
from borewright.core.model import MM_PER_INCH, Caution, Status
from borewright.core.plan import health
from borewright.core.practice import number
from borewright.core.quantity_text import length, marked
from borewright.tables import load

from . import envelope
from .insert_in_place import insert
from .larger_thread import larger
from .last_ways import plug
from .proof import Proof
from .rework_case import Judged, ReworkCase
from .rework_way import RuledOut
from .ways_written import after_the_thread, way, work

#: Series 1000, 3000, 5000 and 6000 of wrought aluminium.
_COPPER_FREE = re.compile(r"\b[1356]\d{3}\b")
_HARD_HB = number("tough_from_hb")
_ANEW = Caution(
    "judge_anew",
    "When the tap is out the hole is judged anew by what is measured: post that as another condition where the gauges"
    " do not pass.",
)


def ways(case: ReworkCase) -> Judged:
    """The ways for the hole of ``case`` with a broken tap in it, in the order in which shops try them.

    Source: broken_tap_methods table, each row its own.
    """
    for row in _methods():
        why = _not_here(case, row)
        if why is not None:
            yield RuledOut(row["method"], why)
            continue
        if case.criticality is not None and row["harm"]:
            yield RuledOut(
                row["method"], f"{row['harm']} on {case.criticality} hardware: never without a process of its own"
            )
            continue
        yield from _taken_out(case, row)
    yield from _afterwards(case)


def _taken_out(case: ReworkCase, row: Mapping[str, str]) -> Judged:
    proof = Proof(case.unit)
    proof.state("tap_diameter", case.thread.nominal_diameter)
    place = Cite(row["document"], "", row["locator"], cast(Status, row["status"]))
    proof.sources.append(place.source("operations"))
    lines = (
        work(row["operation"], row["tool"], marked(row["text"])),
        work("clean", "air or vacuum, wash", "Take every piece and chip out of the hole and look at the wall"),
        *after_the_thread(case.planned),
    )
    yield way(
        case,
        row["method"],
        "rework",
        f"{row['text']}. Then gauge: it is rework only where the gauges pass",
        proof=proof,
        lines=lines,
        cautions=(Caution("broken_tap_method", row["limits"]), _ANEW),
        needs_leave=bool(row["harm"]),
    )


def _afterwards(case: ReworkCase) -> Judged:
    """What stays where the removal spoils the thread."""
    shown = Proof(case.unit)
    old = envelope.left_by(case, shown)
    yield from insert(case, shown.copy(), old)
    yield from larger(case, shown, old)
    yield plug(case)


def _not_here(case: ReworkCase, row: Mapping[str, str]) -> str | None:
    """Why a method is none for this tap in this part; None where it is one."""
    return next(filter(None, (_by_size(case, row), _by_tap(case, row), _by_part(case, row), _by_need(case, row))), None)


def _by_size(case: ReworkCase, row: Mapping[str, str]) -> str | None:
    size = case.thread.nominal_diameter * (MM_PER_INCH if case.unit == "in" else 1)
    for end, word in (("least_mm", "small"), ("most_mm", "large")):
        bound = row[end]
        if bound and (size < Decimal(bound) if word == "small" else size > Decimal(bound)):
            side = "from" if word == "small" else "up to"
            return f"the tap is too {word}: it is done {side} {length(Decimal(bound), 'mm')}"
    return None


def _by_tap(case: ReworkCase, row: Mapping[str, str]) -> str | None:
    """A tap of unknown material is taken for high-speed steel."""
    material = case.found.broken_tap.material or "high_speed_steel"
    if row["tap_materials"] and material not in row["tap_materials"].split():
        return f"it does not work on a tap of {material.replace('_', ' ')}"
    return None


def _by_part(case: ReworkCase, row: Mapping[str, str]) -> str | None:
    allowed = row["parts"].split()
    if not allowed:
        return None
    part = case.planned.material
    if part is None or part.iso_group is None:
        return "it depends on the material of the part, which is not named"
    return None if part.iso_group in allowed else f"it is not for {part.name}"


def _by_need(case: ReworkCase, row: Mapping[str, str]) -> str | None:
    if not row["needs"]:
        return None
    part = case.planned.material
    family = "" if part is None else part.family or ""
    needs: dict[str, tuple[bool, str]] = {
        "proud": (case.found.broken_tap.stands_proud is not False, "the tap is broken below the face: nothing to grip"),
        "flutes": (case.request.hole.method != "form", "a forming tap has no flutes for the fingers"),
        "through": (not case.blind, "the hole is blind"),
        "conductive": ("plastic" not in family and not _of_fibres(case), "the part does not conduct"),
        "aluminium": (_without_copper(case), "it is for aluminium alloys without copper only"),
        "soft": (_soft(case), "the part is hardened, or its hardness is not known: heat would ruin it"),
    }
    met, why = needs[row["needs"]]
    return None if met else why


def _of_fibres(case: ReworkCase) -> bool:
    """Fibres in resin, by the words of the material: no table holds them."""
    given = health.cautions(
        material=case.planned.material, named=case.request.hole.material, allowance=None, finish=None
    )
    return any(one.code == "composite_dust" for one in given)


def _without_copper(case: ReworkCase) -> bool:
    """A wrought alloy of a series that has no copper to speak of; of any other it is not known."""
    part = case.planned.material
    return part is not None and "aluminium" in (part.family or "") and bool(_COPPER_FREE.search(part.name))


def _soft(case: ReworkCase) -> bool:
    part = case.planned.material
    return part is not None and part.hardness_hb is not None and part.hardness_hb < _HARD_HB


@read_once
def _methods() -> tuple[Mapping[str, str], ...]:
    return tuple(load("broken_tap_methods").rows)
