"""The published documents as bytes: what the service serves and what `publish` writes."""

from __future__ import annotations

import orjson

from borewright.core.caches import read_once

from . import openapi


@read_once
def openapi_json() -> bytes:
    """openapi/openapi.json."""
    return _bytes(openapi.document())


@read_once
def schemas_json() -> dict[str, bytes]:
    """schemas/<name>.schema.json by name."""
    return {name: _bytes(schema) for name, schema in openapi.schemas().items()}


def _bytes(document: object) -> bytes:
    return orjson.dumps(document, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)
