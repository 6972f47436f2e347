"""Pages for people that ask the service: one hole, a hole note, a part and more, and the files they are made of."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from flask import Blueprint, Response, request

from borewright.api.answers import document, only, own_query
from borewright.api.page_frame import HTML, KEEP_SECONDS, framed, page
from borewright.api.problems import Refusal
from borewright.contract.requests.queries import no_query
from borewright.contract.writers import link_code

blueprint = Blueprint("pages", __name__, template_folder="../page")

_TYPES = {".css": "text/css", ".js": "text/javascript"}


@blueprint.get("/")
@only(HTML)
@own_query
def hole() -> Response:
    """The page of one hole."""
    return _page("index.html")


@blueprint.get("/note")
@only(HTML)
def note() -> Response:
    """The page of hole notes, with the rules by which they are read."""
    return page(_note(request.path))


@blueprint.get("/part")
@only(HTML)
def part() -> Response:
    """The page of a part."""
    return _page("part.html")


@blueprint.get("/rework")
@only(HTML)
def rework() -> Response:
    """The page of holes that went wrong."""
    return _page("rework.html")


@blueprint.get("/shop-figures")
@only(HTML)
def shop_figures() -> Response:
    """The page of what a shop measured."""
    return _page("shop-figures.html")


@blueprint.get("/embed.js")
@only("text/javascript")
def embedded() -> Response:
    """The element by which pages of other software show a hole; what it may ask is said by BOREWRIGHT_CORS_ORIGINS."""
    answer = document(_files()["embed.js"], keep_seconds=KEEP_SECONDS, media_type="text/javascript")
    answer.headers["Cross-Origin-Resource-Policy"] = "cross-origin"
    return answer


@blueprint.get("/page/<name>")
@only(*_TYPES.values())
def piece(name: str) -> Response:
    """A style sheet or a script of the pages."""
    content = _files().get(name)
    media_type = _TYPES.get(name[name.rfind(".") :])
    if media_type is None or content is None:
        raise Refusal("route_unknown", "The pages have no file of this name.")
    return document(content, keep_seconds=KEEP_SECONDS, media_type=media_type)


@blueprint.get("/link.svg")
@only(link_code.MEDIA_TYPE)
@own_query
def link() -> Response:
    """The QR code of a link to this service, for the printed sheet."""
    no_query((name, value) for name, value in request.args.items(multi=True) if name != "address")
    address = request.args.get("address", "")
    if not address.startswith((f"http://{request.host}/", f"https://{request.host}/")):
        raise Refusal("route_unknown", "A code is made of an address of this service.")
    if len(address) > link_code.LONGEST_LINK:
        raise Refusal(
            "address_too_long", f"A code is made of an address of at most {link_code.LONGEST_LINK} characters."
        )
    return document(link_code.link_code(address), keep_seconds=KEEP_SECONDS, media_type=link_code.MEDIA_TYPE)


def _page(name: str) -> Response:
    return page(_made(name, request.path))


@cache
def _note(here: str) -> bytes:
    from borewright.core.notes import grammar  # whoever opens no page of notes does without

    return framed("note.html", here, rules=grammar().rules)


@cache
def _made(name: str, here: str) -> bytes:
    return framed(name, here)


@cache
def _files() -> dict[str, bytes]:
    folder = files("borewright.api") / "page"
    return {one.name: one.read_bytes() for one in folder.iterdir() if one.is_file()}
