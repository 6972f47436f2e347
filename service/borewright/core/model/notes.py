"""What accompanies every result: sources, cautions, steps of a derivation, decisions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from .decision import Decision
from .status import Status


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure comes from. ``field`` is the dotted name in the reply that it speaks for."""

    field: str
    document: str
    edition: str
    locator: str
    status: Status


@dataclass(frozen=True, slots=True)
class Caution:
    """Something that can cost money or hurt people, with a stable code."""

    code: str
    text: str


class Step(NamedTuple):
    """One line of a derivation, enough to redo the figure on paper.

    ``formula`` is arithmetic over the names in ``inputs`` (operators ``+ - * / **``, functions ``sqrt``,
    ``cbrt``, ``min``, ``max``, ``sin``, ``cos``, ``tan``, ``rad``, ``exp``, ``ln``, ``pi``,
    ``half_even(x, places)``, ``half_up(x, places)``, ``up(x, places)``, ``down(x, places)``, ``cdf(z)`` and
    ``pdf(z)`` of the standard normal distribution), or
    ``"table"`` when ``value`` was read from a table.
    """

    quantity: str
    formula: str
    inputs: Mapping[str, object]
    value: object
    unit: str
    source: str


class Notes(NamedTuple):
    """What accompanies every result. ``decisions`` are left to a person: see :mod:`~borewright.core.model.decision`.

    ``steps`` may be worked out anew each time that someone goes through them: see :mod:`~borewright.core.derivation`.
    """

    assumptions: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    sources: tuple[Source, ...] = ()
    steps: Iterable[Step] = ()
    decisions: tuple[Decision, ...] = ()


#: Of a result that has nothing to say beside its figures.
NO_NOTES = Notes()
