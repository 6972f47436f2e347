"""What is asked back: the codes of questions, what each means, and how they are gathered."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from .model import NoteQuestion

#: Code -> what it asks.
CODES: Mapping[str, str] = MappingProxyType(
    {
        "thread_ambiguous": "Which thread is meant?",
        "depth_of_what": "What does the depth belong to, or how deep is the full thread?",
        "count_ambiguous": "How many holes are there?",
        "class_conflict": "Which class does the thread have?",
        "drill_disagrees": "Does the stated drill stand?",
        "unit_unknown": "Is the drawing in inches or in millimetres?",
        "not_a_tapped_hole": "The note names no thread that is tapped into a hole.",
    }
)


class Questions:
    """The questions of one hole, each code once, with the span of the text that raises it."""

    def __init__(self, hole: int | None = None) -> None:
        self.hole = hole
        self.asked: list[NoteQuestion] = []

    def ask(self, code: str, text: str, options: tuple[str, ...] = (), span: tuple[int, int] | None = None) -> None:
        """Ask one thing: ``code``, ``text`` with its ``options``, and the ``span`` of the note that it is about. Raises
        LookupError for a code that is not documented.
        """
        if code not in CODES:
            raise LookupError(code)
        if not any(one.code == code for one in self.asked):
            start, end = span or (None, None)
            self.asked.append(NoteQuestion(code, text, options, self.hole, start, end))

    def has(self, code: str) -> bool:
        """Whether ``code`` was asked."""
        return any(one.code == code for one in self.asked)
