"""Words that any callout may carry besides its thread: hand, starts, gaging, coating, engagement, filler.

What belongs to the hole and not to the thread, and was not understood by :mod:`hole_words`, is refused here, with the
place where it belongs.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from borewright.core.errors import CalloutError
from borewright.core.model import Length

from .citations import CITING, take_citations
from .text import NUMBER, cut, number, unreadable
from .thread_as_written import Written
from .unit_words import UNIT_WORDS

_COUNTS = {
    "ONE": 1,
    "SINGLE": 1,
    "TWO": 2,
    "DOUBLE": 2,
    "TWIN": 2,
    "THREE": 3,
    "TRIPLE": 3,
    "FOUR": 4,
    "QUADRUPLE": 4,
    "FIVE": 5,
    "SIX": 6,
    "EIGHT": 8,
}
_DEPTH_WORDS = frozenset({
    "DEEP", "DP", "DPT", "DEPTH", "THRU", "THROUGH", "THRO", "BLIND", "CBORE", "CSK", "CSINK", "COUNTERSINK",
    "COUNTERBORE", "DRILL", "DRILLED", "FULL", "MIN", "MAX", "MINIMUM", "DIA", "BOTTOM", "FLAT", "REAM",
    "LG", "LONG",
})  # fmt: skip
_QUANTITY_WORDS = frozenset({
    "HOLES", "PLACES", "PLCS", "PLC", "PLS", "PL", "OFF", "EACH", "EA", "EQ", "TYP", "QTY", "PCS",
})  # fmt: skip
_FILLER = frozenset({
    "THREAD", "THREADS", "THD", "THDS", "TAP", "TAPPED", "TAPPING", "HOLE", "PER", "TPI", "CLASS", "CL",
    "PITCH", "IN", "INCH", "INCHES", "MM", "METRIC", "UNIFIED", "FORM", "SIZE", "DRYSEAL", "ISO", "ASME", "ANSI",
})  # fmt: skip
_HAND = frozenset({
    "LH", "RH", "LEFT", "RIGHT", "HAND", "HANDED",
})  # fmt: skip
_OTHER = frozenset({
    "START", "STARTS", "LEAD", "LE", "SE", "AFTER", "BEFORE", "PTF", "INSERT", "INSERTS", "DRYSEAL",
})  # fmt: skip

#: Letter runs that make a callout worth the slow reading of this module.
PHRASE_WORDS = CITING | _DEPTH_WORDS | _QUANTITY_WORDS | _FILLER | _HAND | _OTHER | frozenset(_COUNTS)

_QUANTITY = re.compile(
    r"(?:\([0-9]{1,3}\)|\(?[0-9]{1,3}\)? ?[xX]\)?)[ -]?(?=[A-Za-z#.(]|[0-9]{1,2}/|[0-9]{1,2}[ -][0-9])"
)
_IGNORE = re.IGNORECASE
_LEFT = re.compile(r"(?:\( ?)?(?<![A-Z])(LH|LEFT(?:[ -]?HAND(?:ED)?)?)(?![A-Z])(?: ?\))?", _IGNORE)
_RIGHT = re.compile(r"(?:\( ?)?(?<![A-Z])(RH|RIGHT(?:[ -]?HAND(?:ED)?)?)(?![A-Z])(?: ?\))?", _IGNORE)
_STARTS = re.compile(rf"\(? ?(?<![A-Z0-9])([0-9]{{1,2}}|{'|'.join(_COUNTS)})[ -]?STARTS?(?![A-Z]) ?\)?", _IGNORE)
#: ``LEAD .1``, or ``.1 LEAD`` where no number follows: in ``M16x2 LEAD 4`` the one before it is the pitch.
_LEAD = re.compile(
    rf"(?<![A-Z])LEAD ?=? ?({NUMBER})|(?<![0-9.,])({NUMBER}) ?LEAD(?![A-Z]| ?=? ?{NUMBER}(?![0-9/.,-]))", _IGNORE
)
_GAGING = re.compile(r"\( ?(?:SYSTEM ?)?(2[123]A?) ?\)", _IGNORE)
_COATING = re.compile(
    r"(?<![A-Z])(AFTER|BEFORE) (?:COATING|COAT|PLATING|PLATE|FINISH|FINISHING|ANODIZING|ANODISING)(?![A-Z])", _IGNORE
)
_ENGAGEMENT = re.compile(rf"(?<![A-Z])(?:SE|LE) ?=? ?({NUMBER})(?![0-9A-Z.,])", _IGNORE)
_FILLERS = re.compile(rf"(?<![A-Z])(?:{'|'.join(sorted(_FILLER))})(?![A-Z])", _IGNORE)
_DRYSEAL_SHORT = re.compile(r"(?<![A-Z])PTF[- ]?SAE[- ]?SHORT(?![A-Z])", _IGNORE)
_INSERT = re.compile(r"(?<![A-Z])(?:HELICAL )?(?:COIL )?INSERTS?(?![A-Z])", _IGNORE)
_RUN = re.compile(r"[A-Z]+")


def refuse_hole_text(text: str) -> None:
    """Refuse depth, through and number-of-holes text in ``text``, a normalised callout.

    Raises:
        CalloutError: ``callout_has_depth`` with the place where that text belongs, and the text without it.
    """
    quantity = _QUANTITY.match(text)
    if quantity:
        rest = text[quantity.end() :]
        raise _hole_text(f"{quantity[0].strip()} is a number of holes: one request is one hole", rest)
    runs = _RUN.findall(text.upper())
    square, insert = "SQUARE" in runs or "SQ" in runs, "STI" in runs
    for run in _RUN.finditer(text.upper()):
        if run[0] in _DEPTH_WORDS and not (square and run[0] == "DEPTH"):
            why = _where(run[0]) + (_INSERT_DEPTH if insert else "")
            rest = _before(text, run.start()) or text[run.end() :].strip(" -")
            raise _hole_text(why, rest)
        if run[0] in _QUANTITY_WORDS:
            raise _hole_text(f"{run[0]} tells how many holes: one request is one hole", _before(text, run.start()))


_TRAILING_LENGTH = re.compile(
    rf"[ |]?[xX] ?((?:[0-9]{{1,2}}[ -])?[0-9]{{1,2}}/[0-9]{{1,2}}|{NUMBER}) ?(?:MM|IN)?$", _IGNORE
)
_LENGTH = 'is a length of screw or hole: give the depth as "full_thread_depth" in "hole"'
_INSERT_DEPTH = (
    ". Beside STI the metric standard's code (23.5 deep) is the depth of the drilled hole for a plug tap,"
    " not the full-thread depth"
)


def refuse_trailing_length(text: str, reads: Callable[[str], bool]) -> None:
    """Refuse ``text`` that cannot be read but ``reads`` without the length at its end (``3/8-16 UNC x 1.5``).

    Raises:
        CalloutError: ``callout_has_depth`` with the place where the length belongs.
    """
    found = _TRAILING_LENGTH.search(text)
    if found and reads(text[: found.start()]):
        raise _hole_text(f"{found[1]} {_LENGTH}", text[: found.start()])


def _where(word: str) -> str:
    if word in ("THRU", "THROUGH", "THRO"):
        return f'{word} describes the hole: say "type": "through" and the thickness in "hole"'
    if word in ("LG", "LONG"):
        return f"{word} is said of a screw: the callout of a hole has no length"
    if word in ("DEEP", "DP", "DPT", "DEPTH", "FULL", "MIN", "MINIMUM", "MAX", "BLIND"):
        return f'{word} describes the hole: give the depth as "full_thread_depth" in "hole"'
    return f"{word} describes the hole, not the thread: leave it out, the reply states drill and countersink"


def _before(text: str, start: int) -> str:
    """The callout in front of hole text, without the length that belongs to it."""
    parts = text[:start].rstrip(" -x").split(" ")
    while parts and parts[-1].upper() in _FILLER:
        parts.pop()
    if len(parts) > 1 and _is_length(parts[-1]):
        fraction = "/" in parts.pop()
        if fraction and parts[-1].isdigit():
            parts.pop()
    while parts and parts[-1].upper() in _FILLER:
        parts.pop()
    return " ".join(parts).rstrip(" -xX")


def _is_length(part: str) -> bool:
    return all(sign in "0123456789.,/-" for sign in part.lower().removesuffix("mm").removesuffix("in"))


def _hole_text(why: str, rest: str) -> CalloutError:
    return CalloutError("callout_has_depth", f"{why}.", did_you_mean=(rest,))


def take_phrases(text: str, written: Written) -> str:
    """Move the words of standards, hand, starts, lead, gaging, coating and engagement from the text into ``written``.

    Returns:
        The text without them and without filler words.

    Raises:
        CalloutError: left and right hand, or two numbers of starts.
    """
    text = _DRYSEAL_SHORT.sub("PTFSHORT", _INSERT.sub("STI", text))
    text = take_citations(text, written)
    text = _take_hand(text, written)
    text = _take_starts(text, written)
    for pattern, note in _NOTES:
        found = pattern.search(text)
        if found:
            note(found, written)
            text = cut(text, found.start(), found.end())
    while (found := _FILLERS.search(text)) is not None:
        if found[0].upper() in UNIT_WORDS:
            written.unit_words.append(found[0].upper())
        text = cut(text, found.start(), found.end())
    return text


def _take_hand(text: str, written: Written) -> str:
    for pattern, hand in ((_LEFT, "left"), (_RIGHT, "right")):
        found = pattern.search(text)
        if found:
            if written.hand is not None:
                raise unreadable("The callout says both left hand and right hand.")
            written.hand = "left" if hand == "left" else "right"
            text = cut(text, found.start(), found.end())
    return text


def _take_starts(text: str, written: Written) -> str:
    found = _STARTS.search(text)
    if found is None:
        return text
    written.starts = _COUNTS.get(found[1].upper()) or int(found[1])
    return cut(text, found.start(), found.end())


def _note_lead(found: re.Match[str], written: Written) -> None:
    written.lead = number(found[1] or found[2])


def _note_gaging(found: re.Match[str], written: Written) -> None:
    system = found[1].upper()
    written.assumptions.append(f"({system}) is the gaging system of ASME B1.3 the part is accepted by.")


def _note_coating(found: re.Match[str], written: Written) -> None:
    when = found[1].lower()
    written.assumptions.append(
        "AFTER COATING was read: the limits of the class are those of the finished thread."
        if when == "after"
        else "BEFORE COATING was read: the limits of the class are those before the finish is put on."
    )


def _note_engagement(found: re.Match[str], written: Written) -> None:
    written.engagement = Length(number(found[1]))
    written.assumptions.append(f"{found[0]} is read as special length of engagement {found[1]}.")


_NOTES: tuple[tuple[re.Pattern[str], Callable[[re.Match[str], Written], None]], ...] = (
    (_LEAD, _note_lead),
    (_GAGING, _note_gaging),
    (_COATING, _note_coating),
    (_ENGAGEMENT, _note_engagement),
)
