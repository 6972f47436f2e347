"""What shops usually drill for by part material: information beside the recommendation, never its reason."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.model import Material, Thread
from borewright.tables import load

from .engagement import EngagementStep
from .percent import is_common_form

#: Percent of thread for engagements below 0.5 D.
SHORT_BAND = Decimal(75), Decimal(83)


@read_once
def _rows() -> dict[str, tuple[tuple[float, float, str, str], ...]]:
    found: dict[str, list[tuple[float, float, str, str]]] = {}
    for row in load("percent_by_material").rows:
        low, high = float(row["hb_from"] or 0), float(row["hb_below"] or "inf")
        shallow = f"{row['to_1_5d_min']} to {row['to_1_5d_max']} %"
        deep = f"{row['over_1_5d_min']} to {row['over_1_5d_max']} %"
        found.setdefault(row["family"], []).append((low, high, shallow, deep))
    return {family: tuple(rows) for family, rows in found.items()}


def usual_percent(thread: Thread, material: Material | None, step: EngagementStep | None) -> str | None:
    """Words on the percent of thread (0.75 H) that shops use, None where nothing is held for the material.

    Args: ``step`` of the length of engagement, None = not stated.
    Source: common practice.
    """
    if material is None or material.family is None or not is_common_form(thread):
        return None
    if step is not None and step.is_short:
        return "common practice for engagements below 0.5 D is 75 to 83 % of thread"
    hardness = material.hardness_hb
    for low, high, shallow, deep in _rows().get(material.family, ()):
        if hardness is None and (low > 0 or len(_rows()[material.family]) > 1):
            continue
        if hardness is None or low <= hardness < high:
            long = step is not None and step.is_long
            depth = "over 1.5 D" if long else "to 1.5 D"
            return (
                f"common practice in {material.family} is {deep if long else shallow} of thread for engagements {depth}"
            )
    return None


def percent_band(
    thread: Thread, material: Material | None, step: EngagementStep | None
) -> tuple[Decimal, Decimal] | None:
    """Least and greatest percent of thread (0.75 H) that shops use, None where nothing is held for the material.

    A family that is split by hardness has no band where the hardness is not known.

    Args: ``step`` of the length of engagement, None = not stated.
    Source: common practice.
    """
    if material is None or material.family is None or not is_common_form(thread):
        return None
    depth = "over_1_5d" if step is not None and step.is_long else "to_1_5d"
    if step is not None and step.is_short:
        return SHORT_BAND
    hardness, bands = material.hardness_hb, _bands().get(material.family, ())
    for row in bands:
        low, below = float(row["hb_from"] or 0), float(row["hb_below"] or "inf")
        if (hardness is None and len(bands) == 1 and low == 0) or (hardness is not None and low <= hardness < below):
            return Decimal(row[f"{depth}_min"]), Decimal(row[f"{depth}_max"])
    return None


@read_once
def _bands() -> Mapping[str, tuple[Mapping[str, str], ...]]:
    found: dict[str, tuple[Mapping[str, str], ...]] = {}
    for row in load("percent_by_material").rows:
        found[row["family"]] = (*found.get(row["family"], ()), row)
    return found
