"""Fields of a request from texts, as a cell of CSV or an option of a command gives them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from .columns import COLUMNS

Request = dict[str, Any]
_NUMBER = re.compile(r"-?(?:[0-9]{1,15}(?:\.[0-9]{0,18})?|\.[0-9]{1,18})")
_FLAGS = {"true": True, "false": False}


#: A size as a fraction, which is one in inches; a figure with inches or millimetres in another spelling.
_FRACTION = re.compile(r"(?:[0-9]{1,6}(?:-| +))?[0-9]{1,6}/[0-9]{1,6}")
_SPELLED = {
    "in": re.compile(r"([-+0-9./ ]+?) *(?:inch|inches|ins?\.?|″|”|'')", re.IGNORECASE),
    "mm": re.compile(r"([-+0-9./ ]+?) *(?:mm\.?|millimet(?:re|er)s?)", re.IGNORECASE),
}
_SYSTEMS = {
    "inch": ("in", "inch", "inches", "imperial", '"', "″", "us"),
    "metric": ("mm", "metric", "millimetre", "millimeter", "millimetres", "millimeters", "si"),
}


def figure(text: str | None) -> float | str | None:
    """A bare number as a number, anything else as text for the service to read: a fraction without a unit in inches."""
    if text is None or _NUMBER.fullmatch(text):
        return None if text is None else float(text)
    if _FRACTION.fullmatch(text):
        return f"{text} in"
    for unit, spelled in _SPELLED.items():
        if found := spelled.fullmatch(text):
            return f"{found[1]} {unit}"
    return text


def unit_system(word: str) -> str:
    """The unit system that a word means; any other word as it is."""
    return next((name for name, words in _SYSTEMS.items() if word.casefold() in words), word)


def given(fields: Mapping[str, Any]) -> Request:
    """The fields that have a value."""
    return {name: value for name, value in fields.items() if value is not None}


def put(request: Request, name: str, text: str) -> None:
    """Set the field with the dotted ``name`` of :data:`COLUMNS`.

    A text that names what dotted fields say more of becomes a field of that object.
    """
    value = _value(COLUMNS[name].kind, text)
    path, _, last = name.rpartition(".")
    target = request
    if path:
        target = request.setdefault(path, {})
        if not isinstance(target, dict):
            target = request[path] = {COLUMNS[path].text_of: target}
    if isinstance(target.get(last), dict):
        target[last][COLUMNS[name].text_of] = value
    else:
        target[last] = value


def _value(kind: str, text: str) -> object:
    if kind == "list":
        return [part.strip() for part in text.split(";") if part.strip()]
    if kind == "flag":
        return _FLAGS.get(text.lower(), text)
    return figure(text) if kind == "figure" else text
