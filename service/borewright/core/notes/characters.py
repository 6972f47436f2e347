"""The characters of a note: a plain copy of it, and where each of its characters stands in the note as sent.

Signs of drawings are folded to one form each, accents are taken off, codes of drawing programs are resolved.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from .control_codes import CODE, resolve

DIAMETER, DEPTH, COUNTERBORE, COUNTERSINK, SQUARE_TO = "Ø", "↧", "⌴", "⌵", "⊥"

_SIGNS = {
    DIAMETER: "Øø⌀∅φΦϕ",
    DEPTH: "↧↓⤓⏷",
    COUNTERBORE: "⌴⊔凵",
    COUNTERSINK: "⌵∨",
    SQUARE_TO: "⊥⟂",
    "x": "×✕✖⨯*",
    "-": "‐‑‒–—−﹣",
    "/": "⁄∕",
    '"': "“”„‟″ʺ〃",
    "'": "‘’′ʹ´`",
    "°": "°º˚",
    " ": "\t\u00a0\u1680\u2002\u2003\u2007\u2009\u202f\u3000",
    "\n": "\n\u2028\u2029\u0085\x0b\x0c",
    ",": "、",
    ".": "。",
    "": "\r\u00ad\u200b\u200e\u200f\u2060\ufeff",
}
_FRACTIONS = "½¼¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
#: Letters of other alphabets that look like ours.
_ALIKE = dict(zip("АВЕКМНОРСТХасеорх" + "ΑΒΕΗΚΜΝΟΡΤΧ", "ABEKMHOPCTXaceopx" + "ABEHKMNOPTX", strict=True))
_FOLDED = {sign: plain for plain, signs in _SIGNS.items() for sign in signs} | {
    sign: f" {unicodedata.normalize('NFKC', sign).replace('⁄', '/')} " for sign in _FRACTIONS
}
_SPECIAL = {"ß": "ss", "æ": "ae", "œ": "oe", "Œ": "OE", "Æ": "AE"}
_DRAWN = re.compile(r"\|_\||└┘|\\/|<>(?= ?[0-9.])|(?<![A-Za-z0-9↧⊥])(?<![↧⊥] )[oOQ@](?=\.[0-9]|[1-9][0-9]?[.,][0-9])")
#: A run of characters that stand for themselves, or one that may not.
_RUN = re.compile(r"[\n -)+-_a-~]+|.", re.DOTALL)
_DRAWN_SIGNS = {"|_|": COUNTERBORE, "└┘": COUNTERBORE, "\\/": COUNTERSINK}


@dataclass(frozen=True, slots=True)
class Copy:
    """A note made plain. ``starts[i]`` and ``ends[i]`` bound in the note what ``text[i]`` stands for."""

    text: str
    starts: tuple[int, ...]
    ends: tuple[int, ...]
    repairs: tuple[tuple[int, int, str], ...] = ()

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Code points of the note for ``text[start:end]``, which is not empty."""
        return self.starts[start], self.ends[end - 1]

    def replaced(self, start: int, end: int, new: str) -> Copy:
        """The copy with ``text[start:end]`` read as ``new``; every new character stands for all of the old ones."""
        first, last = self.span(start, end)
        same = len(new) == end - start
        starts = self.starts[start:end] if same else (first,) * len(new)
        ends = self.ends[start:end] if same else (last,) * len(new)
        return Copy(
            self.text[:start] + new + self.text[end:],
            self.starts[:start] + starts + self.starts[end:],
            self.ends[:start] + ends + self.ends[end:],
            self.repairs,
        )

    def line_of(self, position: int) -> tuple[int, int]:
        """Start and end of the line that holds ``position`` in the copy."""
        end = self.text.find("\n", position)
        return self.text.rfind("\n", 0, position) + 1, len(self.text) if end < 0 else end


class _Writer:
    """Collects a plain copy and the places that its characters stand for."""

    def __init__(self) -> None:
        self.text: list[str] = []
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.repairs: list[tuple[int, int, str]] = []

    def put(self, start: int, end: int, new: str) -> None:
        self.text.append(new)
        self.starts += [start] * len(new)
        self.ends += [end] * len(new)

    def put_letters(self, note: str, start: int, end: int) -> None:
        for run in _RUN.finditer(note, start, end):
            (first, last), text = run.span(), run[0]
            if text.isascii() and text not in _FOLDED:
                self.text.append(text)
                self.starts += range(first, last)
                self.ends += range(first + 1, last + 1)
                continue
            plain = _FOLDED.get(text)
            if plain is None:
                plain = _ALIKE.get(text)
                if plain is not None:
                    self.repairs.append((first, last, f"the letter U+{ord(text):04X} is read as {plain}"))
            self.put(first, last, _folded(text) if plain is None else plain)


def plain_copy(note: str) -> Copy:
    """Fold a note to plain signs and letters, with its codes resolved.

    Args: ``note`` as sent.
    Returns: the copy; letters of other alphabets and signs that stand for a diameter are told in ``repairs``.
    Source: public documentation of text codes in drawing exchange files; Unicode names of the signs.
    """
    writer = _Writer()
    place = 0
    for found in CODE.finditer(note):
        writer.put_letters(note, place, found.start())
        writer.put(found.start(), found.end(), "".join(_folded(sign) for sign in resolve(found)))
        place = found.end()
    writer.put_letters(note, place, len(note))
    return _drawn(Copy("".join(writer.text), tuple(writer.starts), tuple(writer.ends), tuple(writer.repairs)))


def _folded(sign: str) -> str:
    if sign.isascii() and sign not in "*\t\r`\x0b\x0c":
        return sign
    plain = _FOLDED.get(sign, _SPECIAL.get(sign))
    if plain is not None:
        return plain
    if "\uff01" <= sign <= "\uff5e" or "\u00c0" <= sign <= "\u0233":
        whole = unicodedata.normalize("NFKD", sign)
        return "".join(part for part in whole if not unicodedata.combining(part))
    return "" if "\u0300" <= sign <= "\u036f" else sign


def _drawn(copy: Copy) -> Copy:
    """Signs drawn with several characters, and letters that were put where a diameter sign was."""
    repairs = list(copy.repairs)
    text: list[str] = []
    starts: list[int] = []
    ends: list[int] = []
    place = 0
    for found in _DRAWN.finditer(copy.text):
        start, end = copy.span(*found.span())
        sign = _DRAWN_SIGNS.get(found[0])
        if sign is None:
            repairs.append((start, end, f"{found[0]} before a number is read as the diameter sign"))
        text += copy.text[place : found.start()], sign or DIAMETER
        starts += *copy.starts[place : found.start()], start
        ends += *copy.ends[place : found.start()], end
        place = found.end()
    if not text:
        return copy
    return Copy(
        "".join((*text, copy.text[place:])),
        (*starts, *copy.starts[place:]),
        (*ends, *copy.ends[place:]),
        tuple(sorted(repairs)),
    )
