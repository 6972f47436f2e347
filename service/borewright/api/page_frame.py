"""Pages for people: the frame that all have, and what a browser may do with them."""

from __future__ import annotations

from flask import Response, render_template

from .answers import document

HTML = "text/html"
KEEP_SECONDS = 300
#: A page may run and load what the service itself sends, and ask the service; nothing inline, no other host.
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data:;"
    " form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
#: The pages by their address, as each names the others.
_PAGES = (
    ("/", "One hole"),
    ("/note", "Hole note"),
    ("/part", "Part"),
    ("/rework", "Rework"),
    ("/shop-figures", "Shop figures"),
    ("/docs", "API reference"),
)


def framed(template: str, here: str, **shown: object) -> bytes:
    """A template of the folder `page` with what it shows, its own address marked among those of the others."""
    return render_template(template, pages=_PAGES, here=here, **shown).encode()


def page(content: bytes) -> Response:
    """The answer that carries a page."""
    answer = document(content, keep_seconds=KEEP_SECONDS, media_type=HTML)
    answer.headers["Content-Security-Policy"] = _POLICY
    return answer
