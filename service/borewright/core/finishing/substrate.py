"""Whether a finish can be put on the part's material at all."""

from __future__ import annotations

from typing import NamedTuple

from borewright.core.caches import read_once
from borewright.core.model import Material
from borewright.core.model.decision import Decision
from borewright.tables import load

from .products import Product


class _Impossible(NamedTuple):
    """Finishes that cannot be put on some materials, and why."""

    finishes: frozenset[str]
    materials: tuple[str, ...]
    why: str
    instead: str


def impossible(row: Product | None, material: Material | None) -> Decision | None:
    """The question that a finish raises which the material cannot take, None where it can or is not known.

    Args:
        row: the finish, None where only figures are given.
        material: of the part.

    Source: finish_substrates.csv (common practice).
    """
    if row is None or material is None or material.family is None:
        return None
    for case in _cases():
        if row.specification.family in case.finishes and material.family.startswith(case.materials):
            return Decision(
                "finish_substrate_impossible",
                f"{row.label} cannot be put on {material.name}: {case.why}. The plan given is that of the bare thread."
                f" Decide: {case.instead}.",
                "/finish",
                blocks=True,
            )
    return None


@read_once
def _cases() -> tuple[_Impossible, ...]:
    return tuple(
        _Impossible(
            frozenset(row["finish_families"].split("|")),
            tuple(row["material_families"].split("|")),
            row["why"],
            row["instead"],
        )
        for row in load("finish_substrates").rows
    )
