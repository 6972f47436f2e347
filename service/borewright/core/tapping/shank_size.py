"""Where the thread size stands in a shank marking, and the callout it makes.

Patterns are bounded and tried in the order in which they can be told apart; a size without a pitch is taken last.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from borewright.core.callout.vocabulary import WORDS

_NUMBER = r"(?:[0-9]{1,4}(?:[.,][0-9]{1,5})?|[.,][0-9]{1,5})"
_FRACTION = r"(?:[0-9]{1,2}[ -])?[0-9]{1,2}/[0-9]{1,3}"
_SIZE = rf"(?:{_FRACTION}|(?:#|NO\.? ?)?[0-9]{{1,2}}|[0-9]?\.[0-9]{{2,5}})(?: ?IN(?![A-Z])| OD|\")?"
_START = r"(?<![0-9A-Z./,#-])"
_METRIC_HEAD = rf"{_START}(?:EG ?)?(?:MJ|MF|M) ?{_NUMBER}"

_AFTER_X = rf" ?X ?((?:PH ?{_NUMBER} ?P ?)?{_NUMBER})"
_AFTER_HYPHEN = rf" ?- ?({_NUMBER})(?![0-9A-Z/])"
_AFTER_BLANK = r" ([0-9][.,][0-9]{1,3})"

_METRIC = re.compile(rf"({_METRIC_HEAD})(?:{_AFTER_X}|{_AFTER_HYPHEN}|{_AFTER_BLANK})(?![0-9./])")
_METRIC_ALONE = re.compile(rf"{_METRIC_HEAD}(?![0-9./,X])")
_TRAPEZOIDAL = re.compile(rf"{_START}TR ?{_NUMBER} ?X ?{_NUMBER}(?: ?\(? ?P ?{_NUMBER} ?\)?)?(?![0-9./])")
_WITH_PITCH = re.compile(rf"{_START}({_SIZE})(?: ?- ?| )([0-9]{{1,2}}(?:\.[0-9]{{1,3}}|[ -]1/2)?)(?![0-9./,XABH])")
_PREFIXED = re.compile(
    rf"(?:^G|{_START}(?:NPTF|NPT|ANPT|NPSM|NPSC|NPSF|NPSI|BSPT|BSPP|BSP|BA|RC|RP)) ?"
    rf"(?:{_FRACTION}|[0-9]{{1,2}})(?: ?- ?[0-9]{{1,2}})?(?![0-9A-Z./,])"
)
_BARE = re.compile(rf"{_START}{_SIZE}(?![0-9./,])")
_NUMBERED = re.compile(r"(?:#|NO\.? ?)?([0-9]{1,2})-([0-9.]+)")
#: No whole size over this is tapped: a larger number is one of a machine screw.
LARGEST_WHOLE_IN = 6
_NUMBER_0_IN, _NUMBER_STEP_IN = Decimal("0.060"), Decimal("0.013")
_CONSTANT_PITCH = re.compile(r"([0-9]{1,2})U?N")

#: Words that name a system or series and belong to the callout.
SYSTEM_WORDS = frozenset(WORDS) | {
    *("N", "UNM", "UNJ", "STI", "ACME", "STUB", "WHIT", "BSW", "BSF", "BSB", "BA", "BSP", "BSPT", "BSPP", "RC", "RP"),
    *("NPT", "NPTF", "ANPT", "PTF", "NPSM", "NPSC", "NPSF", "NPSI"),
}


class ShankSize(NamedTuple):
    """The size as a callout text begins, and the text around it."""

    size: str
    before: str
    after: str


def find_size(text: str) -> ShankSize | None:
    """The thread size of a marking in capitals, None when it holds none.

    Args: ``text`` in capitals, single blanks, at most 200 characters.
    """
    for read in (_metric, _trapezoidal, _prefixed, _inch, _metric_alone, _bare):
        found = read(text)
        if found is not None:
            return found
    return None


def system_word(word: str) -> str | None:
    """The word of a callout that a word of a marking stands for (``8N`` -> ``8UN``), None when it names no system."""
    if word in SYSTEM_WORDS:
        return "UN" if word == "N" else word
    found = _CONSTANT_PITCH.fullmatch(word)
    return None if found is None else f"{found[1]}UN"


def numbered_size(size: str) -> str | None:
    """A machine-screw number over 6 as its diameter (``14-24`` -> ``0.242-24``), None for any other size.

    Number n is 0.060 + 0.013 n in (machine-screw gauge); no whole size over 6 in is tapped.
    """
    found = _NUMBERED.fullmatch(size)
    if found is None or int(found[1]) <= LARGEST_WHOLE_IN:
        return None
    return f"{_NUMBER_0_IN + int(found[1]) * _NUMBER_STEP_IN}-{found[2]}"


def _cut(text: str, found: re.Match[str], size: str) -> ShankSize:
    return ShankSize(size, text[: found.start()], text[found.end() :])


def _metric(text: str) -> ShankSize | None:
    found = _METRIC.search(text)
    if found is None:
        return None
    return _cut(text, found, f"{_metric_head(found[1])}x{found[2] or found[3] or found[4]}{_insert(found[1])}")


def _metric_alone(text: str) -> ShankSize | None:
    found = _METRIC_ALONE.search(text)
    return None if found is None else _cut(text, found, f"{_metric_head(found[0])}{_insert(found[0])}")


def _metric_head(written: str) -> str:
    return written.removeprefix("EG").replace(" ", "").replace("MF", "M")


def _insert(written: str) -> str:
    """European drawings write an insert thread EG M6."""
    return " STI" if written.startswith("EG") else ""


def _trapezoidal(text: str) -> ShankSize | None:
    found = _TRAPEZOIDAL.search(text)
    return None if found is None else _cut(text, found, found[0])


def _prefixed(text: str) -> ShankSize | None:
    found = _PREFIXED.search(text)
    return None if found is None else _cut(text, found, found[0])


def _inch(text: str) -> ShankSize | None:
    found = _WITH_PITCH.search(text)
    return None if found is None else _cut(text, found, f"{_inch_size(found[1])}-{found[2].replace('-', ' ')}")


def _bare(text: str) -> ShankSize | None:
    found = _BARE.search(text)
    return None if found is None else _cut(text, found, _inch_size(found[0]))


def _inch_size(written: str) -> str:
    return written.removesuffix('"').removesuffix("IN").strip().replace("-", " ")
