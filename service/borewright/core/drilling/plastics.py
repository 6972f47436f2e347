"""Plastics: a drilled hole closes in behind the drill; what is known of steel does not say how large it comes out."""

from __future__ import annotations

from dataclasses import replace

from borewright.core.model import Caution, DrillCandidate, DrillChoice, Material, Notes

_CLOSES_IN = Caution(
    "plastic_closes_in",
    "Plastic gives way and springs back: hole and thread come out smaller than their tools. Drill and tap one part and"
    " gauge it; where the GO plug binds, take the next larger tap limit. Sharp tools, air, chips cleared often.",
)
_ASSUMED = "no oversize of the drilled hole is assumed: the mean oversize held is that of steel and cast iron"
_OF_STEEL = ("expected_hole_diameter", "expected_percent_thread", "acceptance", "oversize", "margin.below_max")


def is_plastic(material: Material | None) -> bool:
    """Whether the part is of plastic.

    Source: materials table.
    """
    return material is not None and material.family == "plastic"


def cautions(material: Material | None) -> tuple[Caution, ...]:
    """What the shop must know of a plastic part.

    Source: common practice.
    """
    return (_CLOSES_IN,) if is_plastic(material) else ()


def as_drilled(choice: DrillChoice, material: Material | None) -> DrillChoice:
    """A choice of drill without what steel would make of it, where the part is of plastic.

    Source: FED-STD-H28/2B (1991) gives mean oversize for steel and cast iron only.
    """
    if not is_plastic(material):
        return choice
    notes = choice.notes
    return replace(
        choice,
        recommended=_plain(choice.recommended),
        alternatives=tuple(_plain(one) for one in choice.alternatives),
        chart_drill=None,
        most_accepted=None,
        notes=Notes(
            (*(text for text in notes.assumptions if "oversize" not in text), _ASSUMED),
            tuple(caution for caution in notes.cautions if caution.code != "acceptance_low"),
            tuple(source for source in notes.sources if not _of_steel(source.field)),
            tuple(step for step in notes.steps if not _of_steel(step.quantity)),
            tuple(one for one in notes.decisions if one.code != "drill_cuts_over_limit"),
        ),
    )


def _plain(drill: DrillCandidate) -> DrillCandidate:
    """A drill by its own diameter; a reamed hole keeps the size of the reamer."""
    if drill.operation != "drill":
        return drill
    expected, margin = drill.expected_hole_diameter, drill.margin_below_max
    if expected is not None and margin is not None:
        margin += expected - drill.diameter
    return replace(
        drill,
        expected_hole_diameter=None,
        expected_percent_thread=None,
        margin_below_max=margin,
        acceptance=None,
        reasons=tuple(text for text in drill.reasons if "on average" not in text),
    )


def _of_steel(name: str) -> bool:
    return any(word in name for word in _OF_STEEL)
