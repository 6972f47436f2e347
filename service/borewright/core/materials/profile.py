"""What of a material the cutting data need: its groups and hardness, or those of the alloy that stands for it."""

from __future__ import annotations

from dataclasses import dataclass

from borewright.core.caches import OF_MATERIALS, cached
from borewright.core.model import Material

from . import alloys
from .alloys import Alloy

#: Alloy whose figures stand for hardened steel of a known hardness (common practice).
_HARDENED = "4140-QT540"


@dataclass(frozen=True, slots=True, eq=False)
class CuttingProfile:
    """Groups of a material in the tables of speeds and forces. ``stands_in`` names the alloy whose figures are used."""

    name: str
    row: Alloy
    hardness_hb: float | None
    tensile_mpa: float | None
    stands_in: str | None


@cached(OF_MATERIALS)
def profile(material: Material) -> CuttingProfile | None:
    """The groups of a material, None where neither alloy, family nor group is known, or none stands for it.

    Source: materials and material_families tables.
    """
    row = alloys.by_id().get(material.material_id or "")
    if row is not None:
        return CuttingProfile(material.name, row, material.hardness_hb, _tensile(material, row), None)
    known = alloys.family_of(material.family, material.iso_group)
    example = None if known is None else known.representative
    if example is None and material.iso_group == "H" and material.hardness_hb is not None:
        example = _HARDENED
    if example is None:
        return None
    row = alloys.by_id()[example]
    hardness_hb = material.hardness_hb if material.hardness_hb is not None else row.hardness_hb
    return CuttingProfile(material.name, row, hardness_hb, _tensile(material, row), row.name)


def _tensile(material: Material, row: Alloy) -> float | None:
    return row.tensile_mpa if material.tensile_strength_mpa is None else material.tensile_strength_mpa


def groups_of(cell: str) -> list[str]:
    """Groups that a row of a table speaks for by its ``cell``.

    Source: own notation of the tables.
    """
    return cell.split(";")
