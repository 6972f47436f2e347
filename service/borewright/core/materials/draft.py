"""A material while it is put together: figures, with the notes that say where each comes from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from borewright.core.citation import Cite
from borewright.core.model import Material, Status
from borewright.core.practice import number
from borewright.core.record import Record

from . import alloys
from .alloys import Alloy
from .hardness import Hardness
from .shear_strength import shear_strength

_NOT_SEEN = "none seen (from memory)"

#: Share by which a given hardness may differ from a row's before the row's strength no longer speaks for the part.
_SAME_HARDNESS = number("same_hardness_share")


@dataclass(slots=True)
class Draft:
    """What is known so far."""

    name: str
    family: str | None = None
    iso_group: str | None = None
    chip_type: Literal["long", "short"] | None = None
    row: Alloy | None = None
    hb: float | None = None
    hrc: float | None = None
    tensile: float | None = None
    yielding: float | None = None
    shear: float | None = None
    basis: str | None = None
    record: Record = field(default_factory=Record)

    @property
    def is_steel(self) -> bool:
        """Whether the relations of non-austenitic steel speak for it."""
        return self.family in alloys.STEELS or (self.family is None and self.iso_group in ("P", "H"))

    @property
    def has_hardness_of_row(self) -> bool:
        """Whether its hardness is near enough to the row's for the row's strength to hold."""
        if self.row is None or self.row.hardness_hb is None or self.hb is None:
            return False
        return abs(self.hb - self.row.hardness_hb) <= _SAME_HARDNESS * self.row.hardness_hb

    def source(self, name: str, document: str, locator: str, status: Status) -> None:
        """Note that the figure ``name`` comes from ``locator`` in ``document``, and the ``status`` of that."""
        self.record.cite(f"material.{name}", Cite(document or _NOT_SEEN, "", locator, status))

    def take_row(self, row: Alloy) -> None:
        """Start from the alloy of ``row``: kind, chip, hardness."""
        self.family, self.iso_group, self.chip_type = row.family, row.iso_group, row.chip_type
        self.row, self.hb = row, row.hardness_hb
        self.source("name", row.source, f"row {row.material_id}", row.status)
        self.source("iso_group", "ISO 513", "letters of the groups", "from_memory")
        self.source("chip_type", "common practice", "", "common_practice")
        if row.hardness_hb is not None and row.hardness_status is not None:
            self.source("hardness", row.source, f"row {row.material_id}: {row.hardness_printed}", row.hardness_status)

    def take_family(self, family: str | None, iso_group: str, what: str) -> None:
        """Start from a ``family`` or the group ``iso_group`` alone; ``what`` names it."""
        self.family = family
        stands_for = alloys.family_of(family, iso_group)
        held = stands_for is not None and stands_for.representative is not None
        missing = "no strength is given" if held else "neither strength nor cutting data are given"
        self.record.caution("material_family_only", f"Only {what} is known: {missing}.")
        self.take_group(iso_group)

    def take_group(self, iso_group: str) -> None:
        """Take the ISO 513 group ``iso_group``, and the chips of what stands for it."""
        self.iso_group = iso_group
        stands_for = alloys.family_of(self.family, iso_group)
        self.source("iso_group", "ISO 513", "letters of the groups", "from_memory")
        if stands_for is not None and stands_for.representative is not None:
            example = alloys.by_id()[stands_for.representative]
            self.chip_type = example.chip_type
            self.record.assume(f"chips taken as {example.chip_type}, as of {example.name}")

    def take_hardness(self, found: Hardness) -> None:
        """Put the hardness ``found`` by conversion in place of the row's."""
        self.hb, self.hrc = found.hb, found.hrc
        document, locator = ("ASTM E140", found.locator) if found.locator else ("the request", "")
        self.source("hardness", document, locator, found.status)
        self.record.steps.extend(step for step in found.steps if "hardness" in step.quantity)
        if any(step.formula != "table" for step in found.steps):
            self.record.assume("hardness read between two rows of the conversion table by linear interpolation")

    def take_tensile(self, tensile_mpa: float, basis: str, document: str, locator: str, status: Status) -> None:
        """Take ``tensile_mpa``, which is not the row's, with its ``basis``, ``document``, ``locator`` and ``status``:
        the yield is then unknown, the shear a share of it.
        """
        self.tensile, self.basis, self.yielding = tensile_mpa, basis, None
        self.source("tensile_strength", document, locator, status)
        self._take_shear(None)

    def take_row_strength(self) -> None:
        """Take the strengths of the row."""
        row = self.row
        if row is None or row.tensile_mpa is None:
            return
        self.tensile, self.yielding, self.basis = row.tensile_mpa, row.yield_mpa, row.value_basis
        locator = f"row {row.material_id} ({row.value_basis})"
        self.source("tensile_strength", row.source, locator, row.status)
        if row.yield_mpa is not None:
            self.source("yield_strength", row.source, locator, row.status)
        self._take_shear(row)

    def _take_shear(self, row: Alloy | None) -> None:
        if self.tensile is None:
            return
        found = shear_strength(
            self.family or ("carbon steel" if self.is_steel else None),
            tensile_mpa=self.tensile,
            printed_mpa=row.shear_mpa if row is not None else None,
            printed_status=row.shear_status if row is not None else None,
            source=row.source if row is not None else "",
        )
        if found is not None:
            self.shear = found.value_mpa
            self.source("shear_strength", found.source, found.basis, found.status)
            self.record.steps.append(found.step)

    def done(self) -> Material:
        """The finished record."""
        return Material(
            name=self.name,
            family=self.family,
            iso_group=self.iso_group,
            chip_type=self.chip_type,
            hardness_hb=self.hb,
            hardness_hrc=self.hrc,
            tensile_strength_mpa=self.tensile,
            yield_strength_mpa=self.yielding,
            shear_strength_mpa=self.shear,
            value_basis=self.basis,
            material_id=self.row.material_id if self.row is not None else None,
            notes=self.record.notes(),
        )
