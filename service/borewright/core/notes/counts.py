"""How many holes a note stands for."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal

from borewright.core.rounding import plain

from .case import NoteCase
from .grammar import Element
from .tokens import ILLEGIBLE

_WORDS = re.compile(r"[A-Za-z]{3}")
_X = re.compile(r"\s?x", re.IGNORECASE)
_ONE = Decimal(1)
#: More holes than this on one drawing are taken for a slip (our own limit).
_MOST = 10_000
#: Figures that are shown of a number that cannot be meant.
_SHOWN = 20


def settle(case: NoteCase) -> int | None:
    """Number of holes of ``case``, None where the note says several; asked where it is not certain.

    Source: rules C1 to C9 of the reference notes.
    """
    parts = case.parts
    two = case.first("two_counts")
    if two is not None:
        first, second = two.named["n"].number, two.named["m"].number
        return _open(case, "Two numbers of holes are written.", (first, second, first + second))
    written = tuple(dict.fromkeys(one.named["n"].number for one in parts.others.get("count", ())))
    if len(written) > 1:
        return _open(case, "Different numbers of holes are written for one hole.", written)
    number = next(iter(written), None)
    return _unmarked(case) if number is None else _marked(case, number)


def _marked(case: NoteCase, number: Decimal) -> int | None:
    """The one number that is written as one of holes."""
    if not 1 <= number <= _MOST:
        return _open(case, f"{number:f} holes cannot be meant: a number from 1 to {_MOST} can.", (_ONE,))
    if any(_is_of_unread(case, one) for one in case.parts.others["count"]):
        return _open(case, f"{number:f} stands behind what was not read: is it the number of holes?", (number, _ONE))
    return _of_sides(case, number) if _is_of_both_sides(case) else int(number)


def _unmarked(case: NoteCase) -> int | None:
    """One hole, where nothing unread may be a number of holes."""
    if _is_illegible(case):
        return _open(case, "The number before x cannot be read: how many holes are there?", ())
    bare = case.first("bare_count")
    if bare is not None:
        number = bare.named["n"].number
        return _open(case, f"{number:f} before the thread is not marked as a number of holes.", (number, _ONE))
    if _is_of_both_sides(case):
        return _of_sides(case, _ONE)
    left = next((int(one.read_as) for one in case.unread if one.read_as.isascii() and one.read_as.isdigit()), None)
    if left is not None and left > _MOST:
        said = f"{str(left)[:_SHOWN]} was not read: a number of holes from 1 to {_MOST} can be meant."
        return _open(case, said, (_ONE,))
    if left is not None and left > 1:
        return _open(case, f"{left} was not read: is it the number of holes?", (Decimal(left), _ONE))
    if case.parts.has("typical"):
        _open(case, "TYP says that there are several and not how many.", ())
    return 1


def _is_of_both_sides(case: NoteCase) -> bool:
    return case.parts.has("both_sides") and not case.parts.has("countersink", "counterbore", "chamfer")


def _of_sides(case: NoteCase, number: Decimal) -> int | None:
    return _open(case, "Is the number of holes that of one side or of both?", (number, number + number))


def _is_of_unread(case: NoteCase, count: Element) -> bool:
    """Whether words that nobody read stand right before a number of places."""
    text = case.copy.text
    return count.rule == "C2" and any(
        span.end <= count.start and _WORDS.search(span.read_as) and not text[span.end : count.start].strip(" ")
        for span in case.unread
    )


def _is_illegible(case: NoteCase) -> bool:
    """Whether what could not be read stands right before an x that nothing else stands before."""
    text = case.copy.text
    return any(span.read_as.endswith(ILLEGIBLE) and _X.match(text, span.end) for span in case.unread)


def _open(case: NoteCase, text: str, options: Iterable[Decimal]) -> int | None:
    """Ask how many; there is no number then."""
    case.questions.ask("count_ambiguous", text, tuple(dict.fromkeys(plain(one) for one in options)))
    return None
