"""What shops make a tap of and how a material's chips are carried, from the table of tap practice (common practice)."""

from __future__ import annotations

from typing import NamedTuple

from borewright.core.caches import read_once
from borewright.core.model import Material
from borewright.tables import load


class Habit(NamedTuple):
    """A row of the table. ``chips`` long, short or by_material; ``forming`` yes, trial, no or by_chips."""

    family: str
    iso_group: str
    hardness_to_hb: float | None
    chips: str
    forming: str
    substrate: str
    surface: str
    reason: str

    def speaks_for(self, family: str | None, iso_group: str | None, hardness_hb: float | None) -> bool:
        """Whether the row holds for ``family``, ``iso_group`` and ``hardness_hb`` (Brinell); an unknown hardness is
        inside every row.
        """
        soft_enough = self.hardness_to_hb is None or hardness_hb is None or hardness_hb <= self.hardness_to_hb
        return self.family in ("", family) and self.iso_group in ("", iso_group) and soft_enough


def habit(material: Material | None) -> Habit:
    """The first row that holds for a material's family, ISO 513 group and hardness; that for none where None.

    Source: tap_practice table (common practice).
    """
    known = (None, None, None) if material is None else (material.family, material.iso_group, material.hardness_hb)
    return next(row for row in _habits() if row.speaks_for(*known))


@read_once
def _habits() -> tuple[Habit, ...]:
    return tuple(
        Habit(
            row["family"],
            row["iso_group"],
            float(row["hardness_to_hb"]) if row["hardness_to_hb"] else None,
            row["chips"],
            row["forming"],
            row["substrate"],
            row["surface"],
            row["reason"],
        )
        for row in load("tap_practice").rows
    )
