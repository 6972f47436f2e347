"""The wall between a hole and the nearest edge of the part, before and after a rework."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import Caution
from borewright.core.practice import figure
from borewright.core.quantity_text import length

from .proof import Proof
from .rework_case import ReworkCase

_LEAST_DIAMETERS = figure("wall_beside_thread_diameters")


def too_thin(case: ReworkCase, proof: Proof, *, old: Decimal, new: Decimal) -> str | None:
    """Why the wall beside the hole of ``case`` is too thin for a thread ``new``; None where it is not, or not known.

    Args: ``proof`` in which both walls are noted; ``old`` and ``new``: largest diameters that the tap leaves, before
        and after, in the unit of the thread.
    Source: geometry; the least wall is the caller's.
    """
    edge = _edge(case, old)
    if edge is None:
        return None
    proof.length("wall_before", edge - old / 2, formula="edge - d / 2", edge=edge, d=old)
    after = proof.length("wall_after", edge - new / 2, formula="edge - d / 2", edge=edge, d=new)
    least = case.length(case.found.least_wall)
    if least is not None and after < least:
        return (
            f"it leaves a wall of {length(after, case.unit)}, less than the {length(least, case.unit)} that must stay"
        )
    return f"it breaks out at the edge: {length(after, case.unit)} of wall" if after <= 0 else None


def cautions(case: ReworkCase, proof: Proof) -> tuple[Caution, ...]:
    """What to look at where the wall that ``proof`` of ``case`` has is thin.

    Source: our own, no rule was found.
    """
    after, least = proof.figures.get("wall_after"), _LEAST_DIAMETERS * case.thread.nominal_diameter
    if not isinstance(after, Decimal) or after >= least:
        return ()
    text = (
        f"{length(after, case.unit)} of wall is left beside the thread, less than half the diameter: have the design"
        " look at it, and support the wall while it is tapped."
    )
    return (Caution("thin_wall_beside", text),)


def _edge(case: ReworkCase, old: Decimal) -> Decimal | None:
    """From the axis to the edge: as stated, or by the wall beside the hole as it is."""
    stated = case.length(case.found.edge_distance)
    if stated is not None:
        return stated
    wall = case.length(case.found.wall)
    return None if wall is None else wall + old / 2
