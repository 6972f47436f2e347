"""Catalogues: what the tables hold; and the versions that say which tables answered."""

from __future__ import annotations

from flask import Blueprint, Response, request

from borewright import __version__, tables
from borewright.api.answers import document, own_query, paged
from borewright.api.problems import Refusal
from borewright.contract.requests import queries
from borewright.core.errors import nearest

blueprint = Blueprint("catalogues", __name__, url_prefix="/v1")


@blueprint.get("/catalog/<name>")
@own_query
def show(name: str) -> Response:
    """One catalogue, whole or a page of it."""
    from borewright.contract.catalogues import CATALOGUES, catalogue  # the first hole does without

    if name not in CATALOGUES:
        raise Refusal(
            "catalogue_unknown",
            "No catalogue has this name.",
            allowed=CATALOGUES,
            did_you_mean=nearest(name, CATALOGUES),
        )
    return paged(catalogue(name, queries.rows_wanted(request.args.items(multi=True))))


@blueprint.get("/version")
def version() -> Response:
    """Versions of the service, of the contract and of the tables."""
    return document({"version": __version__, "api": "v1", "tables_version": tables.version()}, keep_seconds=60)
