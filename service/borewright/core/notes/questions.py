"""What is asked back: the codes of questions, and how they are gathered."""

from __future__ import annotations

from .model import NoteQuestion

#: Codes of questions; what they mean stands with the other codes in :mod:`borewright.core.errors`.
CODES = (
    "thread_ambiguous",
    "depth_of_what",
    "count_ambiguous",
    "class_conflict",
    "drill_disagrees",
    "unit_unknown",
    "not_a_tapped_hole",
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
