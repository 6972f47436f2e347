"""What of a material the cutting data need: its groups and hardness, or those of the alloy that stands for it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ..model import Material
from . import alloys
from .alloys import Alloy


@dataclass(frozen=True, slots=True, eq=False)
class Profile:
    """Groups of a material in the tables of speeds and forces. ``stands_in`` names the alloy whose figures are used."""

    name: str
    row: Alloy
    hardness_hb: float | None
    stands_in: str | None


@lru_cache(2048)
def profile(material: Material) -> Profile | None:
    """The groups of a material, None where neither alloy, family nor group is known, or none stands for it.

    Source: materials and material_families tables.
    """
    row = alloys.by_id().get(material.material_id or "")
    if row is not None:
        return Profile(material.name, row, material.hardness_hb, None)
    known = alloys.family_of(material.family, material.iso_group)
    if known is None or known.representative is None:
        return None
    row = alloys.by_id()[known.representative]
    hardness_hb = material.hardness_hb if material.hardness_hb is not None else row.hardness_hb
    return Profile(material.name, row, hardness_hb, row.name)


def groups_of(cell: str) -> list[str]:
    """Groups that one row of a table speaks for.

    Source: own notation of the tables.
    """
    return cell.split(";")
