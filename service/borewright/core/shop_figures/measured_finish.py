"""Whether a coat that a shop measured is the coat of a hole, however a person wrote its name."""

from __future__ import annotations

from borewright.core.errors import FinishError
from borewright.core.finishing.requested_finish import reading
from borewright.core.model import Finish, FinishInput, Range, Unit
from borewright.core.quantity_text import length

from .figures import MeasuredCoat

Names = tuple[str | None, str | None]


def against(figure: MeasuredCoat, finish: Finish, unit: Unit) -> str | None:
    """Why the ``figure`` is not of the ``finish`` of a hole, whose lengths are in ``unit``; None where it is.

    Names are read as those of a request are: "B633 Fe/Zn 8" is ASTM B633 Fe/Zn 8 SC2. A coat without a name is that
    of a finish without one where its mean lies inside the thickness asked for.

    Source: finishes.csv.
    """
    wanted: Names = (finish.specification, finish.finish_class)
    written = figure.finish
    if written.specification is None and written.finish_class is None:
        return _by_thickness(figure, finish, unit) if wanted == (None, None) else f"the hole has {_said(wanted)}"
    read = names(written, unit)
    if read is None:
        return "no finish of the tables has that name"
    return None if read == wanted else f"the hole has {_said(wanted)}"


def _by_thickness(figure: MeasuredCoat, finish: Finish, unit: Unit) -> str | None:
    asked, mean = finish.thickness, figure.mean.to(unit)
    if asked.min is not None and asked.max is not None and asked.min <= mean <= asked.max:
        return None
    return f"{length(mean, unit, 6)} is not the thickness asked for, {_range(asked, unit)}"


def _range(thickness: Range, unit: Unit) -> str:
    ends = [length(end, unit, 6) for end in (thickness.min, thickness.max) if end is not None]
    return " to ".join(ends) or "which is not known"


def _said(names: Names) -> str:
    return " ".join(name for name in names if name) or "a coat without a name"


def names(finish: FinishInput, unit: Unit) -> Names | None:
    """Specification and class of ``finish`` as the tables write them, of the document that is usual for threads in
    ``unit``; None where they hold none of that name.

    Source: finishes.csv.
    """
    try:
        read = reading(finish, unit, on_steel=False)
    except FinishError:
        return None
    return None if read is None else (read.product.specification.name, read.product.finish_class)
