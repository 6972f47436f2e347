"""Fields of a request from texts, as a cell of CSV or an option of a command gives them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from .columns import COLUMNS, Column

Request = dict[str, Any]
_NUMBER = re.compile(r"-?(?:[0-9]{1,15}(?:\.[0-9]{0,18})?|\.[0-9]{1,18})")
_TRUE = frozenset({"true", "yes", "y", "x", "1", "wahr", "ja", "vrai", "oui", "✓", "✔"})
_FALSE = frozenset({"false", "no", "n", "0", "falsch", "nein", "faux", "non", "-"})
_OTHER_WORDS = {"thru": "through", "in": "inch", "inches": "inch", "mm": "metric", "din_76": "din_76_1"}
_LIST_ENDS = re.compile(r"[;|]")

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
    value = _value(COLUMNS[name], text)
    *path, last = name.split(".")
    target = request
    for depth, part in enumerate(path, 1):
        held = target.setdefault(part, {})
        if not isinstance(held, dict):
            held = target[part] = {COLUMNS[".".join(path[:depth])].text_of: held}
        target = held
    if isinstance(target.get(last), dict):
        target[last][COLUMNS[name].text_of] = value
    else:
        target[last] = value


def _value(column: Column, text: str) -> object:
    if column.kind == "list":
        return [_word(column.words, part.strip()) for part in _LIST_ENDS.split(text) if part.strip()]
    if column.kind == "flag":
        word = text.casefold()
        return word in _TRUE if word in _TRUE or word in _FALSE else text
    return figure(text) if column.kind == "figure" else _word(column.words, text)


def _word(words: Sequence[str], text: str) -> str:
    """A word of a list in any case and spelling, as the list spells it."""
    plain = re.sub(r"[\s_-]+", "_", text.casefold())
    plain = _OTHER_WORDS.get(plain, plain)
    return plain if plain in words else text
