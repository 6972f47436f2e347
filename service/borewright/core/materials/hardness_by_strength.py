"""Hardness of a material whose strength alone is known: one axis of hardness for speeds, torque and tools."""

from __future__ import annotations

from itertools import pairwise

from borewright.core.model import Step
from borewright.core.practice import number
from borewright.core.quantity_text import stress

from . import alloys, hardness
from .draft import Draft

#: Share by which a strength may differ from the row's before the row's hardness no longer speaks for the part.
_SAME_STRENGTH = number("same_strength_share")


def take_hardness_by_strength(draft: Draft, given_mpa: float | None) -> None:
    """Put into ``draft`` the hardness that ``given_mpa`` (None = its own strength) says in place of the row's, where a
    relation is held.

    Source: ASTM E140 for steel; for iron a straight line between the rows of the family in the materials table.
    """
    tensile_mpa = draft.tensile
    if tensile_mpa is None or _row_speaks(draft, given_mpa):
        return
    if draft.is_steel:
        _by_conversion(draft, tensile_mpa)
    elif given_mpa is None:
        return
    elif draft.iso_group == "K":
        _by_family(draft, draft.family or "grey iron", tensile_mpa)
    elif draft.iso_group == "M":
        _by_conversion(draft, tensile_mpa)
        draft.record.caution(
            "hardness_conversion_estimate",
            f"The hardness from {stress(tensile_mpa)} is the conversion for steel; for {draft.name} it is an estimate.",
        )
    else:
        draft.record.assume(
            f"no hardness is derived from {stress(tensile_mpa)}: no relation is held for {draft.name}; the torque"
            " follows the strength, the speeds do not"
        )


def _row_speaks(draft: Draft, given_mpa: float | None) -> bool:
    """Whether the row's own hardness holds for the part."""
    row = draft.row
    if draft.hb is None or row is None:
        return False
    if given_mpa is None:
        return True
    return row.tensile_mpa is not None and abs(given_mpa - row.tensile_mpa) <= _SAME_STRENGTH * row.tensile_mpa


def _by_conversion(draft: Draft, tensile_mpa: float) -> None:
    found = hardness.from_tensile(tensile_mpa)
    draft.take_hardness(found)
    rockwell = "" if found.hrc is None else f" ({found.hrc:.0f} HRC)"
    draft.record.assume(f"hardness taken from {stress(tensile_mpa)}: {found.hb:.0f} HB{rockwell}")


def _by_family(draft: Draft, family: str, tensile_mpa: float) -> None:
    points = sorted(
        (row.tensile_mpa, row.hardness_hb)
        for row in alloys.alloys()
        if row.family == family and row.tensile_mpa is not None and row.hardness_hb is not None
    )
    wanted = min(max(tensile_mpa, points[0][0]), points[-1][0])
    (x1, y1), (x2, y2) = next(pair for pair in pairwise(points) if wanted <= pair[1][0])
    draft.hb = y1 + (y2 - y1) * (wanted - x1) / (x2 - x1)
    inputs = {"x": wanted, "x1": x1, "x2": x2, "y1": y1, "y2": y2}
    formula = "y1 + (y2 - y1) * (x - x1) / (x2 - x1)"
    draft.record.steps.append(Step("material.hardness.hb", formula, inputs, draft.hb, "HB", "materials table"))
    draft.source("hardness", "materials table", f"between the rows of {family} by tensile strength", "computed")
    draft.record.assume(f"hardness taken from {stress(tensile_mpa)}: {draft.hb:.0f} HB")
