"""Catalogues: what the tables hold; and the versions that say which tables answered."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright import __version__, tables
from borewright.api.answers import document
from borewright.api.problems import Refusal
from borewright.core.errors import nearest

blueprint = Blueprint("catalogues", __name__, url_prefix="/v1")


@blueprint.get("/catalog/<name>")
def show(name: str) -> Response:
    """One catalogue, whole."""
    from borewright.contract.catalogues import CATALOGUES, catalogue  # the first hole does without

    if name not in CATALOGUES:
        raise Refusal(
            "catalogue_unknown",
            "No catalogue has this name.",
            allowed=CATALOGUES,
            did_you_mean=nearest(name, CATALOGUES),
        )
    return document(catalogue(name))


@blueprint.get("/version")
def version() -> Response:
    """Versions of the service, of the contract and of the tables."""
    return document({"version": __version__, "api": "v1", "tables_version": tables.version()}, keep_seconds=60)
