r"""Codes that drawing programs and web pages leave in exported text (``%%c``, ``\P``, ``{\fGDT;n}``, ``&#8960;``)."""

from __future__ import annotations

import html
import re

#: One code. Every part is bounded, so that no text is searched twice.
CODE = re.compile(
    r"%%(?P<letter>[cdpuoCDPUO%])"
    r"|\\U\+(?P<point>[0-9A-Fa-f]{4})"
    r"|\\[fF](?P<font>[^;\\{}\n]{0,60});(?P<symbol>[nvwxNVWX](?=\}))?"
    r"|\\[HWCATQp][^;\\{}\n]{0,30};"
    r"|\\S(?P<stack>[^;\\{}\n]{1,40});"
    r"|\\(?P<single>[PLlOoKk~])"
    r"|(?P<brace>[{}])"
    r"|<(?P<tag>br|/?(?:p|div|span|b|i|u|sub|sup)) ?/?>"
    r"|&(?P<entity>#[0-9]{2,6}|#x[0-9A-Fa-f]{2,5}|Oslash|oslash|deg|plusmn|times);"
)
_LETTERS = {"C": "Ø", "D": "°", "P": "±", "U": "", "O": "", "%": "%"}
#: Letters of a symbol font; only the first was seen in a document, the others are from memory.
_SYMBOLS = {"N": "Ø", "V": "⌴", "W": "⌵", "X": "↧"}
_SINGLE = {"P": "\n", "~": " "}
#: Marks of web pages that begin a line.
_NEW_LINE = frozenset({"br", "p", "/p", "div", "/div"})


def resolve(code: re.Match[str]) -> str:
    """What a code stands for; empty for one that only says how its text looks.

    Source: public documentation of text codes in drawing exchange files; letters v, w, x of symbol fonts from memory.
    """
    if code["letter"]:
        return _LETTERS[code["letter"].upper()]
    if code["point"]:
        return _character(int(code["point"], 16))
    if code["stack"]:
        return f" {code['stack'].replace('#', '/')} "
    if code["single"]:
        return _SINGLE.get(code["single"], "")
    if code["tag"]:
        return "\n" if code["tag"] in _NEW_LINE else ""
    if code["entity"]:
        return html.unescape(code[0])
    return _SYMBOLS.get((code["symbol"] or "").upper(), "")


def _character(point: int) -> str:
    """The character of a code point; a control character stands for nothing."""
    return "" if point < 0x20 or 0xD800 <= point <= 0xDFFF else chr(point)
