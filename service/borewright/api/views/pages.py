"""Pages for people: one hole, a hole note, a part, the API reference, and the files they are made of."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from flask import Blueprint, Response, render_template, request

from borewright.api.answers import document, only
from borewright.api.problems import Refusal
from borewright.contract.writers import link_code

blueprint = Blueprint("pages", __name__, template_folder="../page")

#: A page may run and load what the service itself sends, and ask the service; nothing inline, no other host.
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self' data:;"
    " form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HTML = "text/html"
#: The pages by their address, as each names the others.
_PAGES = (
    ("/", "One hole"),
    ("/note", "Hole note"),
    ("/part", "Part"),
    ("/rework", "Rework"),
    ("/shop-figures", "Shop figures"),
    ("/docs", "API reference"),
)
_TYPES = {".css": "text/css", ".js": "text/javascript"}
_KEEP_SECONDS = 300
#: The viewer of the API reference comes with its package.
_VIEWER = "flask_swagger_ui"
_OF_VIEWER = ("swagger-ui.css", "swagger-ui-bundle.js")


@blueprint.get("/")
@only(_HTML)
def hole() -> Response:
    """The page of one hole."""
    return _page("index.html")


@blueprint.get("/note")
@only(_HTML)
def note() -> Response:
    """The page of hole notes."""
    return _page("note.html")


@blueprint.get("/part")
@only(_HTML)
def part() -> Response:
    """The page of a part."""
    return _page("part.html")


@blueprint.get("/rework")
@only(_HTML)
def rework() -> Response:
    """The page of holes that went wrong."""
    return _page("rework.html")


@blueprint.get("/shop-figures")
@only(_HTML)
def shop_figures() -> Response:
    """The page of what a shop measured."""
    return _page("shop-figures.html")


@blueprint.get("/docs")
@only(_HTML)
def reference() -> Response:
    """The API reference, made from the OpenAPI document."""
    return _page("docs.html")


@blueprint.get("/embed.js")
@only("text/javascript")
def embedded() -> Response:
    """The element by which pages of other software show a hole; what it may ask is said by BOREWRIGHT_CORS_ORIGINS."""
    answer = document(_files()["embed.js"], keep_seconds=_KEEP_SECONDS, media_type="text/javascript")
    answer.headers["Cross-Origin-Resource-Policy"] = "cross-origin"
    return answer


@blueprint.get("/page/<name>")
@only(*_TYPES.values())
def piece(name: str) -> Response:
    """A style sheet or a script of the pages."""
    content = _viewer(name) if name in _OF_VIEWER else _files().get(name)
    media_type = _TYPES.get(name[name.rfind(".") :])
    if media_type is None or content is None:
        raise Refusal("route_unknown", "The pages have no file of this name.")
    return document(content, keep_seconds=_KEEP_SECONDS, media_type=media_type)


@blueprint.get("/link.svg")
@only(link_code.MEDIA_TYPE)
def link() -> Response:
    """The QR code of a link to this service, for the printed sheet."""
    address = request.args.get("address", "")
    if not address.startswith((f"http://{request.host}/", f"https://{request.host}/")):
        raise Refusal("route_unknown", "A code is made of an address of this service.")
    if len(address) > link_code.LONGEST_LINK:
        raise Refusal(
            "address_too_long", f"A code is made of an address of at most {link_code.LONGEST_LINK} characters."
        )
    return document(link_code.link_code(address), keep_seconds=_KEEP_SECONDS, media_type=link_code.MEDIA_TYPE)


def _page(name: str) -> Response:
    answer = document(_made(name, request.path), keep_seconds=_KEEP_SECONDS, media_type=_HTML)
    answer.headers["Content-Security-Policy"] = _POLICY
    return answer


@cache
def _made(name: str, here: str) -> bytes:
    """A page in the frame that all have, with its own address marked among those of the others."""
    return render_template(name, pages=_PAGES, here=here).encode()


@cache
def _files() -> dict[str, bytes]:
    folder = files("borewright.api") / "page"
    return {one.name: one.read_bytes() for one in folder.iterdir() if one.is_file()}


def _viewer(name: str) -> bytes:
    """A file of the viewer: read when it is asked for, because it is large and few ask."""
    return (files(_VIEWER) / "dist" / name).read_bytes()
