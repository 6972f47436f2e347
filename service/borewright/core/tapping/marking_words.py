"""The words of a shank marking, read one by one; what is not known is kept as it was etched."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.errors import TapError
from borewright.core.model import MM_PER_INCH
from borewright.core.rounding import half_even
from borewright.tables import load

from . import limits
from .shank_size import find_size, system_word

MAX_LENGTH = 200

_ALIKE = str.maketrans("×✕*–—‐−⁄”″", 'xxx----/""')
_LIMIT = re.compile(r"(?:G[ -]?)?((?:H|L|DU|D|ISO)[ -]?[0-9]{1,2})")
_CLASS = re.compile(r"[1-3]B|[2-9][GH](?:[3-9][GH])?|6A[XZ]")
#: A class raised by the maker's own rule, and the thread class that it is for.
_POSITION = re.compile(r"([3-9][GH]|[1-3]B)X|(ISO) ?-?([1-3])X")
_POSITION_CLASSES = {"1": "4H", "2": "6H", "3": "6G"}
_NUMBER = r"([0-9]?[.,][0-9]{1,5})"
_AMOUNTS = (
    re.compile(rf"(?:BASIC )?(?:PLUS|\+) ?{_NUMBER} ?(IN|MM|\")?\.?"),
    re.compile(rf"(?:OVERSIZE|OVER SIZE|O/S|OS) ?\+? ?{_NUMBER} ?(IN|MM|\")?\.?"),
    re.compile(rf"\+? ?{_NUMBER} ?(IN|MM|\")?\.? ?(?:OVERSIZE|OVER SIZE|O/S|OS)"),
)
_FORM = re.compile(r"FORM[- ]?([A-F])|([A-F])")
_JOINED = re.compile(r"[-/]")


@dataclass(slots=True)
class Marks:
    """What the words of a marking said; ``unread`` keeps the others as they were etched.

    ``position`` is a class raised by the maker's own rule (``6HX``); ``amount`` over basic as etched in
    ``amount_etched``.
    """

    size: str
    metric: bool
    systems: list[str] = field(default_factory=list)
    thread_class: str | None = None
    limit_label: str | None = None
    amount: Decimal | None = None
    amount_etched: str = ""
    form: str | None = None
    position: str | None = None
    said: dict[str, str] = field(default_factory=dict)
    unread: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def read_words(marking: str) -> Marks:
    """The thread callout of a ``marking`` and what its other words say.

    Raises: TapError ``tap_marking_unreadable`` when it is empty, too long, or holds no size.
    """
    text = fold(marking)
    found = find_size(text.upper())
    if found is None:
        raise TapError(
            "tap_marking_unreadable",
            "the marking holds no thread size such as 1/2-13 or M8x1.25",
            pointer="/marking",
        )
    start, end = len(found.before), len(text) - len(found.after)
    marks = Marks(found.size, metric=found.size.startswith("M"))
    words = _pieces(text[:start]) + _pieces(text[end:])
    _read_all(marks, words)
    return marks


def fold(marking: str) -> str:
    """The marking in plain signs with single blanks, letter case kept.

    Raises: TapError ``tap_marking_unreadable`` when it is empty or longer than 200 characters.
    """
    if len(marking) > MAX_LENGTH:
        raise TapError("tap_marking_unreadable", f"a marking has at most {MAX_LENGTH} characters", pointer="/marking")
    plain = marking if marking.isascii() else _to_plain(marking)
    text = " ".join("".join(sign if sign.isprintable() else " " for sign in plain).translate(_ALIKE).split())
    if not text:
        raise TapError("tap_marking_unreadable", "the marking holds no text", pointer="/marking")
    return text


def _to_plain(marking: str) -> str:
    """Fractions and full-width signs as plain ones; a sign whose capital is longer keeps its length."""
    spread = "".join(f" {sign}" if "VULGAR" in unicodedata.name(sign, "") else sign for sign in marking)
    folded = unicodedata.normalize("NFKC", spread)
    return "".join(sign if len(sign.upper()) == 1 else "?" for sign in folded)


def _pieces(text: str) -> list[str]:
    return [word for word in text.replace("(", " ").replace(")", " ").split() if word.strip("-,;/.")]


def _read_all(marks: Marks, words: Sequence[str]) -> None:
    at = 0
    while at < len(words):
        taken = _take(marks, words, at)
        if taken == 0:
            _split_or_keep(marks, words[at])
            taken = 1
        at += taken


def _take(marks: Marks, words: Sequence[str], at: int) -> int:
    """How many words from ``at`` on were understood together: three, two, one or none."""
    for count in (3, 2, 1):
        group = words[at : at + count]
        etched = " ".join(group).strip(",;-")
        if len(group) == count and _understand(marks, etched.upper()):
            marks.amount_etched = marks.amount_etched or (etched if marks.amount is not None else "")
            return count
    return 0


def _understand(marks: Marks, phrase: str) -> bool:
    known = _vocabulary().get(phrase.replace(" ", "-")) or _vocabulary().get(phrase)
    if known is not None:
        return _say(marks, *known)
    system = system_word(phrase)
    if system is not None:
        marks.systems.append(system)
        return True
    return _limit(marks, phrase) or _class(marks, phrase) or _amount(marks, phrase) or _form(marks, phrase)


def _limit(marks: Marks, phrase: str) -> bool:
    found = _LIMIT.fullmatch(phrase)
    label = None if found is None else limits.normal_label(found[1])
    if label is None or marks.limit_label is not None:
        return False
    marks.limit_label = label
    return True


def _say(marks: Marks, kind: str, value: str) -> bool:
    """Note what a known word says; a second word that says otherwise is kept unread, a better grade of HSS is taken."""
    before = marks.said.setdefault(kind, value)
    if before == value:
        return True
    grades = kind == "substrate" and "HSS" in (before, value) and before.startswith("HSS") and value.startswith("HSS")
    if grades:
        marks.said[kind] = max(before, value, key=len)
    return grades


def _class(marks: Marks, phrase: str) -> bool:
    found = _POSITION.fullmatch(phrase)
    if found is not None and marks.position is None:
        marks.position = phrase
        if marks.thread_class is None:
            marks.thread_class = found[1] or _POSITION_CLASSES[found[3]]
        return True
    if marks.thread_class is not None or _CLASS.fullmatch(phrase) is None:
        return False
    marks.thread_class = phrase
    return True


def _amount(marks: Marks, phrase: str) -> bool:
    """An amount over basic or of oversize, always with decimals."""
    if "." not in phrase and "," not in phrase:
        return False
    for pattern in _AMOUNTS:
        found = pattern.fullmatch(phrase)
        if found is not None and marks.amount is None:
            marks.amount = _in_own_unit(Decimal(found[1].replace(",", ".")), found[2], metric=marks.metric)
            return True
    return False


def _in_own_unit(amount: Decimal, unit: str | None, *, metric: bool) -> Decimal:
    """An amount with its unit as etched, in mm of a metric tap and in inches of any other."""
    if unit is None or (unit == "MM") is metric:
        return amount
    return half_even(amount * MM_PER_INCH, 3) if metric else half_even(amount / MM_PER_INCH, 4)


def _form(marks: Marks, phrase: str) -> bool:
    found = _FORM.fullmatch(phrase)
    if found is None or marks.form is not None or (found[1] is None and not marks.metric):
        return False
    marks.form = found[1] or found[2]
    return True


def _split_or_keep(marks: Marks, word: str) -> None:
    """Words joined by a slash or hyphen (``ISO2/6H``, ``UNC-2B``) are read apart; unknown ones are kept as etched."""
    pieces = [piece for piece in _JOINED.split(word) if piece]
    if len(pieces) == 1:
        marks.unread.append(word)
        return
    for piece in pieces:
        if not _understand(marks, piece.upper().strip(",;")):
            marks.unread.append(piece)


@read_once
def _vocabulary() -> Mapping[str, tuple[str, str]]:
    return {row["word"]: (row["kind"], row["value"]) for row in load("tap_words").rows}
