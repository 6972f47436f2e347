"""A thickness without a unit that makes sense in the other unit only."""

from __future__ import annotations

from borewright.core.model import Unit
from borewright.core.model.decision import Decision
from borewright.core.practice import figure
from borewright.core.rounding import plain

from .thickness import Thickness

#: Bare figures below this many millimetres or above this many inches are asked about.
_LEAST_MM, _MOST_IN = figure("bare_coat_least_mm"), figure("bare_coat_most_in")
_OTHER: dict[Unit, str] = {"mm": "inches", "in": "millimetres"}
_OWN: dict[Unit, str] = {"mm": "millimetres", "in": "inches"}


def doubt(written: Thickness | None) -> Decision | None:
    """The question whether a bare thickness, as ``written``, was meant in the other unit, None where it makes sense as
    read.

    Source: our own bounds.
    """
    if written is None or not written.bare:
        return None
    figure = written.max if written.max is not None else written.min
    if figure is None or not (figure < _LEAST_MM if written.unit == "mm" else figure > _MOST_IN):
        return None
    own, other = _OWN[written.unit], _OTHER[written.unit]
    return Decision(
        "unit_doubtful",
        f"The thickness {plain(figure)} of the finish has no unit and is read in {own}; as a coat it looks like"
        f" {other}. Decide: write its unit.",
        "/finish",
    )
