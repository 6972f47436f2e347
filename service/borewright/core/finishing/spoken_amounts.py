"""Amounts as they are said: ``half a thou``, ``two tenths``, ``1/2 mil``, ``1 1/2 thou`` become decimals."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.errors import FinishError

_WORDS = {
    "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10,
}  # fmt: skip
_MICRONS = r"(?:microns?|micromet(?:er|re)s?|um?)\b"
_SMALL = rf"(?:(?:thousandths?|thous?|mils?|tenths?)\b|{_MICRONS})"
_TEN_THOUSANDTHS = re.compile(r"\bten[- ]thousandths?\b")
_HALF = re.compile(rf"\bhalf\s+an?\s+(?={_SMALL})")
_AND_A_HALF = re.compile(rf"\b({'|'.join(_WORDS)})\s+and\s+a\s+half\s+(?={_SMALL})")
_WORD = re.compile(rf"\b({'|'.join(_WORDS)})\s+(?={_SMALL})")
_FRACTION = re.compile(
    rf"(?<![\d./])(?:(\d{{1,2}})[ -])?([137])/([248])(?=\s*-?\s*(?:({_MICRONS})|{_SMALL}))", re.ASCII
)


def in_figures(text: str) -> str:
    """A finish text, folded to lower case, with the amounts that are said in words or fractions as decimals.

    A slash is a fraction before a small unit only: ``3/8 in`` is a size and ``8/12 um`` a range.

    Raises:
        FinishError: ``finish_ambiguous`` for ``3/8 um``, which can be the one or the other.

    Source: the words of the shop (common practice).
    """
    text = _TEN_THOUSANDTHS.sub("tenths", text)
    text = _HALF.sub("0.5 ", text)
    text = _AND_A_HALF.sub(lambda found: f"{_WORDS[found[1]]}.5 ", text)
    text = _WORD.sub(lambda found: f"{_WORDS[found[1]]} ", text)
    return _FRACTION.sub(_decimal, text)


def _decimal(found: re.Match[str]) -> str:
    whole, above, below = (int(part or 0) for part in found.groups()[:3])
    if above >= below:
        return found[0]
    decimal = str(whole + Decimal(above) / below)
    if found[1] is None and found[4] is not None:
        raise FinishError(
            "finish_ambiguous",
            f'"{found[0]} {found[4]}" in the finish can be a fraction or a range: write which one is meant.',
            allowed=(f"{decimal} um", f"{above} to {below} um"),
        )
    return decimal
