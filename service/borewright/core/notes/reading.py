"""A copy of a note read by the grammar: what each rule read, in order, and what none did."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from .grammar import START, Element, grammar
from .tokens import Cutter, Token

_LABEL = re.compile(r"[ \n]*(?:HOLES? ?)?(?:[A-Z]|[0-9]{1,2})(?: ?:(?!\S?[0-9]+[/:])|\))(?= )", re.IGNORECASE)
#: Pieces of a note that are read, and those of all that is read of it again: its general lines, and what was mended
#: (our own limits: a note of 4,000 characters has some 900). The rest is unread.
MOST_OF_ONE, MOST_TOKENS = 1_000, 2_500
#: What is passed over when a rule asks what stands before it.
_PASSED = frozenset({"joining", "reference", "limit"})
#: What goes on to the end of its line, or of its clause.
_LINE_END = frozenset({"newline"})
_CLAUSE_END = frozenset({"newline", "comma", "semicolon"})
_TO_THE_END = {"frame": _LINE_END, "elsewhere": _CLAUSE_END}
#: What points elsewhere in so many words.
_POINTS = frozenset({*_TO_THE_END, "elsewhere_note"})


@dataclass(slots=True)
class Work:
    """What reading a note costs: callouts and finishes that may still be read, tokens that were cut, rules that were
    tried.
    """

    readings: int = 60
    finishes: int = 8
    tokens: int = 0
    steps: int = 0

    @property
    def left(self) -> int:
        """Tokens that may still be cut."""
        return MOST_TOKENS - self.tokens


@dataclass(frozen=True, slots=True)
class Reading:
    """Elements in the order of the copy; ``unread``: spans that no rule read; ``elsewhere``: that point elsewhere."""

    elements: tuple[Element, ...]
    unread: tuple[tuple[int, int], ...]
    elsewhere: tuple[tuple[int, int], ...] = ()
    labels: tuple[tuple[int, int], ...] = field(default=())


def read_copy(text: str, work: Work) -> Reading:
    """The reading of ``text``, a plain copy, within the bound of ``work``. Every token goes to one element or to
    ``unread``; nothing is looked at twice.

    Source: the reference notes' grammar.
    """
    labels = tuple(_labels(text))
    shown = _without(text, labels)
    cutter = Cutter(shown, work.readings)
    tokens = cutter.cut(min(MOST_OF_ONE, work.left))
    work.readings = cutter.readings
    work.tokens += len(tokens)
    elements: list[Element] = []
    unread: list[tuple[int, int]] = []
    elsewhere: list[tuple[int, int]] = []
    place, before, rules = 0, START, grammar()
    while place < len(tokens):
        token = tokens[place]
        found = rules.match(tokens, place, before, work)
        if found is None:
            _unread(unread, text, token.start, token.end)
            place, before = place + 1, "unread"
            continue
        place += len(found.tokens)
        if found.reads in _POINTS:
            place = _rest(tokens, place, _TO_THE_END.get(found.reads))
            elsewhere.append((found.start, tokens[place - 1].end))
            continue
        elements.append(found)
        if "newline" in token.kinds:
            before = START
        elif found.reads not in _PASSED:
            before = found.reads
    return Reading(tuple(elements), tuple(unread), tuple(elsewhere), labels)


def _labels(text: str) -> Iterator[tuple[int, int]]:
    place = 0
    for line in text.replace(";", "\n").split("\n"):
        found = _LABEL.match(line)
        if found:
            yield place + len(line) - len(line.lstrip()), place + found.end()
        place += len(line) + 1


def _without(text: str, spans: tuple[tuple[int, int], ...]) -> str:
    parts, place = [], 0
    for start, end in spans:
        parts += [text[place:start], " " * (end - start)]
        place = end
    return "".join((*parts, text[place:]))


def _rest(tokens: list[Token], place: int, ends: frozenset[str] | None) -> int:
    while ends is not None and place < len(tokens) and ends.isdisjoint(tokens[place].kinds):
        place += 1
    return place


def _unread(unread: list[tuple[int, int]], text: str, start: int, end: int) -> None:
    """Add a token to what is unread; neighbours on one line are one text."""
    if unread and text[unread[-1][1] : start].strip(" -/,.") == "" and "\n" not in text[unread[-1][1] : start]:
        unread[-1] = (unread[-1][0], end)
    else:
        unread.append((start, end))
