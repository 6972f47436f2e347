"""Words of a callout that describe the hole: through, blind, its depth, how many holes.

A drawing prints them behind the thread. They are read, told in the assumptions and held against the hole of the
request, which says what is made; they never take its place.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from decimal import Decimal
from types import MappingProxyType

from borewright.core.errors import CalloutError
from borewright.core.model import Hole, HoleText, Length, ThreadCallout, Unit
from borewright.core.practice import sizes
from borewright.core.quantity_text import length
from borewright.core.rounding import plain

from .text import NUMBER, cut, number
from .thread_as_written import Written

_DEPTH_SLACK = sizes("callout_depth_slack")
_UNITS: Mapping[str, Unit] = MappingProxyType({"MM": "mm", "IN": "in", "INCH": "in", "INCHES": "in"})

_IGNORE = re.IGNORECASE
_DEPTH = rf"((?:[0-9]{{1,2}}[ -])?[0-9]{{1,2}}/[0-9]{{1,2}}|{NUMBER}) ?(MM|INCHES|INCH|IN)?"
_LEAST = r"(?:(MIN|MINIMUM) )?(?:FULL )?(?:(?:THREADS?|THDS?) )?"
_DEEP = r"(?:DEEP|DPT|DP|DEPTH)(?![A-Z])"
_BEFORE = r"(?<=[ xX|])"
_AFTER_NUMBER = re.compile(rf"{_BEFORE}{_DEPTH} ?{_LEAST}{_DEEP}(?: (MIN|MINIMUM)(?![A-Z]))?", _IGNORE)
_BEFORE_NUMBER = re.compile(rf"(?<![A-Z]){_LEAST}{_DEEP} ?{_DEPTH}(?![0-9A-Z.,/])(?: (MIN|MINIMUM)(?![A-Z]))?", _IGNORE)
_KINDS = re.compile(r"(?<![A-Z])(?:(THRU|THROUGH|THRO)(?:[ -]ALL)?|(BLIND))(?:[ -]HOLES?)?(?![A-Z])", _IGNORE)
_PLACES = "HOLES|PLACES|PLCS|PLC|PLS|PL|OFF|EACH|EA|PCS"
_FIRST_COUNT = re.compile(
    r"(?:\([0-9]{1,3}\)|\(?[0-9]{1,3}\)? ?[xX]\)?)[ -]?(?=[A-Za-z#.(]|[0-9]{1,2}/|[0-9]{1,2}[ -][0-9])"
)
_METRIC_SIZE = re.compile(rf"MJ? ?({NUMBER}) ?[xX] ?", _IGNORE)
_COUNTS = re.compile(
    rf"{_BEFORE}\(?[0-9]{{1,3}} ?(?:[xX](?!\)? ?[0-9.(])|{_PLACES})\)?(?![A-Z0-9])|(?<![A-Z])QTY ?[0-9]{{1,3}}(?![0-9])"
    r"|(?<![A-Z])\(?TYP(?![A-Z])\)?",
    _IGNORE,
)


def take(text: str, written: Written) -> str:
    """Move the words of the hole from ``text``, normalised, into ``written``; returned is what stays, the thread.

    A length beside STI can be one of two depths and stays in the text, so do words that nothing here understands.
    """
    text = _take_counts(text, written)
    runs = re.findall(r"[A-Z]+", text.upper())
    if "STI" not in runs and "SQUARE" not in runs and "SQ" not in runs:
        text = _take(_AFTER_NUMBER, text, written, _after_number)
        text = _take(_BEFORE_NUMBER, text, written, _before_number)
    return _take(_KINDS, text, written, _kind)


def _take_counts(text: str, written: Written) -> str:
    found = _FIRST_COUNT.match(text)
    if found is not None:
        _note_count(found[0], written)
        text = text[found.end() :]
    found = _COUNTS.search(text)
    if found is not None and found.start():
        _note_count(found[0], written)
        text = cut(text, found.start(), found.end()).rstrip(" xX|")
    return text


def _note_count(words: str, written: Written) -> None:
    name = words.strip(" -")
    written.assumptions.append(f"{name} is a number of holes and not part of the thread: this answer is for one hole.")


def _take(pattern: re.Pattern[str], text: str, written: Written, read: Callable[[re.Match[str]], HoleText]) -> str:
    found = pattern.search(text)
    if found is None or not found.start():
        return text
    new = read(found)
    if _may_be_pitch(text[: found.start()], new):
        return text
    known = written.hole_text
    if known is None:
        written.hole_text = new
    elif new.depth is None:
        written.hole_text = replace(known, words=f"{known.words} {new.words}", kind=new.kind)
    else:
        return text
    written.assumptions.append(
        f"{new.words} in the callout describes the hole and is not part of the thread: the hole is as the request"
        " gives it."
    )
    return cut(text, found.start(), found.end()).rstrip(" xX|")


def _may_be_pitch(front: str, new: HoleText) -> bool:
    """Whether the depth stands where a metric callout has its pitch, and could be one (``M8x1 DEEP``)."""
    size = _METRIC_SIZE.fullmatch(front)
    return size is not None and new.depth is not None and new.depth.value < number(size[1]) / 2


def _kind(found: re.Match[str]) -> HoleText:
    return HoleText(found[0].strip(" -"), "through" if found[1] else "blind")


def _after_number(found: re.Match[str]) -> HoleText:
    return HoleText(found[0].strip(" x"), None, _length(found[1], found[2]), bool(found[3] or found[4]))


def _before_number(found: re.Match[str]) -> HoleText:
    return HoleText(found[0].strip(" x"), None, _length(found[2], found[3]), bool(found[1] or found[4]))


def _length(digits: str, unit: str | None) -> Length:
    if "/" in digits:
        *whole, fraction = re.split("[ -]", digits)
        above, below = fraction.split("/")
        if int(below) == 0:
            raise CalloutError("callout_unreadable", f"{digits} is no depth.")
        exact = sum(map(Decimal, whole)) + Decimal(above) / Decimal(below)
    else:
        exact = number(digits)
    return Length(Decimal(plain(exact)), _UNITS[unit.upper()] if unit else None)


def check(callout: ThreadCallout, hole: Hole) -> None:
    """Refuse a callout whose words contradict the hole of the request.

    Raises: CalloutError ``callout_has_depth``, which says both.
    """
    said = callout.hole_text
    if said is None:
        return
    if said.kind is not None and said.kind != hole.kind:
        raise _contradiction(callout, f'the hole of the request is "{hole.kind}"', f'"type": "{said.kind}"')
    depth = hole.full_thread_depth or (hole.thickness if hole.kind == "through" else None)
    if said.depth is None or depth is None or _agrees(said.depth, said.least, depth.to(callout.unit), callout.unit):
        return
    what = "full_thread_depth" if hole.full_thread_depth is not None else "thickness of the through hole"
    raise _contradiction(
        callout,
        f"{what} of the request is {length(depth.to(callout.unit), callout.unit)}",
        "the same depth in the callout and in hole.full_thread_depth",
    )


def _agrees(said: Length, least: bool, depth: Decimal, unit: Unit) -> bool:
    """Whether a depth of the callout is that of the request; without a unit it may be in inches or in millimetres."""
    units: tuple[Unit, ...] = ("in", "mm") if said.unit is None else (said.unit,)
    asked = [replace(said, unit=one).to(unit) for one in units]
    near = any(abs(depth - one) <= _DEPTH_SLACK[unit] for one in asked)
    own = replace(said, unit=said.unit or unit).to(unit)
    return near or (least and depth >= own)


def _contradiction(callout: ThreadCallout, request: str, allowed: str) -> CalloutError:
    words = "" if callout.hole_text is None else callout.hole_text.words
    return CalloutError(
        "callout_has_depth",
        f"The callout says {words}, {request}: one of the two is wrong.",
        pointer="/thread",
        allowed=(allowed, "the callout without these words"),
    )
