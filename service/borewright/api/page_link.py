"""The link that opens a hole on the page, from the request that was sent for it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Any
from urllib.parse import urlencode

from borewright.contract.writers.link_code import LONGEST_LINK

#: What no field of the page holds and what changes nothing of the hole.
_ASIDE = ("/explain", "/detail", "/hole/type")
_FIELD = re.compile(r'<(?:input|select) id="([^"]+)"[^>]*? data-pointer="([^"]+)"')


def link(origin: str, body: Mapping[str, Any]) -> str | None:
    """The address, or None where the page has no field for something in the request, or the link would be too long."""
    given = dict(_values(body, ""))
    names = _fields()
    asked = {pointer: value for pointer, value in given.items() if pointer not in _ASIDE and value is not None}
    if not asked.keys() <= names.keys():
        return None
    query = {"thread": asked.pop("/thread"), "type": given["/hole/type"]}
    query |= {names[pointer]: str(value) for pointer, value in asked.items()}
    made = f"{origin}/?{urlencode(query, safe='/,')}"
    return made if len(made) <= LONGEST_LINK else None


def _values(given: Any, pointer: str) -> Iterator[tuple[str, object]]:
    """Each value with its JSON pointer; a list of texts as the page writes it."""
    if isinstance(given, Mapping):
        for name, value in given.items():
            yield from _values(value, f"{pointer}/{name}")
    elif isinstance(given, list) and not any("," in str(one) or isinstance(one, Mapping) for one in given):
        yield pointer, ", ".join(map(str, given))
    elif isinstance(given, list):
        yield f"{pointer}/0", given
    else:
        yield pointer, given


@cache
def _fields() -> dict[str, str]:
    """The fields of the page by what they are in a request."""
    page = (files("borewright.api") / "page" / "index.html").read_text("utf-8")
    return {pointer: name for name, pointer in _FIELD.findall(page)}
