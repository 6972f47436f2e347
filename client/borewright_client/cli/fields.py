"""Fields of a request from texts, as a cell of CSV or an option of a command gives them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from .columns import COLUMNS

Request = dict[str, Any]
_NUMBER = re.compile(r"-?(?:[0-9]{1,15}(?:\.[0-9]{0,18})?|\.[0-9]{1,18})")
_FLAGS = {"true": True, "false": False}


def figure(text: str | None) -> float | str | None:
    """A bare number as a number, anything else as text for the service to read."""
    return float(text) if text is not None and _NUMBER.fullmatch(text) else text


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
