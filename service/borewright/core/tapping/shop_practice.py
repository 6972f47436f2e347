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


def habit(material: Material | None) -> Habit:
    """The first row that holds for a material's family, ISO 513 group and hardness; the last for one not known.

    Source: tap_practice table (common practice).
    """
    rows = _habits()
    if material is None:
        return rows[-1]
    family, group, hardness = material.family, material.iso_group, material.hardness_hb
    for row in rows:
        of_family = not row.family or row.family == family
        of_group = not row.iso_group or row.iso_group == group
        if of_family and of_group and _soft_enough(row, hardness):
            return row
    return rows[-1]


def _soft_enough(row: Habit, hardness_hb: float | None) -> bool:
    return row.hardness_to_hb is None or hardness_hb is None or hardness_hb <= row.hardness_to_hb


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
