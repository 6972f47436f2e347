"""What every view stands behind: the route of its request is noted, and that its answer can be had as asked for."""

from __future__ import annotations

from flask import Flask, request

from borewright.api.answers import offered, takes_query, wanted
from borewright.api.door import exchange
from borewright.api.problems import Refusal
from borewright.contract.requests.queries import no_query


def install(app: Flask) -> None:
    """Look at every request that reaches ``app``."""
    app.before_request(_arrive)


def _arrive() -> None:
    exchange.of(request.environ).route = request.url_rule.rule if request.url_rule is not None else exchange.UNKNOWN
    if wanted() is None:
        raise Refusal("media_type_not_acceptable", f"Answers are made as {', '.join(offered())}.", allowed=offered())
    reads = request.url_rule is not None and request.method in ("GET", "HEAD")
    if reads and request.query_string and not takes_query():
        no_query(request.args.items(multi=True))
