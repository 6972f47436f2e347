"""Text for a terminal: what would steer it is shown instead, as it would be written in JSON."""

from __future__ import annotations

from typing import Any

#: Control characters but the end of a line, and those that turn the direction of writing.
_CONTROLS = (*range(0x0A), *range(0x0B, 0x20), *range(0x7F, 0xA0))
_TURNS = (0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A))
_SHOWN = {code: f"\\u{code:04x}" for code in (*_CONTROLS, *_TURNS)}


def printable(text: str) -> str:
    """A text without them."""
    return text.translate(_SHOWN)


def all_printable(value: Any) -> Any:
    """A reply all of whose texts are without them."""
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, list):
        return [all_printable(part) for part in value]
    if isinstance(value, dict):
        return {name: all_printable(part) for name, part in value.items()}
    return value
