"""One hole of a note while it is settled: its parts, the text they stand in, its thread and unit, what is asked."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from borewright.core.drilling import find_drill
from borewright.core.errors import DrillingError
from borewright.core.model import MM_PER_INCH, Drill, Length, Thread, ThreadCallout, Unit
from borewright.core.quantity_text import length
from borewright.core.rounding import half_even, plain

from .characters import Copy
from .general import General
from .grammar import Element
from .model import NoteSpan
from .parts import Depth, HoleParts
from .questions import Questions
from .tokens import Token

_PLACES: dict[Unit, int] = {"in": 6, "mm": 5}


@dataclass(slots=True)
class NoteCase:
    """What settling a hole needs. ``stated_unit``: whether anything but the thread says the unit of bare numbers."""

    parts: HoleParts
    copy: Copy
    general: General
    questions: Questions
    unread: tuple[NoteSpan, ...]
    unit: Unit = "in"
    stated_unit: bool = field(init=False)
    thread_text: str | None = None
    callout: ThreadCallout | None = None
    thread: Thread | None = None
    assumptions: list[str] = field(default_factory=list)

    def span(self, element: Element) -> tuple[int, int]:
        """Code points of the note that an element stands at."""
        return self.copy.span(element.start, element.end)

    def words(self, element: Element) -> str:
        """The text of an element on one line."""
        return " ".join(self.copy.text[element.start : element.end].split())

    def first(self, reads: str) -> Element | None:
        """The first element that reads so."""
        found = self.parts.others.get(reads)
        return found[0] if found else None

    def value(self, token: Token) -> Decimal:
        """The size of ``token`` in the hole's unit; a fraction without a unit is of an inch."""
        written = token.number
        unit = token.unit or ("in" if "fraction" in token.kinds else self.unit)
        if unit == self.unit:
            return written
        exact = written * MM_PER_INCH if self.unit == "mm" else written / MM_PER_INCH
        return half_even(exact, _PLACES[self.unit])

    def depth(self, depth: Depth | None) -> Decimal | None:
        """A depth in the hole's unit, None where its number was not read."""
        return None if depth is None or depth.size is None else self.value(depth.size)

    def length(self, value: Decimal) -> str:
        """``value``, a length in the hole's unit, as a text shows it."""
        return length(value, self.unit)

    def drill(self, token: Token) -> tuple[Decimal | None, str]:
        """Diameter in the hole's unit and label of the drill of ``token``: a number, a letter or a size; None for a
        number that does not exist.
        """
        label = " ".join(token.text.split())
        if "numbered" not in token.kinds and "letter" not in token.kinds:
            return self.value(token), label
        text = f"#{plain(token.value)}" if token.value is not None else token.text.upper().strip(".'")
        found = _known(text)
        return (None, label) if found is None else (Decimal(plain(found.diameter(self.unit))), found.label)

    def of_request(self, value: Decimal) -> Length:
        """``value``, a length of the hole, with its unit."""
        return Length(value, self.unit)


def _known(label: str) -> Drill | None:
    try:
        return find_drill(label)
    except DrillingError:
        return None
