"""The characters of a callout: one bounded, ASCII form of what people type and drawings print."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.errors import CalloutError
from borewright.core.rounding import plain

MAX_LENGTH = 200

#: A decimal number as people write it, point or comma, digits bounded.
NUMBER = r"(?:[0-9]{1,5}(?:[.,][0-9]{1,6})?|[.,][0-9]{1,6})"
#: What may stand between two fields of a callout; ``|`` marks where a word was taken out.
SEPARATOR = r"(?: ?[-xX|] ?| )"

_FRACTIONS = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅓": "1/3",
    "⅔": "2/3",
    "⅕": "1/5",
    "⅖": "2/5",
    "⅗": "3/5",
    "⅘": "4/5",
    "⅙": "1/6",
    "⅚": "5/6",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_ALIKE = {
    "x": "×✕✖⨯хХ",
    "-": "‐‑‒–—−﹣",
    "/": "⁄∕",
    '"': "“”„‟″ʺ〃",
    "'": "‘’′ʹ´",
    "M": "МΜ",
    "": "\u00ad\u200b\u200e\u200f\u2060\ufeff",
    " DEEP ": "↧",
    " CSK ": "⌵",
    " CBORE ": "⌴",
    " DIA ": "Ø⌀∅ø",
    " NO ": "№",
}
_CHARACTERS: dict[int, str] = {
    **{ord(sign): f" {written} " for sign, written in _FRACTIONS.items()},
    **{ord(sign): plain_sign for plain_sign, signs in _ALIKE.items() for sign in signs},
    **{code: chr(code - 0xFEE0) for code in range(0xFF01, 0xFF5F)},
    **{0x2080 + digit: str(digit) for digit in range(10)},
}
_RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹"
_RAISED_NUMERATOR = re.compile(f"[{_RAISED}]{{1,3}}(?=[/⁄∕])")
_RAISED_DIGITS = str.maketrans(_RAISED, "0123456789")

_ABBREVIATION_DOT = re.compile(r"(?<=[A-Za-z])\.(?![0-9])")
_LIST_MARK = re.compile(r"[,;:](?= |$)")
_SLASH = re.compile(r" ?/ ?")


def unreadable(detail: str, *, did_you_mean: tuple[str, ...] = ()) -> CalloutError:
    """The error of a text with something that no reader knows, by ``detail``, or that ``did_you_mean`` otherwise."""
    return CalloutError("callout_unreadable", detail, did_you_mean=did_you_mean)


def normalise(text: str) -> str:
    """The callout ``text`` in ASCII signs with single blanks; letter case is kept, it can tell a class.

    Raises:
        CalloutError: empty, longer than 200 characters, or a character that no callout holds.
    """
    if len(text) > MAX_LENGTH:
        raise CalloutError("callout_too_long", f"A thread callout has at most {MAX_LENGTH} characters.")
    folded = text if text.isascii() else _to_ascii(text)
    folded = folded.replace("*", "x").replace("''", " ").replace('"', " ")
    folded = " ".join(folded.split())
    if not folded:
        raise CalloutError("callout_empty", "The thread callout holds no text.")
    if not folded.isprintable() or "|" in folded:
        raise unreadable("The callout holds a character that is not part of any thread callout.")
    return _punctuation(folded)


def _to_ascii(text: str) -> str:
    raised = _RAISED_NUMERATOR.sub(lambda found: " " + found[0].translate(_RAISED_DIGITS), text)
    folded = " ".join(raised.translate(_CHARACTERS).split())
    strange = next((sign for sign in folded if not sign.isascii()), None)
    if strange is not None:
        raise unreadable(f"The character U+{ord(strange):04X} is not part of any thread callout.")
    return folded


def _punctuation(text: str) -> str:
    text = _ABBREVIATION_DOT.sub("", text)
    if "/" in text:
        text = _SLASH.sub("/", text)
    return _LIST_MARK.sub("", text).lstrip(" -").rstrip(" -.")


def cut(text: str, start: int, end: int) -> str:
    """``text`` without ``text[start:end]``, with the mark ``|`` where two fields would run together."""
    left, right = text[:start].rstrip(" -,|"), text[end:].lstrip(" -,|")
    return f"{left}|{right}" if left and right else left or right


def number(text: str) -> Decimal:
    """Value of ``text``, a number without its unit that matched :data:`NUMBER`, in its shortest form (``1,250`` ->
    ``1.25``).
    """
    return Decimal(plain(Decimal(text.replace(",", "."))))
