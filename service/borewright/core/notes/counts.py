"""How many holes a note stands for."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.rounding import plain

from .case import NoteCase
from .grammar import Element
from .tokens import ILLEGIBLE

_WORDS = re.compile(r"[A-Za-z]{3}")
#: More holes than this on one drawing are taken for a slip (our own limit).
_MOST = 10_000
#: Figures that are shown of a number that cannot be meant.
_SHOWN = 20


def settle(case: NoteCase) -> int | None:
    """Number of holes of ``case``, None where the note says several; asked where it is not certain.

    Source: rules C1 to C9 of the reference notes.
    """
    parts = case.parts
    numbers = list(dict.fromkeys(_number(one) for one in parts.others.get("count", ())))
    if parts.has("two_counts"):
        two = parts.others["two_counts"][0]
        first, second = two.named["n"].value or Decimal(0), two.named["m"].value or Decimal(0)
        return _open(case, "Two numbers of holes are written.", (first, second, first + second))
    if len(numbers) > 1:
        return _open(case, "Different numbers of holes are written for one hole.", tuple(Decimal(n) for n in numbers))
    if numbers and not 1 <= numbers[0] <= _MOST:
        return _open(case, f"{numbers[0]} holes cannot be meant: a number from 1 to {_MOST} can.", (Decimal(1),))
    if numbers and any(_is_of_unread(case, one) for one in parts.others.get("count", ())):
        return _open(
            case,
            f"{numbers[0]} stands behind what was not read: is it the number of holes?",
            (*map(Decimal, numbers), Decimal(1)),
        )
    if not numbers and _is_illegible(case):
        return _open(case, "The number before x cannot be read: how many holes are there?", ())
    if parts.has("bare_count") and not numbers:
        bare = _number(parts.others["bare_count"][0])
        return _open(case, f"{bare} before the thread is not marked as a number of holes.", (Decimal(bare), Decimal(1)))
    if parts.has("both_sides") and not parts.has("countersink", "counterbore", "chamfer"):
        one = numbers[0] if numbers else 1
        return _open(case, "Is the number of holes that of one side or of both?", (Decimal(one), Decimal(2 * one)))
    left = next((int(one.read_as) for one in case.unread if one.read_as.isascii() and one.read_as.isdigit()), None)
    if left is not None and not numbers and 1 < left <= _MOST:
        return _open(case, f"{left} was not read: is it the number of holes?", (Decimal(left), Decimal(1)))
    if left is not None and not numbers and left > _MOST:
        said = f"{str(left)[:_SHOWN]} was not read: a number of holes from 1 to {_MOST} can be meant."
        return _open(case, said, (Decimal(1),))
    if parts.has("typical") and not numbers:
        _open(case, "TYP says that there are several and not how many.", ())
        return 1
    return numbers[0] if numbers else 1


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
    ends = [span.end for span in case.unread if span.read_as[-1:] in ILLEGIBLE]
    return any(text[end : end + 2].strip().upper() == "X" or text[end : end + 1] in ("x", "X") for end in ends)


def _number(element: Element) -> int:
    return int(element.named["n"].value or 0)


def _open(case: NoteCase, text: str, options: tuple[Decimal, ...]) -> int | None:
    """Ask how many; there is no number then."""
    case.questions.ask("count_ambiguous", text, tuple(dict.fromkeys(plain(one) for one in options)))
    return None
