"""The name of a specification: a hash of the canonical request and of the rules that answered it, with their tables."""

from __future__ import annotations

import hashlib
from dataclasses import fields
from decimal import Decimal
from operator import attrgetter

import orjson

from borewright.core.model import Unit
from borewright.core.plan import rules_version
from borewright.core.requests import HoleSpecRequest

_REST = attrgetter(*(field.name for field in fields(HoleSpecRequest) if field.name not in {"thread", "id"}))


def spec_id(request: HoleSpecRequest, unit: Unit) -> str:
    """Name of the specification that answers ``request`` in ``unit``.

    The canonical request is the callout as it was read, every length in the unit of its standard and every default
    filled in, without the caller's own ``id``: however a request is spelled, the same hole has the same name.
    """
    canonical = (request.thread, *_REST(request), unit, rules_version.version())
    return hashlib.sha256(orjson.dumps(canonical, default=_exact)).hexdigest()[:32]


def _exact(value: object) -> str:
    if isinstance(value, Decimal):
        return format(value.normalize(), "f")
    raise TypeError(f"no canonical form of {type(value).__name__}")
