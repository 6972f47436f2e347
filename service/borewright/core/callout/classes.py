"""Thread classes as written: ``2B``, ``2A/2B``, ``6H``, ``4H5H``, ``6H/6g``, before or after the size."""

from __future__ import annotations

import re

from .text import cut

_ONE = r"[0-9]{1,2}[A-Za-z]{1,2}(?:[0-9]{1,2}[A-Za-z]{1,2})?"
_CLASS = re.compile(rf"(?<![0-9A-Za-z.,/])({_ONE})(?:/({_ONE}))?(?![0-9A-Za-z./])")
_WHOLE = re.compile(rf"({_ONE})(?: ?/ ?({_ONE}))?")


def take_class(text: str) -> tuple[str, str | None]:
    """The ``text`` of a callout without its class, and the class (a pair joined by ``/``), None if there is none."""
    found = _CLASS.search(text)
    if found is None:
        return text, None
    return cut(text, found.start(), found.end()), "/".join(filter(None, found.groups()))


def members(written: str) -> tuple[str, ...]:
    """The one or two classes of what was written; empty when it has not the form of a class."""
    found = _WHOLE.fullmatch(written.strip())
    return tuple(part for part in found.groups() if part) if found else ()
