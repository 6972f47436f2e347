"""Part materials."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from .notes import NO_NOTES, Notes


@dataclass(frozen=True, slots=True)
class MaterialInput:
    """A part material as the caller named it."""

    name: str | None = None
    group: str | None = None
    hardness: str | None = None
    tensile_strength_mpa: float | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Material:
    """A part material as far as it is known. Strengths in MPa, hardness HB (3000 kg) unless said.

    ``iso_group`` is the ISO 513 letter (P M K N S H); ``value_basis`` tells minimum from typical.
    """

    name: str
    family: str | None
    iso_group: str | None
    chip_type: Literal["long", "short"] | None
    hardness_hb: float | None
    hardness_hrc: float | None
    tensile_strength_mpa: float | None
    yield_strength_mpa: float | None
    shear_strength_mpa: float | None
    value_basis: str | None
    material_id: str | None = None
    notes: Notes = NO_NOTES
