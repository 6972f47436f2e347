"""Shear strength of a part material for thread stripping, from a printed figure or a share of the tensile strength."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.model import Status, Step


@dataclass(frozen=True, slots=True)
class ShearRule:
    """Share of tensile strength of one family; ``cap`` is the highest share accepted from a printed figure."""

    ratio: float
    cap: float | None
    basis: str
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Shear:
    """A shear strength with where it comes from."""

    value_mpa: float
    status: Status
    source: str
    basis: str
    step: Step


def rule(family: str | None) -> ShearRule | None:
    """The rule of a family, None where no pair is held (plastics).

    Source: shear_ratios table; lowest measured pair of each family, 0.58 for steels, grey iron capped at 1.0.
    """
    return _rules().get(family or "")


def shear_strength(
    family: str | None, *, tensile_mpa: float, printed_mpa: float | None, printed_status: Status | None, source: str
) -> Shear | None:
    """Shear strength in MPa: ``printed_mpa``, never above the cap of ``family``, else its share of ``tensile_mpa``.

    Args: ``printed_status`` and ``source`` of the printed one.
    Source: printed row of the material; common practice for the cap (grey iron 1.0, steels 0.60 of tensile).
    """
    known = rule(family)
    if printed_mpa is not None and printed_status is not None:
        if known is None or known.cap is None:
            step = Step("material.shear_strength", "table", {}, printed_mpa, "MPa", source)
            return Shear(printed_mpa, printed_status, source, "printed with the tensile strength", step)
        value = min(printed_mpa, known.cap * tensile_mpa)
        inputs = {"printed": printed_mpa, "cap": known.cap, "tensile": tensile_mpa}
        step = Step("material.shear_strength", "min(printed, cap * tensile)", inputs, value, "MPa", source)
        if value < printed_mpa:
            basis = f"printed figure capped at {known.cap:g} of tensile: {known.basis}"
            return Shear(value, "common_practice", source, basis, step)
        return Shear(value, printed_status, source, "printed with the tensile strength", step)
    if known is None:
        return None
    value = known.ratio * tensile_mpa
    inputs = {"ratio": known.ratio, "tensile": tensile_mpa}
    step = Step("material.shear_strength", "ratio * tensile", inputs, value, "MPa", known.source or known.basis)
    return Shear(value, known.status, known.source, f"{known.ratio:g} of tensile: {known.basis}", step)


@read_once
def _rules() -> dict[str, ShearRule]:
    return {
        row["family"]: ShearRule(
            float(row["ratio"]),
            float(row["cap"]) if row["cap"] else None,
            row["basis"],
            row["source"],
            cast("Status", row["status"]),
        )
        for row in tables.load("shear_ratios").rows
    }
