"""What a drill is made of: substrate, surface and point, named like those of a tap."""

from __future__ import annotations

from dataclasses import dataclass

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.model import Material


@dataclass(frozen=True, slots=True)
class DrillTool:
    """Substrate and surface in the words of tap markings; ``point`` is ``conventional`` or ``split``."""

    substrate: str
    surface: str
    point: str


@dataclass(frozen=True, slots=True)
class _Row:
    family: str
    iso_group: str
    hardness_to_hb: float | None
    tool: DrillTool

    def speaks_for(self, material: Material) -> bool:
        """Whether the row holds for family, group and hardness; an unknown hardness is inside every row."""
        hardness_hb, most = material.hardness_hb, self.hardness_to_hb
        soft_enough = most is None or hardness_hb is None or hardness_hb <= most
        return self.family in ("", material.family) and self.iso_group in ("", material.iso_group) and soft_enough


def drill_tool(material: Material | None) -> DrillTool:
    """The drill that a shop takes for a part material; plain high-speed steel where none is named.

    Source: common practice (drill_practice table).
    """
    rows = _rows()
    if material is None:
        return next(row.tool for row in rows if row.family == row.iso_group == "")
    return next(row.tool for row in rows if row.speaks_for(material))


@read_once
def _rows() -> tuple[_Row, ...]:
    return tuple(
        _Row(
            row["family"],
            row["iso_group"],
            float(row["hardness_to_hb"]) if row["hardness_to_hb"] else None,
            DrillTool(row["substrate"], row["surface"], row["point"]),
        )
        for row in tables.load("drill_practice").rows
    )
