"""Twenty decisions that shops make every week, made with the tables and with the shop's own figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from borewright.core import callout
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Hole, Length, MaterialInput
from borewright.core.plan.specification import Specification
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest

from .fitted import FitResult

_ZINC = "ASTM B633 Fe/Zn 8"
#: Thread, depth of full thread in its unit, finish.
_HOLES: tuple[tuple[str, str, str | None], ...] = (
    ("#8-32 UNC-2B", "0.33", None),
    ("#10-24 UNC-2B", "0.38", None),
    ("#10-32 UNF-2B", "0.38", None),
    ("1/4-20 UNC-2B", "0.5", None),
    ("1/4-28 UNF-3B", "0.5", None),
    ("5/16-18 UNC-2B", "0.63", None),
    ("5/16-24 UNF-3B", "0.63", None),
    ("3/8-16 UNC-2B", "0.75", None),
    ("3/8-24 UNF-3B", "0.75", None),
    ("3/8-16 UNC-2B", "0.75", _ZINC),
    ("1/2-13 UNC-2B", "1", None),
    ("1/2-13 UNC-3B", "1", _ZINC),
    ("M4", "8", None),
    ("M5", "10", None),
    ("M6", "12", None),
    ("M8", "16", None),
    ("M8x1", "16", None),
    ("M10", "20", None),
    ("M12", "24", None),
    ("M8", "16", _ZINC),
)
COMPARED = len(_HOLES)
#: How much a chance of acceptance moves before it is told.
_TOLD = 0.02


class ChangedDecision(NamedTuple):
    """A decision that differs: with the tables, and with the shop's figures."""

    hole: str
    what: str
    before: str
    after: str


def changed(result: FitResult) -> tuple[ChangedDecision, ...]:
    """What of the typical decisions the figures of ``result`` change."""
    measured = (one.measurement.material for row in result.rows for one in row.data)
    material = next((one for one in measured if one is not None), None)
    return tuple(line for hole in _HOLES for line in _changed(hole, material, result))


def _changed(
    hole: tuple[str, str, str | None], material: MaterialInput | None, result: FitResult
) -> Iterator[ChangedDecision]:
    name, depth, finish = hole
    thread = callout.read(name)
    asked = HoleSpecRequest(
        thread,
        Hole("blind", Length(Decimal(depth), thread.unit)),
        material=material,
        finish=None if finish is None else FinishInput(text=finish),
    )
    try:
        before, after = specify(asked), specify(replace(asked, shop_figures=result.figures))
    except BorewrightError:
        return
    told = name if finish is None else f"{name}, {finish}"
    for what, one, other in zip(("drill", "tap limit", "verdict"), _told(before), _told(after), strict=True):
        if one != other:
            yield ChangedDecision(told, what, one, other)
    for what in ("minor_diameter", "pitch_diameter"):
        one_chance, other_chance = (getattr(each.process.acceptance, what) for each in (before, after))
        if one_chance is not None and other_chance is not None and abs(one_chance - other_chance) >= _TOLD:
            words = f"chance that the {what.replace('_', ' ')} is accepted"
            yield ChangedDecision(told, words, f"{100 * one_chance:.0f} %", f"{100 * other_chance:.0f} %")


def _told(spec: Specification) -> tuple[str, str, str]:
    limit = None if spec.tap is None else spec.tap.recommended.limit
    drill = "none" if spec.drill is None else spec.drill.recommended.drill.label
    return drill, "none" if limit is None else limit.label, spec.verdict
