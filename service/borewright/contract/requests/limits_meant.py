"""Which limits the drawing means where a thread carries a finish."""

from __future__ import annotations

from dataclasses import replace

from borewright.contract.fields.strict import Choice
from borewright.core.model import DimensionsApply, FinishInput


def dimensions_apply() -> Choice:
    """The field that says which limits the drawing means where the thread carries a finish."""
    return Choice(
        "Whether the limits of the class hold before the finish is put on, as a note of the drawing may say, or on the"
        " finished thread. Without a finish it changes nothing. Default: after_finish.",
        ("before_finish", "after_finish"),
    )


def finished(finish: FinishInput | None, dimensions_apply: DimensionsApply | None) -> FinishInput | None:
    """A finish with what the drawing's limits hold for."""
    if finish is None or dimensions_apply is None:
        return finish
    return replace(finish, dimensions_apply=dimensions_apply)
